"""The accession book of a bank, and a group's own list of what became of its seed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, func, or_, select

from hub.accessions.models import Accession, Lot
from hub.accessions.numbers import signs
from hub.accessions.rules import AccessionState
from hub.db.work import Work
from hub.groups.models import Group
from hub.sites.models import Population
from hub.taxa.models import Taxon
from hub.taxa.queries import matching

Orders = dict[str, Sequence[Any]]
BOOK_ORDERS: Orders = {
    "newest": (Accession.accessioned_at.desc(), Accession.id),
    "oldest": (Accession.accessioned_at, Accession.id),
    "number": (Accession.number, Accession.id),
    "number-down": (Accession.number.desc(), Accession.id),
    "species": (Taxon.canonical, Accession.number, Accession.id),
    "species-down": (Taxon.canonical.desc(), Accession.number.desc(), Accession.id),
    "group": (func.lower(Group.name), Accession.number, Accession.id),
    "group-down": (func.lower(Group.name).desc(), Accession.number.desc(), Accession.id),
    "collected": (Accession.collected_on, Accession.id),
    "collected-down": (Accession.collected_on.desc(), Accession.id),
}
OWN_ORDERS: Orders = {name: keys for name, keys in BOOK_ORDERS.items() if not name.startswith("group")}


def book(
    work: Work,
    *,
    search: str | None = None,
    taxon: UUID | None = None,
    group: UUID | None = None,
    state: AccessionState | None = None,
    year: int | None = None,
) -> Select[Any]:
    """The accessions of the asker's bank that meet every condition, each with its taxon and group's name."""
    found: Any = (
        select(Accession, Taxon, Group.name.label("group"))
        .join(Taxon, Taxon.id == Accession.taxon_id)
        .join(Group, Group.id == Accession.group_id)
    )
    if search:
        found = found.where(or_(numbered(search), Group.name.icontains(search, autoescape=True)))
    return narrowed(
        found,
        {Accession.group_id: group, Accession.taxon_id: taxon, Accession.state: state, Accession.year: year},
    )


def ours(
    work: Work,
    *,
    search: str | None = None,
    taxon: UUID | None = None,
    state: AccessionState | None = None,
    year: int | None = None,
) -> Select[Any]:
    """The accessions of the asker's own group, each with its taxon and its population's code."""
    found: Any = (
        select(Accession, Taxon, Population.code.label("population"))
        .join(Taxon, Taxon.id == Accession.taxon_id)
        .outerjoin(Population, Population.id == Accession.population_id)
        .where(Accession.group_id == work.scope.own_group_id)
    )
    if search:
        found = found.where(numbered(search))
    return narrowed(found, {Accession.taxon_id: taxon, Accession.state: state, Accession.year: year})


def narrowed(found: Select[Any], wanted: dict[Any, Any]) -> Select[Any]:
    """Where each column has the value asked for, if one is."""
    return found.where(*(column == value for column, value in wanted.items() if value is not None))


def numbered(search: str) -> ColumnElement[bool]:
    """Of this species, or with these letters and digits in its number, whatever stands between them."""
    plain = func.replace(Accession.number, "-", "")
    given = signs(search)
    return or_(matching(search), plain.contains(given)) if given else matching(search)


def holdings(work: Work, accession_ids: Sequence[UUID]) -> dict[UUID, tuple[int, int]]:
    """Lots and seeds of some accessions, in one question."""
    found = select(Lot.accession_id, func.count(), func.sum(Lot.balance_seeds))
    found = found.where(Lot.accession_id.in_(accession_ids)).group_by(Lot.accession_id)
    return {accession_id: (lots, int(seeds)) for accession_id, lots, seeds in work.db.execute(found)}


def choices(work: Work) -> dict[str, list[tuple[Any, Any]]]:
    """What the filters offer: the species, groups and years that this seat's accessions are of."""
    taxa = select(Taxon.id, Taxon.canonical).where(Taxon.id.in_(select(Accession.taxon_id)))
    groups = select(Group.id, Group.name).where(Group.id.in_(select(Accession.group_id)))
    years = select(Accession.year).distinct().order_by(Accession.year.desc())
    return {
        "taxon": [(key, name) for key, name in work.db.execute(taxa.order_by(Taxon.canonical))],
        "group": [(key, name) for key, name in work.db.execute(groups.order_by(Group.name))],
        "year": [(year, str(year)) for year in work.db.scalars(years)],
    }
