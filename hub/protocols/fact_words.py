"""The facts behind a line, in words: what each is called, and how its value is read out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from hub.protocols.case import BankFacts, CropFacts, HistoryFacts, PartyFacts, PopulationFacts, TaxonFacts
from hub.sites.rules import Paper
from hub.taxa.rules import CareClass, FruitType, Hazard, LifeForm, StorageBehaviour
from hub.words import Words, say

NOBODY_KNOWS = say("nobody knows")
YES, NO, NONE = say("yes"), say("no"), say("none")

DERIVED = {
    "genus": say("Genus"),
    "permission": say("The owner’s permission"),
    "permit": say("The permit"),
    "permit_left_seeds": say("Seeds left under the permit"),
    "missing_papers": say("Papers missing"),
    "other_year": say("The sheet is for another year than its day"),
    "sign_off": say("A curator has consented"),
    "sign_off_share": say("Largest share the curator allows"),
    "salvage": say("Salvage"),
    "collected_last_year": say("Collected last year"),
    "years_running": say("Years of collecting in a row"),
    "years_in_nine": say("Years of collecting in the last nine"),
    "route": say("Way of keeping the seed"),
    "resting": say("The population must rest"),
    "handling": say("Handling"),
    "expected_seeds": say("Seeds to expect"),
    "few_fruits": say("Too few fruits on a plant"),
    "allowance_spent": say("The allowance is spent"),
    "one_in": say("One in so many fruits"),
}
KINDS = (TaxonFacts, PopulationFacts, CropFacts, HistoryFacts, BankFacts, PartyFacts)
# ``name`` means another thing in each part of a case, and decides nothing.
NAMES = DERIVED | {
    each.name: Words(each.metadata["says"]) for kind in KINDS for each in fields(kind) if each.name != "name"
}
LISTS: dict[str, Any] = {
    "care_class": CareClass,
    "life_form": LifeForm,
    "fruit_type": FruitType,
    "storage": StorageBehaviour,
    "hazards": Hazard,
    "missing_papers": Paper,
}
SHARES = frozenset({"sign_off_share", "empty_share", "immature_share"})
READ = {
    "granted": say("granted"), "not granted": say("not granted"), "refused": say("refused"),
    "not begun": say("not begun"), "expired": say("expired"), "not needed": say("not needed"),
    "valid": say("valid"), "absent": say("absent"), "used up": say("used up"),
    "approved": say("approved"), "incomplete": say("incomplete"), "no": NO,
    "dry": say("dry"), "fast": say("fast"), "moist": say("moist"), "untested": say("untested"),
    "spores": say("spores"), "by_mother": say("by mother"), "bulk": say("in bulk"),
    "rising": say("rising"), "stable": say("stable"), "falling": say("falling"),
    "road": say("road"), "water": say("water"), "cliff": say("cliff"), "livestock": say("livestock"),
    "hunting": say("hunting"), "military_land": say("military land"),
}  # fmt: skip


def in_words(inputs: Mapping[str, Any] | None) -> list[tuple[Words, list[Words]]]:
    """Each fact with its name and its value, one or several words."""
    return [(NAMES.get(name, Words(name)), value_of(name, value)) for name, value in (inputs or {}).items()]


def value_of(name: str, value: Any) -> list[Words]:
    if isinstance(value, list | tuple):
        return [one(name, each) for each in value] or [NONE]
    return [one(name, value)]


def one(name: str, value: Any) -> Words:
    """A single value as people say it."""
    if value is None or value == "unknown":
        return NOBODY_KNOWS
    if isinstance(value, bool):
        return YES if value else NO
    if name in LISTS:
        words: Words = LISTS[name](value).words
        return words
    if name in SHARES:
        return say("{percent}%", percent=f"{value * 100:.10g}")
    if name == "years_collected":
        return Words("{year}", {"year": value})
    return READ.get(str(value)) or Words("{n}", {"n": value})
