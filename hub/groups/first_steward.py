"""The first person who runs a hub: seated by its operator, since nobody is there yet to invite them."""

from __future__ import annotations

from datetime import timedelta

from hub.accounts import actions as accounts
from hub.accounts.queries import find_person
from hub.db.work import House
from hub.groups.seats import seat
from hub.rights.scope import Role, Scope

LINK_LASTS = timedelta(hours=24)


def open_steward(house: House, email: str, name: str) -> str:
    """Seat a person as steward, with an account made where there is none, and return their password link."""
    with house.work(Scope.everyone(because="the operator seats a steward")) as work:
        person = find_person(work, email=email) or accounts.open_sealed_account(work, email=email, name=name)
        seat(accounts.acting(work, person), person=person, role=Role.STEWARD)
        link = accounts.reset_link(work, person, lasts=LINK_LASTS)
        work.db.commit()
        return link
