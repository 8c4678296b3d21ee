"""What became of the seed: its quality, its care, and how it looks beside other collections."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from hub.taxa.rules import StorageBehaviour
from hub.vetting.collection import AfterCare, Bulk, Collection, Container, CutTest, DrynessProof
from hub.vetting.evidence import Earlier, Evidence
from hub.vetting.rules import Severity
from tests.vetting.checks.cases_field import lines
from tests.vetting.checks.dossier import (
    DAY,
    Silent,
    Speaks,
    another,
    collection,
    dossier,
    in_bulk,
    sheet_for,
)

STOP, QUERY, NOTE = Severity
NAMED = {"name": "P 01"}
MOIST = sheet_for(population=NAMED, taxon={"storage": "recalcitrant"})
DUST = sheet_for(population=NAMED, taxon={"storage": "exceptional", "fruit_type": "dust_seed"})
FAST = sheet_for(population=NAMED, taxon={"storage": "short_lived"})
HOME = sheet_for(population=NAMED, bank={"home_freezing": True})
FEW = sheet_for(population=NAMED, history={"taken_seeds": 11_950})
FROZEN: dict[str, Any] = {"frozen": True, "frozen_on": DAY + timedelta(days=2)}
CARD: dict[str, Any] = {"dryness": DrynessProof.CARD, "dryness_rh_pct": 30.0}
GEL: dict[str, Any] = {"after_care": AfterCare.GEL_DRIED, "drying_days": 7.0}
MOIST_CARE: dict[str, Any] = {
    "after_care": AfterCare.KEPT_MOIST,
    "container": Container.MOIST_BAG,
    "drying_from": None,
    "drying_days": None,
}
ON_ITS_WAY: dict[str, Any] = {"reached_bank_on": None, "hours_to_bank": None}


def days_later(days: int) -> date:
    return DAY + timedelta(days=days)


def kept(**changes: Any) -> Evidence:
    return dossier(collection(**changes))


def cut(seeds: int, filled: int) -> Evidence:
    return kept(cut_test=CutTest(seeds, filled))


def beside(*earlier: Earlier, given: Collection | None = None) -> Evidence:
    return dossier(given, earlier=earlier)


def past(**changes: Any) -> tuple[Earlier, ...]:
    """Nine past collections, in which a fruit held 22 to 30 seeds."""
    return tuple(another(seeds_per_fruit=22.0 + at, **changes) for at in range(9))


def twin(**changes: Any) -> Earlier:
    return replace(another(), collection=collection(**changes))


SPEAKS = [
    Speaks("cut_test_made", QUERY, "No seed was cut", kept(cut_test=None)),
    Speaks("cut_test_made", QUERY, "19 seeds were cut; the sheet asks for 20", cut(19, 19)),
    Speaks("filled_share", STOP, "9 of 20 cut seeds were filled: of all the seed 23.1% to 68.5%", cut(20, 9)),
    Speaks("filled_share", QUERY, "13 of 20", cut(20, 13)),
    Speaks("filled_share", QUERY, "10 of 20", cut(20, 10)),
    Speaks("small_lot", NOTE, "99 seeds", dossier(in_bulk(total_seeds=99))),
    Speaks(
        "container",
        QUERY,
        "closed plastic bag. The sheet says: Use paper",
        kept(container=Container.PLASTIC_BAG),
    ),
    Speaks("container", QUERY, "sealed jar", dossier(collection(container=Container.SEALED_JAR), MOIST)),
    Speaks(
        "container", STOP, "paper or cloth bag", dossier(collection(container=Container.PAPER_BAG), MOIST)
    ),
    Speaks(
        "hours_to_drying",
        QUERY,
        "2 days passed",
        kept(container=Container.PLASTIC_BAG, drying_from=days_later(2)),
    ),
    Speaks(
        "hours_to_drying",
        STOP,
        "4 days passed",
        kept(container=Container.PLASTIC_BAG, drying_from=None, frozen_on=days_later(4)),
    ),
    Speaks("hours_to_drying", QUERY, "4 days passed", kept(drying_from=None, reached_bank_on=days_later(4))),
    Speaks("hours_to_bank", QUERY, "168.5 hours; the sheet says 168", kept(hours_to_bank=168.5)),
    Speaks(
        "hours_to_bank", STOP, "72.5 hours; the sheet says 72", dossier(collection(hours_to_bank=72.5), FAST)
    ),
    Speaks("hours_to_bank", QUERY, "180 hours", kept(hours_to_bank=None, reached_bank_on=days_later(8))),
    Speaks("hours_to_bank", QUERY, "say when it got there", dossier(collection(**ON_ITS_WAY), FAST)),
    Speaks("alive_in_transit", NOTE, "on its way", dossier(collection(**ON_ITS_WAY), FAST)),
    Speaks("dried_long_enough", QUERY, "6.5 days over silica gel; 7", kept(**{**GEL, "drying_days": 6.5})),
    Speaks("dried_long_enough", QUERY, "not said", kept(**{**GEL, "drying_days": None})),
    Speaks("dryness_shown", QUERY, "Neither card", kept(**GEL)),
    Speaks("dryness_shown", QUERY, "Neither card", kept(**GEL, **{**CARD, "dryness_rh_pct": 30.5})),
    Speaks("dryness_shown", QUERY, "Neither card", kept(**FROZEN, **{**CARD, "dryness_rh_pct": None})),
    Speaks("dryness_shown", QUERY, "9.5% the seed is too dry", kept(**{**CARD, "dryness_rh_pct": 9.5})),
    Speaks("frozen_undried", STOP, "nothing shows", kept(**FROZEN)),
    Speaks("frozen_undried", STOP, "nothing shows", kept(**FROZEN, **{**CARD, "dryness_rh_pct": 31.0})),
    Speaks("frozen_undried", STOP, "nothing shows", kept(**FROZEN, **CARD, after_care=AfterCare.OTHER)),
    Speaks("frozen_undried", STOP, "nothing shows", kept(**FROZEN, dryness=DrynessProof.WEIGHT)),
    Speaks("frozen_as_asked", QUERY, "leaves freezing to the bank", kept(**FROZEN)),
    Speaks("frozen_as_asked", STOP, "was frozen", dossier(collection(**FROZEN), MOIST)),
    Speaks(
        "frozen_as_asked",
        STOP,
        "bears some drying",
        dossier(collection(**FROZEN), HOME, taxon={"storage": StorageBehaviour.INTERMEDIATE}),
    ),
    Speaks("never_dried", STOP, "was dried", dossier(sheet=MOIST)),
    Speaks("never_dried", STOP, "not known", dossier(taxon={"storage": StorageBehaviour.UNKNOWN})),
    Speaks("never_dried", STOP, "cannot be kept", dossier(taxon={"storage": StorageBehaviour.EXCEPTIONAL})),
    Speaks("never_dried", STOP, "some drying", dossier(taxon={"storage": StorageBehaviour.INTERMEDIATE})),
    Speaks(
        "frozen_as_asked",
        STOP,
        "not known",
        dossier(collection(**FROZEN), HOME, taxon={"storage": StorageBehaviour.UNKNOWN}),
    ),
    Speaks(
        "never_dried",
        STOP,
        "dies when dried",
        dossier(collection(after_care=AfterCare.OTHER), taxon={"storage": StorageBehaviour.RECALCITRANT}),
    ),
    Speaks(
        "unusual_figure",
        QUERY,
        "Seeds a fruit: 90.0. In 9 earlier",
        beside(*past(), given=collection(seeds_per_fruit=90.0)),
    ),
    Speaks("near_duplicate", QUERY, "another collection", beside(another(), twin())),
    Speaks(
        "near_duplicate",
        QUERY,
        "collection OLD-1 of the same group",
        beside(replace(twin(), same_group=True)),
    ),
    Speaks(
        "near_duplicate",
        QUERY,
        "another collection",
        beside(replace(another(), collection=in_bulk()), given=in_bulk()),
    ),
]

SILENT = [
    Silent("cut_test_made", "as many as asked", cut(20, 20)),
    Silent("cut_test_made", "the sheet asks for none", dossier(in_bulk(cut_test=None, total_seeds=50), FEW)),
    Silent(
        "cut_test_made",
        "the sheet names no number",
        dossier(in_bulk(cut_test=CutTest(1, 1)), replace(MOIST, sections={})),
    ),
    Silent("filled_share", "exactly the good share", cut(20, 14)),
    Silent("filled_share", "nothing was cut", kept(cut_test=None)),
    Silent("small_lot", "a hundred", dossier(in_bulk(total_seeds=100))),
    Silent("container", "another that breathes", kept(container=Container.MESH_SACK)),
    Silent("container", "as asked", dossier(collection(container=Container.MOIST_BAG), MOIST)),
    Silent(
        "container",
        "the sheet does not know",
        dossier(collection(container=Container.SEALED_JAR), lines(container=None)),
    ),
    Silent(
        "hours_to_drying", "the next day", kept(container=Container.PLASTIC_BAG, drying_from=days_later(1))
    ),
    Silent("hours_to_drying", "three days in paper", kept(drying_from=days_later(3))),
    Silent("hours_to_drying", "never to be dried", dossier(collection(drying_from=days_later(9)), MOIST)),
    Silent("hours_to_drying", "no day known", kept(drying_from=None, reached_bank_on=None)),
    Silent("hours_to_bank", "exactly the hours", kept(hours_to_bank=168.0)),
    Silent("hours_to_bank", "not yet due", kept(**ON_ITS_WAY)),
    Silent("hours_to_bank", "on the same day", kept(hours_to_bank=None, reached_bank_on=DAY)),
    Silent(
        "hours_to_bank",
        "the sheet has no limit",
        dossier(collection(hours_to_bank=900.0), lines(hours_to_bank=None)),
    ),
    Silent("alive_in_transit", "it is there", dossier(sheet=FAST)),
    Silent("alive_in_transit", "dry seed can wait", kept(**ON_ITS_WAY)),
    Silent("dried_long_enough", "a week", kept(**GEL)),
    Silent("dried_long_enough", "the bank finishes air-dried seed", kept(drying_days=None)),
    Silent("dryness_shown", "exactly dry", kept(**GEL, **CARD)),
    Silent("dryness_shown", "by weight over gel", kept(**GEL, dryness=DrynessProof.WEIGHT)),
    Silent("dryness_shown", "exactly not too dry", kept(**{**CARD, "dryness_rh_pct": 10.0})),
    Silent("dryness_shown", "the bank finishes it", kept(**{**CARD, "dryness_rh_pct": 55.0})),
    Silent("frozen_undried", "exactly dry", kept(**FROZEN, **CARD)),
    Silent("frozen_undried", "by weight over gel", kept(**GEL, **FROZEN, dryness=DrynessProof.WEIGHT)),
    Silent("frozen_undried", "not frozen", kept()),
    Silent("frozen_as_asked", "home freezing is switched on", dossier(collection(**FROZEN, **CARD), HOME)),
    Silent("frozen_as_asked", "not frozen", kept()),
    Silent("never_dried", "kept moist", dossier(collection(**MOIST_CARE), MOIST)),
    Silent("never_dried", "bears drying", kept()),
    Silent("never_dried", "dust-fine", dossier(sheet=DUST, taxon={"storage": StorageBehaviour.EXCEPTIONAL})),
    Silent(
        "unusual_figure", "too few to compare", beside(*past()[:7], given=collection(seeds_per_fruit=90.0))
    ),
    Silent(
        "unusual_figure",
        "not yet approved",
        beside(*past(approved=False), given=collection(seeds_per_fruit=90.0)),
    ),
    Silent("unusual_figure", "usual", beside(*past())),
    Silent(
        "unusual_figure",
        "nothing to compare",
        beside(*past(), given=collection(tallies=(), seeds_per_fruit=None)),
    ),
    Silent("near_duplicate", "unlike", beside(another(), *past())),
    Silent("near_duplicate", "bulk elsewhere", beside(another(bulk=Bulk(3)), given=in_bulk())),
]
