"""No public note gives a place away: neither typed, nor taken in from a file, nor sent by a program."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.taxa import actions
from hub.taxa.actions import NeedGiven
from hub.taxa.untold import Untold, pairs, runs_of, words_of
from hub.taxa.wanted_file import read_wanted
from hub.taxa.wanted_planning import planned
from hub.words import Refused
from tests.sites.scene import a_site
from tests.taxa.garden import ARNICA, plant

LOCALITY = "Park at the lime kiln and follow the wall uphill."


@pytest.mark.parametrize(
    ("about", "note", "refused"),
    [
        ("Skarrow Quarry Road", "Quarry road: all that can be saved", True),
        ("Skarrow Quarry Road", "Where a road is built", False),
        ("Willowdyke", "Only at willowdyke, please", True),
        ("Skárrow Pavement", "SKARROW PAVEMENT", True),
        (LOCALITY, "Meet at the lime-kiln", True),
        (LOCALITY, "Follow the advice on the sheet, and park well", False),
        ("Red", "Red flowers only", False),
        ("", "Anything", False),
    ],
)
def test_telling_words_side_by_side_are_found(about, note, refused):
    assert bool(Untold(frozenset(runs_of(about))).trouble(note)) == refused


@given(st.text(max_size=80), st.text(max_size=40), st.text(max_size=40))
def test_a_name_of_two_long_words_is_found_wherever_it_stands(name, before, after):
    untold = Untold(frozenset(runs_of(name)))
    assert bool(untold.trouble(f"{before} {name} {after}")) or not pairs(words_of(name))


def want(cast, taxon, note):
    with cast.work("cora") as work:
        return actions.want(
            work, season_id=cast.season.id, taxon_id=taxon.id, needs=[NeedGiven(1)], note=note
        )


def test_a_note_that_names_a_site_is_refused_beside_it(cast):
    (taxon,) = plant(cast, ARNICA)
    with cast.work("cora") as work:
        a_site(work, cast, name="Skarrow Quarry Road", locality=LOCALITY)
    for note in ("Quarry Road first", "Wait at the lime kiln"):
        with pytest.raises(Refused) as refused:
            want(cast, taxon, note)
        assert refused.value.field == "note"
    assert want(cast, taxon, "Where a road will be built").note


def test_another_bank_may_use_the_same_words(cast):
    (taxon,) = plant(cast, ARNICA)
    with cast.work("dora") as work:
        a_site(work, cast, name="Skarrow Quarry Road")
    assert want(cast, taxon, "Quarry road first").note


def test_a_file_is_refused_by_row_and_column(cast):
    plant(cast, ARNICA)
    with cast.work("cora") as work:
        a_site(work, cast, name="Skarrow Quarry Road")
        file = read_wanted(b"scientific_name,populations,note\nArnica montana,1,On the quarry road\n")
        (problem,) = planned(work, cast.season, file.rows).problems
        assert (problem.row, str(problem.column.text)) == (2, "note")
        assert "quarry road" in problem.words.values["words"]
        with pytest.raises(Refused):
            actions.import_wanted(work, season_id=cast.season.id, rows=file.rows)


def test_the_page_says_so_and_keeps_what_was_typed(browse, cast):
    plant(cast, ARNICA)
    with cast.work("cora") as work:
        a_site(work, cast, name="Skarrow Quarry Road")
    page = browse("cora").fill(
        f"/seasons/{cast.season.id}/wanted/add",
        422,
        species=ARNICA,
        note="By the quarry road",
        **{"needs-0-populations": "1"},
    )
    assert "part of the name of one of your sites" in page.beside("note")
    assert "By the quarry road" in page.html
