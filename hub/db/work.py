"""Work: the one object that every query and action takes first. It says on whose behalf and when."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from sqlalchemy import Engine

from hub.db.tenancy import ScopedSession
from hub.rights.scope import Scope

if TYPE_CHECKING:
    from hub.config import Settings
    from hub.db.files import Files


@dataclass(frozen=True)
class Work:
    """One piece of work for one seat at one moment. Actions add to ``db``; the edge commits once.

    ``now`` is passed in, never read from the clock, so that any day can be tested. ``zone`` is the bank's,
    and decides which calendar day ``now`` falls on.
    """

    db: ScopedSession
    scope: Scope
    now: datetime
    settings: Settings
    files: Files
    zone: ZoneInfo

    @property
    def today(self) -> date:
        return self.now.astimezone(self.zone).date()


@dataclass(frozen=True)
class House:
    """What all work in one running hub shares."""

    settings: Settings
    engine: Engine
    files: Files

    def now(self) -> datetime:
        """The present moment. A demo hub lives ahead of the calendar, in the season of its data."""
        return datetime.now(UTC) + timedelta(days=self.settings.days_ahead)

    @contextmanager
    def work(
        self, scope: Scope, *, now: datetime | None = None, zone: str = "UTC", reads_only: bool = False
    ) -> Iterator[Work]:
        """Open work for a scope. Whoever opened it commits; anything not committed is undone at the end."""
        bind = self.engine.execution_options(reads_only=True) if reads_only else self.engine
        session = ScopedSession.of(scope, bind=bind, autoflush=True, expire_on_commit=False)
        with session:
            yield Work(session, scope, now or self.now(), self.settings, self.files, ZoneInfo(zone))
