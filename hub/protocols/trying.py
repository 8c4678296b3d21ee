"""“What if?”: the facts of a case as boxes of a form, and the case that the filled boxes make."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from datetime import date
from enum import StrEnum
from types import NoneType
from typing import Any, get_args, get_origin, get_type_hints

from marshmallow import fields as members

from hub.protocols.case import (
    BankFacts,
    Case,
    CropFacts,
    HistoryFacts,
    PartyFacts,
    PermissionFacts,
    PopulationFacts,
    SignOff,
    TaxonFacts,
)
from hub.protocols.fact_words import LISTS, READ
from hub.web.fields import Choice, Measure, Schema, Several, Text, Whole
from hub.words import Words, say

MOST = 1_000_000_000
PERCENT = 100
PARTS: dict[str, type] = {
    "taxon": TaxonFacts, "population": PopulationFacts, "crop": CropFacts, "bank": BankFacts,
    "party": PartyFacts,
}  # fmt: skip
LEGENDS = {
    "taxon": say("The species"),
    "population": say("The population"),
    "crop": say("This season’s fruit and seed"),
    "bank": say("The bank"),
    "party": say("Who goes out"),
    "papers": say("Papers and consent"),
}
# Texts that decide nothing; the scientific name does, by its genus.
SILENT = frozenset({"name", "common_name", "group"})


class Answer(StrEnum):
    """Yes, no, or nobody knows."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "unknown"


PAPERS = {
    "granted": say("The owner has said yes in writing"),
    "permit_needed": say("The law or the land asks for a permit"),
}
ANSWERS = [(Answer.YES, say("yes")), (Answer.NO, say("no")), (Answer.UNKNOWN, say("nobody knows"))]
AS_ANSWER = {True: Answer.YES, False: Answer.NO, None: Answer.UNKNOWN}
AS_FACT = {answer: fact for fact, answer in AS_ANSWER.items()}


@dataclass(frozen=True)
class Box:
    """One fact as a box: its name and label, what kind of box, and what it offers."""

    part: str
    name: str
    label: Words
    kind: str  # answer, pick, several, whole, measure or percent
    choices: tuple[tuple[str, Words], ...] = ()


def boxes() -> Iterator[Box]:
    """A box for every fact of a case that may decide something."""
    for part, facts in PARTS.items():
        hints = get_type_hints(facts)
        for each in fields(facts):
            if each.name not in SILENT:
                yield box(part, each.name, hints[each.name], each.metadata)
    for name, says in PAPERS.items():
        yield Box("papers", name, says, "answer", tuple(ANSWERS))
    yield Box("papers", "sign_off_share", say("Largest share the curator allows"), "percent")


def box(part: str, name: str, hint: Any, meta: Mapping[str, Any]) -> Box:
    kind = inner_kind(hint)
    label = Words(meta["says"])
    if kind is bool:
        return Box(part, name, label, "answer", tuple(ANSWERS))
    if issubclass(kind, StrEnum):
        several = any(get_origin(each) is tuple for each in (hint, *get_args(hint)))
        return Box(part, name, label, "several" if several else "pick", offered(name, kind))
    if meta["at_most"] == 1:
        return Box(part, name, label, "percent")
    return Box(part, name, label, "whole" if kind is int else "measure")


def inner_kind(hint: Any) -> type:
    """Unwrap "or unknown" and "several of"."""
    for inner in get_args(hint):
        if inner not in (NoneType, Ellipsis):
            return inner_kind(inner)
    return hint


def offered(name: str, kind: type[StrEnum]) -> tuple[tuple[str, Words], ...]:
    words = LISTS.get(name)
    if words is not None:
        return tuple((each.value, words(each.value).words) for each in kind)
    return tuple((each.value, READ.get(each.value, say("nobody knows"))) for each in kind)


BOXES = tuple(boxes())


def member(box: Box) -> members.Field[Any]:
    """What a box may hold."""
    if box.kind == "answer":
        return Choice(Answer, load_default=Answer.UNKNOWN)
    if box.kind in ("pick", "several"):
        kind = listed_kind(box)
        return Several(Choice(kind)) if box.kind == "several" else Choice(kind)
    if box.kind == "whole":
        return Whole(0, MOST)
    return Measure("%", 0, PERCENT) if box.kind == "percent" else Measure("", 0, MOST)


def listed_kind(box: Box) -> type[StrEnum]:
    """The closed list that a box offers."""
    return inner_kind(get_type_hints(PARTS[box.part])[box.name])


class TrySchema(Schema.from_dict({box.name: member(box) for box in BOXES})):  # type: ignore[misc]
    """All the facts of a case, any of which may be left open."""

    species = Text(200, required=True)


def filled(case: Case) -> dict[str, Any]:
    """What the boxes hold for a case."""
    found: dict[str, Any] = {"species": case.taxon.name}
    for each in BOXES:
        value = getattr(getattr(case, each.part), each.name) if each.part != "papers" else None
        found[each.name] = as_typed(each, value)
    share = case.sign_off.share if case.sign_off else None
    papers = {"granted": AS_ANSWER[case.permission.granted], "permit_needed": AS_ANSWER[case.permit_needed]}
    return found | papers | {"sign_off_share": as_typed(BOXES[-1], share)}


def as_typed(box: Box, value: Any) -> Any:
    if box.kind == "answer":
        return AS_ANSWER[value]
    if box.kind == "several":
        return list(value or ())
    return value * PERCENT if box.kind == "percent" and value is not None else value


def case_from(base: Case, data: Mapping[str, Any], on: date) -> Case:
    """The case with the facts of the filled boxes in place of its own; papers have no dates here."""
    parts = {
        part: replace(getattr(base, part), **{each.name: as_fact(each, data[each.name]) for each in of(part)})
        for part in PARTS
    }
    parts["taxon"] = replace(parts["taxon"], name=data["species"])
    share = data["sign_off_share"]
    consent = None if share is None else SignOff(by="·", on=on, share=float(share) / PERCENT)
    needed = AS_FACT[data["permit_needed"]]
    return replace(
        base,
        **parts,
        permission=PermissionFacts(granted=AS_FACT[data["granted"]]),
        permit_needed=needed,
        missing_papers=base.missing_papers if needed else (),
        sign_off=consent,
    )


def of(part: str) -> list[Box]:
    return [each for each in BOXES if each.part == part]


def as_fact(box: Box, value: Any) -> Any:
    """A box's value as the fact that the rules ask for."""
    if box.kind == "answer":
        known = AS_FACT[value]
        return bool(known) if box.name in ("storage_confirmed", "home_freezing") else known
    if box.kind == "several":
        return tuple(value)
    if box.kind == "pick":
        return value or listed_kind(box)("unknown")
    if value is None:
        return None
    return int(value) if box.kind == "whole" else float(value) / (PERCENT if box.kind == "percent" else 1)


BLANK = Case(
    taxon=TaxonFacts(name="Campanula rotundifolia"),
    history=HistoryFacts(years_collected=(), taken_seeds=0, reserved_seeds=0),
)
