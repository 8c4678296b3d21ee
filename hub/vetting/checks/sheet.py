"""Whether the sheet that a collection was made under held on that day, and for these plants."""

from __future__ import annotations

from hub.protocols.sheet import Status
from hub.taxa.names import NameUnreadable, parse_name
from hub.vetting.checks.answers import Answers, listed, stop
from hub.vetting.checks.grounds import RECORDS
from hub.vetting.evidence import Evidence, SheetFacts
from hub.words import Words, say


def sheet_current(evidence: Evidence) -> Answers:
    """The sheet was neither withdrawn nor superseded before that day."""
    facts, day = evidence.sheet, evidence.collection.collected_on
    if facts.ended_on is not None and facts.ended_on < day:
        known = {"sheet": facts.number, "collected_on": day, "ended_on": facts.ended_on}
        yield stop("sheet_current", _ended(facts), RECORDS, known)


def sheet_issued(evidence: Evidence) -> Answers:
    """Whoever went out before there was a sheet went without its limits."""
    facts, day = evidence.sheet, evidence.collection.collected_on
    if day < facts.issued_on:
        words = say(
            "The seed was collected before sheet {sheet} was issued on {day}.",
            sheet=facts.number,
            day=facts.issued_on,
        )
        known = {"sheet": facts.number, "collected_on": day, "issued_on": facts.issued_on}
        yield stop("sheet_issued", words, RECORDS, known)


def _ended(facts: SheetFacts) -> Words:
    if facts.withdrawn:
        return say(
            "Sheet {sheet} was withdrawn on {day}, before the seed was collected.",
            sheet=facts.number,
            day=facts.ended_on,
        )
    return say(
        "Sheet {sheet} was replaced on {day}, before the seed was collected.",
        sheet=facts.number,
        day=facts.ended_on,
    )


def sheet_ready(evidence: Evidence) -> Answers:
    """A sheet that is not ready forbids collecting until what it asks for is there."""
    sheet = evidence.sheet.sheet
    if sheet.status is not Status.READY:
        reasons = [line.text for line in sheet.reasons] or [say("no reason was written down")]
        words = say(
            "Sheet {sheet} was not to be used for collecting: {reasons}",
            sheet=evidence.sheet.number,
            reasons=listed(reasons),
        )
        yield stop("sheet_ready", words, RECORDS, {"sheet": evidence.sheet.number, "status": sheet.status})


def sheet_same_plants(evidence: Evidence) -> Answers:
    """The sheet was written for this species at this population."""
    case = evidence.case
    asked = (_canonical(case["taxon"].get("name", "")), case["population"].get("name", ""))
    found = (_canonical(evidence.taxon.name), evidence.place.population)
    if any(there and there != here for there, here in zip(asked, found, strict=True)):
        words = say(
            "The sheet is for {asked}, the collection from {found}.",
            asked=", ".join(asked),
            found=", ".join(found),
        )
        yield stop("sheet_same_plants", words, RECORDS, {"sheet_is_for": asked, "collected_from": found})


def _canonical(name: str) -> str:
    """A scientific name without its authors, which a sheet prints and a list may not; else as it is."""
    try:
        return parse_name(name).canonical
    except NameUnreadable:
        return name


def sheet_season(evidence: Evidence) -> Answers:
    """A sheet counts what may be taken in one year and until the season closes, so it serves no other day."""
    day, season, closed = (
        evidence.collection.collected_on,
        evidence.sheet.sheet.season,
        evidence.sheet.closes_on,
    )
    known = {"collected_in_year": day.year, "sheet_for_year": season}
    if day.year != season:
        words = say(
            "The seed was collected in {year}; the sheet is for the season {season}.",
            year=str(day.year),
            season=str(season),
        )
        yield stop("sheet_season", words, RECORDS, known)
    elif closed is not None and day > closed:
        words = say(
            "The seed was collected on {day}; the season had closed on {closed}.", day=day, closed=closed
        )
        yield stop("sheet_season", words, RECORDS, {**known, "collected_on": day, "closed_on": closed})
