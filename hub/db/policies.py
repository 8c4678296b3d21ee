"""Row-level security on PostgreSQL: the same fences as in Python, kept by the database itself."""

from __future__ import annotations

from sqlalchemy import Connection, Engine, text

from hub.config import Misconfigured
from hub.db.tenancy import EVERYONE, scoped_classes


def protect(connection: Connection) -> None:
    """Put every scoped table behind its policy. Does nothing on SQLite, which has no such thing."""
    if connection.dialect.name != "postgresql":
        return
    for cls in scoped_classes():
        table = connection.dialect.identifier_preparer.quote(cls.__tablename__)  # type: ignore[attr-defined]
        rows = f"{EVERYONE} or {cls.policy}"
        added = f"{EVERYONE} or {cls.policy_for_new or cls.policy}"
        for statement in (
            f"alter table {table} enable row level security",
            f"alter table {table} force row level security",
            f"drop policy if exists tenant on {table}",
            f"create policy tenant on {table} using ({rows}) with check ({added})",
        ):
            connection.execute(text(statement))


def refuse_a_mighty_role(engine: Engine) -> None:
    """Raise ``Misconfigured`` where the hub's own role would pass by every policy in silence."""
    if engine.dialect.name != "postgresql":
        return
    mighty = "select rolsuper or rolbypassrls from pg_roles where rolname = current_user"
    with engine.connect() as connection:
        if connection.scalar(text(mighty)):
            raise Misconfigured(
                "HUB_DATABASE_URL names a role that passes by row-level security. Serve the hub with a plain "
                "role: create role … login nosuperuser nobypassrls."
            )
