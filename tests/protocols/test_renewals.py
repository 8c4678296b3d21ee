"""The round of renewals: overtaken sheets are drawn up again once, and their groups are told."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy import select

from hub.adoptions.actions import fulfil
from hub.audit.queries import first_broken_link, history_of
from hub.groups.actions import settle_bank
from hub.groups.models import Bank
from hub.protocols import queries, renewals
from hub.protocols.actions import end_override, issue, make_override, sign_off
from hub.protocols.dates import note_dates
from hub.protocols.models import SheetRenewal, SheetState
from hub.protocols.renewals import renew_due
from hub.sites import queries as sites
from hub.sites.actions import record_permit, retire_population, withdraw_permission
from hub.sites.models import Permission, Permit, Site
from hub.sites.rules import Paper
from hub.words import Refused, say
from tests.protocols.scene import TODAY, as_it_stands, count, current, round_of, set_scene
from tests.support.letters import letters_to

GROUP = "flg@cast.example"


@pytest.fixture
def scene(cast):
    scene = set_scene(cast)
    assert round_of(cast) == 0  # what happened while the scene was set overtook nothing
    return scene


def stricter(cast, *, share=0.05, ends=TODAY + timedelta(days=30), by="cora", **where):
    with cast.work(by) as work:
        return make_override(
            work, rule_id="take.secure", figure="season_share", value=share, reason="A dry spring.",
            evidence="", ends_on=ends, **where,
        )  # fmt: skip


def later(cast, **after):
    """A round some time after the cast's moment."""
    return renew_due(cast.house, now=cast.now + timedelta(**after))


def test_a_new_count_renews_the_sheet_and_tells_the_group(cast, scene):
    count(cast, scene.population_id, fruiting=200)
    assert round_of(cast) == 1
    old, fresh = as_it_stands(cast, scene.sheet.id), current(cast, scene)
    assert (old.state, old.replaced_by_id) == (SheetState.SUPERSEDED, fresh.id)
    assert fresh.reason == "The plants were counted again."
    assert fresh.issued_by is None
    (letter,) = letters_to(cast, GROUP)[-1:]
    assert letter.subject == f"Your protocol sheet {old.number} holds no longer"
    for words in (fresh.number, "Ready to use", f"/sheets/{fresh.id}", "destroy printed copies"):
        assert words in letter.body


def test_a_second_round_has_nothing_left_to_do(cast, scene):
    count(cast, scene.population_id, fruiting=200)
    assert round_of(cast) == 1
    letters = len(letters_to(cast, GROUP))
    assert round_of(cast) == 0
    assert len(letters_to(cast, GROUP)) == letters
    with cast.everywhere() as work:
        assert not work.db.scalars(select(SheetRenewal).where(SheetRenewal.done_at.is_(None))).all()


def test_a_count_that_changes_nothing_issues_nothing(cast, scene):
    count(cast, scene.population_id, fruiting=400)
    assert round_of(cast) == 0
    assert current(cast, scene).id == scene.sheet.id


def test_several_changes_make_one_new_sheet(cast, scene):
    count(cast, scene.population_id, fruiting=300, on=TODAY - timedelta(days=1))
    count(cast, scene.population_id, fruiting=200)
    stricter(cast)
    assert round_of(cast) == 1
    assert queries.sheet_of(current(cast, scene)).headline.left_seeds.value == 3_000


def test_a_withdrawn_permission_takes_the_sheet_out_of_use(cast, scene):
    with cast.work("cora") as work:
        permission = work.db.scalars(select(Permission)).one()
        withdraw_permission(work, permission_id=permission.id, on=TODAY, reason="The estate was sold.")
    assert round_of(cast) == 1
    fresh = current(cast, scene)
    assert fresh.status != "ready"
    assert fresh.reserved_seeds == 0


def test_a_changed_rule_renews_and_its_end_brings_the_old_figures_back(cast, scene):
    change = stricter(cast)
    assert round_of(cast) == 1
    sheet = queries.sheet_of(current(cast, scene))
    assert (sheet.headline.season_share.value, sheet.overrides[0].reason) == (0.05, "A dry spring.")
    with cast.work("cora") as work:
        end_override(work, override_id=change.id, reason="It rained.")
    assert round_of(cast) == 1
    assert current(cast, scene).digest == scene.sheet.digest


