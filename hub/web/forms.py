"""Forms: read once by a schema, shown again as typed, with every refusal beside the box it is about.

A page reads::

    form = Form.sent(AskSchema())
    with form.answering():
        adoption = actions.ask(work, **form.data)
        return done(say("Asked."), url_for(".show", adoption_id=adoption.id))
    return render("adoptions/ask.html", form=form)
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from typing import Any

from flask import g, request
from marshmallow import Schema, ValidationError, fields
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm.exc import StaleDataError
from werkzeug.datastructures import FileStorage, MultiDict

from hub.web.language import said
from hub.web.prefilled import prefilled
from hub.web.sent import Path, Reading, row_numbers
from hub.words import Refused, Words, say

CLASH = say(
    "Somebody changed this at the same moment. What you typed is kept: please check it and send it again."
)
STRANGE = say("This page does not ask for “{name}”. Please load it again and send it once more.")
Problem = tuple[str | None, str]


class Form:
    """The state of one form on one page."""

    def __init__(self, schema: Schema, given: Any = None) -> None:
        self.schema = schema
        self.typed: MultiDict[str, str] = prefilled(schema, given)
        self.problems: list[Problem] = []
        self.labels: dict[str, str] = {}  # what the page calls each box, told while it is drawn
        self.reading: Reading | None = None

    @classmethod
    def sent(cls, schema: Schema) -> Form:
        """The form as the browser sent it. What was typed is kept, passwords aside."""
        return cls.filled(schema, request.form, request.files)

    @classmethod
    def asked(cls, schema: Schema, aside: frozenset[str] = frozenset()) -> Form:
        """The form as the address holds it, for a page that only answers; names ``aside`` are not its own."""
        own = MultiDict(pair for pair in request.args.items(multi=True) if pair[0] not in aside)
        return cls.filled(schema, own, MultiDict())

    @classmethod
    def filled(cls, schema: Schema, texts: MultiDict[str, str], files: MultiDict[str, FileStorage]) -> Form:
        """The form with what stands in its boxes."""
        form = cls(schema)
        form.typed = MultiDict(pair for pair in texts.items(multi=True) if not is_secret(schema, pair[0]))
        form.reading = Reading(texts, files)
        return form

    def value(self, name: str) -> str:
        """What stands in a box: typed, or given, or nothing."""
        return self.typed.get(name, "")

    def values(self, name: str) -> list[str]:
        """All that is ticked under one name."""
        return self.typed.getlist(name)

    def rows(self, name: str, blank: int = 0) -> list[str]:
        """The beginnings of the names of a table's rows, with blank rows at the end: ``tallies-0``, …"""
        used = row_numbers(iter(self.typed), name)
        first = used[-1] + 1 if used else 0
        return [f"{name}-{at}" for at in [*used, *range(first, first + blank)]]

    def labelled(self, name: str, label: Any) -> str:
        """The page draws this box under this label; nothing of it is printed."""
        self.labels[name] = said(label)
        return ""

    def label(self, name: str) -> str:
        """What the page calls a box; nothing where it has not said."""
        return self.labels.get(name, "")

    def errors(self, name: str) -> list[str]:
        """What is wrong with one box."""
        return [text for field, text in self.problems if field == name]

    @cached_property
    def data(self) -> dict[str, Any]:
        """Everything sent, checked. Raises ValidationError, which ``answering`` turns into problems."""
        if self.reading is None:
            raise LookupError("only a form that was sent has data")
        values = self.reading.values(self.schema)
        strangers = [Words(STRANGE.text, {"name": name}) for name in self.reading.strangers]
        if strangers:
            raise ValidationError({"_schema": strangers})
        found: dict[str, Any] = self.schema.load(values)
        return found

    @contextmanager
    def answering(self) -> Iterator[None]:
        """Turn whatever refuses inside into problems on this form, and undo what was begun."""
        try:
            yield
        except ValidationError as wrong:
            self.take(wrong.normalized_messages())
        except Refused as refusal:
            self.refuse(refusal.words, refusal.field)
        except (IntegrityError, StaleDataError):
            self.refuse(CLASH)
        if self.problems:
            undo()

    def refuse(self, words: Words | str, field: str | None = None) -> None:
        """Put a sentence beside a box, or on top where the page has no such box."""
        known = field in self.names
        self.problems.append((field if known else None, said(words)))

    @property
    def names(self) -> set[str]:
        own = set(self.reading.names.values()) if self.reading else set()
        return own | {inner.data_key or name for name, inner in self.schema.load_fields.items()}

    def take(self, messages: Any) -> None:
        """Place what the schema found, each sentence at the name that it is about, in the page's order."""
        names = self.reading.names if self.reading else {}
        order = {name: at for at, name in enumerate(names.values())}
        placed = [(names.get(path), words) for path, words in leaves(messages, ())]
        for name, words in sorted(placed, key=lambda pair: order.get(pair[0] or "", -1)):
            self.refuse(words, name)


def leaves(messages: Any, path: Path) -> Iterator[tuple[Path, Words | str]]:
    """Every sentence in marshmallow's tree of errors, with the path of the field it is about."""
    if isinstance(messages, dict):
        for key, inner in messages.items():
            yield from leaves(inner, path if key == "_schema" else (*path, key))
    else:
        for words in messages if isinstance(messages, list) else [messages]:
            yield path, words


def is_secret(schema: Schema, name: str) -> bool:
    """A field that is never shown again: a password."""
    inner = schema.load_fields.get(name)
    return isinstance(inner, fields.String) and inner.load_only


def undo() -> None:
    """Forget what the action had begun, so that the page shows the store as it is."""
    if "work" in g:
        g.work.db.rollback()
