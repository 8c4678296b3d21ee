"""Find regions, banks, groups, seats, invitations and crews."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeVar
from uuid import UUID

from sqlalchemy import Row, Select, func, or_, select

from hub.accounts.models import Person
from hub.accounts.secrets import digest_of
from hub.db.work import Work
from hub.groups.models import Bank, Crew, District, Group, Invitation, Region, Seat
from hub.groups.rules import GroupKind, GroupState
from hub.rights.scope import Role
from hub.words import NotFound

Found = TypeVar("Found")

ORDERS: dict[str, Sequence[Any]] = {
    "name": (func.lower(Group.name), Group.id),
    "name-down": (func.lower(Group.name).desc(), Group.id),
    "newest": (Group.asked_at.desc(), Group.id),
    "oldest": (Group.asked_at, Group.id),
}


def there(found: Found | None, wanted: object) -> Found:
    """What was found. Raises NotFound where nothing was."""
    if found is None:
        raise NotFound(wanted)
    return found


def names_around(work: Work, person_id: UUID | None) -> list[str]:
    """Names that a password may not be made of: all regions and banks, and the person's own groups."""
    own = select(Group.name).join(Seat, Seat.group_id == Group.id).where(Seat.person_id == person_id)
    everywhere = select(Region.name).union(select(Bank.name), select(Bank.code))
    return [*work.db.scalars(everywhere), *work.db.scalars(own)]


def groups(
    work: Work,
    *,
    search: str | None = None,
    state: GroupState | None = None,
    kind: GroupKind | None = None,
    district: UUID | None = None,
) -> Select[Any]:
    """The groups this seat may see, each with the name of its district."""
    found = select(Group, District.name).outerjoin(District, District.id == Group.district_id)
    if search:
        part = f"%{search.replace('%', '').replace('_', '')}%"
        found = found.where(
            or_(Group.name.ilike(part), Group.contact_name.ilike(part), Group.code.ilike(part))
        )
    for column, value in ((Group.state, state), (Group.kind, kind), (Group.district_id, district)):
        if value is not None:
            found = found.where(column == value)
    return found  # type: ignore[return-value]  # lists take any columns


def get_group(work: Work, group_id: UUID | None, *, locked: bool = False) -> Group:
    """One group that this seat may see. Raises NotFound. ``locked`` keeps others waiting until the commit."""
    found = select(Group).where(Group.id == group_id)
    return there(work.db.scalars(found.with_for_update() if locked else found).one_or_none(), group_id)


def my_group(work: Work, *, locked: bool = False) -> Group:
    """The asker's own group. Raises NotFound for a seat outside any group."""
    return get_group(work, work.scope.own_group_id, locked=locked)


def my_bank(work: Work, *, locked: bool = False) -> Bank:
    """The asker's own bank, for bank seats alone. Raises NotFound."""
    found = select(Bank).where(Bank.id == work.scope.own_bank_id)
    return there(work.db.scalars(found.with_for_update() if locked else found).one_or_none(), "bank")


def district_name(work: Work, group: Group) -> str | None:
    return work.db.scalar(select(District.name).where(District.id == group.district_id))


def bank_of(work: Work, group: Group) -> Bank:
    return there(work.db.get(Bank, group.bank_id), group.bank_id)


def regions(work: Work) -> list[Region]:
    return list(work.db.scalars(select(Region).order_by(Region.name)))


def get_region(work: Work, region_id: UUID) -> Region:
    """One region. Raises NotFound."""
    return there(work.db.get(Region, region_id), region_id)


def banks(work: Work) -> list[Bank]:
    return list(work.db.scalars(select(Bank).order_by(Bank.name)))


def districts(work: Work, *, region_id: UUID | None = None) -> Sequence[Row[UUID, str, UUID, str]]:
    """The districts of one region or of all, each with its region; without the polygons, which are large."""
    found = select(District.id, District.name, District.region_id, Region.name.label("region"))
    if region_id is not None:
        found = found.where(District.region_id == region_id)
    return work.db.execute(found.join(Region).order_by(Region.name, District.name)).all()


def seats(
    work: Work, *, group_id: UUID | None = None, bank_id: UUID | None = None, roles: Sequence[Role] = ()
) -> Sequence[Row[Seat, Person]]:
    """Who holds a seat now, of one group, one bank, or in some roles; the longest there first."""
    found = select(Seat, Person).join(Person, Person.id == Seat.person_id).where(Seat.ended_at.is_(None))
    if group_id:
        found = found.where(Seat.group_id == group_id)
    if bank_id:
        found = found.where(Seat.bank_id == bank_id, Seat.group_id.is_(None))
    if roles:
        found = found.where(Seat.role.in_(roles))
    return work.db.execute(found.order_by(Seat.since, Seat.id)).all()


