"""How the hub itself is: its store, its letters, its disk and its rounds. For whoever runs it."""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Engine, Select, func, or_, select
from sqlalchemy.exc import SQLAlchemyError

from hub.accounts.models import Letter, LetterState
from hub.db import pulse
from hub.db.pulse import Pulse
from hub.db.work import Work

SCARCE = 0.1  # of a disk: free space below this share, or below the bytes of the next line, is told
SCARCE_BYTES = 1_000_000_000
LATE_ROUND = timedelta(minutes=5)  # our own default: a round comes every few seconds
LATE_LETTER = timedelta(hours=1)
STORES = {"sqlite": "SQLite", "postgresql": "PostgreSQL"}
LETTER_ORDERS: dict[str, Sequence[Any]] = {
    "newest": (Letter.written_at.desc(), Letter.id),
    "oldest": (Letter.written_at, Letter.id),
    "tries": (Letter.tries.desc(), Letter.id),
}


@dataclass(frozen=True)
class Post:
    """The letters that have not left: how many wait and since when, how many failed, and the last trouble."""

    waiting: int
    oldest: datetime | None
    failed: int
    trouble: str


@dataclass(frozen=True)
class Disk:
    """The disk under the hub's data folder, in bytes."""

    free: int
    whole: int

    @property
    def scarce(self) -> bool:
        return self.free < SCARCE_BYTES or self.free < SCARCE * self.whole


@dataclass(frozen=True)
class Condition:
    """All of it at one moment. ``migrations`` are those still to run, None when that cannot be told."""

    store: str
    migrations: list[str] | None
    post: Post
    disk: Disk
    pulse: Pulse | None
    now: datetime

    @property
    def letters_late(self) -> bool:
        return self.post.oldest is not None and self.now - self.post.oldest > LATE_LETTER

    @property
    def rounds_late(self) -> bool:
        return self.pulse is None or self.now - self.pulse.at > LATE_ROUND

    @property
    def good(self) -> bool:
        """Whether nothing asks for a look."""
        troubles = (self.letters_late, self.rounds_late, self.disk.scarce, self.post.failed)
        return self.migrations == [] and not any(troubles) and not (self.pulse and self.pulse.broken)


def condition(work: Work, engine: Engine) -> Condition:
    """How the hub is now."""
    usage = shutil.disk_usage(work.settings.data_dir)
    return Condition(
        STORES.get(engine.dialect.name, engine.dialect.name),
        migrations_left(engine),
        post_of(work),
        Disk(usage.free, usage.total),
        pulse.last(work.settings.data_dir),
        work.now,
    )


def migrations_left(engine: Engine) -> list[str] | None:
    from hub.db import migrate  # half a second, which only this page needs to spend

    try:
        return migrate.missing(engine)
    except SQLAlchemyError:
        return None


def post_of(work: Work) -> Post:
    """The letters by state, and what the last failure said."""
    found: Any = select(Letter.state, func.count(), func.min(Letter.written_at)).group_by(Letter.state)
    counts = {state: (count, oldest) for state, count, oldest in work.db.execute(unsent(found))}
    waiting, oldest = counts.get(LetterState.WAITING, (0, None))
    last: Any = select(Letter.trouble).where(Letter.trouble != "").order_by(Letter.written_at.desc()).limit(1)
    trouble = work.db.scalar(unsent(last)) or ""
    return Post(waiting, oldest, counts.get(LetterState.FAILED, (0, None))[0], trouble)


def unsent(statement: Select[Any]) -> Select[Any]:
    """Letters that have not left. Those that have are many, and nobody asks for them here."""
    return statement.where(Letter.state.in_((LetterState.WAITING, LetterState.FAILED)))


def letters(*, search: str | None = None, state: LetterState | None = None) -> Select[Any]:
    """Letters by state, those not yet gone where none is asked for; their words are nobody's business."""
    columns = (Letter.id, Letter.to, Letter.subject, Letter.state, Letter.written_at, Letter.due_at)
    found: Any = select(*columns, Letter.tries, Letter.trouble)
    found = found.where(Letter.state == state) if state else unsent(found)
    if search:
        either = (Letter.to, Letter.subject, Letter.trouble)
        found = found.where(or_(*(column.icontains(search, autoescape=True) for column in either)))
    return found
