"""The limits of the checks against the publications that they name.

Sources were read where no other word stands: Newcombe 1998, Statistics in Medicine 17:857, table I (exact
method; the figures are from memory); Brown & Marshall 1995 as used by the technical protocol of the US Bureau
of Land Management (2012); Danusevičius et al. 2016, Baltic Forestry 22:194; Center for Plant Conservation
2019.
"""

from __future__ import annotations

from typing import Any

import pytest

from hub.vetting.collection import AfterCare, Container, CutTest, DrynessProof
from hub.vetting.rules import Severity
from tests.vetting.checks.dossier import collection, dossier, in_bulk, ran, sheet_for, tallied

NAMED = {"name": "P 01"}


def severity(check: str, **changes: Any) -> Severity | None:
    """How gravely one check takes an ordinary collection with some changes."""
    found = ran(check, dossier(collection(**changes)))
    return found[0].severity if found else None


@pytest.mark.parametrize(
    ("filled", "cut", "low", "high"),
    [(81, 263, 0.2527, 0.3676), (15, 148, 0.0578, 0.1617), (0, 20, 0.0, 0.1684), (1, 29, 0.0009, 0.1776)],
)
def test_the_filled_share_has_newcombes_exact_interval(
    filled: int, cut: int, low: float, high: float
) -> None:
    (found,) = ran("filled_share", dossier(collection(cut_test=CutTest(cut, filled))))
    assert (found.figures["low_share"], found.figures["high_share"]) == pytest.approx((low, high), abs=1e-4)


def test_more_than_half_hollow_asks_for_another_collection() -> None:
    """Center for Plant Conservation 2019, cleaning, processing, drying: above 50 % hollow."""
    assert severity("filled_share", cut_test=CutTest(100, 49)) is Severity.STOP
    assert severity("filled_share", cut_test=CutTest(100, 50)) is Severity.QUERY


@pytest.mark.parametrize(("mothers", "most_likely"), [(29, False), (30, True)])
def test_thirty_outcrossed_mothers_catch_a_variant_of_five_percent(mothers: int, most_likely: bool) -> None:
    """Brown & Marshall 1995: 59 gametes, so 30 outcrossed diploid plants, catch it with 95 %."""
    (found,) = ran("allele_capture", dossier(in_bulk(mothers)))
    assert (found.figures["capture_high_share"] >= 0.95) is most_likely


@pytest.mark.parametrize(("mothers", "most_likely"), [(58, False), (59, True)])
def test_selfed_plants_need_as_many_mothers_as_gametes(mothers: int, most_likely: bool) -> None:
    (found,) = ran("allele_capture", dossier(in_bulk(mothers)))
    assert (found.figures["capture_low_share"] >= 0.95) is most_likely


def test_twenty_to_twenty_five_pines_catch_common_alleles() -> None:
    """Danusevičius et al. 2016: 20 to 25 trees hold alleles above 5 % with 95 %; ours lies at 5 %."""
    (found,) = ran("allele_capture", dossier(in_bulk(25)))
    assert 0.9 < found.figures["capture_high_share"] < 0.95


def test_one_fruit_in_five_is_the_most_on_a_day() -> None:
    """US Bureau of Land Management 2012, section 9: no more than 20 % of the ripe seed of the day."""
    on_the_limit, over = (dossier(in_bulk(60, fruits, 10.0, plants_fruiting=60)) for fruits in (120, 121))
    assert ran("share_of_day", on_the_limit) == []
    assert ran("share_of_day", over)[0].severity is Severity.STOP


def test_rare_seed_is_kept_by_mother_and_common_seed_may_be_bulked() -> None:
    """Common in the trade; Center for Plant Conservation 2019, acquiring a conservation collection."""
    rare, common = (sheet_for(population=NAMED, taxon={"care_class": each}) for each in ("rare", "secure"))
    assert ran("handling_as_asked", dossier(in_bulk(), rare))[0].severity is Severity.STOP
    assert ran("handling_as_asked", dossier(in_bulk(), common)) == []


def test_fewer_than_a_hundred_seeds_are_a_small_sample() -> None:
    """Center for Plant Conservation 2019, curating small samples."""
    assert severity("small_lot", total_seeds=99) is Severity.NOTE
    assert severity("small_lot", total_seeds=100) is None


def test_breathable_containers_for_dry_seed() -> None:
    """US Bureau of Land Management 2012 and NZ Plant Conservation Network: paper or cloth, no plastic."""
    breathing = {Container.PAPER_BAG, Container.COVERED_TRAY, Container.MESH_SACK, Container.PACKET}
    assert {severity("container", container=each) for each in breathing} == {None}
    assert severity("container", container=Container.PLASTIC_BAG) is Severity.QUERY


def test_field_seed_is_not_frozen_before_it_is_dry() -> None:
    """US Bureau of Land Management 2012, section 13; a card at 30 % is from memory of common practice."""
    card = {"frozen": True, "dryness": DrynessProof.CARD}
    assert severity("frozen_undried", frozen=True) is Severity.STOP
    assert severity("frozen_undried", **card, dryness_rh_pct=31) is Severity.STOP
    assert severity("frozen_undried", **card, dryness_rh_pct=30) is None


def test_a_week_over_silica_gel_is_the_least() -> None:
    """One to two weeks over silica gel: common practice, no source."""
    assert severity("dried_long_enough", after_care=AfterCare.GEL_DRIED, drying_days=6) is Severity.QUERY
    assert severity("dried_long_enough", after_care=AfterCare.GEL_DRIED, drying_days=7) is None


@pytest.mark.parametrize("storage", ["recalcitrant", "unresolved", "intermediate", "unknown"])
def test_seed_that_may_die_of_drying_is_neither_dried_nor_frozen(storage: str) -> None:
    """Hong & Ellis 1996: recalcitrant seed dies of drying. What is not known is treated alike: our own."""
    sheet = sheet_for(population=NAMED, taxon={"storage": storage})
    dried = dossier(collection(frozen=True), sheet)
    assert ran("never_dried", dried)[0].severity is Severity.STOP
    assert ran("frozen_as_asked", dried)[0].severity is Severity.STOP


def test_the_sheets_own_table_is_never_over_the_limit() -> None:
    """Whoever follows the printed table takes nothing that a check forbids."""
    ordinary = dossier()
    rows = [(row.ripe_fruits, row.take_fruits, 5) for row in ordinary.sheet.sheet.headline.fruit_table]
    assert rows
    assert ran("share_of_plant", dossier(tallied(*rows))) == []
    one_more = [(ripe, fruits + 1, seeds) for ripe, fruits, seeds in rows if fruits == ripe // 10]
    (found,) = ran("share_of_plant", dossier(tallied(*one_more)))
    assert found.figures["mothers_over"] == len(one_more)
