"""Issued sheets, and the bank's own changes to the rules."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from uuid import UUID

from sqlalchemy import ColumnElement, or_, select
from sqlalchemy.orm import defer

from hub.db.numbering import bare
from hub.db.work import Work
from hub.protocols.models import IssuedSheet, RuleOverride, SheetState, SignOffRecord
from hub.protocols.overrides import Override
from hub.protocols.sheet import Sheet
from hub.words import NotFound

# A group’s code, the year, the serial, the check character: the parts of a number without its dashes.
NUMBER = re.compile(r"([A-Z][A-Z0-9]{1,11})(\d{4})S(\d{2,})([A-Z0-9])")


def get_sheet(work: Work, sheet_id: UUID, *, locked: bool = False, body: bool = True) -> IssuedSheet:
    """One issued sheet. Raises NotFound for any that this seat may not see. ``locked`` reads it afresh;
    without ``body`` that large part is read only if somebody looks at it."""
    found = select(IssuedSheet).where(IssuedSheet.id == sheet_id)
    if not body:
        found = found.options(defer(IssuedSheet.body))
    if locked:
        found = found.with_for_update().execution_options(populate_existing=True)
    issued = work.db.scalars(found).one_or_none()
    if issued is None:
        raise NotFound("sheet")
    return issued


def by_number(work: Work, number: str) -> IssuedSheet | None:
    """The sheet with this number, however its letters and dashes were typed."""
    found = select(IssuedSheet).where(IssuedSheet.number == as_printed(number))
    return work.db.scalars(found).one_or_none()


def as_printed(number: str) -> str:
    """A typed number with the dashes of the printed one: ``flg2031s07k`` is ``FLG-2031-S07-K``."""
    parts = NUMBER.fullmatch(bare(number))
    return "{}-{}-S{}-{}".format(*parts.groups()) if parts else ""


def current_sheet(
    work: Work, adoption_id: UUID, population_id: UUID, *, locked: bool = False
) -> IssuedSheet | None:
    """The sheet that holds now for this adoption at this population; ``locked`` until the commit."""
    found = select(IssuedSheet).where(
        IssuedSheet.adoption_id == adoption_id,
        IssuedSheet.population_id == population_id,
        IssuedSheet.state == SheetState.CURRENT,
    )
    return work.db.scalars(found.with_for_update() if locked else found).one_or_none()


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


def get_override(work: Work, override_id: UUID) -> RuleOverride:
    """One change of a rule that this seat may see. Raises NotFound."""
    found = select(RuleOverride).where(RuleOverride.id == override_id)
    change = work.db.scalars(found).one_or_none()
    if change is None:
        raise NotFound("override")
    return change


def overrides(work: Work) -> Sequence[RuleOverride]:
    """All changes of rules of this seat's bank, newest first."""
    found = select(RuleOverride).order_by(RuleOverride.made_at.desc(), RuleOverride.id)
    return work.db.scalars(found).all()


def get_consent(work: Work, consent_id: UUID) -> SignOffRecord:
    """One consent that this seat may see. Raises NotFound."""
    found = select(SignOffRecord).where(SignOffRecord.id == consent_id)
    consent = work.db.scalars(found).one_or_none()
    if consent is None:
        raise NotFound("consent")
    return consent


def consents(work: Work, adoption_id: UUID, population_id: UUID) -> Sequence[SignOffRecord]:
    """Every consent to collect from a population under an adoption, newest first."""
    found = select(SignOffRecord).where(
        SignOffRecord.adoption_id == adoption_id, SignOffRecord.population_id == population_id
    )
    return work.db.scalars(found.order_by(SignOffRecord.at.desc(), SignOffRecord.id)).all()
