"""Issued sheets, and the bank's own changes to the rules."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from uuid import UUID

from sqlalchemy import ColumnElement, or_, select

from hub.db.numbering import bare
from hub.db.work import Work
from hub.protocols.models import IssuedSheet, RuleOverride, SheetState
from hub.protocols.overrides import Override
from hub.protocols.sheet import Sheet
from hub.words import NotFound


def get_sheet(work: Work, sheet_id: UUID) -> IssuedSheet:
    """One issued sheet. Raises NotFound for any that this seat may not see."""
    issued = work.db.scalars(select(IssuedSheet).where(IssuedSheet.id == sheet_id)).one_or_none()
    if issued is None:
        raise NotFound("sheet")
    return issued


def by_number(work: Work, number: str) -> IssuedSheet | None:
    """The sheet with this number, however its letters and dashes were typed."""
    typed = bare(number)
    near = select(IssuedSheet).where(IssuedSheet.number.like(f"%{typed[-1:]}"))
    return next((issued for issued in work.db.scalars(near) if bare(issued.number) == typed), None)


def current_sheet(work: Work, adoption_id: UUID, population_id: UUID) -> IssuedSheet | None:
    """The sheet that holds now for this adoption at this population."""
    found = select(IssuedSheet).where(
        IssuedSheet.adoption_id == adoption_id,
        IssuedSheet.population_id == population_id,
        IssuedSheet.state == SheetState.CURRENT,
    )
    return work.db.scalars(found.with_for_update()).one_or_none()


def sheets_of(work: Work, adoption_id: UUID) -> list[IssuedSheet]:
    """Every sheet of one adoption, newest first."""
    found = select(IssuedSheet).where(IssuedSheet.adoption_id == adoption_id)
    return list(work.db.scalars(found.order_by(IssuedSheet.issued_at.desc(), IssuedSheet.id)))


def current_where(work: Work, *conditions: ColumnElement[bool]) -> list[IssuedSheet]:
    """The sheets that hold now and answer these conditions, in a fixed order so that locks never cross."""
    found = select(IssuedSheet).where(IssuedSheet.state == SheetState.CURRENT, *conditions)
    return list(work.db.scalars(found.order_by(IssuedSheet.id)))


def sheet_of(issued: IssuedSheet) -> Sheet:
    """The frozen sheet, read back as it was issued."""
    return Sheet.from_json(issued.body)


def overrides_for(work: Work, *, bank_id: UUID, taxon_id: UUID, population_id: UUID) -> list[Override]:
    """The bank's changes of rules that touch this taxon at this population today."""
    found = select(RuleOverride).where(
        RuleOverride.bank_id == bank_id,
        RuleOverride.ended_at.is_(None),
        RuleOverride.ends_on >= work.today,
        or_(RuleOverride.taxon_id.is_(None), RuleOverride.taxon_id == taxon_id),
        or_(RuleOverride.population_id.is_(None), RuleOverride.population_id == population_id),
    )
    rows = work.db.scalars(found.order_by(RuleOverride.made_at, RuleOverride.id))
    return [as_override(work, row) for row in rows]


def as_override(work: Work, row: RuleOverride) -> Override:
    made_on: date = row.made_at.astimezone(work.zone).date()
    return Override(
        rule=row.rule_id,
        figure=row.figure,
        value=row.new_value,
        by=row.made_by_name,
        on=made_on,
        reason=row.reason,
        expires=row.ends_on,
        evidence=row.evidence,
    )


def overrides(work: Work) -> Sequence[RuleOverride]:
    """All changes of rules of this seat's bank, newest first."""
    found = select(RuleOverride).order_by(RuleOverride.made_at.desc(), RuleOverride.id)
    return work.db.scalars(found).all()
