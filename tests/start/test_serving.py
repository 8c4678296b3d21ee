"""``hub serve`` and ``hub demo`` before they serve: what stands in the way is one sentence."""

from __future__ import annotations

import os
import socket
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from hub import serving
from hub.config import Misconfigured, Settings
from hub.db.revision import known, seen_by_file
from hub.demo import days_ahead_in
from tests.start.ports import free_port
from tests.support.databases import PrivateServer

OF_A_REAL_HUB = {
    "HUB_BASE_URL": "https://hub.invalid",
    "HUB_DATABASE_URL": "postgresql://real",
    "HUB_DATA": "real",
    "HUB_FILE_STORE": "s3://real",
    "HUB_MAIL": "smtp://real",
    "HUB_SCAN": "command:/real",
    "HUB_SECOND_FACTOR": "required",
    "HUB_SECRET_KEY": "real",
    "HUB_TRUSTED_PROXIES": "1",
}


@pytest.fixture(autouse=True)
def own_environment() -> Iterator[None]:
    """The commands write settings into the environment: begin without any, and end as before."""
    before = dict(os.environ)
    serving.forget_settings()
    yield
    os.environ.clear()
    os.environ.update(before)


@pytest.fixture
def taken() -> Iterator[int]:
    """A port on which another program listens."""
    with socket.socket() as other:
        other.bind((serving.HOST, 0))
        other.listen()
        yield other.getsockname()[1]


@pytest.fixture
def port() -> int:
    return free_port()


@pytest.fixture
def data(tmp_path: Path) -> Settings:
    """The settings of an embedded hub that was never started."""
    return Settings.from_environment({"HUB_DATA": str(tmp_path)})


@pytest.mark.parametrize("command", [serving.serve_command, serving.demo_command])
def test_a_taken_port_is_told_before_anything_is_made(command, taken: int, tmp_path: Path, capsys):
    assert command(["--port", str(taken), "--data", str(tmp_path / "data")]) == 1
    said = capsys.readouterr().err
    assert said == f"hub: Port {taken} is in use by another program. Choose another with --port.\n"
    assert not (tmp_path / "data").exists()


@pytest.mark.parametrize("typed", ["0", "65536", "-1", "80a", "", "８０２０８"])
def test_what_is_no_port_is_refused(typed: str, capsys):
    with pytest.raises(SystemExit) as ending:
        serving.serve_command([f"--port={typed}"])
    assert ending.value.code == 2
    assert "a port is a whole number from 1 to 65535" in capsys.readouterr().err


def test_a_wrong_setting_is_told(port: int, tmp_path: Path, capsys, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("HUB_UPLOAD_MB", "plenty")
    assert serving.serve_command(["--port", str(port), "--data", str(tmp_path)]) == 1
    assert "HUB_UPLOAD_MB must be a whole number" in capsys.readouterr().err


def test_a_demo_has_no_setting_of_a_real_hub(demo_folder: Path, capsys):
    os.environ.update(OF_A_REAL_HUB)
    sign_ins = serving.open_demo(demo_folder)
    serving.configure(serving.parsed("demo", ["--port", "8021", "--data", str(demo_folder)], data="unused"))
    assert {name: value for name, value in os.environ.items() if name.startswith("HUB_")} == {
        "HUB_BASE_URL": f"http://{serving.HOST}:8021",
        "HUB_DATA": str(demo_folder),
        "HUB_DAYS_AHEAD": str(days_ahead_in(demo_folder)),
    }
    assert len(sign_ins) == 8


def test_a_demo_is_never_played_into_a_real_hub(port: int, tmp_path: Path, capsys):
    (tmp_path / "hub.sqlite3").touch()
    assert serving.demo_command(["--port", str(port), "--data", str(tmp_path)]) == 1
    assert "holds something that is no demo" in capsys.readouterr().err


def test_serving_keeps_the_operators_settings(tmp_path: Path):
    os.environ.update(OF_A_REAL_HUB)
    serving.configure(serving.parsed("serve", ["--data", str(tmp_path)], data="unused"))
    assert OF_A_REAL_HUB | {"HUB_DATA": str(tmp_path)} == {name: os.environ[name] for name in OF_A_REAL_HUB}


def test_nothing_is_healthy_where_nothing_listens(port: int):
    assert not serving.healthy(port)


def test_an_open_port_that_says_nothing_yet_is_not_healthy(taken: int, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(serving, "PATIENCE_SECONDS", 0.1)
    assert not serving.healthy(taken)


def test_a_first_start_makes_the_tables_of_an_embedded_hub(data: Settings):
    serving.refuse_unfit_tables(data)
    assert seen_by_file(data.data_dir / "hub.sqlite3") == known()[-1]


def test_a_first_start_that_was_broken_off_is_made_good(data: Settings):
    (data.data_dir / "hub.sqlite3").touch()
    serving.refuse_unfit_tables(data)
    assert seen_by_file(data.data_dir / "hub.sqlite3") == known()[-1]


def test_tables_of_another_version_are_not_served(data: Settings, port: int, capsys):
    serving.refuse_unfit_tables(data)
    with closing(sqlite3.connect(data.data_dir / "hub.sqlite3")) as other:
        other.execute("update alembic_version set version_num = '9999'")
        other.commit()
    assert serving.serve_command(["--port", str(port), "--data", str(data.data_dir)]) == 1
    assert "newer version" in capsys.readouterr().err


def test_a_server_without_tables_waits_for_the_steward(private_server: PrivateServer, data: Settings):
    private_server.run("drop database if exists hub_bare", "create database hub_bare")
    with pytest.raises(Misconfigured, match="Run “hub db upgrade” first"):
        serving.refuse_unfit_tables(replace(data, database_url=private_server.url("hub_bare")))
