"""The outer form of a typed name: spaces, signs and letters, before its grammar is read."""

from __future__ import annotations

import re
import unicodedata

from hub.taxa.names.parts import NameUnreadable
from hub.words import Words, say

LONGEST_NAME = 300

_CULTIVAR = re.compile(r"(?<!\S)(?:['‘’\"“][A-ZÀ-Þ]|cv\.)")
_STRAY_SIGN = re.compile(r"[^\w\s.,&()'’×-]|_")
_YEAR = re.compile(r",?\s*(?:\((?:1[5-9]|20)\d\d\)|\b(?:1[5-9]|20)\d\d\b)")
_NESTED_OR_OPEN = re.compile(r"\([^)]*(?:\(|$)|^[^(]*\)|\)[^(]*\)")

# The letter x stands for the hybrid sign when it stands alone, or directly before a genus.
_LETTER_X = re.compile(r"(?<!\S)[xX](?!\S)|^[xX](?=[A-Z][a-z])")

# What people run together: a bracket with its neighbours, a rank marker with its epithet.
_SPACING = (
    (re.compile(r"\s*×\s*"), " × "),
    (re.compile(r"\s*\(\s*"), " ("),
    (re.compile(r"\s*\)(?![,)])\s*"), ") "),
    (re.compile(r"(?<= )(subsp|ssp|var|subvar|subf)\.(?=[a-z])"), r"\1. "),
    (re.compile(r"(?<= )s\. (l|str)\.(?!\S)"), r"s.\1."),
)

# Art. 60 of the code: plain letters, the hyphen and the diaeresis (from memory).
_PLAIN_WORD = re.compile(r"[a-zäëïöüÿ]+(?:-[a-zäëïöüÿ]+)*")


def tidy(text: str) -> tuple[str, list[Words]]:
    """The name with plain spacing and real hybrid signs, and a warning for each real change.

    Raises ``NameUnreadable`` for what cannot be the botanical name of a wild plant.
    """
    warnings: list[Words] = []
    name = " ".join(unicodedata.normalize("NFC", text).split())
    if name != unicodedata.normalize("NFC", text):
        warnings.append(say("Extra spaces were taken out."))
    _refuse_foreign_forms(name)
    for old, new, words in (
        (_LETTER_X, "×", say("The letter x was read as the hybrid sign ×.")),
        (_YEAR, "", say("The year is no part of a plant name. It was left out.")),
    ):
        if old.search(name):
            name = old.sub(new, name)
            warnings.append(words)
    if re.search(r"\d", name):
        raise NameUnreadable(say("A scientific name has no digits. Put numbers into the notes."))
    for pattern, spaced in _SPACING:
        name = pattern.sub(spaced, name)
    return name.strip(), warnings


def _refuse_foreign_forms(name: str) -> None:
    """Refuse, each with its reason, the forms that the botanical code has no place for."""
    if not name:
        raise NameUnreadable(say("Write a scientific name, such as Silene acaulis."))
    if len(name) > LONGEST_NAME:
        raise NameUnreadable(say("This is too long for a name: {n} signs at most.", n=LONGEST_NAME))
    if "+" in name:
        raise NameUnreadable(say("The sign + marks a graft of two plants, which is no wild plant."))
    if _CULTIVAR.search(name):
        raise NameUnreadable(say("This names a garden variety (cultivar), which is no wild plant."))
    if name.split()[0].isupper() and len(name.split()[0]) > 2:
        raise NameUnreadable(
            say("The name is all in capitals. Write the genus with one capital and the rest small.")
        )
    if stray := _STRAY_SIGN.search(name):
        raise NameUnreadable(say("The sign “{sign}” has no place in a scientific name.", sign=stray[0]))
    if _NESTED_OR_OPEN.search(name):
        raise NameUnreadable(
            say("The brackets do not match. Each opening bracket needs its own closing one.")
        )


def is_epithet(word: str) -> bool:
    """Whether the word can be an epithet: small plain letters, hyphens inside, more than one letter."""
    return len(word) > 1 and _PLAIN_WORD.fullmatch(word) is not None


def check_letters(word: str) -> None:
    """Refuse a genus or epithet with letters that scientific names do not use, naming the first."""
    if is_epithet(word.lower()):
        return
    foreign = next((sign for sign in word.lower() if not _PLAIN_WORD.fullmatch(sign) and sign != "-"), None)
    if foreign is None:
        raise NameUnreadable(say("“{word}” is no whole word of a scientific name.", word=word))
    raise NameUnreadable(
        say(
            "“{word}” has “{sign}”, which scientific names do not use. Write plain letters, as in ae for æ.",
            word=word,
            sign=foreign,
        )
    )
