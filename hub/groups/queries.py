"""Find regions, banks, groups, seats, invitations and crews."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select

from hub.db.work import Work
from hub.groups.models import Bank, Group, Region, Seat


def names_around(work: Work, person_id: UUID | None) -> list[str]:
    """Names that a password may not be made of: all regions and banks, and the person's own groups."""
    own = select(Group.name).join(Seat, Seat.group_id == Group.id).where(Seat.person_id == person_id)
    everywhere = select(Region.name).union(select(Bank.name), select(Bank.code))
    return [*work.db.scalars(everywhere), *work.db.scalars(own)]
