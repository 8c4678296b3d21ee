"""The columns of a wanted list as a file: what stands above them, and what may stand in them."""

from __future__ import annotations

import re
import unicodedata
from enum import Enum

from hub.taxa.needs import MOST_POPULATIONS
from hub.words import Words, say

LONGEST_PLACE = 200  # characters
LONGEST_NOTE = 5000
DIGITS = re.compile(r"[0-9]{1,4}", re.ASCII)


class Column(Enum):
    """The columns of a list: the word above it, its name in a sentence, what to write, other words for it."""

    NAME = (
        "scientific_name",
        say("scientific name"),
        say("The species, as Arnica montana L.; authors may be left out. It must be among the species here."),
        ("species", "taxon", "name", "latin name"),
    )
    POPULATIONS = (
        "populations",
        say("populations"),
        say("How many populations are needed from this place: a whole number in digits."),
        ("number of populations", "how many", "needed", "number"),
    )
    ECOREGION = (
        "ecoregion",
        say("ecoregion"),
        say("Its code or name. Empty means any ecoregion."),
        ("ecoregion code", "ecological region"),
    )
    DISTRICT = (
        "district",
        say("district"),
        say("Its code or name. Empty means any district."),
        ("district code", "area"),
    )
    PRIORITY = (
        "priority",
        say("priority"),
        say("1 for first, 2, or 3 for when there is time. Empty means 2. A species has one priority."),
        ("urgency",),
    )
    NOTE = (
        "note",
        say("note"),
        say("What a group should know. Everybody can read it, so name no locality."),
        ("notes", "remark", "remarks", "comment", "comments"),
    )

    def __init__(self, heading: str, words: Words, about: Words, others: tuple[str, ...]) -> None:
        self.heading = heading
        self.words = words
        self.about = about
        self.others = others

    @property
    def headings(self) -> tuple[str, ...]:
        """Every word that may stand above this column, as headings are compared."""
        return plain_heading(self.heading), *self.others


def plain_heading(text: str) -> str:
    """A heading as it is compared: small, without underscores and double spaces."""
    return " ".join(text.casefold().replace("_", " ").replace("-", " ").split())


def check_name(text: str) -> Words | None:
    return None if text else say("The name of the species is missing.")


def check_populations(text: str) -> Words | None:
    if not text:
        return say("Say how many populations are needed.")
    if not DIGITS.fullmatch(text):
        return say("Write a whole number in digits, such as 2, not “{given}”.", given=text[:40])
    if not 1 <= int(text) <= MOST_POPULATIONS:
        return say("A need is 1 to {n} populations.", n=MOST_POPULATIONS)
    return None


def check_priority(text: str) -> Words | None:
    return None if text in ("", "1", "2", "3") else say("Priority is 1, first, to 3, or left empty for 2.")


def check_place(text: str) -> Words | None:
    return say("This is too long for the code or the name of a place.") if len(text) > LONGEST_PLACE else None


def check_note(text: str) -> Words | None:
    if len(text) > LONGEST_NOTE:
        return say("The note is too long: {n} characters at most.", n=LONGEST_NOTE)
    hidden = any(unicodedata.category(sign) in ("Cc", "Cs") and sign not in "\n\t" for sign in text)
    return say("This holds a hidden character that cannot be kept. Please type it again.") if hidden else None


CHECKS = {
    Column.NAME: check_name,
    Column.POPULATIONS: check_populations,
    Column.ECOREGION: check_place,
    Column.DISTRICT: check_place,
    Column.PRIORITY: check_priority,
    Column.NOTE: check_note,
}
