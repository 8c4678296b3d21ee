"""Reads one scientific name from left to right, word by word."""

from __future__ import annotations

import re
from collections import deque
from dataclasses import dataclass, field

from hub.taxa.names.authors import authorship
from hub.taxa.names.markers import is_author, is_old_rank, joins_authors, marker_of, qualifier_of
from hub.taxa.names.parts import Hybrid, NameUnreadable, ParsedName, search_key
from hub.taxa.names.spelling import check_letters, is_epithet
from hub.words import Words, say

INITIAL = re.compile(r"[A-Z][a-z]{0,2}\.")
"""A genus cut short, as in the later parents of a formula."""


def name_missing() -> NameUnreadable:
    """The refusal of a hybrid sign that stands before nothing."""
    return NameUnreadable(say("After the hybrid sign × a name is missing."))


@dataclass
class Reader:
    """One name while it is being read from the left."""

    words: deque[str]
    warnings: list[Words]
    genus: str = ""
    species: str = ""
    marker: str = ""
    infraspecific: str = ""
    signs: set[Hybrid] = field(default_factory=set)
    authors: list[str] = field(default_factory=list)
    qualifiers: list[str] = field(default_factory=list)

    def read(self) -> ParsedName:
        """Read to the end of the words."""
        self._read_genus()
        self._read_species()
        while self.words:
            self._read_next(self.words.popleft())
        return self._finished()

    def _read_genus(self) -> None:
        self._take_qualifiers()
        self._take_sign(Hybrid.NOTHOGENUS)
        written = self.words.popleft() if self.words else ""
        if INITIAL.fullmatch(written):
            raise NameUnreadable(say("Write the genus in full, not as {short}", short=written))
        if not written:
            raise NameUnreadable(say("The genus is missing."))
        check_letters(written)
        self.genus = written.capitalize()
        if self.genus != written:
            self.warnings.append(say("The genus was written with one capital: {genus}.", genus=self.genus))

    def _read_species(self) -> None:
        self._take_qualifiers()
        self._take_sign(Hybrid.NOTHOSPECIES)
        if self._epithet_follows():
            self.species = self._epithet(self.words.popleft())
        elif Hybrid.NOTHOSPECIES in self.signs:
            raise name_missing()

    def _take_qualifiers(self) -> None:
        while self.words and (qualifier := qualifier_of(self.words[0])):
            self.words.popleft()
            self._add_qualifier(qualifier)

    def _add_qualifier(self, qualifier: str) -> None:
        """Note a qualifier; ``sp.`` stands for the epithet and ends the name."""
        if qualifier == "sp." and (self.species or self.words):
            raise NameUnreadable(say("“sp.” takes the place of the epithet and must come last."))
        self.qualifiers.append(qualifier)

    def _take_sign(self, place: Hybrid) -> None:
        if self.words and self.words[0] == "×":
            self.words.popleft()
            self.signs.add(place)

    def _epithet(self, word: str) -> str:
        check_letters(word)
        if word != word.lower():
            self.warnings.append(say("Epithets are written small: {epithet}.", epithet=word.lower()))
        return word.lower()

    def _read_next(self, word: str) -> None:
        """Read one word behind the genus and the first epithet."""
        marker = marker_of(word)
        if qualifier := qualifier_of(word):
            self._add_qualifier(qualifier)
        elif marker and self.species and self._epithet_follows():
            self._descend(word, marker, self._epithet(self.words.popleft()))
        elif is_author(word):
            self.authors.append(word)
        elif is_epithet(word) and self.species and not marker and len(word) > 2:
            self.warnings.append(
                say("“{word}” has no rank before it. Write subsp., var. or f. if you know it.", word=word)
            )
            self._descend("", "", word)
        else:
            raise NameUnreadable(say("“{word}” does not fit at this place in a scientific name.", word=word))

    def _epithet_follows(self) -> bool:
        """Whether a word in small letters comes next that is no marker and no part of an authorship."""
        if not self.words:
            return False
        following = self.words[0].lower()
        return self.words[0][0].islower() and not (joins_authors(following) or marker_of(following))

    def _descend(self, written: str, marker: str, epithet: str) -> None:
        """Go down to a lower rank, the only one that stays, and forget the authors above it."""
        if self.infraspecific:
            self.warnings.append(
                say(
                    "Only the lowest rank belongs to the name. “{word}” was left out.",
                    word=self.infraspecific,
                )
            )
        if is_old_rank(marker):
            self.warnings.append(
                say("The rank {marker} is out of use. It is kept as written.", marker=marker)
            )
        elif written != marker:
            self.warnings.append(say("“{written}” is written {marker}", written=written, marker=marker))
        self.marker, self.infraspecific, self.authors = marker, epithet, []

    def _finished(self) -> ParsedName:
        return ParsedName(
            self.genus,
            self.species,
            self.marker,
            self.infraspecific,
            self._hybrid(),
            self._authorship(),
            " ".join(self.qualifiers),
            self._canonical(),
            search_key(self.genus, self.species, self.infraspecific),
            tuple(self.warnings),
        )

    def _hybrid(self) -> Hybrid:
        if self.marker.startswith("notho"):
            return Hybrid.NOTHOSUBSPECIES
        return next(
            (sign for sign in (Hybrid.NOTHOSPECIES, Hybrid.NOTHOGENUS) if sign in self.signs), Hybrid.NONE
        )

    def _authorship(self) -> str:
        """The authors; an autonym repeats the species epithet and bears none (Art. 26)."""
        if self.authors and self.infraspecific == self.species != "":
            self.warnings.append(
                say("A name that repeats its epithet bears no author there. It was left out.")
            )
            return ""
        return authorship(self.authors)

    def _canonical(self) -> str:
        genus = "×" * (Hybrid.NOTHOGENUS in self.signs) + self.genus
        species = "×" * (Hybrid.NOTHOSPECIES in self.signs) + self.species
        return " ".join(filter(None, (genus, species, self.marker, self.infraspecific)))
