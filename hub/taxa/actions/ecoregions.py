"""Add an ecoregion with its outline, and say which ecoregions a species grows in."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any
from uuid import UUID

from sqlalchemy import delete, select

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.science.outlines import read_outline
from hub.taxa import queries
from hub.taxa.actions.changes import check_version
from hub.taxa.models import Ecoregion, Taxon, TaxonEcoregion
from hub.words import Refused, say


def add_ecoregion(
    work: Work, *, region_id: UUID, scheme: str, code: str, name: str, geometry: dict[str, Any]
) -> Ecoregion:
    """Add an ecoregion of one scheme. Raises ``Refused`` beside its outline or its code."""
    try:
        outline = read_outline(geometry)
    except Refused as unreadable:
        raise Refused(unreadable.words, field="geometry") from None
    taken = select(Ecoregion.id).where(Ecoregion.scheme == scheme, Ecoregion.code == code)
    if work.db.scalar(taken):
        raise Refused(say("There is an ecoregion {code} in this scheme already.", code=code), field="code")
    ecoregion = Ecoregion(region_id=region_id, scheme=scheme, code=code, name=name, geometry=outline)
    work.db.add(ecoregion)
    work.db.flush()
    return ecoregion


def set_ecoregions(
    work: Work, *, taxon_id: UUID, ecoregion_ids: Iterable[UUID], version: int | None = None
) -> Taxon:
    """Say anew in which ecoregions of the asker's region a species grows; those of other regions stay."""
    taxon = queries.get(work, taxon_id)
    check_version(taxon, version)
    here = {each.id: each.code for each in own_ecoregions(work)}
    wanted = set(ecoregion_ids)
    if wanted - set(here):
        raise Refused(say("Please choose among the ecoregions of your region."), field="ecoregion_ids")
    old = {each.id for each in queries.ecoregions_of(work, taxon_id)} & set(here)
    if old != wanted:
        gone = TaxonEcoregion.ecoregion_id.in_(old - wanted)
        work.db.execute(delete(TaxonEcoregion).where(TaxonEcoregion.taxon_id == taxon_id, gone))
        work.db.add_all(TaxonEcoregion(taxon_id=taxon_id, ecoregion_id=each) for each in wanted - old)
        before, after = ({"ecoregions": sorted(here[each] for each in ids)} for ids in (old, wanted))
        record(work, Event.TAXON_CHANGED, taxon, before=before, after=after)
    return taxon


def own_ecoregions(work: Work) -> list[Ecoregion]:
    """The ecoregions of the asker's region; all of them for work across the whole hub."""
    if work.scope.region_id is not None:
        return queries.ecoregions(work, work.scope.region_id)
    return list(work.db.scalars(select(Ecoregion))) if work.scope.spans_tenants else []
