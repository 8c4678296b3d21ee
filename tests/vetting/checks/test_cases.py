"""Each check has evidence that makes it speak and evidence that keeps it silent, its limits among them."""

from __future__ import annotations

import json

import pytest

from hub.vetting.checks import CHECKS, findings
from tests.vetting.checks import cases_after, cases_before, cases_field
from tests.vetting.checks.dossier import Silent, Speaks, dossier, ran

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
