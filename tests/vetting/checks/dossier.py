"""The evidence of an ordinary collection, with nothing wrong, and what differs from it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any, NamedTuple
from uuid import UUID, uuid5
from zoneinfo import ZoneInfo

from hub.protocols.engine import issue
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet import Sheet
from hub.science.distance import Position
from hub.taxa.rules import CareClass, StorageBehaviour
from hub.vetting.checks import CHECKS
from hub.vetting.collection import AfterCare, Bulk, Collection, Container, CutTest, Handling, Tally, Voucher
from hub.vetting.evidence import (
    Account,
    Earlier,
    Evidence,
    Papers,
    PermissionHeld,
    PhotographFacts,
    Place,
    SheetFacts,
    TaxonFacts,
)
from hub.vetting.finding import Finding
from hub.vetting.rules import PhotographKind, Severity
from tests.protocols.conftest import changed

DAY = date(2030, 8, 1)
HERE = Position(latitude=47.8, longitude=-28.2)
METRES_OF_LATITUDE = 111_180.0  # a degree at 47.8° north
FIELD = (PhotographKind.HABITAT, PhotographKind.PLANT, PhotographKind.DIAGNOSTIC, PhotographKind.FRUIT)
PICTURES = UUID("5f0e7a34-56c8-4d45-9a3e-0d5c7f3c3a11")

CHECK = {check.id: check.looks for check in CHECKS}


def ran(check: str, evidence: Evidence) -> list[Finding]:
    """What one check says."""
    return list(CHECK[check](evidence))


def sheet_for(**case: Any) -> Sheet:
    """The sheet of the ordinary case of the protocols' own tests, with some facts changed."""
    return issue(changed(case), standard_rulebook(), on=DAY - timedelta(days=30))


SHEET = sheet_for(population={"name": "P 01"})


def north(metres: float) -> Position:
    """A place so far north of the population."""
    return Position(latitude=HERE.latitude + metres / METRES_OF_LATITUDE, longitude=HERE.longitude)


def square(half_m: float, centre: Position = HERE) -> dict[str, Any]:
    """A square area around a place, its northern edge so far away."""
    up = half_m / METRES_OF_LATITUDE
    across = up * 1.5
    west, east = centre.longitude - across, centre.longitude + across
    south, top = centre.latitude - up, centre.latitude + up
    ring = [[west, south], [east, south], [east, top], [west, top], [west, south]]
    return {"type": "Polygon", "coordinates": [ring]}


def collection(**changes: Any) -> Collection:
    """Fifty-two mothers with twenty ripe fruits each, two taken from each; in bulk with ``bulk=``."""
    whole = Collection(
        collected_on=DAY,
        started_at=time(9, 30),
        finished_at=time(12),
        people=5,
        latitude=HERE.latitude,
        longitude=HERE.longitude,
        uncertainty_m=5.0,
        handling=Handling.BY_MOTHER,
        tallies=tuple(Tally(f"A{at}", ripe_fruits=20, fruits_taken=2, seeds=50) for at in range(1, 53)),
        total_seeds=2600,
        container=Container.PAPER_BAG,
        after_care=AfterCare.AIR_DRIED,
        plants_seen=500,
        plants_fruiting=400,
        first_ripe_on=DAY - timedelta(days=10),
        already_shedding=True,
        visits_before=3,
        cut_test=CutTest(cut=20, filled=18),
        seeds_per_fruit=25.0,
        drying_from=DAY,
        drying_days=2.0,
        reached_bank_on=DAY + timedelta(days=2),
        hours_to_bank=50.0,
        identified_by="the leader",
        voucher=Voucher("P 12"),
    )
    if "bulk" in changes:
        whole = replace(whole, handling=Handling.BULK, tallies=())
    return replace(whole, **changes)


def in_bulk(
    plants: int = 60, fruits: int | None = 60, ripe: float | None = 20.0, **changes: Any
) -> Collection:
    """The like in bulk."""
    return collection(**{"bulk": Bulk(plants, fruits, ripe), "total_seeds": 1500, **changes})


def tallied(*rows: tuple[int | None, int, int | None], **changes: Any) -> Collection:
    """A collection by mother with these (ripe fruits, fruits taken, seeds)."""
    tallies = tuple(Tally(f"A{at}", *row) for at, row in enumerate(rows, 1))
    return collection(**{"tallies": tallies, **changes})


def pictures(**changes: Any) -> tuple[PhotographFacts, ...]:
    """One of each kind, taken at the place and on the day."""
    taken = datetime.combine(DAY, time(10), UTC)
    return tuple(
        replace(PhotographFacts(uuid5(PICTURES, kind), kind, HERE, taken), **changes) for kind in FIELD
    )


def another(approved: bool = True, **changes: Any) -> Earlier:
    """A past collection of the species elsewhere, unlike this one in day, place and tallies."""
    given = collection(
        collected_on=DAY - timedelta(days=350),
        latitude=HERE.latitude + 1,
        tallies=tuple(Tally(f"B{at}", 30, 2, 47) for at in range(50)),
        total_seeds=2350,
    )
    return Earlier("OLD-1", replace(given, **changes), approved, same_population=False, same_group=False)


def dossier(given: Collection | None = None, sheet: Sheet | None = None, **parts: Any) -> Evidence:
    """The ordinary evidence; a mapping changes some fields of a part, anything else takes its place.

    ``dossier(papers={"permission": None})``, ``dossier(account=None)``.
    """
    ordinary = Evidence(
        number="FLG-2030-0001-X",
        revision=1,
        handed_in_at=datetime.combine(DAY + timedelta(days=3), time(18), UTC),
        zone=ZoneInfo("UTC"),
        collection=given or collection(),
        sheet=SheetFacts("S-2030-0007", sheet or SHEET, issued_on=DAY - timedelta(days=30)),
        taxon=TaxonFacts(
            "Campanula scheuchzeri",
            CareClass.SECURE,
            StorageBehaviour.ORTHODOX,
            ripens_from=7,
            ripens_to=9,
            seeds_per_fruit=25.0,
            diagnostic_parts="capsule and stem leaves",
            range=(square(50_000),),
        ),
        place=Place(
            "P 01",
            HERE,
            10.0,
            "Scar Top",
            HERE,
            300.0,
            site_outline=square(300),
            districts=(square(40_000),),
        ),
        papers=Papers(permission=PermissionHeld(date(2030, 1, 1), date(2030, 12, 31))),
        account=Account(allowance_seeds=12_000, reserved_seeds=0, taken_seeds=2600),
        photographs=pictures(),
    )
    for name, value in parts.items():
        whole = replace(getattr(ordinary, name), **value) if isinstance(value, Mapping) else value
        ordinary = replace(ordinary, **{name: whole})
    return ordinary


class Speaks(NamedTuple):
    """Evidence on which a check speaks: how gravely, and some of its words."""

    check: str
    severity: Severity
    words: str
    evidence: Evidence


class Silent(NamedTuple):
    """Evidence that a check lets pass; ``why`` names the boundary or the missing fact."""

    check: str
    why: str
    evidence: Evidence
