"""Take limits and mothers against what protocols say. Each check names its ground.

"Published": read in the publication named. "From memory": common in the trade, not looked up.
"Our default": no publication gives the figure; the check only pins our own choice.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from hub.protocols.case import Case, SalvageFacts, SignOff
from hub.protocols.engine import issue
from hub.protocols.overrides import Override
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet import Evidence, Sheet
from hub.taxa.rules import CareClass, LifeForm
from tests.protocols.conftest import DAY, changed

RULES = standard_rulebook()
SIGNED = SignOff("The curator", DAY)


def _sheet(case: Case) -> Sheet:
    return issue(case, RULES, on=DAY)


def _case(care_class: CareClass, plants: int = 400, years: tuple[int, ...] = ()) -> Case:
    case = changed({})
    return replace(
        case,
        taxon=replace(case.taxon, care_class=care_class),
        population=replace(case.population, plants=plants, fruiting_plants=plants),
        history=replace(case.history, years_collected=years),
        sign_off=replace(SIGNED, share=0.1) if care_class is CareClass.CRITICAL else SIGNED,
    )


def test_at_most_a_fifth_of_the_seed_ripe_on_the_day():
    """Published: BLM technical protocol (2012) section 9; Woodland Trust (2017), a fifth of a tree's crop."""
    line = _sheet(_case(CareClass.SECURE)).headline.visit_share
    assert (line.value, line.evidence) == (0.2, Evidence.PUBLISHED)
    assert "sos-protocol" in line.sources


@pytest.mark.parametrize("care_class", [CareClass.RARE, CareClass.CRITICAL, CareClass.UNKNOWN])
def test_rare_plants_lose_at_most_a_tenth_of_a_years_crop(care_class):
    """Published: Center for Plant Conservation (2019), conventional seed banking."""
    line = _sheet(_case(care_class)).headline.season_share
    assert line.value <= 0.1
    assert {"cpc-banking"} & set(RULES.rule(line.rules[0]).source)


def test_rare_plants_are_never_collected_more_than_five_years_in_ten():
    """Published: Center for Plant Conservation (2019); our default of one in ten is stricter."""
    assert RULES.rule("seasons.rare").loosen_to["seasons_in_ten"] == 5
    assert _sheet(_case(CareClass.RARE, years=(2021,))).status == "stop"
    five = Override("seasons.rare", "seasons_in_ten", 5, "The curator", DAY, "Counted.", DAY, "A census.")
    more = replace(five, value=6)
    for override, years, status in (
        (five, (2021, 2023, 2025, 2028), "ready"),  # this year is the fifth in ten
        (five, (2021, 2023, 2025, 2026, 2028), "stop"),
        (more, (2021, 2023, 2025, 2028), "stop"),
    ):
        sheet = issue(_case(CareClass.RARE, years=years), RULES, [override], on=DAY)
        assert sheet.status == status
        assert (sheet.overrides[0].refused is None) is (override is five)


@pytest.mark.parametrize(("plants", "most"), [(10, 0.05), (11, 0.2)])
def test_threatened_plants_in_populations_of_ten_or_fewer_lose_less_than_a_twentieth_each(plants, most):
    """Published: New Zealand Plant Conservation Network: under 5% of a plant, else under 20%."""
    assert _sheet(_case(CareClass.RARE, plants)).headline.plant_share.value <= most


def test_a_twentieth_itself_is_too_much_where_less_than_it_is_published():
    """Published: New Zealand network, *under* 5%: one of 20 fruits is 5%, one of 21 is less."""
    head = _sheet(_case(CareClass.RARE, 10)).headline
    assert (head.none_below, head.fruit_table[0].ripe_fruits) == (21, 21)
    for row in head.fruit_table:
        assert row.take_fruits / row.ripe_fruits < 0.05
    assert "Less than 5%" in str(head.plant_share.text)


@pytest.mark.parametrize(("years", "most"), [((2029,), 0.02), ((2028,), 0.05)])
def test_annuals_by_the_gap_since_the_last_collection(years, most):
    """Published: Bucharova and others (2025): 2% every year for most annuals, 5% every second year."""
    case = _case(CareClass.SECURE, years=years)
    annual = replace(case, taxon=replace(case.taxon, life_form=LifeForm.ANNUAL))
    line = _sheet(annual).headline.season_share
    assert (line.value, line.evidence, line.sources) == (most, Evidence.PUBLISHED, ("bucharova-2025",))


@pytest.mark.parametrize("plants", [0, 1, 19])
def test_volunteers_leave_populations_under_twenty_plants(plants):
    """Published: at least 20 plants must be there (Wild Ones; Wagner 1995). That we stop is our default."""
    case = replace(_case(CareClass.SECURE, plants), sign_off=None)
    assert _sheet(case).status == "stop"


