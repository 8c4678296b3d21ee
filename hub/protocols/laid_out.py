"""A sheet laid out for reading: which line stands where, in which of its wordings, with which reason."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Any

from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet import Line, Section, Sheet, Source, Status
from hub.words import Words, say


class Version(StrEnum):
    """The three ways in which a sheet is set."""

    FULL = "full"
    PLAIN = "plain"
    LARGE = "large"


# Their figures stand on the first page, so that a line of their own would only repeat them.
SHOWN_LARGE = (
    "handling", "container", "hours_to_bank", "drying", "freezing", "season_share", "plant_share",
    "seed_goal", "counts",
)  # fmt: skip
# A sentence as short as this needs no catchword before it.
SHORT = 48


@dataclass(frozen=True)
class Item:
    """One thing to do or to mind: a catchword, a sentence, and where it came from."""

    title: Words | None
    text: Words
    line: Line
    plain: bool = False

    @property
    def catchword(self) -> Words | None:
        """The title, where it helps the eye to find the line again."""
        return None if self.plain or len(str(self.text)) <= SHORT else self.title


@dataclass(frozen=True)
class Reason:
    """Why something stands on the sheet, and the numbers of its sources in the list of them."""

    title: Words | None
    line: Line
    sources: tuple[int, ...]


def title_of(line: Line) -> Words | None:
    """The title of the rule that decided, as the rulebook has it now; nothing where it has gone since."""
    rule = standard_rulebook().rule(line.rules[0]) if line.rules else None
    return Words(rule.title) if rule else None


def wording(line: Line, version: Version) -> Words:
    return line.plain if version is Version.PLAIN else line.text


def items(lines: Iterable[Line], version: Version) -> list[Item]:
    plain = version is Version.PLAIN
    return [Item(title_of(line), wording(line, version), line, plain) for line in lines]


def sections(sheet: Sheet, version: Version) -> list[tuple[Section, list[Item]]]:
    """The parts of the sheet without what stands large on the first page, and without empty parts."""
    large = {getattr(sheet.headline, name).rules[0] for name in SHOWN_LARGE}
    parts = []
    for section, lines in sheet.sections.items():
        shown = [line for line in lines if line.rules[0] not in large]
        if shown:
            parts.append((section, items(shown, version)))
    return parts


def papers(sheet: Sheet) -> list[Words]:
    """What the owner and the authorities ask, in their own words, and until when their papers hold."""
    permission = sheet.case["permission"]
    told = [say("The owner asks: {condition}", condition=each) for each in permission["conditions"]]
    if permission["granted"] and permission["until"]:
        until = date.fromisoformat(permission["until"])
        told.insert(0, say("The owner’s permission holds until {day}.", day=until))
    return told + [words for permit in sheet.case["permits"] for words in of_permit(permit)]


def of_permit(permit: Mapping[str, Any]) -> Iterator[Words]:
    """One permit: its number, its last day, its cap for all together, its conditions."""
    yield say("Permit {number} of {authority}.", number=permit["number"], authority=permit["authority"])
    if permit["until"]:
        yield say("The permit holds until {day}.", day=date.fromisoformat(permit["until"]))
    if permit["cap_seeds"] is not None:
        yield say("The permit allows {n} seeds in all, every group together.", n=permit["cap_seeds"])
    yield from (say("The permit asks: {condition}", condition=each) for each in permit["conditions"])


def reasons(sheet: Sheet, version: Version) -> tuple[list[Reason], list[Source]]:
    """Each printed line’s reason once, in reading order, and the sources they name, as they are numbered.

    Pupils read the reasons of the essential numbers alone.
    """
    lines = list(once(explained(sheet, version)))
    named = {key for line in lines for key in line.sources}
    sources = [source for source in sheet.sources if source.key in named]
    numbers = {source.key: n for n, source in enumerate(sources, start=1)}
    cited = [tuple(sorted(numbers[key] for key in line.sources)) for line in lines]
    return [Reason(title_of(line), line, at) for line, at in zip(lines, cited, strict=True)], sources


def explained(sheet: Sheet, version: Version) -> Iterator[Line]:
    """The lines that are printed; a sheet that says stop prints no essential numbers."""
    yield from sheet.reasons
    if sheet.status is not Status.STOP:
        yield from (line for _, line in sheet.headline.lines())
    if version is not Version.PLAIN:
        yield from (line for lines in sheet.sections.values() for line in lines)


def once(lines: Iterable[Line]) -> Iterator[Line]:
    """The lines without those whose reason was already given."""
    given: set[str] = set()
    for line in lines:
        if str(line.why) not in given:
            given.add(str(line.why))
            yield line
