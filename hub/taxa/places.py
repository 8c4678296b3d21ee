"""The ecoregions and districts that a bank's list may name: by id, by code or by name."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from hub.db.work import Work
from hub.groups.models import Bank
from hub.taxa import queries
from hub.taxa.models import Season
from hub.taxa.needs import NeedGiven
from hub.words import NotFound


@dataclass(frozen=True)
class Places:
    """Codes by id, and ids by every way of writing a place, small."""

    ecoregion_codes: dict[UUID, str]
    district_codes: dict[UUID, str]
    ecoregion_ids: dict[str, UUID]
    district_ids: dict[str, UUID]

    @classmethod
    def of(cls, work: Work, season: Season) -> Places:
        """The places of the region that the season's bank stands in."""
        bank = work.db.get(Bank, season.bank_id)
        if bank is None:
            raise NotFound(season.bank_id)
        ecoregions = queries.ecoregions(work, bank.region_id)
        districts = queries.districts(work, bank.region_id)
        return cls(
            {each.id: each.code for each in ecoregions},
            {each.id: each.code for each in districts},
            {text.casefold(): each.id for each in ecoregions for text in (each.name, each.code)},
            {text.casefold(): each.id for each in districts for text in (each.name, each.code)},
        )

    def codes(self, place: NeedGiven) -> tuple[str, str]:
        """The codes of a need's ecoregion and district, empty where it is open."""
        return (
            self.ecoregion_codes[place.ecoregion_id] if place.ecoregion_id else "",
            self.district_codes[place.district_id] if place.district_id else "",
        )
