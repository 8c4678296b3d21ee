"""A need: how many populations of a wanted species, and from where."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from hub.taxa.models import Need
from hub.words import Refused, say

MOST_POPULATIONS = 99


@dataclass(frozen=True)
class NeedGiven:
    """So many populations, from one ecoregion and district, or from anywhere."""

    populations: int = 1
    ecoregion_id: UUID | None = None
    district_id: UUID | None = None

    @classmethod
    def of(cls, need: Need) -> NeedGiven:
        """A stored need as it would be given."""
        return cls(need.populations, need.ecoregion_id, need.district_id)

    @property
    def place(self) -> tuple[UUID | None, UUID | None]:
        return self.ecoregion_id, self.district_id


def check_needs(needs: Iterable[NeedGiven]) -> None:
    """Refuse a need of nothing, and two needs of one place. They name their row: ``needs-1-populations``."""
    seen = set()
    for at, need in enumerate(needs):
        if not 1 <= need.populations <= MOST_POPULATIONS:
            raise Refused(
                say("A need is 1 to {n} populations.", n=MOST_POPULATIONS), field=f"needs-{at}-populations"
            )
        if need.place in seen:
            raise Refused(
                say("This place has a row already. Write the number of populations there."),
                field=f"needs-{at}-ecoregion_id",
            )
        seen.add(need.place)


def as_told(needs: Iterable[NeedGiven]) -> list[dict[str, Any]]:
    """Needs in a fixed order, as the audit chain keeps them."""
    rows = [
        {
            "populations": need.populations,
            "ecoregion": str(need.ecoregion_id or ""),
            "district": str(need.district_id or ""),
        }
        for need in needs
    ]
    return sorted(rows, key=lambda row: (row["ecoregion"], row["district"]))
