"""Whether a database holds the tables of this version, told without Alembic, which takes long to import."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from hub.config import Misconfigured

if TYPE_CHECKING:
    from sqlalchemy import Connection

MIGRATIONS = Path(__file__).parent / "migrations" / "versions"
SEEN = "select version_num from alembic_version"


def known() -> list[str]:
    """The migrations of this version, the oldest first; the name of each file begins with its number."""
    return sorted(path.name.partition("_")[0] for path in MIGRATIONS.glob("[0-9]*.py"))


def seen_by(connection: Connection) -> str | None:
    """The newest migration that a database has seen; None where it has no tables yet."""
    from sqlalchemy import inspect, text

    if not inspect(connection).has_table("alembic_version"):
        return None
    found: str | None = connection.scalar(text(SEEN))
    return found


def seen_by_file(path: Path) -> str | None:
    """The same of an embedded hub, asked at its every start: quicker than SQLAlchemy is imported."""
    with closing(sqlite3.connect(path)) as connection:
        tables = connection.execute("select name from sqlite_master where name = 'alembic_version'")
        row = connection.execute(SEEN).fetchone() if tables.fetchone() else None
    return row[0] if row else None


def is_current(seen: str | None) -> bool:
    """Whether this is the newest migration that the hub knows."""
    return seen == known()[-1]


def refuse_another(seen: str | None) -> None:
    """Raise ``Misconfigured`` where the tables are missing, older or newer."""
    if seen is not None and seen not in known():
        raise Misconfigured("The tables are those of a newer version of the hub. Install that version.")
    if not is_current(seen):
        raise Misconfigured("The tables are missing or older than this version. Run “hub db upgrade” first.")
