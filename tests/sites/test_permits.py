"""Permits: recorded by the bank, seen by those who collect under them, in force on their days."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from hub.sites import actions, queries
from hub.sites.models import Permit
from hub.sites.rules import Paper
from hub.taxa.models import Standing, StandingKind
from hub.words import NotFound, Refused
from tests.cast import Cast
from tests.sites.scene import TODAY, opened

USUAL: dict[str, Any] = {
    "authority": "Plant Office",
    "number": "PO/2031/7",
    "starts_on": date(2031, 6, 1),
    "ends_on": date(2031, 9, 30),
    "cap_seeds": 400,
}


def permit(cast: Cast, **more: Any) -> Permit:
    with cast.work("cora") as work:
        return actions.record_permit(work, **USUAL | more)


def seen(cast: Cast, name: str, taxon_id: Any, site_id: Any, day: date = TODAY) -> list[str]:
    with cast.work(name) as work:
        return [each.number for each in queries.permits_on(work, taxon_id=taxon_id, site_id=site_id, day=day)]


def test_a_permit_for_a_taxon_holds_at_every_site_of_the_bank(cast: Cast) -> None:
    site, population = opened(cast)
    permit(cast, taxon_id=population.taxon_id)
    for name, numbers in (("alice", ["PO/2031/7"]), ("cora", ["PO/2031/7"]), ("eve", []), ("dora", [])):
        assert seen(cast, name, population.taxon_id, site.id) == numbers


def test_a_permit_for_a_site_is_seen_by_those_let_in(cast: Cast) -> None:
    site, population = opened(cast)
    permit(cast, site_id=site.id)
    assert seen(cast, "alice", population.taxon_id, site.id) == ["PO/2031/7"]
    assert seen(cast, "charlie", population.taxon_id, site.id) == []


@pytest.mark.parametrize(
    ("day", "holds"),
    [
        (date(2031, 5, 31), False),
        (date(2031, 6, 1), True),
        (date(2031, 9, 30), True),
        (date(2031, 10, 1), False),
    ],
)
def test_it_holds_on_its_days(cast: Cast, day: date, holds: bool) -> None:
    site, population = opened(cast)
    permit(cast, taxon_id=population.taxon_id)
    assert bool(seen(cast, "alice", population.taxon_id, site.id, day)) is holds


def test_one_that_was_taken_back_keeps_its_earlier_days(cast: Cast) -> None:
    site, population = opened(cast)
    recorded = permit(cast, taxon_id=population.taxon_id)
    with cast.work("cora") as work:
        actions.end_permit(work, permit_id=recorded.id, on=date(2031, 7, 10), reason="A fire.")
        with pytest.raises(Refused, match="already"):
            actions.end_permit(work, permit_id=recorded.id, on=TODAY, reason="again")
    assert seen(cast, "alice", population.taxon_id, site.id, date(2031, 7, 9))
    assert not seen(cast, "alice", population.taxon_id, site.id, date(2031, 7, 10))


def test_another_taxons_permit_does_not_hold(cast: Cast) -> None:
    site, population = opened(cast)
    permit(cast, taxon_id=population.taxon_id)
    assert seen(cast, "cora", cast.meadows.id, site.id) == []


@pytest.mark.parametrize(
    ("more", "field"),
    [({}, "taxon_id"), ({"ends_on": date(2031, 5, 1), "site": True}, "ends_on")],
)
def test_a_permit_for_nothing_or_for_no_day_is_refused(cast: Cast, more: dict[str, Any], field: str) -> None:
    site, _ = opened(cast)
    more = {"site_id": site.id, "ends_on": more["ends_on"]} if more else {}
    with pytest.raises(Refused) as refusal:
        permit(cast, **more)
    assert refusal.value.field == field


def test_the_same_paper_is_recorded_once(cast: Cast) -> None:
    _, population = opened(cast)
    permit(cast, taxon_id=population.taxon_id)
    with pytest.raises(Refused, match="recorded already"):
        permit(cast, taxon_id=population.taxon_id)


def test_a_group_records_none(cast: Cast) -> None:
    _, population = opened(cast)
    with pytest.raises(NotFound), cast.work("alice") as work:
        actions.record_permit(work, taxon_id=population.taxon_id, **USUAL)


@pytest.mark.parametrize("ticked", [True, False])
def test_an_endangered_plant_on_protected_land_lacks_three_papers(cast: Cast, ticked: bool) -> None:
    site, population = opened(cast, protected_area=True)
    listing = Standing(
        taxon_id=population.taxon_id,
        kind=StandingKind.LISTING,
        text="endangered",
        place="Test Vale",
        authority="Plant Office",
        permit_needed=ticked,
    )
    with cast.everywhere() as work:
        work.db.add(listing)
    with cast.work("alice") as work:
        found = queries.missing_papers(work, site=site, taxon_id=population.taxon_id, day=TODAY)
        assert found == [Paper.PERMISSION, Paper.TAXON_PERMIT, Paper.AREA_PERMIT]
    permit(cast, taxon_id=population.taxon_id, site_id=site.id)
    with cast.work("alice") as work:
        found = queries.missing_papers(work, site=site, taxon_id=population.taxon_id, day=TODAY)
        assert found == [Paper.PERMISSION], "one permit that names both serves both"
