"""Papers on their days, the three parts of a salvage, and which papers a collection needs."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as some

from hub.sites.rules import (
    PERMISSION_MOVES,
    SALVAGE_MOVES,
    Paper,
    PermissionState,
    SalvageState,
    holds_on,
    may_become,
    papers_missing,
    papers_needed,
    runs_on,
    salvage_lacks,
    salvage_state,
)

# The only moves of a permission, as the plan of the house draws them.
DRAWN = {
    ("to ask", "asked"),
    ("asked", "granted"),
    ("asked", "refused"),
    ("granted", "expired"),
    ("granted", "withdrawn"),
}
DAYS = some.dates(date(2029, 1, 1), date(2032, 12, 31))


@pytest.mark.parametrize(("state", "wanted"), list(product(PermissionState, repeat=2)))
def test_a_permission_moves_only_as_drawn(state: PermissionState, wanted: PermissionState) -> None:
    assert may_become(state, wanted) is ((state, wanted) in DRAWN)


def test_every_state_has_a_row() -> None:
    assert set(PERMISSION_MOVES) == set(PermissionState)
    assert set(SALVAGE_MOVES) == set(SalvageState)


@given(DAYS, DAYS, DAYS)
def test_a_paper_runs_from_its_first_day_to_its_last(day: date, first: date, last: date) -> None:
    assert runs_on(day, first, last) is (first <= day <= last)
    assert runs_on(first, first, max(first, last))
    assert runs_on(max(first, last), first, max(first, last))


@given(DAYS, DAYS)
def test_an_open_end_never_comes(day: date, edge: date) -> None:
    assert runs_on(day, None, None)
    assert runs_on(day, None, edge) is (day <= edge)
    assert runs_on(day, edge, None) is (day >= edge)


@given(DAYS, DAYS)
def test_an_ended_paper_holds_until_the_day_before(day: date, ended: date) -> None:
    first, last = date(2028, 1, 1), date(2033, 1, 1)
    assert holds_on(day, first, last, None)
    assert holds_on(day, first, last, ended) is (day < ended)
    assert not holds_on(last + timedelta(1), first, last, None)


@pytest.mark.parametrize(
    ("evidence", "owner", "curator"), list(product([True, False], [True, False], [True, False, None]))
)
def test_a_salvage_needs_all_three(evidence: bool, owner: bool, curator: bool | None) -> None:
    state = salvage_state(evidence=evidence, owner=owner, curator=curator)
    if curator is False:
        assert state is SalvageState.REFUSED
    else:
        whole = evidence and owner and curator is True
        assert (state is SalvageState.APPROVED) is whole
        assert bool(salvage_lacks(evidence=evidence, owner=owner, curator=curator)) is not whole


def test_a_salvage_names_what_it_waits_for() -> None:
    (words,) = salvage_lacks(evidence=True, owner=False, curator=True)
    assert str(words) == "the owner’s agreement"


def test_the_owner_is_always_asked() -> None:
    needed = papers_needed(taxon_listed=False, protected_area=False, own_consent=False)
    assert needed == [Paper.PERMISSION]


@pytest.mark.parametrize(
    ("listed", "protected", "consent"), list(product([True, False], [True, False], [True, False]))
)
def test_listed_plants_and_protected_land_need_permits(listed: bool, protected: bool, consent: bool) -> None:
    needed = papers_needed(taxon_listed=listed, protected_area=protected, own_consent=consent)
    assert (Paper.TAXON_PERMIT in needed) is listed
    assert (Paper.AREA_PERMIT in needed) is protected
    assert (Paper.OWN_CONSENT in needed) is consent


def test_nothing_held_means_all_is_missing() -> None:
    missing = papers_missing(Paper, permission=False, taxon_permits=0, site_authorities=())
    assert missing == list(Paper)


def test_one_authority_does_not_speak_for_the_community() -> None:
    one = papers_missing(Paper, permission=True, taxon_permits=1, site_authorities={"Plant Office"})
    assert one == [Paper.OWN_CONSENT]
    both = papers_missing(
        Paper, permission=True, taxon_permits=1, site_authorities={"Plant Office", "Elders"}
    )
    assert both == []


def test_on_unprotected_land_the_communitys_word_is_enough() -> None:
    needed = papers_needed(taxon_listed=False, protected_area=False, own_consent=True)
    assert papers_missing(needed, permission=True, taxon_permits=0, site_authorities={"Elders"}) == []
