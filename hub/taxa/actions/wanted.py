"""Put species on a season's list, take them off, or take in a whole list."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import delete

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.taxa import queries
from hub.taxa.models import Need, Season, Wanted
from hub.taxa.needs import NeedGiven, as_told, check_needs
from hub.taxa.places import Places
from hub.taxa.untold import refuse_places
from hub.taxa.wanted_file import WantedRow, write_rows
from hub.taxa.wanted_plan import Change, Plan
from hub.taxa.wanted_planning import listed_rows, planned
from hub.words import NotFound, Refused, say

PRIORITIES = (1, 2, 3)


def want(
    work: Work,
    *,
    season_id: UUID,
    taxon_id: UUID,
    priority: int = 2,
    note: str = "",
    needs: Sequence[NeedGiven],
) -> Wanted:
    """Put a species on a season's list, or set its line anew.

    Raises ``Refused`` beside a row of needs, or beside a note that gives a place away.
    """
    season = queries.get_own_season(work, season_id)
    queries.get(work, taxon_id)
    check_line(work, season, priority, needs)
    refuse_places(work, season.bank_id, note)
    return put_line(work, season, taxon_id, priority, note, needs)


def unwant(work: Work, *, season_id: UUID, taxon_id: UUID) -> None:
    """Take a species off a season's list. Raises NotFound when it is not on it."""
    season = queries.get_own_season(work, season_id)
    line = queries.wanted_of(work, season.id, taxon_id)
    if line is None:
        raise NotFound(taxon_id)
    record(work, Event.WANTED_CHANGED, line, before=told(line, given(work, line)))
    work.db.execute(delete(Need).where(Need.wanted_id == line.id))
    work.db.delete(line)
    work.db.flush()


def import_wanted(work: Work, *, season_id: UUID, rows: Iterable[WantedRow], whole: bool = False) -> Plan:
    """Take in a list, all of it or nothing. With ``whole``, species that it does not name leave the list.

    Raises ``Refused`` with the first thing that is wrong; a page shows them all beforehand, by ``planned``.
    """
    season = queries.get_own_season(work, season_id)
    plan = planned(work, season, rows, whole=whole)
    if plan.problems:
        raise Refused(plan.problems[0].sentence)
    before = keep_file(work, write_rows(listed_rows(work, season)))
    for change in plan.real_changes:
        carry_out(work, season, change)
    work.db.flush()
    record(work, Event.WANTED_IMPORTED, season, before={"file": before}, after=plan.counts)
    return plan


def carry_out(work: Work, season: Season, change: Change) -> None:
    """Make the list say of one species what the plan says."""
    line = change.stored
    if line is not None:
        work.db.execute(delete(Need).where(Need.wanted_id == line.id))
    if change.after is None:
        work.db.delete(line)
        return
    if line is None:
        line = Wanted(id=uuid4(), season_id=season.id, taxon_id=change.taxon_id)
        work.db.add(line)
    line.priority, line.note = change.after.priority, change.after.note
    add_needs(work, line, change.after.needs)


def check_line(work: Work, season: Season, priority: int, needs: Sequence[NeedGiven]) -> None:
    """Refuse a priority out of range, no need at all, or a place outside the bank's region."""
    if priority not in PRIORITIES:
        raise Refused(say("Priority runs from 1, first, to 3."), field="priority")
    if not needs:
        raise Refused(say("Say at least one thing that is needed: how many populations, and from where."))
    check_needs(needs)
    places = Places.of(work, season)
    for at, need in enumerate(needs):
        if need.ecoregion_id and need.ecoregion_id not in places.ecoregion_codes:
            raise Refused(say("This ecoregion is not in your region."), field=f"needs-{at}-ecoregion_id")
        if need.district_id and need.district_id not in places.district_codes:
            raise Refused(say("This district is not in your region."), field=f"needs-{at}-district_id")


def put_line(
    work: Work, season: Season, taxon_id: UUID, priority: int, note: str, needs: Sequence[NeedGiven]
) -> Wanted:
    """Write one species' line; nothing is recorded when it says already what it should."""
    line = queries.wanted_of(work, season.id, taxon_id)
    before = told(line, given(work, line)) if line else {}
    after = {"priority": priority, "note": note, "needs": as_told(needs)}
    if line is None:
        line = Wanted(id=uuid4(), season_id=season.id, taxon_id=taxon_id)
        work.db.add(line)
    if before != after:
        line.priority, line.note = priority, note
        work.db.execute(delete(Need).where(Need.wanted_id == line.id))
        add_needs(work, line, needs)
        work.db.flush()
        record(work, Event.WANTED_CHANGED, line, before=before, after=after)
    return line


def add_needs(work: Work, line: Wanted, needs: Iterable[NeedGiven]) -> None:
    work.db.flush()  # the line must stand before its needs
    work.db.add_all(
        Need(
            wanted_id=line.id,
            populations=need.populations,
            ecoregion_id=need.ecoregion_id,
            district_id=need.district_id,
        )
        for need in needs
    )


def given(work: Work, line: Wanted) -> list[NeedGiven]:
    return [NeedGiven.of(need) for need in queries.needs_of(work, line.id)]


def told(line: Wanted, needs: Iterable[NeedGiven]) -> dict[str, Any]:
    return {"priority": line.priority, "note": line.note, "needs": as_told(needs)}


def keep_file(work: Work, data: bytes) -> str:
    """Keep a list as a file, so that a later look at it sees the very same bytes."""
    return work.files.keep(data, kind="wanted-lists", ending="csv")
