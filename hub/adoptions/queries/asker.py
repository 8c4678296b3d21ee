"""The group that looks for a species: what it has already, and what its bank lets it have."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from hub.adoptions.models import Adoption
from hub.adoptions.queries.adoptions import ours
from hub.adoptions.rules import HOLDING, IN_HAND, Ask, may_ask
from hub.db.work import Work
from hub.groups.models import Bank, Group
from hub.groups.queries import bank_of, my_group
from hub.groups.rules import GroupState
from hub.taxa.models import Season, Taxon
from hub.words import NotFound, Words


@dataclass(frozen=True)
class Asker:
    """One group in one season of its bank."""

    group: Group
    bank: Bank
    season: Season
    adoptions: Sequence[Adoption]

    def ours(self, taxon_id: UUID) -> Adoption | None:
        """The adoption by which the group holds a species, or has asked for it."""
        held = (each for each in self.adoptions if each.taxon_id == taxon_id and each.state in HOLDING)
        return next(held, None)

    def reason_against(self, taxon: Taxon, *, today: date, wanted: bool, groups: int) -> Words | None:
        """Why it may not adopt a species that ``groups`` groups have; None when it may."""
        return may_ask(
            Ask(
                group_active=self.group.state is GroupState.ACTIVE,
                season_over=today > self.season.closes_on,
                wanted=wanted,
                native=taxon.native,
                care=taxon.care_class,
                held_by_us=self.ours(taxon.id) is not None,
                groups_with_it=groups,
                groups_per_species=self.bank.groups_per_species,
                in_hand=sum(each.state in IN_HAND for each in self.adoptions),
                adoptions_per_group=self.bank.adoptions_per_group,
            )
        )


def asker(work: Work, season: Season) -> Asker:
    """The asking group in a season of its own bank. Raises NotFound for any other season."""
    group = my_group(work)
    if season.bank_id != group.bank_id:
        raise NotFound(season.id)
    return Asker(group, bank_of(work, group), season, ours(work, season_id=season.id))
