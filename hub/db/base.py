"""The one declarative base, with named constraints, and the column types that the tables share."""

from __future__ import annotations

from datetime import UTC, date, datetime
from enum import StrEnum
from typing import Annotated, Any
from uuid import UUID, uuid4

from sqlalchemy import JSON, Date, DateTime, Enum, MetaData, String, Text, Uuid
from sqlalchemy.dialects.postgresql import JSONB
from sqlalchemy.engine import Dialect
from sqlalchemy.orm import DeclarativeBase, mapped_column
from sqlalchemy.types import TypeDecorator

NAMES = {
    "ix": "ix_%(column_0_N_label)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}


class Moment(TypeDecorator[datetime]):
    """An instant, kept in UTC. SQLite forgets zones, so naive values are refused before they get in."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("an instant needs its zone")
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


def choice(kind: type[StrEnum]) -> Enum:
    """A column of one of the enum's values, kept as text with a check constraint."""
    return Enum(
        kind,
        native_enum=False,
        create_constraint=True,
        length=40,
        name=kind.__name__.lower(),
        values_callable=lambda members: [member.value for member in members],
    )


Document = JSON().with_variant(JSONB(), "postgresql")

# Keys are made in Python, so that an action can name the row it adds before the row is stored.
Key = Annotated[UUID, mapped_column(Uuid, primary_key=True, default=uuid4)]
Short = Annotated[str, mapped_column(String(200))]
Long = Annotated[str, mapped_column(Text, default="")]
Stored = Annotated[dict[str, Any], mapped_column(Document)]


class Base(DeclarativeBase):
    """Every table of the hub."""

    metadata = MetaData(naming_convention=NAMES)
    type_annotation_map = {
        datetime: Moment,
        date: Date,
        UUID: Uuid,
        dict[str, Any]: Document,
        list[Any]: Document,
    }
