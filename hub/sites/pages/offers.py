"""What the forms of these pages offer to choose from, and which buttons a seat gets to see."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import select

from hub.db.work import Work
from hub.groups.queries import districts
from hub.rights.policy import may
from hub.rights.right import Right
from hub.sites.models import Population
from hub.taxa.closed_lists import Worded
from hub.taxa.models import Taxon
from hub.taxa.queries import find
from hub.words import Refused, Words, say


def members(kind: type[Worded]) -> list[tuple[str, Words]]:
    """The members of a closed list as choices."""
    return [(each.value, each.words) for each in kind]


def own_districts(work: Work) -> list[tuple[UUID, str]]:
    """The districts of the asker's region."""
    return [(each.id, each.name) for each in districts(work) if each.region_id == work.scope.region_id]


def species_here(work: Work) -> Sequence[Any]:
    """Id and name of every taxon with a population that this seat may see."""
    grown = select(Population.taxon_id)
    return work.db.execute(
        select(Taxon.id, Taxon.canonical).where(Taxon.id.in_(grown)).order_by(Taxon.canonical)
    ).all()


def species_names(work: Work) -> list[str]:
    """The names of all species, as suggestions below a box."""
    return list(work.db.scalars(select(Taxon.canonical).order_by(Taxon.canonical)))


def species_called(work: Work, name: str) -> UUID:
    """The species that somebody typed. Raises Refused beside the box."""
    taxon = find(work, name)
    if taxon is None:
        raise Refused(say("No species of this scientific name is known here."), field="species")
    return taxon.id


def rights(work: Work) -> dict[str, bool]:
    """What this seat may do, for the templates' buttons; the routes ask again."""
    return {
        "may_edit": may(work.scope, Right.SITE_EDIT),
        "may_count": may(work.scope, Right.CENSUS_RECORD),
        "may_share": may(work.scope, Right.SITE_SHARE),
        "may_verify": may(work.scope, Right.IDENTITY_VERIFY),
        "may_permit": may(work.scope, Right.PERMIT_RECORD),
        "may_decide": may(work.scope, Right.SALVAGE_DECIDE),
    }
