"""The fences for writing: what a seat may read and yet not change, and what nobody changes."""

from __future__ import annotations

from datetime import date
from typing import Any
from uuid import UUID

import pytest
from sqlalchemy import delete, select, text, update
from sqlalchemy.exc import DBAPIError

from hub.audit.models import AuditEntry
from hub.db.tenancy import OutsideScope, Scoped, scoped_classes
from hub.groups.models import Crew
from hub.groups.rules import AgeBand
from hub.protocols.models import RuleOverride
from hub.sites.actions import record_permit
from hub.sites.models import Permit
from hub.wiring import load_tables
from tests.cast import Cast
from tests.sites.scene import stored_taxon

load_tables()
SCOPED = scoped_classes()
NUMBER, OTHER = "N 7", "N 8"


@pytest.fixture
def permit_id(cast: Cast) -> UUID:
    taxon = stored_taxon(cast)
    with cast.work("cora") as work:
        found = record_permit(
            work,
            taxon_id=taxon.id,
            authority="Plant Office",
            number=NUMBER,
            starts_on=date(2031, 1, 1),
            ends_on=date(2031, 12, 31),
        )
    return found.id


def permits(cast: Cast) -> list[str]:
    with cast.everywhere() as work:
        return list(work.db.scalars(select(Permit.number)))


def test_a_group_reads_the_permits_of_its_bank(cast: Cast, permit_id: UUID) -> None:
    """Else the tests below would prove nothing."""
    with cast.work("alice") as work:
        assert work.db.scalars(select(Permit.number)).all() == [NUMBER]


@pytest.mark.parametrize("statement", [update(Permit).values(number=OTHER), delete(Permit)])
def test_a_group_changes_none_in_bulk(cast: Cast, permit_id: UUID, statement: Any) -> None:
    with cast.work("alice") as work:
        work.db.execute(statement)
    assert permits(cast) == [NUMBER]


def test_a_group_changes_none_by_hand(cast: Cast, permit_id: UUID) -> None:
    with pytest.raises(OutsideScope), cast.work("alice") as work:
        work.db.get_one(Permit, permit_id).number = OTHER
    with pytest.raises(OutsideScope), cast.work("alice") as work:
        work.db.delete(work.db.get_one(Permit, permit_id))
    assert permits(cast) == [NUMBER]


def test_a_curator_still_changes_them(cast: Cast, permit_id: UUID) -> None:
    with cast.work("cora") as work:
        work.db.get_one(Permit, permit_id).number = OTHER
    assert permits(cast) == [OTHER]


@pytest.mark.parametrize("database_url", ["postgresql"], indirect=True)
def test_postgresql_keeps_them_from_bare_sql_too(cast: Cast, permit_id: UUID) -> None:
    with pytest.raises(DBAPIError, match="row-level security"), cast.work("alice") as work:
        work.db.execute(text("update permit set number = 'N 8'"))
    with cast.work("alice") as work:
        work.db.execute(text("delete from permit"))
        assert work.db.execute(text("select number from permit for update")).all() == [(NUMBER,)]
    assert permits(cast) == [NUMBER]


def override(cast: Cast) -> RuleOverride:
    return RuleOverride(
        bank_id=cast.fell_bank.id,
        rule_id="take.secure",
        figure="season_share",
        old_value=0.1,
        new_value=0.05,
        reason="A dry year",
        evidence="",
        made_by=cast.people["cora"].id,
        made_by_name="Cora",
        made_at=cast.now,
        ends_on=date(2032, 1, 1),
    )


@pytest.mark.parametrize("seat", ["alice", "olga", "dora"])
def test_only_its_staff_adds_a_row_of_a_bank(cast: Cast, seat: str) -> None:
    with pytest.raises(OutsideScope), cast.work(seat) as work:
        work.db.add(override(cast))


@pytest.mark.parametrize("seat", ["charlie", "dora", "olga"])
def test_only_the_group_and_its_bank_add_a_row_of_a_group(cast: Cast, seat: str) -> None:
    crew = Crew(
        group_id=cast.fell_group.id,
        bank_id=cast.fell_bank.id,
        nickname="strays",
        headcount=1,
        age_band=AgeBand.FROM_8,
        teacher_seat_id=cast.seats["alice"].id,
    )
    with pytest.raises(OutsideScope), cast.work(seat) as work:
        work.db.add(crew)


@pytest.mark.parametrize(
    "statement", [update(AuditEntry).values(reason="nothing happened"), delete(AuditEntry)]
)
def test_nobody_changes_the_audit_log_in_bulk(cast: Cast, permit_id: UUID, statement: Any) -> None:
    for work_of in (lambda: cast.work("cora"), cast.everywhere):
        with pytest.raises(OutsideScope, match="only added to"), work_of() as work:
            work.db.execute(statement)


def test_nobody_changes_the_audit_log_by_hand(cast: Cast, permit_id: UUID) -> None:
    with pytest.raises(OutsideScope, match="only added to"), cast.everywhere() as work:
        work.db.scalars(select(AuditEntry)).first().reason = "nothing happened"
    with pytest.raises(OutsideScope, match="only added to"), cast.everywhere() as work:
        work.db.delete(work.db.scalars(select(AuditEntry)).first())


@pytest.mark.parametrize("cls", SCOPED, ids=lambda cls: cls.__name__)
def test_what_is_written_otherwise_than_read_says_so_to_both_fences(cls: type[Scoped]) -> None:
    in_python = cls.fence_for_writing.__func__ is not Scoped.fence_for_writing.__func__  # type: ignore[attr-defined]
    assert bool(cls.policy_for_change) == (in_python or cls.append_only)
