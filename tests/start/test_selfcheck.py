"""``hub test`` itself: what it runs, and how it speaks of what it had to leave out."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from hub import selfcheck


def test_every_tool_runs_and_pytest_last():
    steps = selfcheck.steps([])
    assert list(steps) == ["style", "format", "types", "import order", "tests"]
    assert steps["tests"] == ["pytest", "-n", "2", "--quiet", "-rs"]


def test_further_words_go_to_pytest_alone():
    steps = selfcheck.steps(["tests/rights", "-x"])
    assert steps["tests"] == ["pytest", "tests/rights", "-x"]
    assert steps["style"] == selfcheck.steps([])["style"]


def test_a_left_out_part_is_said_and_forgiven_at_home(capsys: pytest.CaptureFixture[str]):
    assert selfcheck.told_about(("chromium",), {}) == []
    said = capsys.readouterr().out
    assert "the checks with chromium were left out" in said
    assert "sudo apt-get install" in said


def test_a_left_out_part_fails_on_a_build_server():
    assert selfcheck.told_about(("postgresql",), {"CI": "true"}) == ["postgresql is missing"]


def test_nothing_left_out_is_nothing_failed():
    assert selfcheck.told_about((), {"CI": "true"}) == []


def test_a_failing_step_does_not_pass(tmp_path: Path):
    broken = tmp_path / "broken.py"
    broken.write_text("import os\n")
    assert not selfcheck.passed("style", ["ruff", "check", "--isolated", "--select=F401", str(broken)], ())
    broken.write_text("")
    assert selfcheck.passed("style", ["ruff", "check", "--isolated", "--select=F401", str(broken)], ())


def test_the_suite_hears_what_is_missing(tmp_path: Path):
    asks = tmp_path / "test_asks.py"
    asks.write_text(
        "import os\ndef test_asks():\n    assert os.environ['HUB_TEST_WITHOUT'] == 'chromium,postgresql'\n"
    )
    words = ["pytest", "-q", "-p", "no:cacheprovider", "-c", os.devnull, str(asks)]
    assert selfcheck.passed("tests", words, ("chromium", "postgresql"))


def test_outside_a_checkout_it_says_where_it_runs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    monkeypatch.setattr(selfcheck, "ROOT", tmp_path)
    assert selfcheck.main([]) == 2
    assert "python3 -m hub test" in capsys.readouterr().err
