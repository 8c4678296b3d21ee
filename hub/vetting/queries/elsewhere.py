"""What waits for a bank beside the bench: consents, salvage cases, plants that nobody has verified, adoptions
and groups without an answer.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Row, Select, exists, func, or_, select

from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState
from hub.db.work import Work
from hub.groups.models import Group
from hub.groups.rules import GroupState
from hub.protocols.models import IssuedSheet, SheetState, SignOffRecord
from hub.protocols.sheet import Status
from hub.sites.models import Population, Salvage
from hub.sites.rules import SalvageState
from hub.taxa.models import Taxon
from hub.taxa.queries import matching
from hub.taxa.rules import CareClass

# What the rulebook lets nobody collect before a curator has consented.
CURATOR_DECIDES = frozenset({CareClass.RARE, CareClass.UNKNOWN, CareClass.CRITICAL})
CONSENT_ORDERS: dict[str, Sequence[Any]] = {
    "oldest": (IssuedSheet.issued_at, IssuedSheet.id),
    "newest": (IssuedSheet.issued_at.desc(), IssuedSheet.id),
    "species": (Taxon.canonical, IssuedSheet.number, IssuedSheet.id),
    "species-down": (Taxon.canonical.desc(), IssuedSheet.number.desc(), IssuedSheet.id),
    "group": (Group.name, IssuedSheet.number, IssuedSheet.id),
    "group-down": (Group.name.desc(), IssuedSheet.number.desc(), IssuedSheet.id),
}
MOST_CASES = 50


def consents_waiting(
    work: Work, *, search: str | None = None, care: CareClass | None = None
) -> Select[IssuedSheet, Taxon, str, str]:
    """Sheets that wait for a curator’s consent, each with taxon, group and the code of its population."""
    given = exists().where(
        SignOffRecord.adoption_id == IssuedSheet.adoption_id,
        SignOffRecord.population_id == IssuedSheet.population_id,
        SignOffRecord.ended_at.is_(None),
    )
    found = (
        select(IssuedSheet, Taxon, Group.name, Population.code)
        .join(Taxon, Taxon.id == IssuedSheet.taxon_id)
        .join(Group, Group.id == IssuedSheet.group_id)
        .join(Population, Population.id == IssuedSheet.population_id)
        .where(
            IssuedSheet.bank_id == work.scope.own_bank_id,
            IssuedSheet.state == SheetState.CURRENT,
            IssuedSheet.status != Status.READY.value,
            Taxon.care_class.in_(CURATOR_DECIDES),
            ~given,
        )
    )
    if search:
        named = (matching(search), Group.name.icontains(search, autoescape=True))
        found = found.where(or_(*named, Population.code.icontains(search, autoescape=True)))
    return found.where(Taxon.care_class == care) if care is not None else found


def salvage_waiting(work: Work) -> Sequence[Row[Salvage, Taxon, str]]:
    """Cases of doomed populations without an answer, the oldest first, with taxon and population code."""
    found = (
        select(Salvage, Taxon, Population.code)
        .join(Population, Population.id == Salvage.population_id)
        .join(Taxon, Taxon.id == Population.taxon_id)
        .where(Salvage.state == SalvageState.ASKED)
    )
    return work.db.execute(found.order_by(Salvage.asked_at, Salvage.id).limit(MOST_CASES)).all()


def unverified_plants() -> Select[Population, Taxon]:
    """Populations whose species nobody has confirmed, by code, each with its taxon."""
    found = select(Population, Taxon).join(Taxon, Taxon.id == Population.taxon_id)
    waiting = found.where(Population.identity_verified.is_(False), Population.retired_at.is_(None))
    return waiting.order_by(Population.code, Population.id).limit(MOST_CASES)


def plants_to_verify(work: Work) -> Sequence[Row[Population, Taxon]]:
    return work.db.execute(unverified_plants()).all()


def waiting_elsewhere(work: Work) -> Row[Any]:
    """How much of this waits for the asker’s bank, by kind, in one question."""
    bank = work.scope.own_bank_id
    requests = select(func.count()).where(Adoption.bank_id == bank, Adoption.state == AdoptionState.REQUESTED)
    groups = select(func.count()).where(Group.bank_id == bank, Group.state == GroupState.ASKED)
    salvage = select(func.count()).where(Salvage.bank_id == bank, Salvage.state == SalvageState.ASKED)
    consents = select(func.count()).select_from(consents_waiting(work).subquery())
    unverified = select(func.count()).select_from(unverified_plants().subquery())
    counts = {"requests": requests, "groups": groups, "salvage": salvage, "consents": consents}
    counts["unverified"] = unverified
    columns = [count.scalar_subquery().label(name) for name, count in counts.items()]
    return work.db.execute(select(*columns)).one()
