"""Which season's list is being looked at, and the parts of its region that a list can be narrowed to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from hub.db.work import Work
from hub.groups.models import Bank, District
from hub.taxa import queries
from hub.taxa.models import Difficulty, Ecoregion, Need, Season
from hub.taxa.needs import NeedGiven
from hub.taxa.rules import CareClass
from hub.taxa.trait_words import DIFFICULTIES
from hub.web.fields import Choice, Identifier, Yes
from hub.web.listing import Filter
from hub.words import Words, say

YES = say("yes")
ELSEWHERE = say("not of this list")


@dataclass(frozen=True)
class Shelf:
    """The seasons to choose among, the one chosen, and the places of its region by id."""

    seasons: dict[UUID, str]
    season: Season
    bank: Bank
    districts: dict[UUID, District]
    ecoregions: dict[UUID, Ecoregion]

    @classmethod
    def of(cls, work: Work, asked: str = "") -> Shelf | None:
        """The season of this id, or else the one that matters most to whoever reads."""
        every = queries.every_season(work)
        if not every:
            return None
        season, bank = chosen(work, every, asked)
        return cls(
            {each.id: f"{owner.name} {each.year}" for each, owner in every},
            season,
            bank,
            {each.id: each for each in queries.districts(work, bank.region_id)},
            {each.id: each for each in queries.ecoregions(work, bank.region_id)},
        )

    @property
    def district_choices(self) -> list[tuple[str, str]]:
        return [(str(each.id), each.name) for each in self.districts.values()]

    @property
    def ecoregion_choices(self) -> list[tuple[str, str]]:
        return [(str(each.id), f"{each.code} {each.name}") for each in self.ecoregions.values()]

    @property
    def filters(self) -> list[Filter]:
        """What the list can be narrowed by."""
        return [
            Filter("season", say("Season"), Identifier(), lambda it: self.seasons.get(it, ELSEWHERE)),
            Filter("district", say("District"), Identifier(), lambda it: name_in(self.districts, it)),
            Filter(
                "ecoregion", say("Ecoregion"), Identifier(), lambda value: name_in(self.ecoregions, value)
            ),
            Filter("care", say("Care class"), Choice(CareClass), lambda it: it.words),
            Filter("difficulty", say("How hard"), Choice(Difficulty), DIFFICULTIES.__getitem__),
            Filter("school", say("Suits a school"), Yes(), lambda it: YES),
            Filter("needed", say("Still needed"), Yes(), lambda it: YES),
        ]

    def where(self, need: Need | NeedGiven) -> Words:
        """The place of a need, in words that follow a number of populations."""
        district = self.districts[need.district_id].name if need.district_id else ""
        ecoregion = self.ecoregions[need.ecoregion_id].name if need.ecoregion_id else ""
        if district and ecoregion:
            return say("from {district}, ecoregion {ecoregion}", district=district, ecoregion=ecoregion)
        if ecoregion:
            return say("from ecoregion {ecoregion}", ecoregion=ecoregion)
        return say("from {district}", district=district) if district else say("from anywhere in the region")


def chosen(work: Work, every: Sequence[Any], asked: str) -> tuple[Season, Bank]:
    """The asked season; else the running one of the reader's bank, or of any; else the newest."""
    named = [row for row in every if str(row[0].id) == asked.strip().lower()]
    own = [row for row in every if row[1].id == work.scope.bank_id] or every
    running = [row for row in own if row[0].opens_on <= work.today <= row[0].closes_on]
    season, bank = (named or running or own)[0]
    return season, bank


def name_in(places: dict[UUID, Any], value: UUID) -> Words | str:
    return places[value].name if value in places else ELSEWHERE
