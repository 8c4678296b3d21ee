"""Collections of every kind, for what must hold for all of them."""

from __future__ import annotations

from datetime import date, time

from hypothesis import strategies as some

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

counts = some.integers(0, 100_000)
days = some.dates(date(1990, 1, 1), date(2060, 12, 31))
words = some.text(some.characters(exclude_categories=["C"]), min_size=1, max_size=20).map(str.strip)
said = words.filter(bool)
clocks = some.builds(time, some.integers(0, 23), some.integers(0, 59))
tallies = some.lists(
    some.builds(Tally, said, some.none() | counts, counts, some.none() | counts),
    min_size=1,
    max_size=6,
    unique_by=lambda tally: tally.flag.casefold(),
).map(tuple)
cut_tests = some.integers(1, 500).flatmap(
    lambda cut: some.builds(CutTest, some.just(cut), some.integers(0, cut), some.just(0))
)


def maybe(strategy):
    return some.none() | strategy


collections = some.builds(
    Collection,
    collected_on=days,
    people=some.integers(1, 500),
    latitude=some.floats(-90, 90).map(lambda value: round(value, 6)),
    longitude=some.floats(-180, 180).map(lambda value: round(value, 6)),
    uncertainty_m=some.integers(1, 50_000).map(float),
    handling=some.just(Handling.BY_MOTHER),
    total_seeds=some.integers(1, 50_000_000),
    container=some.sampled_from(Container),
    after_care=some.sampled_from(AfterCare),
    started_at=some.none(),
    finished_at=maybe(clocks),
    crew_id=maybe(some.uuids().map(str)),
    tallies=tallies,
    bulk=maybe(some.builds(Bulk, some.integers(1, 1000), maybe(counts), maybe(counts.map(float)))),
    plants_seen=maybe(counts),
    plants_fruiting=maybe(counts),
    first_ripe_on=maybe(days),
    already_shedding=maybe(some.booleans()),
    visits_before=maybe(some.integers(0, 200)),
    cut_test=maybe(cut_tests),
    seeds_per_fruit=maybe(some.integers(0, 100_000).map(float)),
    drying_from=maybe(days),
    drying_days=maybe(some.integers(0, 730).map(float)),
    dryness=some.sampled_from(DrynessProof),
    dryness_rh_pct=maybe(some.integers(0, 100).map(float)),
    frozen=some.booleans(),
    frozen_on=maybe(days),
    reached_bank_on=maybe(days),
    hours_to_bank=maybe(some.integers(0, 1440).map(float)),
    identified_by=some.just("") | said,
    voucher=maybe(some.builds(Voucher, said, some.just("") | said)),
    weather=some.just("") | said,
    notes=some.just("") | said,
)
