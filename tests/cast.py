"""The people of the tests, always the same, so that a test reads like a story.

Alice leads Fell Group and Bob helps her; Charlie leads Vale School. Both belong to the Fell Bank, where Cora
curates and Tess works in the laboratory. Dora curates the Far Bank, whose Shore Group Eve leads. Olga
coordinates the region, Stan runs the hub.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from uuid import UUID

from hub.accounts.models import Person
from hub.db.work import House, Work
from hub.groups.models import Bank, District, Group, GroupKind, GroupState, Region, Seat
from hub.rights.scope import BANK_ROLES, GROUP_ROLES, Role, Scope
from hub.taxa.models import Ecoregion, Season

NOW = datetime(2031, 7, 14, 9, 30, tzinfo=UTC)
PASSWORD = "a long pass phrase for tests"

SQUARES = {"north": (47.6, 48.0), "south": (47.2, 47.6)}


def square(low: float, high: float) -> dict[str, object]:
    """A district's polygon, 0.4° of latitude high, between 28.6 and 27.8 degrees west."""
    ring = [[-28.6, low], [-27.8, low], [-27.8, high], [-28.6, high], [-28.6, low]]
    return {"type": "Polygon", "coordinates": [ring]}


@dataclass
class Cast:
    """Everybody, and the rows they stand on."""

    house: House
    now: datetime
    region: Region
    north: District
    south: District
    meadows: Ecoregion
    fell_bank: Bank
    far_bank: Bank
    season: Season
    far_season: Season
    fell_group: Group
    vale_school: Group
    shore_group: Group
    people: dict[str, Person] = field(default_factory=dict)
    seats: dict[str, Seat] = field(default_factory=dict)

    def scope(self, name: str) -> Scope:
        """The scope that a person of the cast works in, as the hub itself makes it."""
        seat = self.seats[name]
        return Scope(
            person_id=seat.person_id,
            role=seat.role,
            group_id=seat.group_id,
            bank_id=seat.bank_id,
            region_id=seat.region_id or self.region.id,
            because="stewardship" if seat.role is Role.STEWARD else "",
        )

    @contextmanager
    def work(self, name: str, *, now: datetime | None = None) -> Iterator[Work]:
        """Work done by one person of the cast; committed when it went well, as at the edge."""
        with self.house.work(self.scope(name), now=now or self.now) as work:
            yield work
            work.db.commit()

    @contextmanager
    def everywhere(self, *, now: datetime | None = None) -> Iterator[Work]:
        """Work across all tenants, for setting a scene and for looking at what came of it."""
        with self.house.work(Scope.everyone(because="a test's scene"), now=now or self.now) as work:
            yield work
            work.db.commit()


SEATS = {
    "alice": (Role.LEAD, "fell_group"),
    "bob": (Role.MEMBER, "fell_group"),
    "charlie": (Role.LEAD, "vale_school"),
    "eve": (Role.LEAD, "shore_group"),
    "cora": (Role.CURATOR, "fell_bank"),
    "tess": (Role.TECHNICIAN, "fell_bank"),
    "dora": (Role.CURATOR, "far_bank"),
    "olga": (Role.COORDINATOR, ""),
    "stan": (Role.STEWARD, ""),
}


def gather(house: House, *, now: datetime) -> Cast:
    """Store the whole cast and give it back."""
    with house.work(Scope.everyone(because="gathering the cast"), now=now) as work:
        cast = set_the_stage(house, work)
        for name, (role, where) in SEATS.items():
            person = Person(email=f"{name}@cast.example", name=name.title(), created_at=now)
            person.password_hash = quick_hash(house)
            work.db.add(person)
            work.db.flush()
            cast.people[name] = person
            cast.seats[name] = seat_of(cast, person, role, where, now)
            work.db.add(cast.seats[name])
        work.db.commit()
    return cast


def quick_hash(house: House) -> str:
    from hub.accounts.passwords import hashed

    return hashed(house.settings, PASSWORD)


def set_the_stage(house: House, work: Work) -> Cast:
    """Region, districts, banks, seasons and groups."""
    region = Region(code="TST", name="Test Vale")
    work.db.add(region)
    work.db.flush()
    north, south = (
        District(region_id=region.id, code=code, name=f"{code.title()}ern Part", geometry=square(*span))
        for code, span in SQUARES.items()
    )
    meadows = Ecoregion(
        region_id=region.id, scheme="TST", code="T.1", name="Meadows", geometry=square(47.2, 48.0)
    )
    fell, far = (
        Bank(region_id=region.id, code=code, name=name, email=f"{code.lower()}@bank.example", address="")
        for code, name in (("FELL", "Fell Bank"), ("FAR", "Far Bank"))
    )
    work.db.add_all([north, south, meadows, fell, far])
    work.db.flush()
    seasons = [season_of(bank.id) for bank in (fell, far)]
    groups = [
        group_of(fell, north, "Fell Group", "FLG", GroupKind.CLUB, work.now),
        group_of(fell, south, "Vale School", "VLS", GroupKind.SCHOOL, work.now),
        group_of(far, south, "Shore Group", "SHG", GroupKind.CLUB, work.now),
    ]
    work.db.add_all([*seasons, *groups])
    work.db.flush()
    return Cast(house, work.now, region, north, south, meadows, fell, far, *seasons, *groups)


def season_of(bank_id: UUID) -> Season:
    return Season(
        bank_id=bank_id,
        year=2031,
        opens_on=date(2031, 3, 1),
        closes_on=date(2031, 11, 30),
        lapses_on=date(2031, 9, 1),
    )


def group_of(bank: Bank, district: District, name: str, code: str, kind: GroupKind, now: datetime) -> Group:
    return Group(
        bank_id=bank.id,
        region_id=bank.region_id,
        district_id=district.id,
        kind=kind,
        name=name,
        code=code,
        state=GroupState.ACTIVE,
        about="",
        asked_at=now,
        contact_name=f"Leader, {name}",
        contact_email=f"{code.lower()}@cast.example",
    )


def seat_of(cast: Cast, person: Person, role: Role, where: str, now: datetime) -> Seat:
    seat = Seat(person_id=person.id, role=role, since=now)
    if role in GROUP_ROLES:
        group: Group = getattr(cast, where)
        seat.group_id, seat.bank_id, seat.region_id = group.id, group.bank_id, group.region_id
    elif role in BANK_ROLES:
        seat.bank_id = getattr(cast, where).id
    elif role is Role.COORDINATOR:
        seat.region_id = cast.region.id
    return seat
