"""Fixtures of the whole suite: a house on SQLite and one on PostgreSQL, the cast, a fixed moment."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import hypothesis
import pytest
import time_machine
from flask import Flask

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from hub.config import Settings  # noqa: E402  the checkout's own hub, whatever is installed
from hub.db.work import House  # noqa: E402
from hub.web.caller import HOUSE  # noqa: E402
from hub.wiring import create_app, make_house  # noqa: E402
from tests.cast import NOW, Cast, gather  # noqa: E402
from tests.support.browser import Browse, Browser  # noqa: E402
from tests.support.databases import PrivateServer, SqliteTemplate  # noqa: E402

pytest_plugins = ["tests.support.demo_hub", "tests.support.chromium"]  # a played demo, a real browser
# How long an example may take depends on the machine and on what else runs there: no test asks.
hypothesis.settings.register_profile("house", deadline=None)
hypothesis.settings.load_profile("house")
MISSING = frozenset(os.environ.get("HUB_TEST_WITHOUT", "").split(","))


@pytest.fixture(scope="session")
def sqlite_template(tmp_path_factory: pytest.TempPathFactory) -> SqliteTemplate:
    return SqliteTemplate(tmp_path_factory.mktemp("sqlite"))


@pytest.fixture(scope="session")
def private_server() -> Iterator[PrivateServer]:
    if "postgresql" in MISSING:
        pytest.skip("PostgreSQL is not installed here")
    with PrivateServer.started() as server:
        yield server


@pytest.fixture(params=["sqlite", "postgresql"])
def database_url(request: pytest.FixtureRequest) -> Iterator[str]:
    """A fresh, empty database with every table, on each kind of database in turn."""
    if request.param == "sqlite":
        yield request.getfixturevalue("sqlite_template").copy()
    else:
        with request.getfixturevalue("private_server").fresh() as url:
            yield url


@pytest.fixture
def settings(database_url: str, tmp_path: Path) -> Settings:
    return Settings(
        data_dir=tmp_path, database_url=database_url, secret_key="for tests alone", quick_passwords=True
    )


@pytest.fixture
def house(settings: Settings) -> Iterator[House]:
    """A running hub's engine and files, on an empty database."""
    house = make_house(settings)
    yield house
    house.engine.dispose()


@pytest.fixture
def cast(house: House) -> Cast:
    """The people of the tests, in their groups and banks: see tests/cast.py."""
    return gather(house, now=NOW)


@pytest.fixture(scope="session")
def apps() -> dict[Settings, Flask]:
    """The apps that were made, by their settings but for the places of their data."""
    return {}


@pytest.fixture
def app(house: House, apps: dict[Settings, Flask]) -> Flask:
    """The whole hub over the test's own database.

    Making an app and compiling its templates takes longer than most tests: it is made once, and its house,
    the one thing in it that differs, is changed.
    """
    alike = replace(house.settings, data_dir=Path(), database_url="")
    app = apps.get(alike) or apps.setdefault(alike, create_app(house=house))
    app.extensions[HOUSE] = house
    app.testing = True  # a fault of ours fails the test where it happened
    return app


@pytest.fixture
def browse(app: Flask, cast: Cast) -> Iterator[Browse]:
    """``browse("alice")`` opens a window signed in as Alice, ``browse()`` a visitor's, at the cast's now."""
    with time_machine.travel(cast.now, tick=True):
        yield lambda name=None: Browser(app, cast, name)
