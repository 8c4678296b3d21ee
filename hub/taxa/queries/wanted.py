"""The wanted list of a season."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any
from uuid import UUID

from sqlalchemy import Row, Select, false, select

from hub.audit.queries import history_of
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import Bank
from hub.taxa.claims import claims
from hub.taxa.models import Need, Season, Taxon, Wanted
from hub.taxa.needs import NeedGiven
from hub.taxa.queries.lists import POPULATIONS
from hub.taxa.queries.visitors import KEPT_BACK, is_visitor

MOST_SEASONS = 12  # shown on the page of one species


def wanted_of(work: Work, season_id: UUID, taxon_id: UUID) -> Wanted | None:
    """A species' line on a season's list."""
    found = select(Wanted).where(Wanted.season_id == season_id, Wanted.taxon_id == taxon_id)
    return work.db.scalars(found).one_or_none()


def needs_of(work: Work, wanted_id: UUID) -> list[Need]:
    """How many populations are needed, and from where, in a fixed order."""
    found = select(Need).where(Need.wanted_id == wanted_id)
    return list(work.db.scalars(found.order_by(Need.ecoregion_id, Need.district_id, Need.id)))


def needs_by_line(work: Work, wanted_ids: Sequence[UUID]) -> dict[UUID, list[NeedGiven]]:
    """The needs of several lines of a list, the largest first, in one question.

    A visitor is not told the district of a species whose places are kept back; needs that differ in nothing
    else are then one.
    """
    needs: dict[UUID, list[NeedGiven]] = {each: [] for each in wanted_ids}
    for need, hidden in work.db.execute(needs_with_care(work, wanted_ids)) if wanted_ids else ():
        told = NeedGiven.of(need)
        needs[need.wanted_id].append(replace(told, district_id=None) if hidden else told)
    return {line: merged(given) for line, given in needs.items()}


def needs_with_care(work: Work, wanted_ids: Sequence[UUID]) -> Select[Need, bool]:
    """Needs, and whether their district is kept from whoever reads."""
    hidden = KEPT_BACK if is_visitor(work) else false()
    found = select(Need, hidden.label("hidden")).join(Wanted, Wanted.id == Need.wanted_id)
    found = found.join(Taxon, Taxon.id == Wanted.taxon_id).where(Need.wanted_id.in_(wanted_ids))
    return found.order_by(Need.populations.desc(), Need.id)


def merged(needs: Iterable[NeedGiven]) -> list[NeedGiven]:
    """One need for each place."""
    found: dict[Any, NeedGiven] = {}
    for need in needs:
        before = found[need.place].populations if need.place in found else 0
        found[need.place] = replace(need, populations=before + need.populations)
    return list(found.values())


def list_before_import(work: Work, season_id: UUID) -> str | None:
    """The file that holds a season's list as it stood before the last import; None when there was none."""
    imports = (
        entry
        for entry in reversed(history_of(work, thing_kind="season", thing_id=str(season_id)))
        if entry.event == Event.WANTED_IMPORTED
    )
    last = next(imports, None)
    return str(last.before["file"]) if last else None


def lists_with(work: Work, taxon_id: UUID) -> Sequence[Row[Wanted, Season, str, int, int]]:
    """The lists that name a species, newest first: line, season, bank, populations, groups."""
    held = claims(Wanted.season_id, Wanted.taxon_id)
    found = (
        select(Wanted, Season, Bank.name.label("bank"), POPULATIONS.label("populations"), held.label("held"))
        .join(Season, Season.id == Wanted.season_id)
        .join(Bank, Bank.id == Season.bank_id)
        .where(Wanted.taxon_id == taxon_id)
    )
    return work.db.execute(found.order_by(Season.year.desc(), Bank.name).limit(MOST_SEASONS)).all()
