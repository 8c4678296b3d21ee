"""What a scientific name is made of, once it has been read."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from enum import StrEnum

from hub.words import Refused, Words


class NameUnreadable(Refused):
    """The text is not a scientific name of a wild plant; ``words`` say what is wrong with it."""


class Hybrid(StrEnum):
    """Where a name says that its plant is a hybrid; the lowest such place counts.

    ``NOTHOSUBSPECIES`` stands for every hybrid rank below the species; the marker tells which.
    """

    NONE = "none"
    NOTHOGENUS = "nothogenus"
    NOTHOSPECIES = "nothospecies"
    NOTHOSUBSPECIES = "nothosubspecies"
    FORMULA = "formula"


_RANKS = {
    "subsp.": "subspecies",
    "var.": "variety",
    "subvar.": "subvariety",
    "f.": "form",
    "subf.": "subform",
}


@dataclass(frozen=True)
class ParsedName:
    """One name in its parts; empty text where a part is missing.

    ``canonical`` is the name without authors, as it is printed. ``search_key`` is lower case,
    without hybrid signs, rank markers and diaeresis, so that it meets what people type. A
    formula has only its first genus, its qualifiers, its canonical and its key.
    """

    genus: str
    specific_epithet: str = ""
    marker: str = ""
    infraspecific_epithet: str = ""
    hybrid: Hybrid = Hybrid.NONE
    authorship: str = ""
    qualifier: str = ""
    canonical: str = ""
    search_key: str = ""
    warnings: tuple[Words, ...] = ()

    @property
    def rank(self) -> str:
        """The taxonomic rank: genus, species, aggregate, formula, or one below the species."""
        if self.hybrid is Hybrid.FORMULA:
            return "formula"
        if self.infraspecific_epithet:
            return _RANKS.get(self.marker.removeprefix("notho"), "infraspecific")
        if not self.specific_epithet:
            return "genus"
        return "aggregate" if "agg." in self.qualifier.split() else "species"


def search_key(*words: str) -> str:
    """The words as people would type them: lower case, plain letters, one space between."""
    decomposed = unicodedata.normalize("NFD", " ".join(filter(None, words)).lower())
    return "".join(letter for letter in decomposed if not unicodedata.combining(letter))
