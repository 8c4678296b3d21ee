"""Drying and freezer steps against what is published. Each check names its ground."""

from __future__ import annotations

import re

import pytest

from hub.protocols.engine import issue
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet import Evidence, Line, Section
from tests.protocols.conftest import DAY, changed

RULES = standard_rulebook()


def _lines(*, freezing: bool, storage: str = "orthodox", confirmed: bool = True) -> list[Line]:
    case = changed(
        {
            "taxon": {"storage": storage, "storage_confirmed": confirmed},
            "bank": {"home_freezing": freezing},
        }
    )
    return list(issue(case, RULES, on=DAY).sections[Section.AFTER])


def _said(lines: list[Line], topic: str) -> str:
    return " ".join(f"{line.text} {line.plain}" for line in lines if line.topic == topic)


HOME = _lines(freezing=True)


def test_no_freezer_step_unless_the_bank_switched_it_on():
    """Published: do not freeze field seed (BLM protocol section 13). The switch is our default."""
    assert _said(_lines(freezing=False), "freezer") == ""
    assert _said(HOME, "freezer") != ""


@pytest.mark.parametrize(
    "storage", ["short_lived", "intermediate", "recalcitrant", "unresolved", "exceptional"]
)
def test_no_freezer_and_no_gel_for_seed_that_is_not_confirmed_orthodox(storage):
    """Published: desiccation-sensitive seed is killed by drying (Bonner 2008, ch. 4)."""
    said = " ".join(
        str(line.text) for line in _lines(freezing=True, storage=storage) if line.topic != "moist"
    )
    assert not re.search(r"silica|freez|jar", said)


def test_orthodox_seed_that_no_curator_confirmed_is_not_frozen_at_home():
    """Our default."""
    assert _said(_lines(freezing=True, confirmed=False), "freezer") == ""


def test_gel_is_about_the_weight_of_the_seed_and_renewed_until_the_card_says_dry():
    """Published: a wildflower centre's answer (2013): equal amount, renewed about three times."""
    said = _said(HOME, "drying")
    assert "the same weight of cobalt-free silica gel" in said
    assert "Renew the gel" in said


def test_the_card_must_read_ten_to_thirty_twice_a_week_apart_before_any_frost():
    """Published targets: 10 to 35% (FAO 2014; Center for Plant Conservation). Two checks: our default."""
    frost = next(line for line in HOME if line.rules == ("freezing.home",))
    assert str(frost.text).startswith("Only after the card has read 10% to 30% twice, a week apart")


def test_never_below_ten_per_cent():
    """Published: Center for Plant Conservation, moisture content: below 10% also risks harm."""
    card = next(line for line in _lines(freezing=False) if line.rules == ("drying.card",))
    assert "Never go below 10%" in str(card.text)
    assert "cpc-moisture" in card.sources


def test_frozen_at_minus_eighteen_or_colder():
    """Published: FAO (2014) standard 4.2.3, −18 ± 3 °C, as quoted by the Open University."""
    frost = next(line for line in HOME if line.rules == ("freezing.home",))
    assert "−18 °C or colder" in str(frost.text)
    assert frost.sources == ("fao-2014",)


def test_thawed_closed_overnight_and_every_opening_written_down():
    """From memory of common practice."""
    thaw = next(line for line in HOME if line.rules == ("freezing.thaw",))
    assert thaw.evidence is Evidence.MEMORY
    assert "closed jar" in str(thaw.text)
    assert "every opening" in str(thaw.text)


def test_the_jar_is_tested_for_leaks():
    """Published: Gómez-Campo (2009): 36 of 40 kinds of container let damp in."""
    jar = next(line for line in HOME if line.rules == ("freezing.jar",))
    assert "gomez-campo-2009" in jar.sources


def test_dry_in_the_shade_and_under_thirty_degrees_without_oven():
    """Our default, below the 40 °C that some crops are given (BLM protocol section 13: shade, air)."""
    said = _said(_lines(freezing=False), "drying")
    assert "shady" in said
    assert "below 30 °C" in said
    assert "oven" not in said


@pytest.mark.parametrize("freezing", [False, True])
def test_blue_gel_is_warned_of_and_never_advised(freezing):
    """Published: cobalt(II) chloride is a substance of very high concern in the EU (supplier's note)."""
    case = changed({"bank": {"home_freezing": freezing}})
    cautions = issue(case, RULES, on=DAY).sections[Section.CAUTIONS]
    assert any("caution.cobalt" in line.rules and line.evidence is Evidence.PUBLISHED for line in cautions)
    for line in _lines(freezing=freezing):
        assert not re.search(r"(?<!never the )blue", str(line.plain))


def test_pulp_is_washed_off_and_seed_laid_on_what_does_not_stick():
    """Published: BLM protocol section 13; Royal Tasmanian Botanical Gardens."""
    case = changed({"taxon": {"fruit_type": "fleshy"}})
    line = next(
        line
        for line in issue(case, RULES, on=DAY).sections[Section.AFTER]
        if line.rules == ("cleaning.fleshy",)
    )
    assert "not on newspaper" in str(line.text)
    assert line.sources == ("sos-handling", "tasmanian-gardens")


def test_immature_seed_ripens_slowly_and_is_never_dried_fast():
    """Published: Kew technical information sheet 04, the tenth; not drying fast is from memory."""
    case = changed({"crop": {"immature_share": 0.11}})
    lines = issue(case, RULES, on=DAY).sections[Section.MATURITY]
    (line,) = [line for line in lines if line.rules == ("maturity.immature",)]
    assert "never dry it fast" in str(line.text)
