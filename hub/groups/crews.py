"""Crews: pupils who work together under a nickname and their teacher's seat, and nothing else about them."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups import queries
from hub.groups.models import Crew, Seat
from hub.groups.rules import AgeBand, GroupKind, nickname_trouble
from hub.words import Refused, say


def add_crew(work: Work, *, nickname: str, headcount: int, age_band: AgeBand) -> Crew:
    """Add a crew to the asker's school, under the asker's own seat. Raises Refused."""
    group = queries.my_group(work)
    if group.kind is not GroupKind.SCHOOL:
        raise Refused(say("Crews are for schools. In a club each adult has an account."))
    check_nickname(work, nickname)
    crew = Crew(
        group_id=group.id,
        bank_id=group.bank_id,
        nickname=nickname,
        headcount=headcount,
        age_band=age_band.value,
        teacher_seat_id=teacher_seat(work).id,
    )
    work.db.add(crew)
    work.db.flush()  # its id is about to be named in the audit chain
    record(work, Event.CREW_CHANGED, crew, after=facts(crew))
    return crew


def change_crew(work: Work, *, crew_id: UUID, nickname: str, headcount: int, age_band: AgeBand) -> Crew:
    """Change what is known of a crew. Raises Refused or NotFound."""
    crew = queries.get_crew(work, crew_id)
    if nickname != crew.nickname:
        check_nickname(work, nickname)
    before = facts(crew)
    crew.nickname, crew.headcount, crew.age_band = nickname, headcount, age_band.value
    record(work, Event.CREW_CHANGED, crew, before=before, after=facts(crew))
    return crew


def retire_crew(work: Work, *, crew_id: UUID) -> None:
    """A crew that has left; what it collected keeps its nickname. Raises NotFound."""
    crew = queries.get_crew(work, crew_id)
    crew.retired_at = work.now
    record(work, Event.CREW_CHANGED, crew, after={"retired": True})


def check_nickname(work: Work, nickname: str) -> None:
    trouble = nickname_trouble(nickname)
    if trouble:
        raise Refused(trouble, field="nickname")
    taken = select(Crew.id).where(Crew.group_id == work.scope.own_group_id, Crew.nickname == nickname)
    if work.db.scalars(taken).first():
        raise Refused(say("There is or was a crew of this name. Choose another."), field="nickname")


def teacher_seat(work: Work) -> Seat:
    mine = queries.seats_of(work, work.scope.person_id)
    return next(seat for seat in mine if seat.group_id == work.scope.own_group_id)


def facts(crew: Crew) -> dict[str, object]:
    return {"nickname": crew.nickname, "headcount": crew.headcount, "age_band": crew.age_band}
