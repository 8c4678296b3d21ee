"""Engines for SQLite and PostgreSQL, and what every connection and transaction must be told first."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, text
from sqlalchemy.orm import SessionTransaction

from hub.db.tenancy import ScopedSession

WRITERS_TURN = 4_701_963  # any number will do, as long as it is always the same
SQLITE_PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=15000")


def make_engine(url: str) -> Engine:
    """An engine that refuses nothing and loses nothing: foreign keys on, one writer at a time on SQLite."""
    if url.startswith("postgresql"):
        url = url.replace("postgresql://", "postgresql+psycopg://", 1)
        return create_engine(url, pool_pre_ping=True)
    engine = create_engine(url)
    event.listen(engine, "connect", prepare_sqlite)
    event.listen(engine, "begin", begin_sqlite)
    return engine


def prepare_sqlite(connection: Any, record: object) -> None:
    connection.isolation_level = None  # SQLAlchemy says BEGIN, not the driver.
    for pragma in SQLITE_PRAGMAS:
        connection.execute(f"PRAGMA {pragma}")


def begin_sqlite(connection: Connection) -> None:
    """Take the write lock at once where the work will write: a lock taken late fails under load."""
    connection.exec_driver_sql("BEGIN" if reads_only(connection) else "BEGIN IMMEDIATE")


def reads_only(connection: Connection) -> bool:
    """Whether the work on this connection promised to write nothing."""
    return bool(connection.get_execution_options().get("reads_only", False))


@event.listens_for(ScopedSession, "after_begin")
def announce(session: ScopedSession, transaction: SessionTransaction, connection: Connection) -> None:
    """Tell PostgreSQL's row-level security who is asking, and wait for one's turn to write.

    Writers take turns, as on SQLite: every change ends in the one audit chain anyway, and whoever waits at
    the door holds no row that another needs, so no two can lock each other out.
    """
    if connection.dialect.name != "postgresql":
        return
    scope = session.scope
    connection.execute(
        text(
            "select set_config('hub.everyone', :everyone, true), set_config('hub.group', :group, true),"
            " set_config('hub.bank', :bank, true), set_config('hub.home_bank', :home_bank, true),"
            " set_config('hub.region', :region, true)"
            + ("" if reads_only(connection) else f", pg_advisory_xact_lock({WRITERS_TURN})")
        ),
        {
            "everyone": "on" if scope.spans_tenants else "",
            "group": str(scope.own_group_id or ""),
            "bank": str(scope.own_bank_id or ""),
            "home_bank": str(scope.bank_id or ""),
            "region": str(scope.own_region_id or ""),
        },
    )