def test_a_change_for_another_species_or_bank_touches_nothing(cast, scene):
    stricter(cast, by="dora")
    assert round_of(cast) == 0


def test_a_change_runs_out_by_the_calendar(cast, scene):
    stricter(cast, ends=TODAY + timedelta(days=2))
    assert round_of(cast) == 1
    three_days = cast.now + timedelta(days=3)
    with cast.everywhere(now=three_days) as work:
        assert note_dates(work) == 1
    assert later(cast, days=3) == 1
    assert queries.sheet_of(current(cast, scene)).headline.season_share.value == 0.1


def test_a_permission_begins_by_the_calendar(cast, scene):
    with cast.everywhere() as work:
        work.db.scalars(select(Permission)).one().starts_on = TODAY + timedelta(days=1)
    with cast.work("alice") as work:
        fresh = issue_again(work, scene)
    assert fresh.status == "not_yet"
    with cast.everywhere(now=cast.now + timedelta(days=1)) as work:
        note_dates(work)
    assert later(cast, days=1, hours=1) == 1
    assert current(cast, scene).status == "ready"


def issue_again(work, scene):
    return issue(work, adoption_id=scene.adoption_id, population_id=scene.population_id)


def test_retired_plants_lose_their_sheet_and_the_group_is_told(cast, scene):
    with cast.work("cora") as work:
        retire_population(work, population_id=scene.population_id, reason="Grazed away.")
    assert round_of(cast) == 1
    assert as_it_stands(cast, scene.sheet.id).state is SheetState.WITHDRAWN
    assert "Nobody collects from this population" in letters_to(cast, GROUP)[-1].body


def test_permits_of_other_banks_do_not_count_in_a_round_that_sees_them(cast, scene):
    """A round reads across banks; a sheet must come out as its own bank's curator would have it."""
    with cast.everywhere() as work:
        work.db.add(Permit(
            bank_id=cast.far_bank.id, taxon_id=scene.taxon_id, authority="Far Council", number="F 1",
            starts_on=TODAY, ends_on=TODAY, cap_seeds=10, conditions="",
        ))  # fmt: skip
    with cast.work("cora") as work:
        record_permit(
            work, authority="Vale Council", number="P 7", taxon_id=scene.taxon_id, site_id=None,
            starts_on=TODAY, ends_on=TODAY + timedelta(days=90), cap_seeds=9_000, conditions="",
        )  # fmt: skip
    assert round_of(cast) == 1
    fresh = current(cast, scene)
    assert queries.sheet_of(fresh).headline.left_seeds.value == 9_000
    with cast.work("cora") as work:
        assert issue_again(work, scene).id == fresh.id


def test_a_consent_lowers_the_share(cast, scene):
    with cast.work("cora") as work:
        sign_off(work, adoption_id=scene.adoption_id, population_id=scene.population_id, share=0.02,
                 reason="A small flowering.")  # fmt: skip
    assert round_of(cast) == 1
    assert queries.sheet_of(current(cast, scene)).headline.season_share.value == 0.02


def test_a_bank_that_allows_home_freezing_says_so_on_its_sheets(cast, scene):
    with cast.work("cora") as work:
        settle_bank(work, home_freezing=True)
    assert round_of(cast) == 1
    assert queries.sheet_of(current(cast, scene)).headline.freezing.value == "home"
    with cast.everywhere() as work:
        assert work.db.get_one(Bank, cast.fell_bank.id).home_freezing


def test_a_sheet_that_cannot_be_reckoned_keeps_no_other_back(cast, scene, monkeypatch, caplog):
    def cannot(*_):
        raise Refused(say("No rule in force."))

    count(cast, scene.population_id, fruiting=200)
    with monkeypatch.context() as broken:
        broken.setattr(renewals, "drawn_up", cannot)
        assert round_of(cast) == 0
    assert str(scene.sheet.id) in caplog.text
    assert as_it_stands(cast, scene.sheet.id).state is SheetState.CURRENT
    assert round_of(cast) == 1  # the note stayed open


