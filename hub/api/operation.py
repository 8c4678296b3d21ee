"""How an operation of the API is declared: what it needs, takes and gives, all in one place.

The declaration guards the route, reads and checks what was sent, dumps what the view returns, and is what the
OpenAPI document is written from, so that document and behaviour cannot part.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from flask import Blueprint
from marshmallow import Schema

from hub.db.work import Work
from hub.rights.policy import may
from hub.rights.right import Right
from hub.rights.scope import Scope
from hub.web.guard import SAFE
from hub.words import Words

View = TypeVar("View", bound=Callable[..., Any])
ARGUMENT = re.compile(r"<(?:(\w+)(?:\([^)]*\))?:)?(\w+)>")


@dataclass(frozen=True)
class Operation:
    """One method on one path.

    ``asks`` reads the query, ``takes`` the body, ``gives`` writes the answer. ``current`` gives the resource
    as it stands, for If-Match. ``once`` asks for an Idempotency-Key.
    """

    method: str
    path: str
    summary: Words
    needs: Right
    view: Callable[..., Any]
    name: str
    tag: str
    asks: Schema | None = None
    takes: Schema | None = None
    gives: Schema | None = None
    status: int = 200
    many: bool = False  # a list that is whole
    paged: bool = False  # a list that goes on
    current: Callable[..., Any] | None = None
    once: bool = False
    multipart: bool = False  # the body is a form with a file
    binary: str = ""  # media type of an answer that is a file
    leads_to: str = ""  # the operation that shows what was made
    example: Any = None  # of the body
    because: str = ""  # why its work must see across all tenants, where it must

    @property
    def reads(self) -> bool:
        """Whether it changes nothing."""
        return self.method in SAFE

    @property
    def is_public(self) -> bool:
        """Whether it needs no key."""
        return may(Scope.nobody(), self.needs)

    @property
    def arguments(self) -> list[tuple[str, str]]:
        """Kind and name of each argument in the path."""
        return [(kind or "string", name) for kind, name in ARGUMENT.findall(self.path)]

    @property
    def documented_path(self) -> str:
        """The path as OpenAPI writes it."""
        return ARGUMENT.sub(r"{\2}", self.path)


class Api(Blueprint):
    """A blueprint whose operations are declared whole."""

    def __init__(self, name: str, import_name: str, *, answering: Callable[[Operation], Any]) -> None:
        super().__init__(name, import_name)
        self.answering = answering
        self.operations: list[Operation] = []

    def operation(
        self, method: str, path: str, *, needs: Right, summary: Words, name: str = "", **traits: Any
    ) -> Callable[[View], View]:
        """Declare one. ``path`` is a Flask rule below the API's own; ``name`` is the view's, unless given."""

        def declare(view: View) -> View:
            called = name or view.__name__
            tag = view.__module__.rpartition(".")[2].replace("_", " ")
            operation = Operation(method, path, summary, needs, view, called, tag, **traits)
            self.operations.append(operation)
            self.add_url_rule(path, called, self.answering(operation), methods=[method])
            return view

        return declare

    def shows(self, path: str, **traits: Any) -> Callable[[View], View]:
        """Declare an operation that reads."""
        return self.operation("GET", path, **traits)

    def makes(self, path: str, **traits: Any) -> Callable[[View], View]:
        """Declare one that makes something, once for each Idempotency-Key."""
        return self.operation("POST", path, status=201, once=True, **traits)

    def moves(self, path: str, **traits: Any) -> Callable[[View], View]:
        """Declare one that moves something on, once for each Idempotency-Key."""
        return self.operation("POST", path, once=True, **traits)

    def changes(
        self, path: str, *, current: Callable[..., Any], method: str = "PATCH", **traits: Any
    ) -> Callable[[View], View]:
        """Declare one that changes what somebody has read: it asks for If-Match."""
        return self.operation(method, path, current=current, **traits)

    def verb(
        self, path: str, *, does: Callable[..., Any], shows: Callable[..., Any], **traits: Any
    ) -> Callable[..., Any]:
        """Declare a move that is one action, told by showing what it moved.

        Both are given the arguments of the path by their names, the action what was sent as well.
        """

        def move(work: Work, sent: Mapping[str, Any] | None = None, **named: Any) -> Any:
            does(work, **named, **(sent or {}))
            return shows(work, **named)

        move.__module__ = shows.__module__
        return self.moves(path, **traits)(move)
