"""Bring a database to the tables of this version, and write a migration when the tables have changed."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, text

from hub.db.base import Base
from hub.db.policies import protect

MIGRATIONS = Path(__file__).parent / "migrations"


def config_for(connection: Connection | None = None) -> Config:
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    config.attributes["connection"] = connection
    return config


def upgrade(engine: Engine) -> None:
    """Run every migration that this database has not seen, then renew its row-level security.

    SQLite changes a table by making it anew and dropping the old one; with foreign keys on, that would take
    the child rows along. So they are off while the migration runs and every key is checked afterwards.
    """
    with engine.connect() as connection:
        is_sqlite = connection.dialect.name == "sqlite"
        if is_sqlite:
            connection.connection.driver_connection.execute("PRAGMA foreign_keys=OFF")  # type: ignore[union-attr]
        with connection.begin():
            see_all_rows(connection)
            command.upgrade(config_for(connection), "head")
            protect(connection)
            if is_sqlite and (stray := connection.execute(text("PRAGMA foreign_key_check")).all()):
                raise RuntimeError(f"after the migration these rows point nowhere: {stray[:5]}")
        if is_sqlite:
            connection.connection.driver_connection.execute("PRAGMA foreign_keys=ON")  # type: ignore[union-attr]


def see_all_rows(connection: Connection) -> None:
    """A migration changes every tenant's rows: PostgreSQL's policies would hide them all, without a word."""
    if connection.dialect.name == "postgresql":
        connection.execute(text("select set_config('hub.everyone', 'on', true)"))


def missing(engine: Engine) -> list[str]:
    """The migrations of this version that a database has not seen, the oldest first."""
    scripts = ScriptDirectory.from_config(config_for())
    with engine.connect().execution_options(reads_only=True) as connection:
        seen = MigrationContext.configure(connection).get_current_revision()
    newer = scripts.iterate_revisions("head", seen or "base")
    return [each.revision for each in newer][::-1]


def differences(engine: Engine) -> list[object]:
    """How a database's tables differ from the models; empty when they agree."""
    with engine.connect() as connection:
        return list(compare_metadata(MigrationContext.configure(connection), Base.metadata))


def write_migration(engine: Engine, message: str) -> None:
    """Write the migration that takes this (upgraded) database to today's models."""
    with engine.connect() as connection, connection.begin():
        command.revision(config_for(connection), message=message, autogenerate=True)
