"""The first two fences between tenants: every scoped table says who sees its rows, in Python and in SQL.

``fence`` becomes a filter on every ORM statement of a session; ``policy`` becomes row-level security on
PostgreSQL. A composite foreign key on (tenant, id) keeps a child row inside its parent's tenant.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any, ClassVar, Self, cast
from uuid import UUID

from sqlalchemy import ColumnElement, ForeignKeyConstraint, UniqueConstraint, event, false
from sqlalchemy.orm import (
    Mapped,
    ORMExecuteState,
    Session,
    mapped_column,
    with_loader_criteria,
)
from sqlalchemy.sql.base import ExecutableOption

from hub.db.base import Base
from hub.rights.scope import Scope

# What row-level security reads; set for the length of one transaction by ``announce``.
EVERYONE = "current_setting('hub.everyone', true) = 'on'"
GROUP = "nullif(current_setting('hub.group', true), '')::uuid"
BANK = "nullif(current_setting('hub.bank', true), '')::uuid"
HOME_BANK = "nullif(current_setting('hub.home_bank', true), '')::uuid"
REGION = "nullif(current_setting('hub.region', true), '')::uuid"


Fence = Callable[[Any], ColumnElement[bool]]


class Scoped:
    """A table with rows that belong to somebody."""

    policy: ClassVar[str]  # the rows a tenant reads and changes, in SQL
    policy_for_new: ClassVar[str] = ""  # the rows a tenant may add, where that differs
    policy_for_change: ClassVar[str] = ""  # the rows a tenant may change or remove, where that differs
    append_only: ClassVar[bool] = False  # nobody changes or removes a row, whatever the seat

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        """The condition under which a seat sees a row, for the class itself and for any alias of it.

        A fence closes over keys alone: SQLAlchemy keeps its SQL and puts the present keys in each time.
        """
        raise NotImplementedError(cls)

    @classmethod
    def fence_for_writing(cls, scope: Scope) -> Fence:
        """The condition under which a seat may change or remove a row that it sees."""
        return cls.fence(scope)

    def is_written_by(self, scope: Scope) -> bool:
        """Whether a seat may add, change or remove this row, as far as its own columns tell."""
        return True


def nothing(rows: Any) -> ColumnElement[bool]:
    """The fence of a seat that has no business with a table."""
    return false()


def by_group_or_bank(scope: Scope) -> Fence:
    """Rows of the seat's own group, or of its own bank."""
    group_id, bank_id = scope.own_group_id, scope.own_bank_id
    if group_id:
        return lambda rows: rows.group_id == group_id
    return by_bank(bank_id)


def by_bank(bank_id: UUID | None) -> Fence:
    """Rows of one bank; none without a bank."""
    if bank_id is None:
        return nothing
    return lambda rows: rows.bank_id == bank_id


class GroupOwned(Scoped):
    """Rows of one group, seen by that group and by the bank that serves it."""

    group_id: Mapped[UUID] = mapped_column(index=True)
    bank_id: Mapped[UUID] = mapped_column(index=True)

    policy = f"group_id = {GROUP} or bank_id = {BANK}"

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        return by_group_or_bank(scope)

    def is_written_by(self, scope: Scope) -> bool:
        if scope.own_group_id:
            return self.group_id == scope.own_group_id
        return self.bank_id == scope.own_bank_id

    @classmethod
    def inside(cls, parent: str, column: str) -> ForeignKeyConstraint:
        """A foreign key that cannot point into another group."""
        return ForeignKeyConstraint(["group_id", column], [f"{parent}.group_id", f"{parent}.id"])

    @classmethod
    def of_group(cls) -> ForeignKeyConstraint:
        """The row's group and bank belong together."""
        return ForeignKeyConstraint(["bank_id", "group_id"], ["groups.bank_id", "groups.id"])


