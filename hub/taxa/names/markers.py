"""The small words inside a name: rank markers, qualifiers, and those that belong to authors."""

from __future__ import annotations

import re

_RANKS = {
    "subsp.": ("subsp", "ssp", "subspec", "subspecies"),
    "var.": ("var", "variety", "varietas"),
    "subvar.": ("subvar",),
    "f.": ("f", "fo", "fm", "fma", "fa", "form", "forma"),
    "subf.": ("subf", "subforma"),
}
_MARKERS = {spelling: marker for marker, spellings in _RANKS.items() for spelling in spellings}

# Ranks of older or garden books, which the code no longer orders: kept as they are written.
_OLD_RANKS = ("convar", "agamosp", "agamossp", "agamovar", "prol")

_QUALIFIERS = {
    "cf": "cf.",
    "aff": "aff.",
    "agg": "agg.",
    "aggr": "agg.",
    "s.l": "s.l.",
    "s.str": "s.str.",
    "sp": "sp.",
    "spp": "sp.",
}

# Small words that stand inside the names of authors or join them.
_IN_AUTHORS = frozenset(
    {
        *("&", "and", "et", "ex", "ex.", "in", "f.", "fil.", "filius", "bis", "y", "af", "'t", "’t"),
        *("de", "del", "degli", "della", "den", "der", "des", "di", "do", "dos", "du", "la", "le"),
        *("ten", "ter", "van", "von", "vom", "zu", "zum", "zur"),
        *("auct.", "hort.", "emend.", "non", "nec", "sensu"),
    }
)
_ELIDED_AUTHOR = re.compile(r"[dl]['’][^\W\d_a-z]")


def marker_of(word: str) -> str | None:
    """The standard rank marker that a word stands for, or ``None``."""
    bare = word.removesuffix(".")
    for prefix in ("notho", "n"):
        rest = bare.removeprefix(prefix)
        if rest != bare and rest in _MARKERS:
            return "notho" + _MARKERS[rest]
    return f"{bare}." if bare in _OLD_RANKS else _MARKERS.get(bare)


def is_old_rank(marker: str) -> bool:
    """Whether the marker names a rank that is kept as written but no longer ordered."""
    return marker.removesuffix(".") in _OLD_RANKS


def qualifier_of(word: str) -> str | None:
    """The standard form of a word of doubt or width, such as ``cf.`` or ``agg.``, or ``None``."""
    return _QUALIFIERS.get(word.removesuffix("."))


def joins_authors(word: str) -> bool:
    """Whether a word in small letters can stand inside an authorship."""
    return word.rstrip(",") in _IN_AUTHORS or bool(_ELIDED_AUTHOR.match(word))


def is_author(word: str) -> bool:
    """Whether a word can belong to an authorship: a capital, a bracket, or a joining word."""
    return word[0].isupper() or word[0] in "(,&" or joins_authors(word)
