"""Tells a single name from a hybrid formula, and reads the parents of a formula one by one."""

from __future__ import annotations

import re
from collections import deque

from hub.taxa.names.markers import qualifier_of
from hub.taxa.names.parts import Hybrid, ParsedName
from hub.taxa.names.reader import INITIAL, Reader, name_missing
from hub.taxa.names.spelling import is_epithet, tidy
from hub.words import Words, say

_TOKEN = re.compile(r"\([^()]*\),?|[^\s()]+")
_SUBGENUS = re.compile(r"\([A-Z][a-z-]+\)")


def parse_name(text: str) -> ParsedName:
    """Read a scientific name, with or without authors, or a hybrid formula.

    Raises ``NameUnreadable`` with words that say what is wrong. What could be understood
    but was not written in the usual form is set right and told in ``warnings``.
    """
    name, warnings = tidy(text)
    parents = _split_at_signs(_without_subgenus(_TOKEN.findall(name), warnings))
    if len(parents) == 1:
        return Reader(deque(parents[0]), warnings).read()
    return _formula(parents, warnings)


def _without_subgenus(words: list[str], warnings: list[Words]) -> list[str]:
    """Drop a subgenus in brackets between genus and epithet, which is no part of the name."""
    if len(words) < 3 or not _SUBGENUS.fullmatch(words[1]) or not (words[2] == "×" or is_epithet(words[2])):
        return words
    warnings.append(
        say("The subgenus {subgenus} is no part of the name. It was left out.", subgenus=words[1])
    )
    return [words[0], *words[2:]]


def _split_at_signs(words: list[str]) -> list[list[str]]:
    """The parents of a formula; a single name, with its own hybrid signs, stays in one piece."""
    parents: list[list[str]] = [[]]
    for place, word in enumerate(words):
        following = words[place + 1] if place + 1 < len(words) else ""
        named = [known for known in parents[-1] if known != "×" and not qualifier_of(known)]
        own_sign = not named or (len(named) == 1 and is_epithet(following))
        if word == "×" and not following:
            raise name_missing()
        if word == "×" and not own_sign:
            parents.append([])
        else:
            parents[-1].append(word)
    return parents


def _formula(parents: list[list[str]], warnings: list[Words]) -> ParsedName:
    """The name of a hybrid that is written as its parents."""
    first = Reader(deque(parents[0]), warnings).read()
    read = [first]
    for parent in parents[1:]:
        spelled_out = deque(_genus_spelled_out(parent, read[-1].genus))
        read.append(Reader(spelled_out, warnings).read())
    return ParsedName(
        first.genus,
        hybrid=Hybrid.FORMULA,
        qualifier=" ".join(filter(None, (parent.qualifier for parent in read))),
        canonical=" × ".join(parent.canonical for parent in read),
        search_key=" ".join(parent.search_key for parent in read),
        warnings=tuple(warnings),
    )


def _genus_spelled_out(parent: list[str], genus: str) -> list[str]:
    """A later parent may leave out its genus, or shorten it, when it is that of the one before."""
    if parent[0][0].islower():
        return [genus, *parent]
    if INITIAL.fullmatch(parent[0]) and genus.startswith(parent[0][:-1]):
        return [genus, *parent[1:]]
    return parent
