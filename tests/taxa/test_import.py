"""Taking in a list: all of it or nothing, exactly what was planned, and back again."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hub.audit.queries import history_of
from hub.taxa import actions, queries
from hub.taxa.actions import NeedGiven
from hub.taxa.wanted_file import WantedRow, read_wanted, write_rows
from hub.taxa.wanted_plan import Kind
from hub.taxa.wanted_planning import listed_rows, planned
from hub.words import NotFound, Refused
from tests.taxa.garden import ARNICA, CAMPION, NAMES, WILLOW, list_of, plant

ONE_HOUSE = settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=25
)


def rows(*told):
    return [WantedRow(at, *row) for at, row in enumerate(told, start=2)]


def take_in(cast, *told, by="cora", **options):
    with cast.work(by) as work:
        return actions.import_wanted(work, season_id=cast.season.id, rows=rows(*told), **options).counts


def listed(cast):
    with cast.work("cora") as work:
        return write_rows(listed_rows(work, cast.season))


def problems(cast, *told):
    with cast.work("cora") as work:
        return [
            (problem.row, str(problem.column), str(problem.words))
            for problem in planned(work, cast.season, rows(*told)).problems
        ]


def test_a_list_adds_changes_and_leaves_alone(cast):
    list_of(cast, ARNICA, CAMPION)
    plant(cast, WILLOW)
    counts = take_in(
        cast,
        ("arnica montana", 3, "t.1", "NORTH", 1, "Meadows only"),
        ("Silene acaulis", 2),
        ("Salix x capreola", 1, "Meadows", "", None, ""),
        ("Salix x capreola", 2, "", "northern part", 3, "Wet feet"),
    )
    assert counts == {"added": 1, "changed": 1, "taken_off": 0, "unchanged": 1}
    lines = listed(cast).decode("utf-8-sig").split("\r\n")[1:-1]
    assert lines == [
        "Arnica montana L.,3,T.1,north,1,Meadows only",
        "Salix ×capreola J.Kern. ex Andersson,2,,north,3,Wet feet",
        "Salix ×capreola J.Kern. ex Andersson,1,T.1,,3,Wet feet",
        "Silene acaulis (L.) Jacq.,2,,,2,",
    ]


def test_a_whole_list_takes_the_others_off(cast):
    list_of(cast, ARNICA, CAMPION)
    assert take_in(cast, (ARNICA, 2), whole=True) == {
        "added": 0, "changed": 0, "taken_off": 1, "unchanged": 1,
    }  # fmt: skip
    assert CAMPION not in listed(cast).decode()


@pytest.mark.parametrize(
    ("told", "column", "says"),
    [
        (("Arnika montana", 1), "scientific name", "Was Arnica montana L. meant?"),
        (("Quercus robur", 1), "scientific name", "Add it first"),
        (("=SUM(A1)", 1), "scientific name", "all in capitals"),
        ((ARNICA, 1, "T.9"), "ecoregion", "“T.9” is no ecoregion"),
        ((ARNICA, 1, "", "T.1"), "district", "“T.1” is no district"),
        (("arnica montana", 9), "scientific name", "Row 2 names this species"),
        ((ARNICA, 1, "T.1", "", 3), "priority", "priority 1"),
    ],
)
def test_what_does_not_fit_is_named_and_nothing_is_taken_in(cast, told, column, says):
    plant(cast)
    good = ((ARNICA, 1, "", "", 1, ""), (CAMPION, 1))
    ((row, where, words),) = problems(cast, *good, told)
    assert (row, where) == (4, column)
    assert says in words
    before = listed(cast)
    with pytest.raises(Refused, match="Row 4"):
        take_in(cast, *good, told)
    assert listed(cast) == before


def test_a_species_that_is_not_native_is_remarked_upon(cast):
    plant(cast, ARNICA, native=False)
    with cast.work("cora") as work:
        plan = planned(work, cast.season, rows((ARNICA, 1)))
    assert plan.problems == []
    assert "not native" in str(plan.remarks[0].sentence)


def test_the_list_before_is_kept_and_brings_it_back(cast):
    list_of(cast, ARNICA, needs=[NeedGiven(2, cast.meadows.id), NeedGiven(1, None, cast.north.id)])
    plant(cast, CAMPION)
    before = listed(cast)
    take_in(cast, (CAMPION, 5), whole=True)
    with cast.work("cora") as work:
        key = queries.list_before_import(work, cast.season.id)
        kept = work.files.read(key)
        actions.import_wanted(work, season_id=cast.season.id, rows=read_wanted(kept).rows, whole=True)
        events = history_of(work, thing_kind="season", thing_id=str(cast.season.id))
    assert kept == before == listed(cast)
    assert [entry.event for entry in events] == ["wanted:imported", "wanted:imported"]
    assert events[0].after == {"added": 1, "changed": 0, "taken_off": 1, "unchanged": 0}


def test_a_season_without_imports_has_none_to_take_back(cast):
    with cast.work("cora") as work:
        assert queries.list_before_import(work, cast.season.id) is None


@pytest.mark.parametrize("by", ["dora", "alice", "olga"])
def test_only_its_own_bank_takes_in_a_list(cast, by):
    plant(cast, ARNICA)
    with pytest.raises(NotFound):
        take_in(cast, (ARNICA, 1), by=by)


NOTES = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), max_size=20).map(str.strip)
PLACES = st.tuples(st.sampled_from(["", "T.1"]), st.sampled_from(["", "north", "south"]))
LINE = st.tuples(
    st.integers(1, 3), NOTES, st.dictionaries(PLACES, st.integers(1, 99), min_size=1, max_size=4)
)


@pytest.fixture
def garden(cast):
    plant(cast)
    return cast


@ONE_HOUSE
@given(lines=st.dictionaries(st.sampled_from(NAMES), LINE))
def test_export_then_import_changes_nothing(garden, lines):
    told = [
        (name, populations, *place, priority, note)
        for name, (priority, note, needs) in lines.items()
        for place, populations in needs.items()
    ]
    take_in(garden, *told, whole=True)
    again = read_wanted(listed(garden))
    assert again.problems == []
    with garden.work("cora") as work:
        plan = planned(work, garden.season, again.rows, whole=True)
        assert (plan.problems, plan.real_changes) == ([], [])
        assert len(plan.of(Kind.UNCHANGED)) == len(lines)


WRONG = st.tuples(
    st.sampled_from([*NAMES, "Silene", "×", "", "Salix aurita × caprea"]) | st.text(max_size=10),
    st.integers(1, 99),
    st.sampled_from(["", "T.1", "T.7", "x"]),
    st.sampled_from(["", "north", "Nowhere"]),
    st.sampled_from([None, 1, 2, 3]),
)


@ONE_HOUSE
@given(told=st.lists(WRONG, min_size=1, max_size=6))
def test_a_list_is_taken_in_whole_or_not_at_all(garden, told):
    before = listed(garden)
    try:
        take_in(garden, *told, whole=True)
    except Refused:
        assert listed(garden) == before
    else:
        assert listed(garden).count(b"\r\n") == len(told) + 1
