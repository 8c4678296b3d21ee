"""Accessions as stages for these tests: a collection of the Fell Group, approved by its curator."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from hub.accessions.actions import approve, place_lots
from hub.accessions.models import Accession, Lot
from hub.accessions.queries import lots_of
from hub.accessions.rules import AccessionState
from hub.vetting.collection import Tally
from hub.vetting.models import Submission
from tests.cast import Cast
from tests.vetting.scene import Scene, handed_in, set_scene

# Three mothers, so that a page of lots is short; their seeds are the group's own estimates.
MOTHERS = {"tallies": tuple(Tally(f"A{at}", 30, 2, 40 * at) for at in (1, 2, 3)), "total_seeds": 240}


def waiting(cast: Cast, scene: Scene | None = None, **changes: Any) -> UUID:
    """A collection of three mothers that waits for the bank, with no stop left open."""
    submission_id = handed_in(cast, scene or set_scene(cast), **{**MOTHERS, **changes})
    with cast.everywhere() as work:
        work.db.get_one(Submission, submission_id).open_stops = 0
    return submission_id


def approved(cast: Cast, submission_id: UUID, remark: str = "", curator: str = "cora") -> Accession:
    with cast.work(curator) as work:
        return approve(work, submission_id=submission_id, remark=remark, without_arrival=True)


def banked(cast: Cast, **changes: Any) -> Accession:
    """An accession of 40, 80 and 120 seeds."""
    return approved(cast, waiting(cast, **changes))


def lots(cast: Cast, accession: Accession) -> list[Lot]:
    with cast.work("tess") as work:
        return lots_of(work, accession.id)


def placed(cast: Cast, accession: Accession, place: str = "Freezer 2") -> None:
    """Every lot of it in one place."""
    with cast.work("tess") as work:
        lines = [
            {"lot_id": lot.id, "container": "vial", "place": place} for lot in lots_of(work, accession.id)
        ]
        place_lots(work, accession_id=accession.id, lots=lines)


def put(cast: Cast, accession: Accession, state: AccessionState) -> None:
    """Set a state without its consequences, for walking the table of moves."""
    with cast.everywhere() as work:
        work.db.get_one(Accession, accession.id).state = state


def stands(cast: Cast, accession: Accession) -> Accession:
    """The accession as the store has it now."""
    with cast.everywhere() as work:
        return work.db.get_one(Accession, accession.id)
