"""Issue sheets, replace them when what they rest on has changed, and take them back."""

from __future__ import annotations

import json
from hashlib import sha256
from uuid import UUID, uuid4

from hub.adoptions import queries as adoptions
from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.numbering import next_in, with_check
from hub.db.work import Work
from hub.groups.models import Group
from hub.protocols import queries
from hub.protocols.casework import facts_of
from hub.protocols.engine import issue as reckon
from hub.protocols.models import IssuedSheet, SheetState
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet import Sheet
from hub.sites import queries as sites
from hub.sites.models import Population
from hub.taxa.queries import get_season
from hub.words import Refused, say

# What two sheets may differ in and still say the same: the day.
UNSAID = frozenset({"on"})


def issue(work: Work, *, adoption_id: UUID, population_id: UUID, reason: str = "") -> IssuedSheet:
    """The sheet of this adoption at this population as of today.

    When nothing has changed the current sheet is returned; else a new one takes its place.
    """
    adoption = adoptions.get(work, adoption_id)
    if adoption.state is not AdoptionState.ACTIVE:
        raise Refused(say("Sheets are issued for active adoptions alone."))
    season = get_season(work, adoption.season_id)
    if season.closes_on < work.today:
        raise Refused(say("The season closed on {day}: nobody collects any more.", day=season.closes_on))
    population = sites.get_population(work, population_id, locked=True)
    if population.taxon_id != adoption.taxon_id:
        raise Refused(say("This population is of another species than the adoption."))
    if population.id not in {held.id for held in adoptions.populations_held(work, adoption.id)}:
        raise Refused(say("The adoption does not hold this population. Ask the bank to add it."))
    if population.retired_at is not None:
        raise Refused(say("This population is retired: nobody collects from it any more."))
    current = queries.current_sheet(work, adoption_id, population_id, locked=True)
    sheet = drawn_up(work, adoption, population)
    if current is not None and current.digest == said_by(sheet):
        return current
    return put_in_force(work, adoption, population, sheet, current, reason)


def drawn_up(work: Work, adoption: Adoption, population: Population) -> Sheet:
    """What the rules say today, without issuing anything.

    The population is locked by now. Its permits are locked here, before anybody adds up what is spoken for
    under them: a cap may span populations, and two sheets reckoned at once would each get the whole rest.
    """
    sites.lock_permits(work, taxon_id=population.taxon_id, site_id=population.site_id, day=work.today)
    case = facts_of(work, adoption, population)
    changes = queries.overrides_for(
        work, bank_id=adoption.bank_id, taxon_id=adoption.taxon_id, population_id=population.id
    )
    return reckon(case, standard_rulebook(), changes, on=work.today)


def put_in_force(
    work: Work,
    adoption: Adoption,
    population: Population,
    sheet: Sheet,
    current: IssuedSheet | None,
    reason: str,
) -> IssuedSheet:
    """Store a sheet under a new number and end the one it replaces."""
    body = sheet.as_json()
    issued = IssuedSheet(
        id=uuid4(),
        group_id=adoption.group_id,
        bank_id=adoption.bank_id,
        number=next_number(work, adoption),
        adoption_id=adoption.id,
        population_id=population.id,
        taxon_id=adoption.taxon_id,
        season_id=adoption.season_id,
        status=str(sheet.status),
        case=body["case"],
        body=body,
        rulebook=sheet.rulebook,
        digest=said_by(sheet),
        issued_at=work.now,
        issued_by=work.scope.person_id,
        reason=reason,
    )
    if current is not None:
        end(work, current, SheetState.SUPERSEDED, reason=reason, replaced_by=issued.id)
        work.db.flush()  # the old one makes room: only one sheet is current
    work.db.add(issued)
    record(work, Event.SHEET_ISSUED, issued, after={"number": issued.number, "status": issued.status})
    return issued


def next_number(work: Work, adoption: Adoption) -> str:
    """A number such as ``FLG-2031-S07-K``: the group's code, the year, a serial and its check character."""
    code = work.db.get_one(Group, adoption.group_id).code
    year = get_season(work, adoption.season_id).year
    serial = next_in(work, f"sheet {code} {year}")
    return with_check(f"{code}-{year}-S{serial:02d}")


def said_by(sheet: Sheet) -> str:
    """The digest of everything a sheet says but its day: equal for sheets that say the same."""
    said = {name: value for name, value in sheet.as_json().items() if name not in UNSAID}
    return sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()


def end(
    work: Work, issued: IssuedSheet, state: SheetState, *, reason: str, replaced_by: UUID | None = None
) -> None:
    """A sheet holds no longer; what it kept free of the allowance is given back."""
    issued.state = state
    issued.ended_at = work.now
    issued.replaced_by_id = replaced_by
    record(
        work,
        Event.SHEET_REPLACED,
        issued,
        before={"state": str(SheetState.CURRENT)},
        after={"state": str(state)},
        reason=reason,
    )


def withdraw(work: Work, *, sheet_id: UUID, reason: str) -> IssuedSheet:
    """Take a current sheet back without a new one in its place."""
    issued = queries.get_sheet(work, sheet_id, locked=True)
    if issued.state is not SheetState.CURRENT:
        raise Refused(say("This sheet no longer holds."))
    end(work, issued, SheetState.WITHDRAWN, reason=reason)
    return issued
