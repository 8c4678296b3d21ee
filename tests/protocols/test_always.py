"""What must hold for every case that anybody can think of."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hub.protocols.case import BankFacts, Case, SalvageFacts, Trend
from hub.protocols.crop import crop_of
from hub.protocols.engine import issue
from hub.protocols.facts import facts_of
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet import Evidence, Sheet, Status
from hub.taxa.rules import CareClass, FruitType, LifeForm, StorageBehaviour
from tests.protocols.random_cases import CASES, DAY, EARLIER, sound_cases

RULEBOOK = standard_rulebook()
MOIST = {
    StorageBehaviour.RECALCITRANT,
    StorageBehaviour.UNRESOLVED,
    StorageBehaviour.UNKNOWN,
    StorageBehaviour.INTERMEDIATE,
}
CLASSES = [CareClass.SECURE, CareClass.WATCH, CareClass.RARE, CareClass.CRITICAL, CareClass.GONE]
ANY = CASES | sound_cases()
FEW = settings(max_examples=25, deadline=None)


def sheet_of(case: Case) -> Sheet:
    return issue(case, RULEBOOK, on=DAY)


def may_take(case: Case) -> int:
    """Seeds that this sheet lets the group take; none while anything is unknown."""
    sheet = sheet_of(case)
    return sheet.headline.left_seeds.value or 0


@FEW
@given(ANY)
def test_allowance_is_never_above_the_share_of_the_crop(case):
    sheet, crop = sheet_of(case), crop_of(case)
    if crop is None:
        assert sheet.headline.left_seeds.value in (None, 0)
        return
    most = crop.value * sheet.headline.season_share.value
    assert (
        (sheet.headline.left_seeds.value or 0) <= (sheet.headline.allowance_seeds.value or 0) <= most + 1e-6
    )


@FEW
@given(ANY)
def test_fruit_table_never_exceeds_the_share_or_what_is_left(case):
    head = sheet_of(case).headline
    for row in head.fruit_table:
        assert row.take_fruits <= row.ripe_fruits * head.plant_share.value + 1e-9
        assert row.take_fruits <= (
            head.left_fruits.value if head.left_fruits.value is not None else row.take_fruits
        )
        assert row.ripe_fruits >= (head.none_below or 0)
    if head.none_below is not None:
        assert head.most_from(head.none_below - 1) == 0
        assert head.most_from(head.none_below) == 1 or head.plant_share.value == 1


@FEW
@given(ANY)
def test_without_salvage_nobody_takes_more_than_a_tenth_of_the_season_or_a_fifth_of_the_day(case):
    head = sheet_of(case).headline
    if facts_of(case, DAY)["salvage"] != "approved":
        assert head.season_share.value <= 0.1
        assert head.visit_share.value <= 0.2
        assert head.plant_share.value <= head.visit_share.value


@FEW
@given(sound_cases(), st.data())
def test_fewer_plants_never_allow_more(case, data):
    fewer = data.draw(st.integers(0, case.population.fruiting_plants))
    less = replace(case, population=replace(case.population, fruiting_plants=fewer))
    assert may_take(less) <= may_take(case)


@FEW
@given(sound_cases(), st.sampled_from(CLASSES), st.sampled_from(CLASSES))
def test_a_rarer_class_never_allows_more(case, one, other):
    common, rare = sorted((one, other), key=CLASSES.index)
    case_of = {each: replace(case, taxon=replace(case.taxon, care_class=each)) for each in (common, rare)}
    assert may_take(case_of[rare]) <= may_take(case_of[common])


@FEW
@given(sound_cases())
def test_a_plant_of_unknown_class_is_treated_as_rare(case):
    unknown, rare = (
        replace(case, taxon=replace(case.taxon, care_class=each))
        for each in (CareClass.UNKNOWN, CareClass.RARE)
    )
    assert may_take(unknown) == may_take(rare)
    assert sheet_of(unknown).status == sheet_of(rare).status


@pytest.mark.parametrize(
    ("part", "tightened"),
    [
        ("crop", {"poor_year": True}),
        ("crop", {"empty_share": 0.6}),
        ("population", {"trend": Trend.FALLING}),
        ("population", {"severe_threat": True}),
        ("population", {"identity_verified": False}),
        ("population", {"wild_origin": False}),
        ("taxon", {"listed": True}),
        ("taxon", {"native": False}),
        ("history", {"years_collected": tuple(range(2020, 2030))}),
        ("history", {"reserved_seeds": 3000}),
        ("history", {"taken_seeds": 3000}),
        ("permission", {"granted": False}),
    ],
    ids=str,
)
@FEW
@given(case=sound_cases())
def test_worse_news_never_allows_more(part, tightened, case):
    worse = replace(case, **{part: replace(getattr(case, part), **tightened)})
    assert may_take(worse) <= may_take(case)
    assert sheet_of(worse).status is not Status.READY or sheet_of(case).status is Status.READY


@FEW
@given(sound_cases())
def test_a_plant_that_dies_after_seeding_never_gives_more_than_a_rested_perennial(case):
    rested = replace(case, history=replace(case.history, years_collected=()))
    herb, annual = (
        replace(rested, taxon=replace(case.taxon, life_form=each, persistent_seed_bank=False))
        for each in (LifeForm.PERENNIAL_HERB, LifeForm.ANNUAL)
    )
    assert may_take(annual) <= may_take(herb)


@pytest.mark.parametrize(
    ("part", "fact", "safe"),
    [
        ("taxon", "care_class", CareClass.SECURE),
        ("taxon", "listed", False),
        ("taxon", "native", True),
        ("taxon", "life_form", LifeForm.PERENNIAL_HERB),
        ("taxon", "persistent_seed_bank", True),
        ("taxon", "masts", False),
        ("population", "identity_verified", True),
        ("population", "wild_origin", True),
        ("population", "fruiting_plants", 5000),
        ("population", "severe_threat", False),
        ("crop", "poor_year", False),
        ("crop", "ripe_fruits_per_plant", 300),
        ("crop", "good_seeds_per_fruit", 80),
        ("history", "years_collected", ()),
        ("history", "taken_seeds", 0),
        ("history", "reserved_seeds", 0),
        ("permission", "granted", True),
    ],
)
@FEW
@given(case=sound_cases())
def test_not_knowing_never_permits_more_than_knowing_it_safe(part, fact, safe, case):
    unknown = "unknown" if fact in {"care_class", "life_form"} else None
    kinds = {"care_class": CareClass, "life_form": LifeForm}
    hidden = kinds[fact](unknown) if fact in kinds else unknown
    blind, known = (
        replace(case, **{part: replace(getattr(case, part), **{fact: v})}) for v in (hidden, safe)
    )
    assert may_take(blind) <= may_take(known)
    assert sheet_of(blind).status is not Status.READY or sheet_of(known).status is Status.READY


@FEW
@given(ANY)
def test_seed_that_may_die_of_drying_is_never_dried_or_frozen(case):
    sheet = sheet_of(case)
    if case.taxon.storage in MOIST and case.taxon.fruit_type is not FruitType.SPORE:
        assert (sheet.headline.drying.value, sheet.headline.freezing.value) == ("never", "never")
        assert not {line.topic for line in sheet.lines()} & {"freezer", "handover"}
        steps = {line.topic for lines in sheet.sections.values() for line in lines}
        assert "drying" not in steps


@FEW
@given(ANY)
def test_home_freezing_needs_the_switch_and_confirmed_orthodox_seed(case):
    if sheet_of(case).headline.freezing.value == "home":
        assert case.bank.home_freezing
        assert case.taxon.storage_confirmed
        assert case.taxon.storage in {StorageBehaviour.ORTHODOX, StorageBehaviour.ORTHODOX_HARD}


@FEW
@given(ANY)
def test_no_sheet_is_ready_without_permission_and_permit(case):
    if sheet_of(case).status is Status.READY:
        assert case.permission.granted
        assert facts_of(case, DAY)["permit"] in {"valid", "not needed"}
        assert not case.taxon.listed or case.permits


@FEW
@given(sound_cases())
def test_salvage_is_always_by_mother(case):
    asked = SalvageFacts("The curator", "The owner", "Road order 12", EARLIER)
    sheet = sheet_of(replace(case, salvage=asked))
    assert sheet.headline.handling.value == "by_mother"


@FEW
@given(ANY)
def test_a_ready_sheet_has_no_open_question_that_it_needs_and_says_why_when_not_ready(case):
    sheet = sheet_of(case)
    if sheet.status is Status.READY:
        assert not sheet.reasons
        assert not any(ask.needed for ask in sheet.asks)
        assert sheet.headline.left_seeds.value > 0
    else:
        assert sheet.reasons
    if sheet.status is Status.STOP:
        assert sheet.headline.left_seeds.value == 0
        assert sheet.headline.fruit_table == ()


@FEW
@given(ANY)
def test_every_line_carries_rule_evidence_and_reason(case):
    sheet = sheet_of(case)
    cited = {source.key for source in sheet.sources}
    for line in [*sheet.lines(), *sheet.considered]:
        assert line.rules
        assert set(line.rules) <= set(sheet.heard)
        assert set(line.sources) <= cited
        assert line.inputs is not None
        for words in (line.text, line.plain, line.why):
            assert "{" not in str(words)
            assert "None" not in str(words)


@FEW
@given(ANY)
def test_a_line_cites_only_where_its_own_words_were_read(case):
    sheet = sheet_of(case)
    for line in sheet.lines():
        read = {key for rule in line.rules for key in RULEBOOK.rule(rule).source}
        if line.evidence in {Evidence.PUBLISHED, Evidence.SECONDARY}:
            assert line.sources
            assert set(line.sources) <= read


@FEW
@given(ANY)
def test_no_rule_that_spoke_is_lost(case):
    sheet = sheet_of(case)
    if sheet.status is not Status.STOP:
        told = {rule for line in [*sheet.lines(), *sheet.considered] for rule in line.rules}
        assert set(sheet.heard) == told


@FEW
@given(ANY)
def test_the_same_case_gives_the_same_sheet_and_a_stored_one_reads_back(case):
    sheet = sheet_of(case)
    assert sheet == sheet_of(case)
    assert Sheet.from_json(sheet.as_json()) == sheet


@FEW
@given(ANY, st.booleans())
def test_the_freezer_switch_changes_nothing_about_taking(case, switch):
    other = replace(case, bank=BankFacts(home_freezing=switch))
    assert may_take(case) == may_take(other)
