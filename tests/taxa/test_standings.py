"""Standings decide the care class; what cannot be read is refused beside its row."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.audit.queries import history_of
from hub.taxa import actions, queries
from hub.taxa.models import StandingKind
from hub.taxa.rules import CareClass, LegalList
from hub.taxa.standings import (
    StandingGiven,
    is_listed,
    needs_permit,
    read_standing,
    reading_of,
    standard_text,
)
from hub.words import NotFound, Refused
from tests.taxa.garden import ARNICA, plant

RANK, CATEGORY, LISTING = StandingKind.RANK, StandingKind.CATEGORY, StandingKind.LISTING


def row(kind=RANK, text="S2", place="Test Vale", authority="Test Survey", as_of=date(2030, 5, 1), **more):
    return StandingGiven(kind, text, place, authority, as_of, **more)


def set_rows(cast, taxon, *rows, **options):
    with cast.work("cora") as work:
        return actions.set_standings(work, taxon_id=taxon.id, standings=list(rows), **options)


def test_the_most_careful_of_all_decides(cast):
    (taxon,) = plant(cast, ARNICA)
    common, rare = row(text="g5", place="world"), row(CATEGORY, "EN B2ab(iii)", authority="Test List")
    assert set_rows(cast, taxon, common, rare).care_class is CareClass.CRITICAL
    with cast.work("cora") as work:
        assert "EN" in str(queries.care_reading(work, taxon.id).because)
        assert [each.text for each in queries.standings(work, taxon.id)] == ["EN B2ab(iii)", "G5"]


def test_taking_all_away_makes_it_unknown_again(cast):
    (taxon,) = plant(cast, ARNICA)
    set_rows(cast, taxon, row(text="S5"))
    assert set_rows(cast, taxon).care_class is CareClass.UNKNOWN


def test_a_change_is_recorded_once(cast):
    (taxon,) = plant(cast, ARNICA)
    set_rows(cast, taxon, row(), row(LISTING, "Special  Concern", permit_needed=True))
    set_rows(cast, taxon, row(LISTING, "special concern", permit_needed=True), row())
    with cast.work("cora") as work:
        *_, entry = history_of(work, thing_kind="taxon", thing_id=str(taxon.id))
        stored = queries.standings(work, taxon.id)
    assert entry.event == "taxon:standing-changed"
    assert (entry.before["care_class"], entry.after["care_class"]) == ("unknown", "rare")
    assert len(entry.after["standings"]) == 2
    assert {(each.text, each.permit_needed) for each in stored} == {("S2", False), ("special_concern", True)}


@pytest.mark.parametrize(
    ("wrong", "field", "says"),
    [
        (row(text="S6"), "text", "S needs a level"),
        (row(text=""), "text", "Write the rank"),
        (row(text="G1G4"), "text", "skip"),
        (row(CATEGORY, "LC A2c", authority="Other"), "text", "CR, EN and VU"),
        (row(LISTING, "rare"), "text", "special concern, threatened, endangered"),
        (row(LISTING, "not listed", permit_needed=True), "permit_needed", "asks for no permit"),
        (row(LISTING, "not listed", as_of=None), "as_of", "on which day"),
        (row(place=" "), "place", "fill this in"),
        (row(authority=""), "authority", "fill this in"),
        (row(as_of=date(2031, 7, 15)), "as_of", "not come yet"),
        (row(text="S3"), "text", "already"),
    ],
)
def test_a_row_that_cannot_be_is_refused_and_nothing_changes(cast, wrong, field, says):
    (taxon,) = plant(cast, ARNICA)
    set_rows(cast, taxon, row(text="S5"))
    with pytest.raises(Refused) as refused:
        set_rows(cast, taxon, row(), wrong)
    assert refused.value.field == f"standings-1-{field}"
    assert says in str(refused.value)
    with cast.work("cora") as work:
        assert queries.get(work, taxon.id).care_class is CareClass.SECURE
        assert [each.text for each in queries.standings(work, taxon.id)] == ["S5"]


def test_a_list_that_does_not_name_it_says_nothing_of_how_rare_it_is(cast):
    (taxon,) = plant(cast, ARNICA)
    assert set_rows(cast, taxon, row(LISTING, "Not listed")).care_class is CareClass.UNKNOWN
    assert set_rows(cast, taxon, row(LISTING, "not_listed"), row(text="S5")).care_class is CareClass.SECURE


@pytest.mark.parametrize(
    ("rows", "listed", "permit"),
    [
        ([], None, False),
        ([row(text="G1"), row(CATEGORY, "CR A2c")], None, False),
        ([row(LISTING, "not_listed")], False, False),
        ([row(LISTING, "special_concern")], True, True),
        ([row(LISTING, "threatened")], True, True),
        ([row(LISTING, "not_listed"), row(LISTING, "endangered", authority="Other")], True, True),
        ([row(text="S5", permit_needed=True)], None, True),
    ],
)
def test_only_who_looked_at_the_lists_knows_the_law(cast, rows, listed, permit):
    (taxon,) = plant(cast, ARNICA)
    set_rows(cast, taxon, *rows)
    with cast.work("cora") as work:
        stored = queries.standings(work, taxon.id)
    assert (is_listed(stored), needs_permit(stored)) == (listed, permit)


def test_a_stale_edit_and_an_unknown_species_are_refused(cast):
    (taxon,) = plant(cast, ARNICA)
    seen = taxon.version
    set_rows(cast, taxon, row())
    with pytest.raises(Refused, match="Somebody else"):
        set_rows(cast, taxon, row(text="S1"), version=seen)
    with pytest.raises(NotFound), cast.work("cora") as work:
        actions.set_standings(work, taxon_id=cast.season.id, standings=[])


@given(st.sampled_from(list(StandingKind)), st.text(max_size=12))
def test_any_text_is_read_or_refused_and_reads_the_same_again(kind, text):
    try:
        once = standard_text(kind, text)
    except Refused:
        return
    assert standard_text(kind, once) == once
    assert read_standing(kind, once) == read_standing(kind, once)


@given(st.lists(st.sampled_from([(RANK, "S5"), (RANK, "S3"), (CATEGORY, "VU"), (LISTING, "endangered")])))
def test_one_more_standing_never_makes_it_less_careful(said):
    order = [CareClass.SECURE, CareClass.WATCH, CareClass.RARE, CareClass.CRITICAL, CareClass.GONE]
    for kind, text in ((RANK, "S4"), (RANK, "S1"), (LISTING, LegalList.THREATENED.value)):
        before, after = reading_of(said).care, reading_of([*said, (kind, text)]).care
        if before is not CareClass.UNKNOWN:
            assert order.index(after) >= order.index(before)
