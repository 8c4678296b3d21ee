"""What the hub keeps about a species beside its name, and what must agree among it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from hub.taxa.families import read_family
from hub.taxa.models import Difficulty, Evidence
from hub.taxa.rules import FruitType, Hazard, LifeForm, StorageBehaviour
from hub.words import Refused, say

# Every trait with what stands there until somebody says more. Nothing is assumed to be harmless.
UNTOLD: dict[str, Any] = {
    "family": "",
    "vernacular": "",
    "life_form": LifeForm.UNKNOWN,
    "fruit_type": FruitType.UNKNOWN,
    "storage": StorageBehaviour.UNKNOWN,
    "storage_source": "",
    "storage_evidence": Evidence.DEFAULT,
    "hazards": None,
    "native": None,
    "dioecious": None,
    "clonal": None,
    "two_year_ripening": None,
    "masting": None,
    "persistent_seed_bank": None,
    "international_trade_listed": None,
    "seed_mass_mg": None,
    "seeds_per_fruit": None,
    "collect_from_bbch": None,
    "flowers_from": None,
    "ripens_from": None,
    "ripens_to": None,
    "ripeness_note": "",
    "diagnostic_parts": "",
    "lookalikes": "",
    "difficulty": Difficulty.MEDIUM,
    "suits_school": False,
    "sensitivity": None,
    "note": "",
}

_BBCH = re.compile(r"[0-9]{2}")
MEASURES = frozenset({"seed_mass_mg", "seeds_per_fruit"})
_MONTHS = ("flowers_from", "ripens_from", "ripens_to")


def checked(traits: Mapping[str, Any]) -> dict[str, Any]:
    """These traits in the form in which they are stored. Raises ``Refused`` beside the one that is wrong."""
    stranger = next((name for name in traits if name not in UNTOLD), None)
    if stranger is not None:
        raise TypeError(f"a species has no trait {stranger!r}")
    found = dict(traits)
    if "family" in found:
        found["family"] = read_family(found["family"] or "")
    if found.get("hazards") is not None:
        given = {Hazard(each) for each in found["hazards"]}
        found["hazards"] = [hazard.value for hazard in Hazard if hazard in given]
    for name in MEASURES & found.keys():
        found[name] = None if found[name] is None else float(found[name])
    return found


def check_together(traits: Mapping[str, Any]) -> None:
    """Refuse traits that cannot all be true of one species."""
    for name in _MONTHS:
        if traits[name] is not None and not 1 <= traits[name] <= 12:
            raise Refused(say("A month is a number from 1 to 12."), field=name)
    if (traits["ripens_from"] is None) is not (traits["ripens_to"] is None):
        raise Refused(
            say("Give both months, the first and the last in which fruit ripens."), field="ripens_to"
        )
    if traits["collect_from_bbch"] and not _BBCH.fullmatch(traits["collect_from_bbch"]):
        raise Refused(say("A growth stage has two digits, such as 85."), field="collect_from_bbch")
    for name in sorted(MEASURES):
        if traits[name] is not None and not traits[name] > 0:
            raise Refused(
                say("This must be more than nothing. Leave it empty if it is not known."), field=name
            )
    if traits["sensitivity"] not in (None, 1, 2, 3, 4):
        raise Refused(say("A sensitivity category runs from 1 to 4."), field="sensitivity")
