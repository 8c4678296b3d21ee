"""Add a species, and change what the hub knows about it."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from sqlalchemy import select

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.taxa import queries
from hub.taxa.actions.changes import check_version, put
from hub.taxa.models import Taxon
from hub.taxa.names import ParsedName, parse_name
from hub.taxa.rules import CareClass
from hub.taxa.traits import UNTOLD, check_together, checked
from hub.words import Refused, say

LONGEST_NAME = 200
NAMED = "scientific_name"


def add(work: Work, *, scientific_name: str, **traits: Any) -> Taxon:
    """Add a species. Raises ``Refused`` for a name that cannot be read or is there already.

    A trait that is not given stands at ``UNTOLD``; the care class is unknown until standings are set.
    """
    whole = UNTOLD | checked(traits)
    check_together(whole)
    taxon = Taxon(**names_of(work, scientific_name), **whole, care_class=CareClass.UNKNOWN)
    work.db.add(taxon)
    work.db.flush()  # its id is about to be named in the audit chain
    record(work, Event.TAXON_ADDED, taxon, after={NAMED: taxon.scientific_name})
    return taxon


def change(work: Work, *, taxon_id: UUID, version: int | None = None, **traits: Any) -> Taxon:
    """Change some traits, or the name. With ``version``, only if nobody changed the species since."""
    taxon = queries.get(work, taxon_id)
    check_version(taxon, version)
    names = names_of(work, traits.pop(NAMED), but_for=taxon) if NAMED in traits else {}
    given = checked(traits)
    check_together({name: getattr(taxon, name) for name in UNTOLD} | given)
    before, after = put(taxon, names | given)
    if after:
        record(work, Event.TAXON_CHANGED, taxon, before=before, after=after)
    return taxon


def names_of(work: Work, text: str, but_for: Taxon | None = None) -> dict[str, str]:
    """The name as given, without authors, and as it is looked for. Raises ``Refused`` beside the name."""
    parsed = read_name(text)
    given = " ".join(text.split())
    if len(given) > LONGEST_NAME:
        raise Refused(say("This is too long for a name: {n} signs at most.", n=LONGEST_NAME), field=NAMED)
    twin = work.db.scalars(select(Taxon).where(Taxon.search_key == parsed.search_key).limit(1)).first()
    if twin is not None and twin is not but_for:
        raise Refused(
            say(
                "This species is here already, as {name}. Open that one and change it.",
                name=twin.scientific_name,
            ),
            field=NAMED,
        )
    return {NAMED: given, "canonical": parsed.canonical, "search_key": parsed.search_key}


def read_name(text: str) -> ParsedName:
    """The name in its parts. Raises ``Refused`` beside the name, for a genus alone and a doubt too."""
    try:
        parsed = parse_name(text)
    except Refused as unreadable:
        raise Refused(unreadable.words, field=NAMED) from None
    if not parsed.specific_epithet and " × " not in parsed.canonical:
        raise Refused(say("Write the whole name of the species, not the genus alone."), field=NAMED)
    if parsed.qualifier and parsed.qualifier != "agg.":
        raise Refused(
            say(
                "“{doubt}” is no part of a name. Add the species once it is certain.", doubt=parsed.qualifier
            ),
            field=NAMED,
        )
    return parsed