def test_populations_under_a_hundred_are_left_alone_where_possible():
    """Published, relayed: Plant Conservation Roundtable (1986)."""
    texts = [
        line for line in _sheet(_case(CareClass.SECURE, 99)).lines() if line.evidence is Evidence.SECONDARY
    ]
    assert any("roundtable-1986" in line.sources for line in texts)


@pytest.mark.parametrize(("plants", "share"), [(100, 0.1), (99, 0.1), (50, 0.1), (49, 0.05), (20, 0.05)])
@pytest.mark.parametrize("care_class", [CareClass.SECURE, CareClass.WATCH, CareClass.RARE, CareClass.UNKNOWN])
def test_bands_of_population_size(care_class, plants, share):
    """Our default: 10% from 50 fruiting plants, 5% from 20."""
    assert _sheet(_case(care_class, plants)).headline.season_share.value == share


def test_trees_with_a_poor_crop_are_skipped():
    """Published: Woodland Trust (2017)."""
    case = _case(CareClass.SECURE)
    poor = replace(case.crop, poor_year=True)
    tree = replace(case, taxon=replace(case.taxon, life_form=LifeForm.TREE), crop=poor)
    assert _sheet(tree).reasons[0].sources == ("woodland-trust-2017",)


@pytest.mark.parametrize("care_class", [CareClass.SECURE, CareClass.CRITICAL])
def test_the_limit_is_lifted_when_destruction_is_imminent_but_still_by_seed_parent(care_class):
    """Published: New Zealand, Colorado and Garry oak guidelines for lifting; by mother is our default."""
    doomed = SalvageFacts("The curator", "The owner", "Road order 12", DAY)
    head = _sheet(replace(_case(care_class), salvage=doomed, sign_off=None)).headline
    assert (head.season_share.value, head.handling.value) == (1.0, "by_mother")
    assert "nz-threatened" in head.season_share.sources


def test_common_plants_in_bulk_and_rare_ones_by_seed_parent():
    """Published: BLM protocol section 9 for bulk; Center for Plant Conservation (2019) for lines."""
    bulk, lines = (_sheet(_case(each)).headline.handling for each in (CareClass.SECURE, CareClass.RARE))
    assert (bulk.value, lines.value) == ("bulk", "by_mother")
    assert "sos-protocol" in bulk.sources
    assert "cpc-acquiring" in lines.sources


@pytest.mark.parametrize("plants", [2, 9, 50])
def test_few_plants_are_kept_apart_even_when_common(plants):
    """Published: New Zealand network, below 10 plants; our default goes up to 50."""
    assert _sheet(_case(CareClass.SECURE, plants)).headline.handling.value == "by_mother"


def test_fifty_mothers():
    """Published: BLM protocol section 9; Center for Plant Conservation (2019)."""
    line = _sheet(_case(CareClass.SECURE)).headline.mothers_goal
    assert (line.value, line.evidence) == (50, Evidence.PUBLISHED)


def test_thirty_mothers_at_least_or_as_many_as_exist():
    """Published: a regional longleaf protocol after NRCS."""
    assert _sheet(_case(CareClass.SECURE)).headline.mothers_minimum.value == 30
    assert _sheet(_case(CareClass.SECURE, 25)).headline.mothers_minimum.value <= 25


@pytest.mark.parametrize(("care_class", "goal"), [(CareClass.SECURE, 10_000), (CareClass.RARE, 3_000)])
def test_seed_goals(care_class, goal):
    """Published: BLM protocol section 7 (10,000); Center for Plant Conservation (2019), 3,000 as a target."""
    assert _sheet(_case(care_class)).headline.seed_goal.value == goal


@pytest.mark.parametrize(("share", "n"), [(0.2, 5), (0.1, 10), (0.05, 20), (0.02, 50)])
def test_shares_as_one_in_so_many(share, n):
    """By calculation: 1 divided by the share."""
    case = replace(_case(CareClass.SECURE, 5000), sign_off=replace(SIGNED, share=share))
    assert _sheet(case).headline.none_below == max(n, 10)


@pytest.mark.parametrize(
    ("rule", "grade"),
    [
        ("take.secure", Evidence.DEFAULT),
        ("take.small-population", Evidence.DEFAULT),
        ("take.poor-year", Evidence.DEFAULT),
        ("take.falling", Evidence.DEFAULT),
        ("seasons.running", Evidence.DEFAULT),
        ("seasons.rare", Evidence.DEFAULT),
        ("stop.few-plants", Evidence.DEFAULT),
        ("stop.not-mast", Evidence.MEMORY),
    ],
)
def test_what_no_publication_gives_is_never_cited_as_if_it_did(rule, grade):
    """Our defaults and remembered figures carry their grade and no source."""
    assert (RULES.rule(rule).evidence, RULES.rule(rule).source) == (grade, ())
