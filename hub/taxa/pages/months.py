"""The months of a species' year: when it flowers, when its fruit is ripe."""

from __future__ import annotations

from dataclasses import dataclass

from babel.dates import get_month_names

from hub.taxa.models import Taxon
from hub.web.language import locale
from hub.words import Words, say


@dataclass(frozen=True)
class Month:
    """One box of the strip."""

    letter: str
    name: str
    flowers: bool
    ripens: bool


def month_names() -> list[tuple[str, str]]:
    """The months as choices of a form, in the reader's language."""
    names = get_month_names("wide", "stand-alone", locale())
    return [(str(number), names[number]) for number in range(1, 13)]


def strip(taxon: Taxon) -> list[Month]:
    """The twelve months. Flowering is known by its beginning alone, ripening may run over the new year."""
    letters = get_month_names("narrow", "stand-alone", locale())
    ripe = ripening_months(taxon)
    return [
        Month(letters[number], name, number == taxon.flowers_from, number in ripe)
        for number, (_, name) in enumerate(month_names(), start=1)
    ]


def ripening_months(taxon: Taxon) -> set[int]:
    if not taxon.ripens_from or not taxon.ripens_to:
        return set()
    count = (taxon.ripens_to - taxon.ripens_from) % 12 + 1
    return {(taxon.ripens_from - 1 + step) % 12 + 1 for step in range(count)}


def ripening(taxon: Taxon) -> Words | str:
    """When fruit is ripe, in words; empty when it is not known."""
    if not taxon.ripens_from or not taxon.ripens_to:
        return ""
    names = dict(month_names())
    first, last = names[str(taxon.ripens_from)], names[str(taxon.ripens_to)]
    return (
        say("Ripe in {month}", month=first)
        if first == last
        else say("Ripe {first} to {last}", first=first, last=last)
    )


def flowering(taxon: Taxon) -> Words | str:
    """When it begins to flower, in words; empty when it is not known."""
    if not taxon.flowers_from:
        return ""
    return say("Flowers from {month}", month=dict(month_names())[str(taxon.flowers_from)])
