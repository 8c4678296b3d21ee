"""Real databases for tests: a SQLite file copied for each test, and a private PostgreSQL server."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from alembic import command
from sqlalchemy import Engine, create_engine, text

from hub.db.base import Base
from hub.db.engine import make_engine
from hub.db.migrate import config_for
from hub.db.policies import protect
from hub.wiring import load_tables

OWNER, SERVER = "hub_owner", "hub_server"

MEMORY = Path("/dev/shm")  # noqa: S108  mkdtemp makes a private folder in it
ROOM_BYTES = 2 * 1024**3


class SqliteTemplate:
    """One database file made with every table, then copied: far quicker than making it for each test."""

    def __init__(self, folder: Path) -> None:
        load_tables()
        self.folder, self._numbers = folder, count(1)
        engine = make_engine(f"sqlite:///{folder / 'template.db'}")
        make_all(engine)
        engine.dispose()

    def copy(self) -> str:
        path = self.folder / f"test-{next(self._numbers)}.db"
        shutil.copyfile(self.folder / "template.db", path)
        return f"sqlite:///{path}"


def make_all(engine: Engine) -> None:
    """Every table, and the note that no migration is left to run."""
    with engine.begin() as connection:
        Base.metadata.create_all(connection)
        command.stamp(config_for(connection), "head")


def quickest_place() -> str | None:
    """Where a database is copied a hundred times an hour: in memory, where there is room, else on disk."""
    roomy = MEMORY.is_dir() and os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free > ROOM_BYTES
    return str(MEMORY) if roomy else None


def postgres_tools() -> Path:
    """The folder of the newest PostgreSQL server's programs, as Debian lays them out."""
    versions = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[4]))
    if not versions:
        raise FileNotFoundError("no PostgreSQL server is installed below /usr/lib/postgresql")
    return versions[-1].parent


@dataclass
class PrivateServer:
    """A PostgreSQL server of the tests' own, reached through a socket in its own folder and nowhere else."""

    folder: Path
    _numbers: Iterator[int]

    @classmethod
    @contextmanager
    def started(cls) -> Iterator[PrivateServer]:
        tools, folder = postgres_tools(), Path(tempfile.mkdtemp(prefix="hub-pg-", dir=quickest_place()))
        plain = as_plain_user(folder)
        quiet = {"check": True, "stdout": subprocess.DEVNULL, "cwd": folder, **plain}
        subprocess.run([tools / "initdb", "-D", folder / "data", "-U", OWNER, "-A", "trust", "-N"], **quiet)
        options = (
            f"-c listen_addresses= -c unix_socket_directories={folder} -c fsync=off -c full_page_writes=off "
            f"-c max_wal_size=256MB"
        )
        control = [tools / "pg_ctl", "-D", folder / "data", "-w", "-l", folder / "log"]
        subprocess.run([*control, "-o", options, "start"], **quiet)
        try:
            server = cls(folder, count(1))
            server.make_template()
            yield server
        finally:
            subprocess.run([*control, "-m", "immediate", "stop"], **quiet)
            shutil.rmtree(folder, ignore_errors=True)

    def url(self, database: str, role: str = SERVER) -> str:
        return f"postgresql+psycopg://{role}@/{database}?host={self.folder}"

    def run(self, *statements: str, database: str = "postgres") -> None:
        engine = create_engine(self.url(database, OWNER), isolation_level="AUTOCOMMIT")
        with engine.connect() as connection:
            for statement in statements:
                connection.execute(text(statement))
        engine.dispose()

    def make_template(self) -> None:
        load_tables()
        self.run(f"create role {SERVER} login nosuperuser nobypassrls", "create database hub_template")
        engine = create_engine(self.url("hub_template", OWNER))
        make_all(engine)
        with engine.begin() as connection:
            protect(connection)
            connection.execute(text(f"grant all on all tables in schema public to {SERVER}"))
        engine.dispose()

    @contextmanager
    def fresh(self) -> Iterator[str]:
        """A new database copied from the template; dropped afterwards."""
        name = f"hub_{next(self._numbers)}"
        self.run(f"create database {name} template hub_template strategy file_copy")
        yield self.url(name)
        self.run(f"drop database {name} with (force)")


def as_plain_user(folder: Path) -> dict[str, object]:
    """PostgreSQL refuses to run as root: hand its folder to the user that Debian's package made."""
    if os.geteuid() != 0:
        return {}
    user = pwd.getpwnam("postgres")
    os.chown(folder, user.pw_uid, user.pw_gid)
    return {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}
