"""Row-level security on PostgreSQL: the same fences as in Python, kept by the database itself."""

from __future__ import annotations

from sqlalchemy import Connection, Engine, text

from hub.config import Misconfigured
from hub.db.tenancy import EVERYONE, Scoped, scoped_classes


def protect(connection: Connection) -> None:
    """Put every scoped table behind its policy. Does nothing on SQLite, which has no such thing."""
    if connection.dialect.name != "postgresql":
        return
    for cls in scoped_classes():
        table = connection.dialect.identifier_preparer.quote(cls.__tablename__)  # type: ignore[attr-defined]
        connection.execute(text(f"alter table {table} enable row level security"))
        connection.execute(text(f"alter table {table} force row level security"))
        for verb, condition in policies_of(cls).items():
            connection.execute(text(f"drop policy if exists tenant_{verb} on {table}"))
            connection.execute(text(f"create policy tenant_{verb} on {table} for {verb} {condition}"))


def policies_of(cls: type[Scoped]) -> dict[str, str]:
    """What each verb may touch. Whoever reads a row may lock it: an update is held by its outcome."""
    rows = f"{EVERYONE} or {cls.policy}"
    added = f"{EVERYONE} or {cls.policy_for_new or cls.policy}"
    changed = f"{EVERYONE} or {cls.policy_for_change or cls.policy}"
    return {
        "select": f"using ({rows})",
        "insert": f"with check ({added})",
        "update": f"using ({rows}) with check ({changed})",
        "delete": f"using ({changed})",
    }


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
