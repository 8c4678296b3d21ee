"""Issuing from the database: the same case gives the same sheet, a changed one takes its place."""

from __future__ import annotations

import threading

import pytest
from sqlalchemy import select, update

from hub.adoptions.actions import let_go_population, release
from hub.adoptions.models import Adoption
from hub.db.numbering import is_whole
from hub.protocols import queries
from hub.protocols.actions import issue, withdraw
from hub.protocols.casework import facts_of
from hub.protocols.models import IssuedSheet, SheetState
from hub.sites import queries as sites
from hub.sites.actions import ask_permission, retire_population
from hub.sites.models import Permission, Population
from hub.sites.rules import PermissionState, Threat
from hub.taxa.models import Taxon
from hub.words import NotFound, Refused
from tests.protocols.scene import (
    TODAY,
    as_it_stands,
    count,
    current,
    set_scene,
    surveyed_population,
)


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def issued(cast, scene, by="alice"):
    with cast.work(by) as work:
        return issue(work, adoption_id=scene.adoption_id, population_id=scene.population_id)


def case_of(cast, scene, by="alice"):
    with cast.work(by) as work:
        adoption = work.db.get_one(Adoption, scene.adoption_id)
        return facts_of(work, adoption, sites.get_population(work, scene.population_id))


def test_a_sheet_is_frozen_with_its_number(cast, scene):
    """400 plants in fruit × 30 fruits × 20 seeds, a tenth of it: 24,000; the bank needs 10,000."""
    sheet = queries.sheet_of(scene.sheet)
    assert scene.sheet.number.startswith("FLG-2031-S01-")
    assert is_whole(scene.sheet.number)
    assert (sheet.headline.left_seeds.value, sheet.headline.left_fruits.value) == (10_000, 500)
    assert sheet.headline.allowance_seeds.value == 24_000
    assert as_it_stands(cast, scene.sheet.id).reserved_seeds == 10_000


@pytest.mark.parametrize("by", ["alice", "cora"])
def test_an_unchanged_case_issues_nothing_new(cast, scene, by):
    """What the sheet itself keeps free is not held against it."""
    assert issued(cast, scene, by).id == scene.sheet.id


def test_a_new_count_takes_the_place_of_the_old_sheet(cast, scene):
    count(cast, scene.population_id, fruiting=200)
    fresh, old = issued(cast, scene), as_it_stands(cast, scene.sheet.id)
    assert fresh.number.startswith("FLG-2031-S02-")
    assert (old.state, old.replaced_by_id, old.reserved_seeds) == (SheetState.SUPERSEDED, fresh.id, 0)
    assert as_it_stands(cast, fresh.id).reserved_seeds == 6_000
    with cast.everywhere() as work:
        account = sites.take_account(work, scene.population_id, 2031)
    assert (account.allowance_seeds, account.reserved_seeds) == (12_000, 6_000)


def with_taxon(cast, scene):
    with cast.everywhere() as work:
        return work.db.get_one(Taxon, scene.taxon_id)


def population_of(cast, scene):
    with cast.everywhere() as work:
        return work.db.get_one(Population, scene.population_id)


def test_sheets_are_refused_where_nobody_may_collect(cast, scene):
    other = surveyed_population(cast, with_taxon(cast, scene), name="Another Scar")
    with cast.work("cora") as work, pytest.raises(Refused, match="does not hold this population"):
        issue(work, adoption_id=scene.adoption_id, population_id=other.id)
    with cast.work("cora") as work:
        retire_population(work, population_id=scene.population_id, reason="Grazed away.")
    with cast.work("alice") as work, pytest.raises(Refused, match="retired"):
        issue(work, adoption_id=scene.adoption_id, population_id=scene.population_id)


@pytest.mark.parametrize("by", ["charlie", "eve", "dora"])
def test_strangers_find_nothing_to_issue(cast, scene, by):
    with cast.work(by) as work, pytest.raises(NotFound):
        issue(work, adoption_id=scene.adoption_id, population_id=scene.population_id)


def test_a_released_adoption_loses_its_sheets_and_their_seeds(cast, scene):
    with cast.work("alice") as work:
        release(work, adoption_id=scene.adoption_id, reason="We are too few.")
    sheet = as_it_stands(cast, scene.sheet.id)
    assert (sheet.state, sheet.reserved_seeds) == (SheetState.WITHDRAWN, 0)
    with cast.work("alice") as work, pytest.raises(Refused, match="active adoptions"):
        issue(work, adoption_id=scene.adoption_id, population_id=scene.population_id)


def test_a_population_let_go_loses_its_sheet(cast, scene):
    with cast.work("cora") as work:
        let_go_population(work, adoption_id=scene.adoption_id, population_id=scene.population_id)
    assert as_it_stands(cast, scene.sheet.id).state is SheetState.WITHDRAWN


def test_a_sheet_is_withdrawn_once(cast, scene):
    with cast.work("cora") as work:
        withdraw(work, sheet_id=scene.sheet.id, reason="A slip.")
    with cast.work("cora") as work, pytest.raises(Refused, match="no longer holds"):
        withdraw(work, sheet_id=scene.sheet.id, reason="Again.")
    assert issued(cast, scene).id != scene.sheet.id


@pytest.mark.parametrize("typed", ["{}", " {} ", "lower", "bare"])
def test_a_number_is_found_however_it_is_typed(cast, scene, typed):
    number = scene.sheet.number
    forms = {"lower": number.lower(), "bare": number.replace("-", "")}
    with cast.work("alice") as work:
        assert queries.by_number(work, forms.get(typed, typed.format(number))).id == scene.sheet.id
    with cast.work("charlie") as work:
        assert queries.by_number(work, number) is None


def test_a_yes_that_holds_counts_although_the_next_one_was_asked_for(cast, scene):
    with cast.work("cora") as work:
        ask_permission(work, site_id=scene.site_id, on=TODAY)
    assert case_of(cast, scene).permission.granted is True


def test_a_yes_that_ran_out_is_no_refusal(cast, scene):
    ended = {"state": PermissionState.EXPIRED, "ends_on": TODAY.replace(day=1)}
    with cast.everywhere() as work:
        work.db.execute(update(Permission).values(**ended))
    assert case_of(cast, scene).permission.granted is True
    reasons = queries.sheet_of(issued(cast, scene)).reasons
    assert [rule for line in reasons for rule in line.rules] == ["stop.permission-dates"]


@pytest.mark.parametrize(
    ("threat", "severe"),
    [("none", False), ("slight", False), ("severe", True), ("imminent loss", True), ("unknown", None)],
)
def test_plants_about_to_be_lost_are_under_severe_threat(cast, scene, threat, severe):
    with cast.everywhere() as work:
        work.db.execute(update(Population).values(threat=Threat(threat)))
    assert case_of(cast, scene).population.severe_threat is severe


def test_any_number_of_hands_issue_one_sheet(cast, scene):
    """Ten people press the button at once after a count: one new sheet, and nothing is reserved twice."""
    count(cast, scene.population_id, fruiting=200)
    numbers, faults = [], []

    def press(by):
        try:
            numbers.append(issued(cast, scene, by).number)
        except Exception as fault:  # a thread's fault must fail the test
            faults.append(fault)

    threads = [threading.Thread(target=press, args=(by,)) for by in ("alice", "cora") * 5]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not faults
    assert len(set(numbers)) == 1
    with cast.everywhere() as work:
        assert len(work.db.scalars(select(IssuedSheet)).all()) == 2
        assert sites.take_account(work, scene.population_id, 2031).reserved_seeds == 6_000
    assert current(cast, scene).number == numbers[0]
