"""Who is asking: from a session's token, or a program's key, to a person in one of their seats."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from flask import Flask, request
from sqlalchemy import Select, and_, func, select

from hub.accounts import cookies
from hub.accounts.cookies import SignedIn
from hub.accounts.models import ApiToken, Person, SignIn
from hub.accounts.own_words import OWN_WORDS
from hub.accounts.queries import factor_of
from hub.accounts.rules import SEEN_STEP, is_live, opens_without
from hub.accounts.secrets import digest_of
from hub.groups.models import Bank, Group, GroupState, Region, Seat
from hub.groups.queries import names_around
from hub.groups.role_words import seat_words
from hub.rights.scope import Role, Scope
from hub.web.caller import VISITOR, Caller, house
from hub.web.language import said

API = "/api/"
ASKING = Scope.everyone(because="finding out who is asking")


@dataclass(frozen=True)
class Place:
    """One seat of a person with all that it stands in."""

    seat: Seat
    group: Group | None
    bank: Bank | None
    region: Region | None

    @property
    def label(self) -> str:
        where = self.group or self.bank or self.region
        return said(seat_words(self.seat.role, where.name if where else None))

    @property
    def scope(self) -> Scope:
        return Scope(
            person_id=self.seat.person_id,
            role=self.seat.role,
            group_id=self.seat.group_id,
            bank_id=self.seat.bank_id,
            region_id=self.region.id if self.region else None,
            because="stewardship" if self.seat.role is Role.STEWARD else "",
        )


def prepare(app: Flask) -> None:
    """Teach an app to know its callers, and which names their passwords may not be made of."""
    cookies.prepare(app, by_session)
    app.extensions[OWN_WORDS] = names_around


def who() -> Caller:
    """The caller of this request. Below /api/ only a program's key counts, elsewhere only the session."""
    if request.path.startswith(API):
        return by_key(request.headers.get("Authorization", ""))
    signed_in = cookies.present()
    return signed_in.caller if signed_in and signed_in.caller else VISITOR


def by_session(token: str) -> SignedIn | None:
    """Whoever signed in with this token, while the session lives."""
    rows, now = found_by(SignIn, token), house().now()
    if not rows or not lives(rows[0][0], now):
        return None
    sign_in, person = rows[0][:2]
    if now - sign_in.seen_at > SEEN_STEP:
        mark(sign_in, "seen_at", now)
    held = places_of(rows)
    places = [place for place in held if opens(place, sign_in)]
    seated = next((place for place in places if place.seat.id == sign_in.seat_id), None)
    seated = seated or (places[0] if places else None)
    seat_id = seated.seat.id if seated else None
    asking = replace(caller_of(person, seated, places), waits=len(places) < len(held))
    return SignedIn(token, sign_in.id, seat_id, asking)


def by_key(header: str) -> Caller:
    """Whoever a program acts for, as long as the key and the seat it was made for last."""
    scheme, _, token = header.partition(" ")
    rows = found_by(ApiToken, token.strip()) if scheme.lower() == "bearer" else []
    now = house().now()
    if not rows or rows[0][0].ended_at or rows[0][0].ends_at <= now:
        return VISITOR
    key, person = rows[0][:2]
    if key.used_at is None or now - key.used_at > SEEN_STEP:
        mark(key, "used_at", now)
    seated = next((place for place in places_of(rows) if place.seat.id == key.seat_id), None)
    return caller_of(person, seated, [seated]) if seated and may_use_keys(person, seated) else VISITOR


def may_use_keys(person: Person, place: Place) -> bool:
    """A key asks for no code, so where one is required its person must have set up a second factor."""
    if opens_without(house().settings.second_factor, place.seat.role):
        return True
    with house().work(ASKING, reads_only=True) as work:
        return factor_of(work, person.id) is not None


def found_by(kind: type[SignIn] | type[ApiToken], token: str) -> list[Any]:
    """The session or key with its person and, one a row, their seats: all in one question."""
    with house().work(ASKING, reads_only=True) as work:
        return list(work.db.execute(seats_by(kind, token)).all())


def seats_by(kind: type[SignIn] | type[ApiToken], token: str) -> Select[*tuple[Any, ...]]:
    return (
        select(kind, Person, Seat, Group, Bank, Region)
        .join(Person, Person.id == kind.person_id)
        .outerjoin(Seat, and_(Seat.person_id == Person.id, Seat.ended_at.is_(None)))
        .outerjoin(Group, Group.id == Seat.group_id)
        .outerjoin(Bank, Bank.id == Seat.bank_id)
        .outerjoin(Region, Region.id == func.coalesce(Group.region_id, Bank.region_id, Seat.region_id))
        .where(kind.token_digest == digest_of(token), Person.closed_at.is_(None))
        .order_by(Seat.since, Seat.id)
    )


def places_of(rows: list[Any]) -> list[Place]:
    """The seats that can be worked in: those in a group count while the group is active."""
    places = [Place(*row[2:]) for row in rows if row[2] is not None]
    return [place for place in places if place.group is None or place.group.state is GroupState.ACTIVE]


def opens(place: Place, sign_in: SignIn) -> bool:
    """Whether a seat can be worked in by what was shown in this session."""
    return sign_in.factor_at is not None or opens_without(house().settings.second_factor, place.seat.role)


def lives(sign_in: SignIn, now: datetime) -> bool:
    idle = timedelta(minutes=house().settings.session_idle_minutes)
    return is_live(
        now=now, seen_at=sign_in.seen_at, ends_at=sign_in.ends_at, ended_at=sign_in.ended_at, idle=idle
    )


def mark(row: SignIn | ApiToken, column: str, now: datetime) -> None:
    """Note when a session or key was used last, in work of its own."""
    with house().work(ASKING) as work:
        setattr(work.db.merge(row, load=False), column, now)
        work.db.commit()


def caller_of(person: Person, seated: Place | None, places: list[Place]) -> Caller:
    if seated is None:
        return Caller(Scope(person_id=person.id), person.name)
    others = tuple((str(place.seat.id), place.label) for place in places if place is not seated)
    zone = seated.bank.zone if seated.bank else "UTC"
    return Caller(seated.scope, person.name, seated.label, zone, others)
