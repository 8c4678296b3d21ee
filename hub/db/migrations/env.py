"""Run by Alembic for each migration, on a connection that ``hub.db.migrate`` hands over."""

from __future__ import annotations

from typing import Any, Literal

from alembic import context
from alembic.autogenerate.api import AutogenContext

from hub.db.base import Base, Document, Moment


def spelled(kind: str, item: Any, autogen: AutogenContext) -> str | Literal[False]:
    """Name the hub's own column types in a migration, instead of spelling out what they are made of."""
    if kind == "type" and item is Document:
        return "hub.db.base.Document"
    if kind == "type" and isinstance(item, Moment):
        return "hub.db.base.Moment()"
    return False


context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,
    compare_type=True,
    render_item=spelled,
)
with context.begin_transaction():
    context.run_migrations()
