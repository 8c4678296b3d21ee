"""The board of a year: what the database reckons is what the rules say, for any list and any counts."""

from __future__ import annotations

from collections import Counter
from typing import Any
from uuid import UUID

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import delete

from hub.adoptions.models import StageCount
from hub.adoptions.rules import Stage
from hub.progress.queries import Board, RegionYear, by_district, cells, year_of
from hub.progress.rules import missing
from hub.taxa.models import Need, Wanted
from hub.taxa.rules import CareClass
from tests.cast import Cast
from tests.progress.board import count, plant, want


def year(cast: Cast) -> RegionYear:
    with cast.work("olga") as work:
        found = year_of(work, cast.region)
    assert found
    return found


def lines(cast: Cast, district: UUID | None = None, **conditions: Any) -> dict[str, Any]:
    board = Board.of(year(cast), district)
    with cast.work("olga") as work:
        return {row.Taxon.canonical: row for row in work.db.execute(board.lines(**conditions))}


def test_both_banks_of_a_region_count_together(cast: Cast) -> None:
    taxon = plant(cast, "Silene acaulis")
    want(cast, taxon, (2, cast.north.id))
    want(cast, taxon, (1, None), far=True)
    count(cast, taxon, cast.north.id, Stage.ADOPTED, 1)
    count(cast, taxon, cast.north.id, Stage.BANKED, 1, far=True)
    row = lines(cast)["Silene acaulis"]
    assert (row.needed, row.missing, row.adoptions, row.adopted, row.banked) == (3, 1, 2, 1, 1)


def test_what_left_the_list_still_counts(cast: Cast) -> None:
    taxon = plant(cast, "Silene acaulis")
    count(cast, taxon, cast.north.id, Stage.READY, 2)
    row = lines(cast)["Silene acaulis"]
    assert (row.needed, row.missing, row.ready) == (0, 0, 2)


def test_each_condition_narrows_it(cast: Cast) -> None:
    first, second = plant(cast, "Silene acaulis", care_class=CareClass.RARE), plant(cast, "Ulmus glabra")
    want(cast, first, (1, cast.north.id))
    want(cast, second, (1, cast.south.id))
    count(cast, second, cast.south.id, Stage.BANKED, 1)
    assert set(lines(cast)) == {"Silene acaulis", "Ulmus glabra"}
    assert set(lines(cast, search="ulm")) == {"Ulmus glabra"}
    assert set(lines(cast, care=CareClass.RARE)) == {"Silene acaulis"}
    assert set(lines(cast, stage=Stage.BANKED)) == {"Ulmus glabra"}
    assert set(lines(cast, gaps=True)) == {"Silene acaulis"}
    assert set(lines(cast, cast.north.id)) == {"Silene acaulis"}


NEEDS = st.dictionaries(st.sampled_from(["north", "south", ""]), st.integers(1, 4), max_size=3)
COUNTS = st.dictionaries(
    st.tuples(st.sampled_from(["north", "south"]), st.sampled_from(Stage)), st.integers(0, 3), max_size=6
)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(needs=NEEDS, counts=COUNTS)
def test_the_database_reckons_as_the_rules_do(cast: Cast, needs: dict, counts: dict) -> None:
    taxon = getattr(cast, "taxon", None) or plant(cast, "Silene acaulis")
    cast.taxon = taxon  # type: ignore[attr-defined]  one species for all the examples of one database
    with cast.everywhere() as work:
        for table in (Need, Wanted, StageCount):
            work.db.execute(delete(table))
    places = {"north": cast.north.id, "south": cast.south.id, "": None}
    want(cast, taxon, *((number, places[name]) for name, number in needs.items()))
    held: Counter[str] = Counter()
    for (name, stage), number in counts.items():
        count(cast, taxon, places[name], stage, number)
        held[name] += number
    wanted = {name or None: number for name, number in needs.items()} or {None: 1}
    short = missing(wanted, held)
    row = lines(cast)["Silene acaulis"]
    assert (row.needed, row.missing) == (sum(wanted.values()), sum(short.values()))
    assert row.adoptions == sum(counts.values())
    now = year(cast)
    with cast.work("olga") as work:
        assert cells(work, now, [taxon])[taxon].missing == {
            places[name or ""]: number for name, number in short.items()
        }
        drawn = by_district(work, now)
    assert {key: sum(stages.values()) for key, stages in drawn.items()} == {
        cast.north.id: held["north"], cast.south.id: held["south"],
    }  # fmt: skip
    part = lines(cast, cast.north.id).get("Silene acaulis")
    here = short.get("north", 0) + short.get(None, 0)
    assert (part.missing if part else 0) == here
