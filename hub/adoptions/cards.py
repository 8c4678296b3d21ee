"""A species as a card on the page where a group finds one, worked out for a whole page of them at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hub.adoptions import queries
from hub.adoptions.models import Adoption
from hub.adoptions.queries import Asker
from hub.adoptions.rules import ONE_GROUP_PER_POPULATION
from hub.adoptions.what_it_takes import what_it_takes
from hub.db.work import Work
from hub.taxa.models import Need, Season, Taxon, Wanted
from hub.words import Words


@dataclass(frozen=True)
class SpeciesCard:
    """One wanted species, as one group sees it. ``others`` counts the other groups that have it."""

    wanted: Wanted
    taxon: Taxon
    takes: list[Words]
    needs: list[Need]
    others: int
    ours: Adoption | None
    against: Words | None  # why the group may not ask for it

    @property
    def populations(self) -> int:
        """How many populations the bank wants; a line without needs wants one."""
        return sum(need.populations for need in self.needs) or 1

    @property
    def alone(self) -> bool:
        """Whether one group alone looks after each of its populations."""
        return self.taxon.care_class in ONE_GROUP_PER_POPULATION

    @property
    def open(self) -> int:
        """Populations that no group has taken on yet."""
        return max(0, self.populations - self.others - (self.ours is not None))


def cards(
    work: Work, season: Season, lines: Sequence[tuple[Wanted, Taxon]], asker: Asker | None
) -> list[SpeciesCard]:
    """The cards of one page; two questions to the store, however many lines."""
    groups = queries.holders_of_season(work, season.id, [taxon.id for _, taxon in lines])
    needs = queries.needs_of_lines(work, [wanted.id for wanted, _ in lines])
    return [
        card_of(work, wanted, taxon, needs.get(wanted.id, []), groups.get(taxon.id, 0), asker)
        for wanted, taxon in lines
    ]


def card_of(
    work: Work, wanted: Wanted, taxon: Taxon, needs: list[Need], groups: int, asker: Asker | None
) -> SpeciesCard:
    ours = asker.ours(taxon.id) if asker else None
    return SpeciesCard(
        wanted=wanted,
        taxon=taxon,
        takes=what_it_takes(taxon),
        needs=needs,
        others=groups - (ours is not None),
        ours=ours,
        against=asker.reason_against(taxon, today=work.today, wanted=True, groups=groups) if asker else None,
    )
