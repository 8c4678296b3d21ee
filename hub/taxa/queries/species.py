"""One species, by id or by any spelling of its name, and what is said of its rarity."""

from __future__ import annotations

import re
from contextlib import suppress
from uuid import UUID

from sqlalchemy import ColumnElement, false, func, or_, select
from sqlalchemy.sql.expression import and_

from hub.db.work import Work
from hub.taxa.families import standard_family
from hub.taxa.models import Standing, Taxon
from hub.taxa.names import NameUnreadable, parse_name
from hub.taxa.names.markers import marker_of, qualifier_of
from hub.taxa.names.parts import search_key
from hub.taxa.rules import CareReading
from hub.taxa.standings import reading_of
from hub.words import NotFound

MOST_WORDS = 10  # of a search; the rest of a pasted paragraph finds nothing more
WORD = re.compile(r"[^\W\d_]+\.?")


def get(work: Work, taxon_id: UUID) -> Taxon:
    """One species. Raises NotFound."""
    found = work.db.get(Taxon, taxon_id)
    if found is None:
        raise NotFound(taxon_id)
    return found


def find(work: Work, name: str) -> Taxon | None:
    """The species of this scientific name, with or without authors, hybrid sign and rank markers."""
    try:
        key = parse_name(name).search_key
    except NameUnreadable:
        return None
    return work.db.scalars(select(Taxon).where(Taxon.search_key == key).order_by(Taxon.id).limit(1)).first()


def standings(work: Work, taxon_id: UUID) -> list[Standing]:
    """Ranks, categories and listings of a species, each with who gave it, in a fixed order."""
    found = select(Standing).where(Standing.taxon_id == taxon_id)
    return list(
        work.db.scalars(found.order_by(Standing.kind, Standing.place, Standing.authority, Standing.text))
    )


def care_reading(work: Work, taxon_id: UUID) -> CareReading:
    """The care class of a species, with the words for what decided it."""
    return reading_of((standing.kind, standing.text) for standing in standings(work, taxon_id))


def matching(typed: str) -> ColumnElement[bool]:
    """Species that a search means: every word occurs in the name, the everyday name or the family.

    Capitals, authors, hybrid signs, rank markers and marks above letters make no difference.
    """
    words = words_of(typed)
    alternatives = [and_(*(has_word(word) for word in words)) if words else false()]
    with suppress(NameUnreadable):
        alternatives.append(Taxon.search_key.startswith(parse_name(typed).search_key, autoescape=True))
    return or_(*alternatives)


def words_of(typed: str) -> list[tuple[str, str]]:
    """The words of a search that tell something, each in plain letters and as typed, small."""
    found = [(search_key(word).strip("."), word.lower().strip(".")) for word in WORD.findall(typed)]
    return [pair for pair in found if pair[0] and not says_nothing(pair[0])][:MOST_WORDS]


def says_nothing(word: str) -> bool:
    """A hybrid sign, a rank or a doubt: part of how a name is written, not of what it names."""
    return word == "x" or bool(marker_of(word)) or bool(qualifier_of(word))


def has_word(word: tuple[str, str]) -> ColumnElement[bool]:
    plain, typed = word
    columns = (Taxon.search_key, Taxon.scientific_name, Taxon.vernacular, Taxon.family)
    family = standard_family(plain.capitalize()).lower()
    return or_(
        *(
            func.lower(column).contains(form, autoescape=True)
            for column in columns
            for form in {plain, typed}
        ),
        func.lower(Taxon.family) == family,
    )
