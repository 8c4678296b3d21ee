"""Each check has evidence that makes it speak and evidence that keeps it silent, its limits among them."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from hub.vetting.checks import CHECKS, findings
from hub.vetting.evidence import Earlier
from tests.vetting.checks import cases_after, cases_before, cases_field
from tests.vetting.checks.dossier import Silent, Speaks, collection, dossier, ran

TABLES = (cases_before, cases_field, cases_after)
SPEAKS = [case for table in TABLES for case in table.SPEAKS]
SILENT = [case for table in TABLES for case in table.SILENT]


@pytest.mark.parametrize("case", SPEAKS, ids=lambda case: f"{case.check}: {case.words}")
def test_it_speaks(case: Speaks) -> None:
    (found,) = ran(case.check, case.evidence)
    assert case.words in str(found.words)
    assert (found.check, found.severity) == (case.check, case.severity)
    assert str(found.source)
    json.dumps(dict(found.figures), allow_nan=False)


@pytest.mark.parametrize("case", SILENT, ids=lambda case: f"{case.check}: {case.why}")
def test_it_keeps_silent(case: Silent) -> None:
    assert ran(case.check, case.evidence) == []


def test_every_check_both_speaks_and_keeps_silent() -> None:
    every = {check.id for check in CHECKS}
    assert {case.check for case in SPEAKS} == every
    assert {case.check for case in SILENT} | {"allele_capture"} == every


def test_no_check_has_a_name_or_title_twice() -> None:
    assert len({check.id for check in CHECKS}) == len({check.title for check in CHECKS}) == len(CHECKS)


def test_an_ordinary_collection_raises_no_eyebrow() -> None:
    assert [found.check for found in findings(dossier())] == ["allele_capture"]


def test_the_gravest_come_first() -> None:
    told = findings(dossier(papers={"permission": None}, photographs=()))
    assert [found.severity for found in told] == sorted(
        (found.severity for found in told), key=list(type(told[0].severity)).index
    )
    assert told[0].check == "permission_on_the_day"


def test_another_groups_number_is_in_no_word_or_figure() -> None:
    twin = Earlier("OLD-1", collection(), approved=True, same_population=True, same_group=False)
    (found,) = ran("near_duplicate", dossier(earlier=(twin,)))
    assert "OLD-1" not in str(found.words) + json.dumps(dict(found.figures))
    (own,) = ran("near_duplicate", dossier(earlier=(replace(twin, same_group=True),)))
    assert own.figures["number"] == "OLD-1"
