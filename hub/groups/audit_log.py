"""The audit chain as people read it: who did what, to what, as far as the reader's seat may see."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, datetime, time, timedelta
from typing import Any

from sqlalchemy import Select, or_, select

from hub.accounts.models import Person
from hub.audit.models import AuditEntry
from hub.audit.queries import facts_of
from hub.audit.rules import Event, link
from hub.db.work import Work
from hub.groups.models import Group

LOG_ORDERS: dict[str, Sequence[Any]] = {
    "newest": (AuditEntry.serial.desc(),),
    "oldest": (AuditEntry.serial,),
}
SUBJECTS = list(dict.fromkeys(event.partition(":")[0] for event in Event))


def entries(
    work: Work,
    *,
    search: str | None = None,
    subject: str | None = None,
    since: date | None = None,
    until: date | None = None,
) -> Select[Any]:
    """Entries with the name of whoever acted and of their group; days are those of the reader's bank."""
    found: Any = (
        select(AuditEntry, Person.name.label("person"), Group.name.label("group"))
        .outerjoin(Person, Person.id == AuditEntry.person_id)
        .outerjoin(Group, Group.id == AuditEntry.group_id)
    )
    if search:
        columns = (Person.name, Group.name, AuditEntry.event, AuditEntry.reason, AuditEntry.thing_id)
        found = found.where(or_(*(column.icontains(search, autoescape=True) for column in columns)))
    if subject:
        found = found.where(AuditEntry.event.startswith(f"{subject}:", autoescape=True))
    if since:
        found = found.where(AuditEntry.at >= midnight(work, since))
    if until:
        found = found.where(AuditEntry.at < midnight(work, until + timedelta(days=1)))
    return found


def midnight(work: Work, day: date) -> datetime:
    """The instant at which a day begins."""
    return datetime.combine(day, time(), work.zone)


def altered(found: Iterable[AuditEntry]) -> list[int]:
    """The serials of entries that are not as they were written: their digest is reckoned again."""
    return [entry.serial for entry in found if entry.digest != link(entry.previous_digest, facts_of(entry))]
