"""How often something was tried in a while: one small table that all processes of a hub share."""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlalchemy import Engine, Integer, String, case, delete
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base
from hub.db.work import Work


class RateCount(Base):
    """One thing that is counted, under a digest that gives away neither address nor account."""

    __tablename__ = "rate_count"
    key: Mapped[str] = mapped_column(String(64), primary_key=True)
    until: Mapped[datetime]  # then the count starts anew
    count: Mapped[int] = mapped_column(Integer)


def count(engine: Engine, key: str, *, now: datetime, within: timedelta) -> tuple[int, datetime]:
    """Count one more try. Returns the tries since the count began, and when it starts anew.

    It is a transaction of its own: a try counts also when what was tried is undone.
    """
    insert = postgresql.insert if engine.dialect.name == "postgresql" else sqlite.insert
    first = insert(RateCount).values(key=key, until=now + within, count=1)
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


def forget_old(work: Work) -> None:
    """Drop the counts that are over; part of the hub's upkeep."""
    work.db.execute(delete(RateCount).where(RateCount.until <= work.now))
