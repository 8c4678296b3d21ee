"""What happens elsewhere in the hub and carries an adoption further."""

from __future__ import annotations

from typing import Any

from sqlalchemy import ColumnElement, func, select

from hub.adoptions import queries
from hub.adoptions.actions import accession_population, advance, bank_population, keep_sole
from hub.adoptions.models import StageCount
from hub.adoptions.rules import Stage
from hub.audit.listeners import when
from hub.audit.rules import Event
from hub.db.work import Work
from hub.sites.models import Permission
from hub.sites.rules import PermissionState
from hub.taxa.claims import counts_claims
from hub.taxa.models import Taxon


@when(Event.PERMISSION_MOVED)
def permitted(work: Work, permission: Permission) -> None:
    """An owner's yes serves every adoption at the site that this seat may see.

    A group that notes it cannot touch its neighbour's adoption: that one gets there with its own next sheet.
    """
    if permission.state is PermissionState.GRANTED:
        for adoption_id in queries.with_population(work, site_id=permission.site_id):
            advance(work, adoption_id=adoption_id, stage=Stage.PERMITTED)


@when(Event.STANDING_CHANGED)
def rarity_changed(work: Work, taxon: Taxon) -> None:
    """A species that has become rare takes no second group at a population from now on."""
    keep_sole(work, taxon_id=taxon.id)


# What follows comes from features above this one, which it may not know: their rows are read by name.
SAFE = frozenset({"stored", "living"})


@when(Event.SHEET_ISSUED)
def ready(work: Work, sheet: Any) -> None:
    """A sheet that may be collected under."""
    if sheet.status == "ready":
        advance(work, adoption_id=sheet.adoption_id, stage=Stage.READY)


@when(Event.SUBMISSION_MOVED)
def handed_in(work: Work, submission: Any) -> None:
    """A collection came in."""
    if submission.state == "handed in":
        advance(work, adoption_id=submission.adoption_id, stage=Stage.HANDED_IN)


@when(Event.ACCESSION_MADE)
def accessioned(work: Work, accession: Any) -> None:
    """A collection passed and got its number."""
    accession_population(work, **source_of(accession))


@when(Event.ACCESSION_MOVED)
def banked(work: Work, accession: Any) -> None:
    """Seed came into the bank's keeping, or left it: only what was stored can be used up or given up."""
    bank_population(work, **source_of(accession), more=1 if accession.state in SAFE else -1)


def source_of(accession: Any) -> dict[str, Any]:
    """Who collected it, where and when."""
    return {name: getattr(accession, name) for name in ("group_id", "population_id", "collected_on")}


@counts_claims
def groups_holding(season_id: Any, taxon_id: Any) -> ColumnElement[int]:
    """How many groups of all tenants hold a wanted species: from the running count, for the wanted list."""
    counted = select(func.coalesce(func.sum(StageCount.adoptions), 0))
    return counted.where(StageCount.season_id == season_id, StageCount.taxon_id == taxon_id).scalar_subquery()
