"""One accession, and what stands around it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from uuid import UUID

from sqlalchemy import and_, or_, select

from hub.accessions.models import Accession, Lot
from hub.accounts.models import Person
from hub.audit.models import AuditEntry
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import District
from hub.sites.models import Population, Site
from hub.words import NotFound


def get(work: Work, accession_id: UUID, *, locked: bool = False) -> Accession:
    """One accession. Raises NotFound for any that this seat may not see. ``locked`` reads it afresh."""
    found = select(Accession).where(Accession.id == accession_id)
    if locked:
        found = found.with_for_update().execution_options(populate_existing=True)
    accession = work.db.scalars(found).one_or_none()
    if accession is None:
        raise NotFound("accession")
    return accession


def of_submission(work: Work, submission_id: UUID) -> Accession | None:
    """The accession that a submission became, if it was approved."""
    return work.db.scalars(select(Accession).where(Accession.submission_id == submission_id)).one_or_none()


def population_code(work: Work, accession: Accession) -> str | None:
    """The code of the population, as far as this seat is let in on its site."""
    return work.db.scalars(
        select(Population.code).where(Population.id == accession.population_id)
    ).one_or_none()


def district_of(work: Work, accession: Accession) -> str | None:
    """The name of the district that the seed comes from, as far as this seat is let in on its site."""
    found = (
        select(District.name)
        .join(Site, Site.district_id == District.id)
        .join(Population, Population.site_id == Site.id)
        .where(Population.id == accession.population_id)
    )
    return work.db.scalars(found).one_or_none()


def story_entries(work: Work, accession: Accession, lots: Sequence[Lot] = ()) -> list[AuditEntry]:
    """What happened to an accession and to the places of its lots, oldest first."""
    own = and_(AuditEntry.thing_kind == Accession.__tablename__, AuditEntry.thing_id == str(accession.id))
    placed = and_(
        AuditEntry.thing_kind == Lot.__tablename__,
        AuditEntry.thing_id.in_([str(lot.id) for lot in lots]),
        AuditEntry.event == Event.LOT_PLACED,
    )
    found = select(AuditEntry).where(or_(own, placed) if lots else own)
    return list(work.db.scalars(found.order_by(AuditEntry.serial)))


def names_of(work: Work, person_ids: Iterable[UUID | None]) -> dict[UUID | None, str]:
    """The names of some people, by id."""
    found = select(Person.id, Person.name).where(Person.id.in_({each for each in person_ids if each}))
    return {row.id: row.name for row in work.db.execute(found)}
