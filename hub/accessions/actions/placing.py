"""Say what lots are in and where they are kept: one by one, or all of an accession together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any
from uuid import UUID

from hub.accessions import queries
from hub.accessions.models import Lot
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.words import NotFound


def place_lot(work: Work, *, lot_id: UUID, place: str | None = None, container: str | None = None) -> Lot:
    """Say where one lot is kept; None leaves as it is. The same again changes nothing."""
    lot = queries.get_lot(work, lot_id, locked=True)
    put(work, lot, {"container": container, "place": place})
    return lot


def place_lots(work: Work, *, accession_id: UUID, lots: Iterable[Mapping[str, Any]]) -> int:
    """Say it of many lots of one accession, all or none. Returns how many have changed.

    Each line holds lot_id, container and place. Raises NotFound for a lot of any other accession.
    """
    own = {lot.id: lot for lot in queries.lots_of(work, accession_id, locked=True)}
    lines = list(lots)
    if not own.keys() >= {line["lot_id"] for line in lines}:
        raise NotFound("lot")
    return sum(put(work, own[line["lot_id"]], line) for line in lines)


def put(work: Work, lot: Lot, given: Mapping[str, Any]) -> bool:
    """Whether anything was changed; if so it is recorded."""
    wanted = {name: given[name].strip() for name in ("container", "place") if given[name] is not None}
    before = {name: getattr(lot, name) for name, value in wanted.items() if getattr(lot, name) != value}
    for name in before:
        setattr(lot, name, wanted[name])
    if before:
        after = {"lot": lot.label, "container": lot.container, "place": lot.place}
        record(work, Event.LOT_PLACED, lot, before=before, after=after)
    return bool(before)
