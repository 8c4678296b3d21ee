"""``hub db`` and ``hub audit`` on a hub of their own, from no tables to a chain that was meddled with."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from hub import upkeep
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.config import Settings
from hub.rights.scope import Scope
from hub.wiring import make_house
from tests.cast import NOW, gather


@pytest.fixture(autouse=True)
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of the hub that the commands find in their settings."""
    monkeypatch.setenv("HUB_DATA", str(tmp_path))
    monkeypatch.delenv("HUB_DATABASE_URL", raising=False)
    return tmp_path


def test_a_new_hub_differs_until_it_is_upgraded(capsys: pytest.CaptureFixture[str]):
    assert upkeep.db_command(["check"]) == 1
    assert "Run “hub db upgrade”" in capsys.readouterr().err
    assert upkeep.db_command(["upgrade"]) == 0
    assert upkeep.db_command(["check"]) == 0
    assert upkeep.db_command(["upgrade"]) == 0


def test_a_chain_without_tables_gets_a_sentence(capsys: pytest.CaptureFixture[str]):
    assert upkeep.audit_command(["verify"]) == 1
    assert "The database answers" in capsys.readouterr().err


def test_a_whole_chain_and_one_that_was_changed(data: Path, capsys: pytest.CaptureFixture[str]):
    upkeep.db_command(["upgrade"])
    house = make_house(Settings.from_environment())
    cast = gather(house, now=NOW)
    with house.work(Scope.everyone(because="a test writes an entry"), now=NOW) as work:
        record(work, Event.GROUP_MOVED, cast.fell_group, after={"state": "approved"})
        work.db.commit()
    house.engine.dispose()
    assert upkeep.audit_command(["verify"]) == 0
    with closing(sqlite3.connect(data / "hub.sqlite3")) as meddler:
        meddler.execute("update audit_entry set reason = 'something else'")
        meddler.commit()
    capsys.readouterr()
    assert upkeep.audit_command(["verify"]) == 1
    assert capsys.readouterr().err.startswith("hub: The chain is broken at entry 1")


def test_a_database_that_cannot_be_reached_gets_a_sentence(
    data: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    monkeypatch.setenv("HUB_DATABASE_URL", f"postgresql://nobody@/nothing?host={data}")
    assert upkeep.db_command(["check"]) == 1
    assert "The database answers" in capsys.readouterr().err


@pytest.mark.parametrize(("command", "words"), [(upkeep.db_command, []), (upkeep.audit_command, ["mend"])])
def test_an_unknown_verb_is_told(command, words: list[str]):
    with pytest.raises(SystemExit) as ending:
        command(words)
    assert ending.value.code == 2