class BankOwned(Scoped):
    """Rows of one bank, seen by its staff alone."""

    bank_id: Mapped[UUID] = mapped_column(index=True)

    policy = f"bank_id = {BANK}"

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        return by_bank(scope.own_bank_id)

    def is_written_by(self, scope: Scope) -> bool:
        return self.bank_id == scope.own_bank_id

    @classmethod
    def inside(cls, parent: str, column: str) -> ForeignKeyConstraint:
        """A foreign key that cannot point into another bank."""
        return ForeignKeyConstraint(["bank_id", column], [f"{parent}.bank_id", f"{parent}.id"])


class BankShared(BankOwned):
    """Rows of one bank that its groups may read, such as permits; its staff alone writes them."""

    policy = f"bank_id = {HOME_BANK}"
    policy_for_new = policy_for_change = f"bank_id = {BANK}"

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        return by_bank(scope.own_bank_id or (scope.bank_id if scope.own_group_id else None))

    @classmethod
    def fence_for_writing(cls, scope: Scope) -> Fence:
        return by_bank(scope.own_bank_id)


def tenant_key(owner: str) -> UniqueConstraint:
    """The unique (owner, id) pair that composite foreign keys of child tables point at."""
    return UniqueConstraint(owner, "id")


def scoped_classes() -> list[type[Scoped]]:
    """Every mapped class with rows that belong to somebody."""
    return [mapper.class_ for mapper in Base.registry.mappers if issubclass(mapper.class_, Scoped)]


@lru_cache(maxsize=256)  # every page of one seat needs the same, and making them takes longer than a query
def fences(scope: Scope) -> list[ExecutableOption]:
    """The filters that one session puts on all of its ORM statements."""
    if scope.spans_tenants:
        return []
    return [
        with_loader_criteria(cls, cls.fence(scope), include_aliases=True, propagate_to_loaders=True)
        for cls in scoped_classes()
    ]


@lru_cache(maxsize=256)
def fences_for_writing(scope: Scope) -> list[ExecutableOption]:
    """The filters that one session puts on all that it changes or removes in bulk."""
    if scope.spans_tenants:
        return []
    return [
        with_loader_criteria(
            cls, cls.fence_for_writing(scope), include_aliases=True, propagate_to_loaders=True
        )
        for cls in scoped_classes()
    ]


class ScopedSession(Session):
    """A session that serves one scope from beginning to end."""

    scope: Scope
    _fences: list[ExecutableOption] | None = None

    @classmethod
    def of(cls, scope: Scope, **options: object) -> Self:
        session = cls(**options)  # type: ignore[arg-type]
        session.scope = scope
        return session

    @property
    def fences(self) -> list[ExecutableOption]:
        if self._fences is None:
            self._fences = fences(self.scope)
        return self._fences


@event.listens_for(ScopedSession, "do_orm_execute")
def keep_inside(state: ORMExecuteState) -> None:
    """Put the session's filters on every select, update and delete, whoever wrote it."""
    session = cast(ScopedSession, state.session)
    if state.is_select:
        state.statement = state.statement.options(*session.fences)
    elif state.is_update or state.is_delete:
        refuse_append_only(state)
        state.statement = state.statement.options(*session.fences, *fences_for_writing(session.scope))


def refuse_append_only(state: ORMExecuteState) -> None:
    mapper = state.bind_mapper
    if mapper is not None and getattr(mapper.class_, "append_only", False):
        raise OutsideScope(f"{mapper.class_.__name__} is only added to")


class OutsideScope(Exception):
    """A row was about to be written for another tenant: a fault in the code, never a person's mistake."""


@event.listens_for(ScopedSession, "before_flush")
def write_inside(session: ScopedSession, context: object, instances: object) -> None:
    """Refuse rows of another group or bank, and any change of what is only added to."""
    changed = [row for row in session.dirty if session.is_modified(row)] + list(session.deleted)
    for row in (row for row in changed if isinstance(row, Scoped) and row.append_only):
        raise OutsideScope(f"{type(row).__name__} is only added to")
    if session.scope.spans_tenants:
        return
    for row in (*session.new, *changed):
        if isinstance(row, Scoped) and not row.is_written_by(session.scope):
            raise OutsideScope(f"{type(row).__name__} of somebody else")
