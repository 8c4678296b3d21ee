"""``hub sheet`` without any database."""

from __future__ import annotations

import json

import pytest

from hub.protocols.command import main, sheet_command
from hub.protocols.sheet import Sheet
from hub.web.pdf import PdfsAreOff
from tests.protocols.conftest import ordinary


@pytest.fixture
def case_file(tmp_path):
    path = tmp_path / "case.json"
    path.write_text(json.dumps(ordinary()), "utf-8")
    return path


def _run(*words, **more):
    return main([str(word) for word in words], **more)


def test_it_prints_the_sheet_as_json(case_file, capsys):
    assert _run("--case", case_file, "--json", "--on", "2030-08-01") == 0
    sheet = Sheet.from_json(json.loads(capsys.readouterr().out))
    assert sheet.headline.left_seeds.value == 12_000


def test_it_prints_the_sheet_in_words(case_file, capsys):
    assert _run("--case", case_file, "--on", "2030-08-01") == 0
    told = capsys.readouterr().out
    assert "Campanula scheuchzeri, 2030-08-01: ready" in told
    assert "40 ripe fruits: take at most 4" in told


def test_it_prints_the_schema(capsys):
    assert _run("--schema") == 0
    assert json.loads(capsys.readouterr().out)["title"] == "Case"


def test_it_hands_the_sheet_to_whoever_draws_it(case_file, tmp_path):
    out = tmp_path / "sheet.pdf"
    assert _run("--case", case_file, "--out", out, render=lambda sheet: sheet.status.encode()) == 0
    assert out.read_bytes() == b"ready"


def test_it_draws_the_sheet_without_any_database(case_file, tmp_path):
    out = tmp_path / "sheet.pdf"
    assert sheet_command(["--case", str(case_file), "--out", str(out), "--on", "2030-08-01"]) == 0
    assert out.read_bytes().startswith(b"%PDF")


def test_a_place_that_cannot_be_written_gets_a_sentence(case_file, tmp_path, capsys):
    out = tmp_path / "no such folder" / "sheet.pdf"
    assert _run("--case", case_file, "--out", out, render=lambda sheet: b"") == 2
    assert "cannot be written" in capsys.readouterr().err


def test_without_the_renderer_it_says_so(case_file, tmp_path, capsys, monkeypatch):
    def off(*_):
        raise PdfsAreOff

    monkeypatch.setattr("hub.web.pdf.load_renderer", off)
    assert sheet_command(["--case", str(case_file), "--out", str(tmp_path / "sheet.pdf")]) == 2
    assert "PDFs are off" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("{", "is not JSON"),
        ("[" * 100_000, "is not JSON"),
        ("[]", "case: "),
        ('{"taxon": {"name": "Viola"}, "population": {"plants": "x"}}', "case.population.plants: "),
        (
            '{"taxon": {"name": "Viola"}, "history": {"years_collected": [1, "x"]}}',
            "case.history.years_collected.1",
        ),
        ("\xff", "is not JSON"),
    ],
    ids=["broken", "deep", "list", "word for number", "in a list", "not UTF-8"],
)
def test_a_bad_case_gets_a_sentence(text, says, tmp_path, capsys):
    path = tmp_path / "case.json"
    path.write_bytes(text.encode("latin-1"))
    assert _run("--case", path) == 2
    assert says in capsys.readouterr().err


def test_a_missing_file_gets_a_sentence(tmp_path, capsys):
    assert _run("--case", tmp_path / "none.json") == 2
    assert "cannot be read" in capsys.readouterr().err


def test_a_day_without_rules_gets_a_sentence(case_file, capsys):
    assert _run("--case", case_file, "--on", "1999-01-01") == 2
    assert "No rule in force" in capsys.readouterr().err
