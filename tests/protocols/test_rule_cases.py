"""Each rule has a case that makes it speak and one that keeps it silent, readable in ``cases/*.toml``."""

from __future__ import annotations

import tomllib
from datetime import timedelta
from typing import Any

import pytest

from hub.protocols.engine import issue
from hub.protocols.sheet import Sheet
from tests.protocols.conftest import CASES, DAY, changed

FILES = sorted(set(CASES.glob("*.toml")) - {CASES / "ready.toml"})
TOLD = [
    pytest.param(told, id=f"{path.stem}: {told['title']}")
    for path in FILES
    for told in tomllib.loads(path.read_text("utf-8"))["case"]
]
_FIGURES = {
    "status": lambda sheet: sheet.status,
    "route": lambda sheet: sheet.route,
    "left_seeds": lambda sheet: sheet.headline.left_seeds.value,
    "handling": lambda sheet: sheet.headline.handling.value,
    "container": lambda sheet: sheet.headline.container.value,
    "hours": lambda sheet: sheet.headline.hours_to_bank.value,
    "drying": lambda sheet: sheet.headline.drying.value,
    "freezing": lambda sheet: sheet.headline.freezing.value,
}


def _sheet(told: dict[str, Any], rulebook) -> Sheet:
    return issue(changed(told.get("change", {})), rulebook, on=DAY)


@pytest.mark.parametrize("told", TOLD)
def test_case_comes_out_as_told(told, rulebook):
    sheet = _sheet(told, rulebook)
    found = {name: read(sheet) for name, read in _FIGURES.items() if name in told}
    assert found == {name: told[name] for name in found}
    assert set(told.get("speaks", ())) <= set(sheet.heard)
    assert not set(told.get("silent", ())) & set(sheet.heard)


def test_every_rule_has_a_case_that_makes_it_speak(rulebook):
    spoken = {rule for param in TOLD for rule in param.values[0].get("speaks", ())}
    assert {rule.id for rule in rulebook.rules if rule.when} - spoken == set()


def test_every_conditional_rule_has_a_case_that_keeps_it_silent(rulebook):
    silent = {rule for param in TOLD for rule in param.values[0].get("silent", ())}
    assert {rule.id for rule in rulebook.rules if rule.when} - silent == set()


def test_a_rule_without_conditions_speaks_always_but_not_before_its_first_day(rulebook):
    always = [rule for rule in rulebook.rules if not rule.when]
    for param in TOLD:
        assert {rule.id for rule in always} <= set(_sheet(param.values[0], rulebook).heard)
    assert not any(rule.holds_on(rule.since - timedelta(days=1)) for rule in always)


def test_cases_name_only_rules_that_exist(rulebook):
    ids = {rule.id for rule in rulebook.rules}
    named = {rule for param in TOLD for key in ("speaks", "silent") for rule in param.values[0].get(key, ())}
    assert named - ids == set()
