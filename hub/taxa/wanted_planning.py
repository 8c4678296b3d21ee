"""Works out what taking in a list would do to a season's list, and what is wrong with it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import NamedTuple
from uuid import UUID

from sqlalchemy import select

from hub.db.work import Work
from hub.taxa.models import Need, Season, Taxon, Wanted
from hub.taxa.names import NameUnreadable, parse_name
from hub.taxa.needs import NeedGiven
from hub.taxa.places import Places
from hub.taxa.untold import Untold
from hub.taxa.wanted_columns import Column
from hub.taxa.wanted_file import Problem, WantedRow
from hub.taxa.wanted_plan import Change, Line, Plan
from hub.words import Words, say

MOST_GUESSES = 40  # misspelt names that get a suggestion; looking for one takes a while
USUAL_PRIORITY = 2


class Known(NamedTuple):
    """What the plan must know of a species."""

    id: UUID
    name: str
    native: bool | None


@dataclass
class Draft:
    """One species' line while its rows are being read."""

    name: str
    priority: int | None = None
    notes: list[str] = field(default_factory=list)
    needs: dict[tuple[UUID | None, UUID | None], int] = field(default_factory=dict)
    rows: dict[tuple[UUID | None, UUID | None], int] = field(default_factory=dict)

    @property
    def line(self) -> Line:
        needs = (NeedGiven(populations, *place) for place, populations in self.needs.items())
        return Line.of(self.priority or USUAL_PRIORITY, "\n".join(self.notes), needs)


def planned(work: Work, season: Season, rows: Iterable[WantedRow], *, whole: bool = False) -> Plan:
    """What these rows would make of the season's list. With ``whole``, what they do not name is taken off."""
    reading = Reading(known_species(work), Places.of(work, season), Untold.of(work, season.bank_id))
    for row in rows:
        reading.read(row)
    stored = {line.taxon_id: (line, needs) for line, needs in stored_lines(work, season)}
    plan = Plan(problems=reading.problems, remarks=reading.remarks)
    for taxon_id, draft in reading.drafts.items():
        line, needs = stored.pop(taxon_id, (None, ()))
        before = Line.of(line.priority, line.note, needs) if line else None
        plan.changes.append(Change(taxon_id, draft.name, before, draft.line, line))
    names = {known.id: known.name for known in reading.known.values()}
    for taxon_id, (line, needs) in stored.items() if whole else ():
        before = Line.of(line.priority, line.note, needs)
        plan.changes.append(Change(taxon_id, names[taxon_id], before, None, line))
    plan.changes.sort(key=lambda change: (change.name, str(change.taxon_id)))
    return plan


def listed_rows(work: Work, season: Season) -> list[WantedRow]:
    """The season's list as a file has it: a row for each need, by the species' names."""
    places = Places.of(work, season)
    names = {each.id: each.name for each in known_species(work).values()}
    rows = [
        (names[line.taxon_id], places.codes(need), need.populations, line)
        for line, needs in stored_lines(work, season)
        for need in needs
    ]
    rows.sort(key=lambda row: row[:2])
    return [
        WantedRow(at, name, populations, *codes, line.priority, line.note)
        for at, (name, codes, populations, line) in enumerate(rows, start=2)
    ]


def stored_lines(work: Work, season: Season) -> list[tuple[Wanted, list[NeedGiven]]]:
    """Every line of a season's list with its needs, in two questions."""
    needs: dict[UUID, list[NeedGiven]] = defaultdict(list)
    of_season = select(Need).join(Wanted, Wanted.id == Need.wanted_id).where(Wanted.season_id == season.id)
    for need in work.db.scalars(of_season):
        needs[need.wanted_id].append(NeedGiven.of(need))
    lines = work.db.scalars(select(Wanted).where(Wanted.season_id == season.id))
    return [(line, needs[line.id]) for line in lines]


