"""The front door: what each role finds in the menu, and where it lands after signing in."""

from __future__ import annotations

from dataclasses import dataclass

from flask import current_app, redirect, request, url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.rights.scope import Role
from hub.web.caller import Caller, caller
from hub.web.guard import Pages
from hub.web.render import MenuEntry
from hub.words import Words, say

pages = Pages("front", __name__)

GROUP = frozenset({Role.LEAD, Role.MEMBER})
BANK = frozenset({Role.CURATOR, Role.TECHNICIAN})
CURATOR = frozenset({Role.CURATOR})
ANYONE = frozenset(Role)
VISITOR: frozenset[Role | None] = frozenset({None})


@dataclass(frozen=True)
class Door:
    """One line of the menu: which page, and for which roles it is there."""

    label: Words
    endpoint: str
    roles: frozenset[Role | None] | frozenset[Role]


DOORS = (
    Door(say("Our season"), "progress.our_season", GROUP),
    Door(say("Vetting bench"), "vetting.bench", BANK),
    Door(say("Adoptions"), "adoptions.requests", CURATOR),
    Door(say("Accession book"), "accessions.book", BANK),
    Door(say("Wanted list"), "taxa.wanted", ANYONE | VISITOR),
    Door(say("Species"), "taxa.species", GROUP | BANK),
    Door(say("Sites"), "sites.sites", GROUP | BANK),
    Door(say("Sheets"), "protocols.sheets", GROUP | BANK),
    Door(say("Hand-ins"), "vetting.hand_ins", GROUP),
    Door(say("Accessions"), "accessions.ours", GROUP),
    Door(say("Progress"), "progress.region", ANYONE - {Role.STEWARD}),
    Door(say("Progress"), "progress.public", VISITOR),
    Door(say("Calculators"), "calculators.every", ANYONE - {Role.STEWARD}),
    Door(say("Rulebook"), "protocols.rules", ANYONE),
    Door(say("Our group"), "groups.our_group", GROUP),
    Door(say("Groups"), "groups.groups", CURATOR | {Role.STEWARD}),
    Door(say("Our bank"), "groups.bank", CURATOR),
    Door(say("Hub"), "groups.hub", frozenset({Role.STEWARD})),
    Door(say("Condition"), "groups.hub_condition", frozenset({Role.STEWARD})),
    Door(say("Letters"), "groups.hub_letters", frozenset({Role.STEWARD})),
    Door(say("Audit log"), "groups.audit_log", CURATOR | {Role.STEWARD}),
)

HOME: dict[Role | None, str] = {
    Role.LEAD: "progress.our_season",
    Role.MEMBER: "progress.our_season",
    Role.CURATOR: "vetting.bench",
    Role.TECHNICIAN: "accessions.book",
    Role.COORDINATOR: "progress.region",
    Role.STEWARD: "groups.hub",
    None: "progress.public",
}


def menu(asking: Caller) -> list[MenuEntry]:
    """The menu of this caller's role, with the present page marked."""
    return [
        MenuEntry(door.label, url_for(door.endpoint), current=door.endpoint == request.endpoint)
        for door in DOORS
        if asking.scope.role in door.roles and door.endpoint in current_app.view_functions
    ]


@pages.get("/", needs=Right.PUBLIC_READ)
def start(work: Work) -> Response:
    """Where each role begins its day."""
    asking = caller()
    waits = asking.waits and asking.scope.role is None
    return redirect(url_for("accounts.second_step" if waits else HOME[asking.scope.role]))