def test_a_sheet_that_fails_three_times_is_taken_back(cast, scene, monkeypatch):
    def cannot(*_):
        raise ZeroDivisionError

    count(cast, scene.population_id, fruiting=200)
    monkeypatch.setattr(renewals, "drawn_up", cannot)
    states = []
    for _ in range(3):
        round_of(cast)
        states.append(as_it_stands(cast, scene.sheet.id).state)
    assert states == [SheetState.CURRENT, SheetState.CURRENT, SheetState.WITHDRAWN]
    assert "could not be drawn up again" in letters_to(cast, GROUP)[-1].body
    with cast.everywhere() as work:
        assert not work.db.scalars(select(SheetRenewal).where(SheetRenewal.done_at.is_(None))).all()


def test_the_calendar_is_noted_once(cast, scene):
    stricter(cast, ends=TODAY + timedelta(days=1))
    turned = cast.now + timedelta(days=2)
    with cast.everywhere(now=turned) as work:
        assert note_dates(work) == 1
    with cast.everywhere(now=turned + timedelta(hours=1)) as work:
        assert note_dates(work) == 0


def test_a_closed_season_ends_its_sheets(cast, scene):
    after = cast.season.closes_on - TODAY + timedelta(days=1)
    with cast.everywhere(now=cast.now + after) as work:
        assert note_dates(work) >= 1
    assert renew_due(cast.house, now=cast.now + after) == 1
    ended = as_it_stands(cast, scene.sheet.id)
    assert (ended.state, ended.reserved_seeds) == (SheetState.WITHDRAWN, 0)
    with pytest.raises(Refused, match="season closed"), cast.work("alice", now=cast.now + after) as work:
        issue_again(work, scene)


def test_a_hub_that_stood_still_when_the_season_closed_makes_up_for_it(cast, scene):
    long_after = cast.now + (cast.season.closes_on - TODAY) + timedelta(days=60)
    with cast.everywhere(now=long_after) as work:
        assert note_dates(work) == 1
    assert renew_due(cast.house, now=long_after) == 1
    assert as_it_stands(cast, scene.sheet.id).state is SheetState.WITHDRAWN
    with cast.everywhere(now=long_after + timedelta(days=20)) as work:
        assert note_dates(work) == 0


def test_a_fulfilled_adoption_keeps_no_sheet(cast, scene):
    with cast.work("cora") as work:
        fulfil(work, adoption_id=scene.adoption_id, reason="Enough was banked.")
    ended = as_it_stands(cast, scene.sheet.id)
    assert (ended.state, ended.reserved_seeds) == (SheetState.WITHDRAWN, 0)


def test_own_consent_is_asked_by_sheet_and_finding_alike(cast, scene):
    with cast.everywhere() as work:
        work.db.get_one(Site, scene.site_id).own_consent_needed = True
    with cast.work("cora") as work:
        fresh = issue_again(work, scene)
        assert fresh.status == "not_yet"
        assert "stop.own-consent" in queries.sheet_of(fresh).heard
        site = work.db.get_one(Site, scene.site_id)
        missing = sites.missing_papers(work, site=site, taxon_id=scene.taxon_id, day=TODAY)
    assert missing == [Paper.OWN_CONSENT]


def test_the_day_of_a_renewed_sheet_is_the_banks_day(cast, scene):
    """Half past eleven at night in UTC is tomorrow in Auckland."""
    with cast.everywhere() as work:
        work.db.get_one(Bank, cast.fell_bank.id).zone = "Pacific/Auckland"
    count(cast, scene.population_id, fruiting=200)
    evening = cast.now.replace(hour=23, minute=30)
    assert renew_due(cast.house, now=evening) == 1
    assert queries.sheet_of(current(cast, scene)).on == TODAY + timedelta(days=1)


def test_the_audit_tells_who_replaced_it_and_why(cast, scene):
    count(cast, scene.population_id, fruiting=200)
    round_of(cast)
    with cast.everywhere() as work:
        events = history_of(work, thing_kind="sheet", thing_id=str(scene.sheet.id))
        assert [each.event for each in events] == ["sheet:issued", "sheet:replaced"]
        assert first_broken_link(work) is None