def known_species(work: Work) -> dict[str, Known]:
    """Every species by its search key."""
    found = select(Taxon.search_key, Taxon.id, Taxon.scientific_name, Taxon.native)
    return {row.search_key: Known(row.id, row.scientific_name, row.native) for row in work.db.execute(found)}


class Reading:
    """Rows brought together by species, with a sentence for everything that does not fit."""

    def __init__(self, known: dict[str, Known], places: Places, untold: Untold) -> None:
        self.known = known
        self.places = places
        self.untold = untold
        self.drafts: dict[UUID, Draft] = {}
        self.problems: list[Problem] = []
        self.remarks: list[Problem] = []
        self.guesses = 0

    def read(self, row: WantedRow) -> None:
        """Take in one row, or note what is wrong with it."""
        species = self.species(row)
        ecoregion = self.place(row, Column.ECOREGION, row.ecoregion, self.places.ecoregion_ids)
        district = self.place(row, Column.DISTRICT, row.district, self.places.district_ids)
        if species is None or isinstance(ecoregion, Words) or isinstance(district, Words):
            return
        draft = self.drafts.setdefault(species.id, Draft(species.name))
        self.add_need(draft, row, (ecoregion, district))
        self.add_priority(draft, row)
        self.add_note(draft, row)

    def refuse(self, row: WantedRow, column: Column, words: Words) -> None:
        self.problems.append(Problem(row.row, column.words, words))

    def species(self, row: WantedRow) -> Known | None:
        try:
            parsed = parse_name(row.name)
        except NameUnreadable as unreadable:
            self.refuse(row, Column.NAME, unreadable.words)
            return None
        found = self.known.get(parsed.search_key)
        if found is None:
            self.refuse(row, Column.NAME, self.not_known(parsed.search_key, parsed.canonical))
        elif found.native is False:
            told = say("{name} is not native here. Check that it is really wanted.", name=found.name)
            self.remarks.append(Problem(row.row, Column.NAME.words, told))
        return found

    def not_known(self, key: str, name: str) -> Words:
        """A name that is in no record, with the one that was probably meant."""
        self.guesses += 1
        alike = (
            [other for other in self.known if other[:2] == key[:2]] if self.guesses <= MOST_GUESSES else []
        )
        close = get_close_matches(key, alike, n=1, cutoff=0.8)
        if close:
            meant = self.known[close[0]].name
            return say("There is no species {name} here. Was {meant} meant?", name=name, meant=meant)
        return say("There is no species {name} here. Add it first, or check the spelling.", name=name)

    def place(self, row: WantedRow, column: Column, text: str, ids: dict[str, UUID]) -> UUID | Words | None:
        """The place that a cell names by code or name; nothing for anywhere; words when it is unknown."""
        found = ids.get(text.casefold()) if text else None
        if not text or found:
            return found
        wrong = say("“{given}” is no {kind} of your region.", given=text, kind=column.words)
        self.refuse(row, column, wrong)
        return wrong

    def add_need(self, draft: Draft, row: WantedRow, place: tuple[UUID | None, UUID | None]) -> None:
        if place in draft.needs:
            told = say("Row {row} names this species and place already.", row=draft.rows[place])
            self.refuse(row, Column.NAME, told)
        else:
            draft.needs[place], draft.rows[place] = row.populations, row.row

    def add_priority(self, draft: Draft, row: WantedRow) -> None:
        if row.priority and draft.priority and row.priority != draft.priority:
            told = say(
                "An earlier row gives this species the priority {n}. A species has one.", n=draft.priority
            )
            self.refuse(row, Column.PRIORITY, told)
        draft.priority = draft.priority or row.priority

    def add_note(self, draft: Draft, row: WantedRow) -> None:
        """Keep a note once, unless it would tell everybody of a place."""
        if not row.note or row.note in draft.notes:
            return
        trouble = self.untold.trouble(row.note)
        if trouble:
            self.refuse(row, Column.NOTE, trouble)
        draft.notes.append(row.note)
