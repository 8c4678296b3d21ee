"""How often something was tried: two small tables that all processes of a hub share.

``RateCount`` counts tries in a while and begins anew; ``TriesInARow`` counts failures until a success.
"""

from __future__ import annotations

import hashlib
import hmac
from collections.abc import Callable
from datetime import datetime, timedelta

from sqlalchemy import Engine, Integer, String, case, delete, select, update
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Mapped, mapped_column

from hub.config import Settings
from hub.db.base import Base
from hub.db.work import Work

KEPT = timedelta(days=365)  # failures in a row that nobody added to for so long are forgotten
OpensAt = Callable[[int, datetime], datetime]


class RateCount(Base):
    """One thing that is counted, under a digest that gives away neither address nor account."""

    __tablename__ = "rate_count"
    key: Mapped[str] = mapped_column(String(64), primary_key=True)
    until: Mapped[datetime]  # then the count starts anew
    count: Mapped[int] = mapped_column(Integer)


class TriesInARow(Base):
    """Failures of one thing since it last went well, under a digest of the same kind."""

    __tablename__ = "tries_in_a_row"
    key: Mapped[str] = mapped_column(String(64), primary_key=True)
    count: Mapped[int] = mapped_column(Integer)
    last_at: Mapped[datetime]


def key_of(settings: Settings, name: str, who: str) -> str:
    """The digest under which something is counted. Without the hub's own key nobody can work it out."""
    return hmac.new(settings.secret_key.encode(), f"{name}\0{who}".encode(), hashlib.sha256).hexdigest()


def count(engine: Engine, key: str, *, now: datetime, within: timedelta) -> tuple[int, datetime]:
    """Count one more try. Returns the tries since the count began, and when it starts anew.

    It is a transaction of its own: a try counts also when what was tried is undone.
    """
    first = insert_on(engine)(RateCount).values(key=key, until=now + within, count=1)
    over = RateCount.until <= now
    more = first.on_conflict_do_update(
        index_elements=["key"],
        set_={
            "count": case((over, 1), else_=RateCount.count + 1),
            "until": case((over, now + within), else_=RateCount.until),
        },
    ).returning(RateCount.count, RateCount.until)
    with engine.begin() as connection:
        tries, until = connection.execute(more).one()
    return tries, until


def try_once_more(engine: Engine, key: str, *, now: datetime, opens_at: OpensAt) -> tuple[int, datetime]:
    """Count a try as failed before it is made, so that a thousand at one moment are a thousand.

    Returns the failures before it, and when it may be made; one that comes too early is not counted.
    """
    mine = TriesInARow.key == key
    first = insert_on(engine)(TriesInARow).values(key=key, count=0, last_at=now)
    with engine.begin() as connection:
        connection.execute(first.on_conflict_do_nothing())
        seen = select(TriesInARow.count, TriesInARow.last_at).where(mine).with_for_update()
        failures, last_at = connection.execute(seen).one()
        opens = opens_at(failures, last_at)
        if opens <= now:
            connection.execute(update(TriesInARow).where(mine).values(count=failures + 1, last_at=now))
    return failures, opens


def forget_failures(work: Work, name: str, who: str) -> None:
    """It went well, or was put right: its failures in a row begin anew."""
    work.db.execute(delete(TriesInARow).where(TriesInARow.key == key_of(work.settings, name, who)))


def insert_on(engine: Engine) -> Callable[[type[Base]], postgresql.Insert | sqlite.Insert]:
    """Inserting that can answer to a row that is there already, as this database writes it."""
    return postgresql.insert if engine.dialect.name == "postgresql" else sqlite.insert


def forget_old(work: Work) -> None:
    """Drop the counts that are over; part of the hub's upkeep."""
    work.db.execute(delete(RateCount).where(RateCount.until <= work.now))
    work.db.execute(delete(TriesInARow).where(TriesInARow.last_at <= work.now - KEPT))
