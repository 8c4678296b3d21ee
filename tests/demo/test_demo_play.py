"""The demo plays, and what it leaves is what its files promise."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, time
from pathlib import Path

import pytest
from sqlalchemy import func, select

from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState
from hub.config import Settings
from hub.db.work import House, Work
from hub.demo.building import days_ahead, play, sign_ins
from hub.groups.models import Bank, Group
from hub.protocols.models import RuleOverride
from hub.rights.scope import Scope
from hub.sites.models import Salvage, Site
from hub.sites.rules import SalvageState
from hub.vetting.models import Submission
from hub.vetting.rules import SubmissionState, Urgency
from hub.wiring import make_house
from tests.demo.played import (
    assert_books_agree,
    assert_everything_happened,
    assert_letters_left,
    found,
    meant,
)
from tests.demo.reading import DEMO, season, toml
from tests.support.databases import PrivateServer
from tests.support.demo_hub import opened

EVERYONE = Scope.everyone(because="looking at the demo")
HANDED_IN = [key for key, each in season("submission").items() if each["state"] == "handed in"]


@pytest.fixture(scope="module")
def house(demo_folder: Path) -> Iterator[House]:
    with opened(demo_folder) as house:
        yield house


@pytest.fixture
def work(house: House) -> Iterator[Work]:
    with house.work(EVERYONE, reads_only=True) as work:
        yield work


def test_everything_happened(work: Work) -> None:
    assert_everything_happened(work)


def test_the_books_agree(work: Work) -> None:
    assert_books_agree(work)


def test_the_letters_left(work: Work) -> None:
    assert_letters_left(work)


def test_the_demo_stands_on_its_day(house: House) -> None:
    """On its day, or as many days later as have gone by since it was built."""
    stands = datetime.combine(toml("region.toml")["today"], time(), UTC)
    assert 0 <= (house.now() - stands).days <= 1


@pytest.mark.parametrize("key", HANDED_IN)
def test_the_checks_notice_what_is_meant(key: str, work: Work) -> None:
    assert found(work)[key] == meant(key)


def waiting(work: Work, state: SubmissionState) -> list[Submission]:
    of_the_bank = select(Bank.id).where(Bank.code == toml("region.toml")["bank"][0]["code"])
    rows = select(Submission).where(Submission.state == state, Submission.bank_id.in_(of_the_bank))
    return list(work.db.scalars(rows))


def test_work_waits_for_the_curator(work: Work) -> None:
    """Two adoptions and a school to approve, a salvage case, eleven submissions, living seed among them."""
    asked = select(func.count()).where(Adoption.state == AdoptionState.REQUESTED)
    assert work.db.scalar(asked) == 2
    on_the_bench = waiting(work, SubmissionState.HANDED_IN)
    assert len(on_the_bench) == 11
    assert Urgency.ALIVE in {each.urgency for each in on_the_bench}
    assert work.db.scalar(select(func.count()).where(Salvage.state == SalvageState.ASKED)) == 1
    assert work.db.scalar(select(func.count(RuleOverride.id))) == len(toml("rule_changes.toml")["change"])


def test_work_waits_for_the_groups(work: Work) -> None:
    assert len(waiting(work, SubmissionState.RETURNED)) == 1
    assert len(waiting(work, SubmissionState.DRAFT)) == 2


def test_the_other_bank_has_a_group_of_its_own(work: Work) -> None:
    banks = {each.bank_id for each in work.db.scalars(select(Group))}
    assert len(banks) == 2


def test_every_seat_that_is_offered_opens(work: Work) -> None:
    assert len({each.email for each in sign_ins()}) == len(sign_ins()) == 8


def test_nothing_leads_out_of_the_vale(work: Work) -> None:
    """No address of any web site, and no position on land: the box of the region lies in open ocean."""
    for path in DEMO.rglob("*"):
        if path.is_file():
            assert not re.search(r"https?://|www\.", path.read_text("utf-8")), path.name
    for site in work.db.scalars(select(Site)):
        assert 46 < site.latitude < 49
        assert -30 < site.longitude < -26


def test_the_demo_plays_on_postgresql(private_server: PrivateServer, tmp_path: Path) -> None:
    """With row-level security, and with the same end."""
    with private_server.fresh() as url:
        settings = Settings(data_dir=tmp_path, database_url=url, secret_key="for tests alone")
        house = make_house(replace(settings, quick_passwords=True, days_ahead=days_ahead()))
        play(house, say=lambda line: None)
        with house.work(EVERYONE) as work:
            assert_everything_happened(work)
            assert_books_agree(work)
            assert_letters_left(work)
            assert {key: found(work)[key] for key in HANDED_IN} == {key: meant(key) for key in HANDED_IN}
        house.engine.dispose()
