"""What is said of a taxon's rarity: each rank, category or listing read by its own grammar."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date

from hub.taxa import models
from hub.taxa.models import StandingKind
from hub.taxa.ranks import Rank, parse_rank
from hub.taxa.red_list import Assessment, parse_assessment
from hub.taxa.rules import CareReading, LegalList, care_class
from hub.words import Refused, say

Standing = Rank | Assessment | LegalList
NOTHING_GIVEN = say("Write the rank, the category or the kind of list here.")


@dataclass(frozen=True)
class StandingGiven:
    """One authority's statement as somebody enters it."""

    kind: StandingKind
    text: str
    place: str
    authority: str
    as_of: date | None = None
    permit_needed: bool = False


def read_standing(kind: StandingKind, text: str) -> Standing:
    """A rank, an assessment or a kind of legal list. Raises ``Refused`` with words for what is wrong."""
    read: Standing | None
    match kind:
        case StandingKind.RANK:
            read = parse_rank(text)
        case StandingKind.CATEGORY:
            read = parse_assessment(text)
        case StandingKind.LISTING:
            read = read_listing(text)
    if read is None:
        raise Refused(NOTHING_GIVEN)
    return read


def read_listing(text: str) -> LegalList | None:
    """A kind of legal list, by its value or as people write it: ``Special concern``."""
    value = "_".join(text.lower().split())
    if not value:
        return None
    try:
        return LegalList(value)
    except ValueError:
        raise Refused(
            say(
                "A listing is one of: special concern, threatened, endangered, not listed."
                " “{given}” is none.",
                given=text,
            )
        ) from None


def standard_text(kind: StandingKind, text: str) -> str:
    """The standing as it is stored: ranks and assessments in their usual form, listings by their value."""
    read = read_standing(kind, text)
    return read.value if isinstance(read, LegalList) else str(read)


def is_listed(rows: Iterable[models.Standing]) -> bool | None:
    """Whether a legal list names the taxon; None while nobody has looked. A rank says nothing of the law."""
    lists = [LegalList(row.text) for row in rows if row.kind is StandingKind.LISTING]
    return any(each is not LegalList.NOT_LISTED for each in lists) if lists else None


def needs_permit(rows: Collection[models.Standing]) -> bool:
    """Whether nobody may collect the taxon without a permit that names it.

    Whatever was ticked, a listed plant needs one: our own default, as lists differ in what they forbid.
    """
    return bool(is_listed(rows)) or any(row.permit_needed for row in rows)


def reading_of(standings: Iterable[tuple[StandingKind, str]]) -> CareReading:
    """The care class of a taxon of which all this is said, and what decided it."""
    read = [read_standing(kind, text) for kind, text in standings]
    return care_class(
        [each for each in read if isinstance(each, Rank)],
        [each.category for each in read if isinstance(each, Assessment)],
        [each for each in read if isinstance(each, LegalList)],
    )
