"""Whoever reads an exact place is noted, once a day, for all but secure taxa: on a page, or by program."""

from __future__ import annotations

from collections.abc import Sequence

from hub.db.base import Base
from hub.db.work import Work
from hub.sites.localities import is_guarded, note_reading, read_today
from hub.taxa.models import Taxon
from hub.web.caller import caller, house


def exact_place_read(work: Work, thing: Base, taxa: Sequence[Taxon]) -> None:
    """Note the reading in work of its own, since the request itself only reads."""
    if not is_guarded(taxa) or read_today(work, thing):
        return
    with house().work(work.scope, zone=caller().zone) as apart:
        note_reading(apart, thing)
        apart.db.commit()
