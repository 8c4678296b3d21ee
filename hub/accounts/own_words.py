"""Names around a person that a password may not be made of. The groups know them, and are asked here."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from uuid import UUID

from flask import current_app

from hub.db.work import Work

OWN_WORDS = "funicle-own-words"
Ask = Callable[[Work, UUID | None], Iterable[str]]


def own_words(work: Work, person_id: UUID | None) -> list[str]:
    """Names of the region, the banks and the person's own groups."""
    ask: Ask = current_app.extensions[OWN_WORDS]
    return list(ask(work, person_id))
