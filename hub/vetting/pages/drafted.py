"""The form of a collection as it stands: as typed, as handed in last, or as the sheet asks."""

from __future__ import annotations

from collections.abc import Iterable

from flask import request
from werkzeug.datastructures import MultiDict

from hub.db.work import Work
from hub.protocols.sheet import Sheet
from hub.vetting import queries
from hub.vetting.collection import Collection, Container, Handling
from hub.vetting.draft import Typed, typed_in
from hub.vetting.models import Submission
from hub.vetting.schemas import CollectionSchema
from hub.web.forms import Form
from hub.web.sent import Reading

# Names that a form sends beside what was typed into it.
BESIDE = frozenset({"csrf_token", "version", "do", "next"})


def typed_now() -> Typed:
    """What the browser sent, box by box, as it was typed."""
    return [pair for pair in request.form.items(multi=True) if pair[0] not in BESIDE]


def version_seen() -> int | None:
    """The version that the writer had before their eyes; None when the form names none that can be read."""
    return request.form.get("version", type=int)


def typed_form(typed: Iterable[tuple[str, str]]) -> Form:
    """A form holding exactly this, as if it had just been sent."""
    form = Form(CollectionSchema())
    form.typed = MultiDict(typed)
    form.reading = Reading(form.typed, MultiDict())
    return form


def form_of(work: Work, submission: Submission, sheet: Sheet) -> Form:
    """The form as its writers left it."""
    if submission.draft:
        return typed_form(typed_in(submission.draft))
    revision = queries.newest_revision(work, submission)
    if revision is not None:
        return typed_form(handed_in_before(queries.collection_of(revision)))
    return Form(CollectionSchema(), asked_for(sheet))


def handed_in_before(collection: Collection) -> Typed:
    """A collection as boxes; a plain “no” is a word of its own there, not an empty box."""
    form = Form(CollectionSchema(), collection)
    if collection.already_shedding is False:
        form.typed["already_shedding"] = "no"
    return list(form.typed.items(multi=True))


def asked_for(sheet: Sheet) -> dict[str, object]:
    """What the sheet asks, where the form offers the same choice."""
    handling, container = sheet.headline.handling.value, sheet.headline.container.value
    return {
        "handling": handling if handling in set(Handling) else None,
        "container": container if container in set(Container) else None,
    }


def sums(form: Form) -> dict[str, int]:
    """Mothers, fruits and seeds in the tallies so far; what cannot be read counts for nothing."""
    rows = form.rows("tallies")
    return {
        "mothers": sum(bool(form.value(f"{row}-flag").strip()) for row in rows),
        "fruits": sum(counted(form.value(f"{row}-fruits_taken")) for row in rows),
        "seeds": sum(counted(form.value(f"{row}-seeds")) for row in rows),
    }


def counted(text: str) -> int:
    plain = text.strip()
    return int(plain) if plain.isascii() and plain.isdecimal() and len(plain) < 9 else 0
