"""The wanted list of a season."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from sqlalchemy import Row, select

from hub.audit.queries import history_of
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import Bank
from hub.taxa.claims import claims
from hub.taxa.models import Need, Season, Wanted
from hub.taxa.queries.lists import POPULATIONS

MOST_SEASONS = 12  # shown on the page of one species


def wanted_of(work: Work, season_id: UUID, taxon_id: UUID) -> Wanted | None:
    """A species' line on a season's list."""
    found = select(Wanted).where(Wanted.season_id == season_id, Wanted.taxon_id == taxon_id)
    return work.db.scalars(found).one_or_none()


def needs_of(work: Work, wanted_id: UUID) -> list[Need]:
    """How many populations are needed, and from where, in a fixed order."""
    found = select(Need).where(Need.wanted_id == wanted_id)
    return list(work.db.scalars(found.order_by(Need.ecoregion_id, Need.district_id, Need.id)))


def needs_by_line(work: Work, wanted_ids: Sequence[UUID]) -> dict[UUID, list[Need]]:
    """The needs of several lines of a list, in one question."""
    found = select(Need).where(Need.wanted_id.in_(wanted_ids)).order_by(Need.populations.desc(), Need.id)
    needs: dict[UUID, list[Need]] = {each: [] for each in wanted_ids}
    for need in work.db.scalars(found) if wanted_ids else ():
        needs[need.wanted_id].append(need)
    return needs


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
