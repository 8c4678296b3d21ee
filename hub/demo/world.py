"""What the demo has made so far, by the keys of its files, and whoever may work in it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from uuid import UUID

from hub.db.work import House, Work
from hub.groups.models import Seat
from hub.rights.scope import Role, Scope


@dataclass
class World:
    """Everything that steps look up by key: ``ids["site"]["cove-wood"]``."""

    house: House
    password_hash: str  # of everybody's one password, reckoned once
    ids: dict[str, dict[str, UUID]] = field(default_factory=lambda: defaultdict(dict))
    scopes: dict[str, Scope] = field(default_factory=dict)  # by the key of a seat

    @contextmanager
    def working(self, seat: str, at: datetime) -> Iterator[Work]:
        """Work in one seat at one moment; committed when it went well."""
        with self.house.work(self.scopes[seat], now=at) as work:
            yield work
            work.db.commit()

    @contextmanager
    def founding(self, at: datetime) -> Iterator[Work]:
        """Work that no seat can do yet, because there is nobody."""
        with self.house.work(Scope.everyone(because="founding the demo"), now=at) as work:
            yield work
            work.db.commit()

    def seat_taken(self, key: str, seat: Seat, region_id: UUID | None) -> None:
        """Remember the scope that a seat works in, as the hub itself makes it."""
        self.scopes[key] = Scope(
            person_id=seat.person_id,
            role=seat.role,
            group_id=seat.group_id,
            bank_id=seat.bank_id,
            region_id=seat.region_id or region_id,
            because="stewardship" if seat.role is Role.STEWARD else "",
        )


@dataclass(frozen=True, order=True)
class Step:
    """One thing that somebody does at one moment."""

    at: datetime
    does: Callable[[World], None] = field(compare=False)
    what: str = field(compare=False, default="")
