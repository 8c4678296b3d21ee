"""Take one's turn, and bring an adoption from one state into another."""

from __future__ import annotations

from uuid import UUID

from hub.adoptions import queries
from hub.adoptions.counting import counted_at, recount
from hub.adoptions.models import Adoption
from hub.adoptions.rules import HOLDING, AdoptionState, Stage, may_become
from hub.audit.actions import locked_head, record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.words import Refused, say


def turn(work: Work) -> None:
    """Wait for one's turn before anything else is read for writing or locked.

    Every change ends in the audit chain, whose head is locked until the commit. Whoever locks rows first and
    the head later can meet somebody who did it the other way round, and both would wait for ever. So the
    head comes first, always; what is read after it is settled, and no limit can be passed by two at once.
    """
    locked_head(work)


def taken(work: Work, adoption_id: UUID) -> Adoption:
    """An adoption as it stands now that it is our turn. Raises NotFound."""
    turn(work)
    return queries.get(work, adoption_id, locked=True)


def move(work: Work, adoption: Adoption, wanted: AdoptionState, *, reason: str = "") -> Adoption:
    """Bring an adoption into a state, count it anew and record it. Raises Refused for a move there is not."""
    before, stage, counted = adoption.state, adoption.stage, counted_at(adoption)
    if not may_become(before, wanted):
        raise not_now(adoption)
    adoption.state, adoption.reason, adoption.moved_at = wanted, reason, work.now
    if before is AdoptionState.REQUESTED and wanted is AdoptionState.ACTIVE:
        adoption.stage = Stage.ADOPTED
    if wanted not in HOLDING:
        set_free(work, adoption)
    recount(work, adoption, counted)
    record(
        work,
        Event.ADOPTION_MOVED,
        adoption,
        before={"state": str(before), "stage": str(stage)},
        after={"state": str(wanted), "stage": str(adoption.stage)},
        reason=reason,
    )
    return adoption


def not_now(adoption: Adoption) -> Refused:
    """The refusal of whatever cannot be done in the present state."""
    words = say("This adoption is {state} now, so this cannot be done.", state=adoption.state.words)
    return Refused(words)


def set_free(work: Work, adoption: Adoption) -> None:
    """Others may now adopt the species and hold its populations; what was held stays on record."""
    adoption.holding_key = None
    for hold in queries.held(work, adoption.id):
        hold.sole_key = None
