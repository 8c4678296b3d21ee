"""Evidence of every kind, for tests of what must hold in all of it."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from hypothesis import strategies as st

from hub.protocols.engine import issue
from hub.protocols.rulebook_reader import standard_rulebook
from hub.science.distance import Position
from hub.sites.rules import Paper
from hub.taxa.rules import CareClass, StorageBehaviour
from hub.vetting.collection import (
    AfterCare,
    Bulk,
    Collection,
    Container,
    CutTest,
    DrynessProof,
    Handling,
    Tally,
    Voucher,
)
from hub.vetting.evidence import (
    Account,
    Count,
    Earlier,
    Evidence,
    Papers,
    PermissionHeld,
    PermitHeld,
    PhotographFacts,
    Place,
    SheetFacts,
    TaxonFacts,
)
from hub.vetting.rules import PhotographKind
from tests.protocols.random_cases import CASES
from tests.vetting.checks.cases_after import FAST, HOME, MOIST
from tests.vetting.checks.cases_before import DIOECIOUS
from tests.vetting.checks.cases_field import RARE, STOPPED, UNCOUNTED
from tests.vetting.checks.dossier import SHEET, square

DAYS = st.dates(date(2028, 1, 1), date(2032, 12, 31))
MOMENTS = st.builds(lambda day, clock: datetime.combine(day, clock, UTC), DAYS, st.times())
ZONES = st.sampled_from(["UTC", "Atlantic/Azores", "Pacific/Kiritimati", "Pacific/Pago_Pago"]).map(ZoneInfo)
COUNTS = st.integers(0, 100) | st.integers(0, 50_000_000)
SEEDS = st.integers(1, 200) | st.integers(1, 50_000_000)
TEXTS = st.text(max_size=20)
DEGREES = st.floats(47.79, 47.81) | st.floats(-90, 90)
POSITIONS = st.builds(Position, latitude=DEGREES, longitude=st.floats(-28.21, -28.19) | st.floats(-180, 180))
AREAS = st.builds(square, st.floats(1, 90_000))
ANY_SHEET = st.builds(lambda case: issue(case, standard_rulebook(), on=date(2030, 8, 1)), CASES)
SHEETS = st.sampled_from([SHEET, DIOECIOUS, RARE, UNCOUNTED, STOPPED, MOIST, FAST, HOME])


class Drawn(Evidence):
    """Evidence that a failing test can print: its sheet alone would fill a book."""

    def __repr__(self) -> str:
        return f"evidence of {self.collection} under a sheet for {dict(self.case['taxon'])}"


def maybe(strategy: st.SearchStrategy) -> st.SearchStrategy:
    return st.none() | strategy


def amounts(most: float) -> st.SearchStrategy[float]:
    return st.floats(0, most, allow_nan=False)


TALLIES = st.builds(
    Tally,
    flag=TEXTS,
    ripe_fruits=maybe(st.integers(0, 60)),
    fruits_taken=st.integers(0, 60),
    seeds=maybe(COUNTS),
)
CUTS = st.integers(1, 500).flatmap(lambda cut: st.builds(CutTest, st.just(cut), st.integers(0, cut)))
COLLECTIONS = st.builds(
    Collection,
    collected_on=DAYS,
    people=st.integers(1, 500),
    latitude=DEGREES,
    longitude=st.floats(-28.21, -28.19) | st.floats(-180, 180),
    uncertainty_m=st.floats(1, 50_000),
    handling=st.sampled_from(Handling),
    total_seeds=SEEDS,
    container=st.sampled_from(Container),
    after_care=st.sampled_from(AfterCare),
    started_at=maybe(st.times()),
    finished_at=maybe(st.times()),
    tallies=st.lists(TALLIES, max_size=6).map(tuple),
    bulk=maybe(st.builds(Bulk, st.integers(1, 10**6), maybe(COUNTS), maybe(amounts(100_000)))),
    plants_seen=maybe(COUNTS),
    plants_fruiting=maybe(COUNTS),
    first_ripe_on=maybe(DAYS),
    already_shedding=maybe(st.booleans()),
    visits_before=maybe(st.integers(0, 200)),
    cut_test=maybe(CUTS),
    seeds_per_fruit=maybe(amounts(100_000)),
    drying_from=maybe(DAYS),
    drying_days=maybe(amounts(730)),
    dryness=st.sampled_from(DrynessProof),
    dryness_rh_pct=maybe(amounts(100)),
    frozen=st.booleans(),
    frozen_on=maybe(DAYS),
    reached_bank_on=maybe(DAYS),
    hours_to_bank=maybe(amounts(1440)),
    identified_by=TEXTS,
    voucher=maybe(st.builds(Voucher, TEXTS)),
)
PERMITS = st.builds(
    PermitHeld, TEXTS, TEXTS, st.just(date(2030, 1, 1)), st.just(date(2030, 12, 31)), maybe(COUNTS), COUNTS
)
PAPERS = st.builds(
    Papers,
    permission=maybe(st.builds(PermissionHeld, maybe(DAYS), maybe(DAYS))),
    permits=st.lists(PERMITS, max_size=3, unique_by=lambda permit: permit.number).map(tuple),
    missing=st.lists(st.sampled_from(Paper), unique=True).map(tuple),
)
MONTHS = maybe(st.integers(1, 12))
EVIDENCE = st.builds(
    Drawn,
    number=TEXTS,
    revision=st.integers(1, 9),
    handed_in_at=MOMENTS,
    zone=ZONES,
    collection=COLLECTIONS,
    sheet=st.builds(SheetFacts, TEXTS, SHEETS, DAYS, maybe(DAYS), st.booleans(), TEXTS),
    taxon=st.builds(
        TaxonFacts,
        TEXTS,
        st.sampled_from(CareClass),
        st.sampled_from(StorageBehaviour),
        MONTHS,
        MONTHS,
        maybe(amounts(100_000)),
        TEXTS,
        st.lists(AREAS, max_size=2).map(tuple),
    ),
    place=st.builds(
        Place,
        TEXTS,
        POSITIONS,
        amounts(50_000),
        TEXTS,
        POSITIONS,
        amounts(50_000),
        maybe(AREAS),
        st.lists(AREAS, max_size=2).map(tuple),
    ),
    papers=PAPERS,
    censuses=st.lists(st.builds(Count, DAYS, COUNTS), max_size=2).map(tuple),
    account=maybe(st.builds(Account, COUNTS, COUNTS, COUNTS)),
    photographs=st.lists(
        st.builds(
            PhotographFacts, st.uuids(), st.sampled_from(PhotographKind), maybe(POSITIONS), maybe(MOMENTS)
        ),
        max_size=4,
    ).map(tuple),
    earlier=st.lists(
        st.builds(Earlier, TEXTS, COLLECTIONS, st.booleans(), st.booleans(), st.booleans()), max_size=2
    ).map(tuple),
)
