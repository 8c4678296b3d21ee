"""Rarity ranks such as ``G5T2``: read, checked and rounded, never assigned by us.

The codes and their meaning follow the public definitions of the G, N and S ranks (Master et al.
2012; Faber-Langendoen et al. 2012). Captivity marks, the T comparison and rounding are from memory.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from hub.words import Refused, Words, say

# From rarest to commonest; the distance between two places is what a range may span.
_SCALE = "XH12345"
_WIDEST_RANGE = 2

_PART = re.compile(
    r"(?P<letter>[GNST])(?P<rarer>NR|NA|[1-5XHU])?(?:(?P=letter)(?P<commoner>[1-5HX]))?"
    r"(?P<inexact>\?)?(?P<captive>C)?(?P<inexact_after>\?)?(?P<questionable>Q)?(?P<season>[BNM])?"
)


class RankUnreadable(Refused):
    """The text is not a rank; ``words`` say what is wrong with it."""


class RankKind(StrEnum):
    """What the main part of a rank tells."""

    NUMERIC = "numeric"
    RANGE = "range"
    EXTINCT = "extinct"
    HISTORICAL = "historical"
    UNRANKABLE = "unrankable"
    NOT_RANKED = "not_ranked"
    NOT_APPLICABLE = "not_applicable"
    SEASONAL = "seasonal"
    HYBRID = "hybrid"


_KINDS = {
    "X": RankKind.EXTINCT,
    "H": RankKind.HISTORICAL,
    "U": RankKind.UNRANKABLE,
    "NR": RankKind.NOT_RANKED,
    "NA": RankKind.NOT_APPLICABLE,
}


@dataclass(frozen=True)
class RankPart:
    """One letter with its level or range: ``G2G3?Q`` or the ``T1`` of ``G5T1``.

    ``rarer`` and ``commoner`` are the two ends of a range and alike when there is none.
    """

    letter: str
    rarer: str
    commoner: str
    inexact: bool = False
    captive: bool = False
    questionable: bool = False
    season: str = ""

    @property
    def is_range(self) -> bool:
        """Whether the part spans more than one level."""
        return self.rarer != self.commoner

    @property
    def kind(self) -> RankKind:
        """What this part tells by itself."""
        return RankKind.RANGE if self.is_range else _KINDS.get(self.rarer, RankKind.NUMERIC)

    @property
    def rounded(self) -> str:
        """One level for filters: the rarer of two, the middle of three (common practice, from memory)."""
        rarer, commoner = _SCALE.find(self.rarer), _SCALE.find(self.commoner)
        middle_of_three = commoner - rarer == _WIDEST_RANGE and self.rarer.isdigit()
        return self.letter + (_SCALE[rarer + 1] if middle_of_three else self.rarer)

    def __str__(self) -> str:
        upper = self.letter + self.commoner if self.is_range else ""
        marks = "?" * self.inexact + "C" * self.captive + "Q" * self.questionable
        return self.letter + self.rarer + upper + marks + self.season


@dataclass(frozen=True)
class Rank:
    """A whole rank: one part, or several seasonal ones, and the T part of a subspecies or variety."""

    scope: str
    parts: tuple[RankPart, ...]
    infraspecific: RankPart | None = None
    warnings: tuple[Words, ...] = ()

    @property
    def kind(self) -> RankKind:
        """What the rank tells; a rank without parts stands for a hybrid."""
        if not self.parts:
            return RankKind.HYBRID
        return RankKind.SEASONAL if len(self.parts) > 1 else self.parts[0].kind

    @property
    def rounded(self) -> str:
        """The rank in its shortest form, by the T part where there is one."""
        governing = (self.infraspecific,) if self.infraspecific else self.parts
        several = len(governing) > 1
        return ";".join(part.rounded + (part.season if several else "") for part in governing)

    @property
    def every_part(self) -> tuple[RankPart, ...]:
        """All parts in the order in which they are written."""
        return self.parts if self.infraspecific is None else (*self.parts, self.infraspecific)

    def __str__(self) -> str:
        separator = "" if self.infraspecific else ","
        return separator.join(str(part) for part in self.every_part) or "HYB"


def parse_rank(text: str) -> Rank | None:
    """Read a rank such as ``S2S3`` or ``G5T1Q``; ``None`` when nothing was given.

    Raises ``RankUnreadable`` with words that say what is wrong.
    """
    code = re.sub(r"\s+", "", text).upper()
    if not code:
        return None
    if code == "HYB":
        return Rank("G", ())
    if code[0] not in "GNS":
        raise RankUnreadable(say("A rank starts with G, N or S, as in S2."))
    rank = _read_global(code) if code[0] == "G" else _read_local(code)
    if code == text:
        return rank
    tidied = say("Read as {code}, without spaces and in capitals.", code=code)
    return Rank(rank.scope, rank.parts, rank.infraspecific, (tidied, *rank.warnings))


def _read_global(code: str) -> Rank:
    """A G rank, with the T part that a subspecies or variety adds."""
    warnings: list[Words] = []
    species, rest = _read_part("G", code, warnings)
    if not rest:
        return Rank("G", (species,), None, tuple(warnings))
    infraspecific, rest = _read_part("T", rest, warnings)
    if rest:
        raise _unexpected(rest)
    _compare_with_species(infraspecific, species, warnings)
    return Rank("G", (species,), infraspecific, tuple(warnings))


def _read_local(code: str) -> Rank:
    """An N or S rank; seasonal parts are split by commas and all bear the same letter."""
    warnings: list[Words] = []
    parts = []
    for written in code.split(","):
        part, rest = _read_part(code[0], written, warnings)
        if rest:
            raise _unexpected(rest)
        parts.append(part)
    if len(parts) > 1 and not all(part.season for part in parts):
        raise RankUnreadable(say("Give each part its season letter, as in S2B,S4N, or write only one part."))
    if any(part.season for part in parts):
        warnings.append(say("Season letters are meant for animals. For plants they are left aside."))
    return Rank(code[0], tuple(parts), None, tuple(warnings))


def _read_part(letter: str, code: str, warnings: list[Words]) -> tuple[RankPart, str]:
    """The part at the head of the code, and what is left behind it."""
    found = _PART.match(code)
    if found is None or found["letter"] != letter:
        raise _unexpected(code)
    _check_marks(found)
    inexact = bool(found["inexact"] or found["inexact_after"])
    rarer, inexact = _level(found, inexact, warnings)
    part = RankPart(
        letter,
        rarer,
        found["commoner"] or rarer,
        inexact,
        captive=found["captive"] is not None,
        questionable=found["questionable"] is not None,
        season=found["season"] or "",
    )
    return part, code[found.end() :]


def _check_marks(found: re.Match[str]) -> None:
    """C and Q belong to global ranks, season letters to the others."""
    local = found["letter"] in "NS"
    if local and (found["captive"] or found["questionable"]):
        raise RankUnreadable(say("Q and C are used with global ranks only."))
    if not local and found["season"]:
        raise _unexpected(found["season"])


def _level(found: re.Match[str], inexact: bool, warnings: list[Words]) -> tuple[str, bool]:
    """The rarer end of the part, and whether its ``?`` means anything there."""
    letter, rarer, commoner = found["letter"], found["rarer"], found["commoner"]
    if rarer is None and inexact and commoner is None:
        warnings.append(say("{old} is an older way to write {new}.", old=f"{letter}?", new=f"{letter}NR"))
        return "NR", False
    if rarer is None:
        raise RankUnreadable(say("{letter} needs a level: 1 to 5, X, H, U, NR or NA.", letter=letter))
    if commoner is not None:
        _check_range(rarer, commoner)
    if inexact and (commoner is not None or not rarer.isdigit()):
        warnings.append(say("A question mark says something only beside a single number. It is left aside."))
        return rarer, False
    return rarer, inexact


def _check_range(rarer: str, commoner: str) -> None:
    """A range climbs from rarer to commoner and skips one level at most."""
    width = _SCALE.index(commoner) - _SCALE.find(rarer)
    if rarer not in _SCALE or width <= 0:
        raise RankUnreadable(say("A range runs from the rarer level to the commoner one, as in G2G3."))
    if width > _WIDEST_RANGE:
        raise RankUnreadable(say("A range may not skip more than one level. Use U for so wide a range."))


def _compare_with_species(infraspecific: RankPart, species: RankPart, warnings: list[Words]) -> None:
    """A subspecies or variety cannot be commoner than the whole species it is part of."""
    if infraspecific.rarer not in _SCALE or species.rarer not in _SCALE:
        return
    ceiling = _SCALE.index(species.commoner)
    if _SCALE.index(infraspecific.rarer) > ceiling:
        raise RankUnreadable(say("The T rank cannot be commoner than the rank of its species."))
    if _SCALE.index(infraspecific.commoner) > ceiling:
        warnings.append(say("The T range reaches beyond the rank of its species. Please check it."))


def _unexpected(rest: str) -> RankUnreadable:
    return RankUnreadable(say("“{rest}” does not belong at this place in a rank.", rest=rest))
