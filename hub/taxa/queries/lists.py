"""The lists of species and of what is wanted, narrowed and ordered as a page asks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, case, false, func, or_, select

from hub.db.work import Work
from hub.taxa.claims import claims
from hub.taxa.models import Difficulty, Need, Taxon, TaxonEcoregion, Wanted
from hub.taxa.queries.species import matching
from hub.taxa.queries.visitors import KEPT_BACK, is_visitor
from hub.taxa.rules import CareClass, StorageBehaviour

MOST_CAREFUL_FIRST = ("gone", "critical", "rare", "unknown", "watch", "secure")
BY_CARE = case({CareClass(care): at for at, care in enumerate(MOST_CAREFUL_FIRST)}, value=Taxon.care_class)
BY_DIFFICULTY = case({level: at for at, level in enumerate(Difficulty)}, value=Taxon.difficulty)

POPULATIONS: ColumnElement[int] = func.coalesce(
    select(func.sum(Need.populations)).where(Need.wanted_id == Wanted.id).scalar_subquery(), 0
)

Orders = dict[str, Sequence[Any]]
BY_NAME = (Taxon.canonical, Taxon.id)
SPECIES_ORDERS: Orders = {
    "name": BY_NAME,
    "name-down": (Taxon.canonical.desc(), Taxon.id),
    "family": (Taxon.family, *BY_NAME),
    "care": (BY_CARE, *BY_NAME),
    "ripening": (Taxon.ripens_from, *BY_NAME),
}
WANTED_ORDERS: Orders = {
    "priority": (Wanted.priority, *BY_NAME),
    "name": BY_NAME,
    "ripening": (Taxon.ripens_from, *BY_NAME),
    "difficulty": (BY_DIFFICULTY, *BY_NAME),
    "care": (BY_CARE, *BY_NAME),
}


def species(
    *,
    search: str | None = None,
    care: CareClass | None = None,
    storage: StorageBehaviour | None = None,
    difficulty: Difficulty | None = None,
    ecoregion: UUID | None = None,
    school: bool = False,
) -> Select[Any]:
    """Species that meet every condition given."""
    found: Select[Any] = select(Taxon)
    if search:
        found = found.where(matching(search))
    if storage:
        found = found.where(Taxon.storage == storage)
    if ecoregion:
        grows = select(TaxonEcoregion.taxon_id).where(TaxonEcoregion.ecoregion_id == ecoregion)
        found = found.where(Taxon.id.in_(grows))
    return narrowed(found, care, difficulty, school)


def wanted(
    work: Work,
    season_id: UUID,
    *,
    search: str | None = None,
    care: CareClass | None = None,
    difficulty: Difficulty | None = None,
    district: UUID | None = None,
    ecoregion: UUID | None = None,
    school: bool = False,
    needed: bool = False,
) -> Select[Any]:
    """Lines of a season's list with their species, the populations needed, and the groups that hold it.

    A need that is open to any place is found by every district and ecoregion; and by every district for a
    visitor, where the species' own district is kept back.
    """
    held = claims(Wanted.season_id, Wanted.taxon_id)
    columns: tuple[Any, ...] = (Wanted, Taxon, POPULATIONS.label("populations"), held.label("held"))
    found: Select[Any] = select(*columns).join(Taxon, Taxon.id == Wanted.taxon_id)
    found = found.where(Wanted.season_id == season_id)
    if search:
        found = found.where(matching(search))
    for column, place, hidden in (
        (Need.district_id, district, KEPT_BACK if is_visitor(work) else false()),
        (Need.ecoregion_id, ecoregion, false()),
    ):
        if place:
            there = select(Need.wanted_id).where(or_(column == place, column.is_(None)))
            found = found.where(or_(Wanted.id.in_(there), hidden))
    if needed:
        found = found.where(held < POPULATIONS)
    return narrowed(found, care, difficulty, school)


def narrowed(
    found: Select[Any], care: CareClass | None, difficulty: Difficulty | None, school: bool
) -> Select[Any]:
    """The conditions that both lists share."""
    if care:
        found = found.where(Taxon.care_class == care)
    if difficulty:
        found = found.where(Taxon.difficulty == difficulty)
    return found.where(Taxon.suits_school) if school else found
