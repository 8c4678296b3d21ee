"""How the bench names urgencies, checks and the time that is left."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from hub.vetting.checks import CHECKS
from hub.vetting.models import Submission
from hub.vetting.queries import Gravity
from hub.vetting.rules import Severity, Urgency
from hub.words import Words, say, say_n

URGENCIES: dict[Urgency, Words] = {
    Urgency.ALIVE: say("Alive"),
    Urgency.DAMP: say("Damp"),
    Urgency.DRY: say("Dry"),
}
WHY_URGENT: dict[Urgency, Words] = {
    Urgency.ALIVE: say("alive: it dies if it waits or dries out"),
    Urgency.DAMP: say("damp or fleshy: it may rot"),
    Urgency.DRY: say("dry: it can wait"),
}
GRAVITIES: dict[Gravity, Words] = {
    Gravity.STOPS: say("with stops"),
    Gravity.QUERIES: say("with queries, no stop"),
    Gravity.CLEAR: say("nothing open"),
}
SEVERITIES: dict[Severity, Words] = {
    Severity.STOP: say("Stop"),
    Severity.QUERY: say("Query"),
    Severity.NOTE: say("Note"),
}


@dataclass(frozen=True)
class Standing:
    """Where the seed is, what that means for its deadline, and whether it is or was late."""

    where: Words
    time: Words | None = None
    late: bool = False
    on_its_way: bool = False


_TITLES = {check.id: check.title for check in CHECKS}


def title_of(check: str) -> Words:
    """What a check is called; one that is no more goes by its id."""
    return _TITLES.get(check) or say("{check}", check=check)


def time_left(deadline: datetime | None, now: datetime) -> Words | None:
    """How long until the seed should be at the bank, in whole hours up to two days, then in days."""
    if deadline is None:
        return None
    late, length = deadline < now, abs(deadline - now)
    if length < timedelta(days=2):
        hours = length // timedelta(hours=1)
        return hours_late(hours) if late else say_n("{n} hour left", "{n} hours left", n=hours)
    return days_late(length.days) if late else say_n("{n} day left", "{n} days left", n=length.days)


def standing_of(submission: Submission, now: datetime) -> Standing:
    """Where the seed is, as the bank noted it, as the group says, or on its way with so much time left."""
    arrived, deadline = submission.arrived_at, submission.deadline_at
    if arrived is not None:
        late = deadline is not None and arrived > deadline
        return Standing(say("arrived {moment}", moment=arrived), say("too late") if late else None, late)
    if submission.said_arrived_on is not None:
        brought = say("the group says: brought on {day}", day=submission.said_arrived_on)
        return Standing(brought, say("not noted by the bank"))
    left = time_left(deadline, now)
    return Standing(say("on its way"), left, deadline is not None and deadline < now, on_its_way=True)


def hours_late(n: int) -> Words:
    return say_n("{n} hour over", "{n} hours over", n=n)


def days_late(n: int) -> Words:
    return say_n("{n} day over", "{n} days over", n=n)
