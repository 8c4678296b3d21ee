"""Whoever reads an exact place of a plant that needs care is noted, once a day."""

from __future__ import annotations

from collections.abc import Sequence

from hub.db.work import Work
from hub.sites.localities import is_guarded, note_reading, read_today
from hub.sites.models import Population, Site
from hub.taxa.models import Taxon
from hub.web.caller import caller, house


def exact_place_read(work: Work, thing: Population | Site, taxa: Sequence[Taxon]) -> None:
    """Note the reading in work of its own, since the request itself only reads."""
    if not is_guarded(taxa) or read_today(work, thing):
        return
    with house().work(work.scope, zone=caller().zone) as apart:
        note_reading(apart, thing)
        apart.db.commit()