def get_seat(work: Work, seat_id: UUID) -> Seat:
    """One seat that has not ended. Raises NotFound."""
    found = select(Seat).where(Seat.id == seat_id, Seat.ended_at.is_(None))
    return there(work.db.scalars(found).one_or_none(), seat_id)


def get_near(work: Work, seat_id: UUID) -> tuple[Seat, Person]:
    """A seat that the asker may end, with whoever holds it. Raises NotFound."""
    held = get_seat(work, seat_id)
    if not work.scope.spans_tenants and not is_near(work, held):
        raise NotFound(seat_id)
    return held, work.db.get_one(Person, held.person_id)


def is_near(work: Work, held: Seat) -> bool:
    """Whether a seat is in the asker's own group, or among the asker's own bank's staff."""
    if work.scope.own_group_id:
        return held.group_id == work.scope.own_group_id
    return held.group_id is None and held.bank_id == work.scope.own_bank_id is not None


def seats_of(work: Work, person_id: UUID | None) -> list[Seat]:
    """All seats that a person holds now."""
    found = select(Seat).where(Seat.person_id == person_id, Seat.ended_at.is_(None))
    return list(work.db.scalars(found))


def others_beside(work: Work, seat: Seat) -> int:
    """How many others hold the same role in the same place."""
    place = (Seat.role == seat.role, *(same(getattr(Seat, name), getattr(seat, name)) for name in PLACE))
    found = select(func.count()).select_from(Seat).join(Person, Person.id == Seat.person_id)
    return work.db.scalar(found.where(*place, Seat.id != seat.id, Seat.ended_at.is_(None))) or 0


PLACE = ("group_id", "bank_id", "region_id")


def same(column: Any, value: Any) -> Any:
    return column.is_(None) if value is None else column == value


def open_invitations(
    work: Work, *, group_id: UUID | None = None, bank_id: UUID | None = None, roles: Sequence[Role] = ()
) -> list[Invitation]:
    """Invitations that can still be taken, newest first."""
    found = select(Invitation).where(*still_open(work))
    if group_id:
        found = found.where(Invitation.group_id == group_id)
    if bank_id:
        found = found.where(Invitation.bank_id == bank_id, Invitation.group_id.is_(None))
    if roles:
        found = found.where(Invitation.role.in_(roles))
    return list(work.db.scalars(found.order_by(Invitation.sent_at.desc(), Invitation.id)))


def still_open(work: Work) -> tuple[Any, ...]:
    return Invitation.taken_at.is_(None), Invitation.withdrawn_at.is_(None), Invitation.ends_at > work.now


def get_invitation(work: Work, invitation_id: UUID) -> Invitation:
    """One invitation that can still be withdrawn. Raises NotFound."""
    found = select(Invitation).where(Invitation.id == invitation_id, *still_open(work))
    return there(work.db.scalars(found).one_or_none(), invitation_id)


def find_invitation(work: Work, token: str) -> Invitation | None:
    """The invitation behind a mailed link, if it can still be taken; locked against being taken twice."""
    found = select(Invitation).where(Invitation.token_digest == digest_of(token), *still_open(work))
    return work.db.scalars(found.with_for_update()).one_or_none()


def place_name(work: Work, thing: Seat | Invitation) -> str | None:
    """The name of the group, bank or region that a seat or an invitation is for."""
    for kind, key in ((Group, thing.group_id), (Bank, thing.bank_id), (Region, thing.region_id)):
        if key is not None:
            return work.db.scalar(select(kind.name).where(kind.id == key))
    return None


def crews(work: Work) -> list[Crew]:
    """The crews of the asker's own group that are at work."""
    found = select(Crew).where(Crew.group_id == work.scope.own_group_id, Crew.retired_at.is_(None))
    return list(work.db.scalars(found.order_by(Crew.nickname)))


def seen_crew(work: Work, crew_id: UUID) -> Crew | None:
    """A crew that this seat may see, at work or not: what it collected stays its own."""
    return work.db.scalars(select(Crew).where(Crew.id == crew_id)).one_or_none()


def get_crew(work: Work, crew_id: UUID) -> Crew:
    """One crew of the asker's own group that is at work. Raises NotFound."""
    found = select(Crew).where(
        Crew.id == crew_id, Crew.group_id == work.scope.own_group_id, Crew.retired_at.is_(None)
    )
    return there(work.db.scalars(found).one_or_none(), crew_id)
