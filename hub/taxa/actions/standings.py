"""Set what is said of a species' rarity; its care class follows."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from uuid import UUID

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.taxa import queries
from hub.taxa.actions.changes import check_version, plain
from hub.taxa.models import Standing, StandingKind, Taxon
from hub.taxa.rules import LegalList
from hub.taxa.standings import StandingGiven, reading_of, standard_text
from hub.words import Refused, say

COLUMNS = ("kind", "text", "place", "authority", "as_of", "permit_needed")


def set_standings(
    work: Work, *, taxon_id: UUID, standings: list[StandingGiven], version: int | None = None
) -> Taxon:
    """Put these standings in the place of all that were there, and read the care class from them.

    Raises ``Refused`` beside the row that cannot be read: ``standings-2-text``.
    """
    taxon = queries.get(work, taxon_id)
    check_version(taxon, version)
    given = [read_row(work, at, standing) for at, standing in enumerate(standings)]
    check_twice(given)
    old = queries.standings(work, taxon_id)
    before, after = told(old, taxon), [dict_of(each) for each in given]
    taxon.care_class = reading_of((each.kind, each.text) for each in given).care
    if sorted(map(str, before["standings"])) != sorted(map(str, after)):
        put_standings(work, taxon, old, given)
        new = {"care_class": taxon.care_class.value, "standings": after}
        record(work, Event.STANDING_CHANGED, taxon, before=before, after=new)
    return taxon


WHEN_LOOKED_AT = say("Say on which day the list was looked at: lists change.")
NO_PERMIT = say("A list that does not name the plant asks for no permit.")


def read_row(work: Work, at: int, given: StandingGiven) -> StandingGiven:
    """One row in the form in which it is stored. Raises ``Refused`` beside its field."""
    try:
        text = standard_text(given.kind, given.text)
    except Refused as unreadable:
        raise Refused(unreadable.words, field=f"standings-{at}-text") from None
    for name in ("place", "authority"):
        if not getattr(given, name).strip():
            raise Refused(say("Please fill this in."), field=f"standings-{at}-{name}")
    if given.as_of is not None and given.as_of > work.today:
        raise Refused(say("This day has not come yet."), field=f"standings-{at}-as_of")
    if given.kind is StandingKind.LISTING and given.as_of is None:
        raise Refused(WHEN_LOOKED_AT, field=f"standings-{at}-as_of")
    if given.permit_needed and text == LegalList.NOT_LISTED:
        raise Refused(NO_PERMIT, field=f"standings-{at}-permit_needed")
    return replace(given, text=text, place=given.place.strip(), authority=given.authority.strip())


def check_twice(given: list[StandingGiven]) -> None:
    """One authority says one thing of each kind about one place."""
    seen: set[tuple[str, ...]] = set()
    for at, each in enumerate(given):
        said = (each.kind, each.place.casefold(), each.authority.casefold())
        if said in seen:
            raise Refused(
                say(
                    "{authority} has a row of this kind for {place} already.",
                    authority=each.authority,
                    place=each.place,
                ),
                field=f"standings-{at}-text",
            )
        seen.add(said)


def put_standings(work: Work, taxon: Taxon, old: list[Standing], given: list[StandingGiven]) -> None:
    for row in old:
        work.db.delete(row)
    work.db.add_all(
        Standing(taxon_id=taxon.id, **{name: getattr(each, name) for name in COLUMNS}) for each in given
    )


def told(rows: list[Standing], taxon: Taxon) -> dict[str, Any]:
    return {"care_class": taxon.care_class.value, "standings": [dict_of(row) for row in rows]}


def dict_of(row: Standing | StandingGiven) -> dict[str, Any]:
    return {name: plain(getattr(row, name)) for name in COLUMNS}
