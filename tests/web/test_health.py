"""``/health``: whether the hub can work, on either kind of database."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import text
from werkzeug.test import TestResponse

from hub.config import Settings
from hub.db.work import House
from hub.wiring import create_app, make_house


@pytest.fixture
def house(settings: Settings) -> Iterator[House]:
    """A whole hub, in place of the pieces that the other tests of this folder make do with."""
    house = make_house(settings)
    yield house
    house.engine.dispose()


def health_of(house: House) -> TestResponse:
    return create_app(house=house).test_client().get("/health")


def test_a_hub_that_can_work_is_well(house: House) -> None:
    answer = health_of(house)
    assert (answer.status_code, answer.json) == (200, {"status": "ok"})


@pytest.mark.parametrize(
    "statement",
    [
        "update alembic_version set version_num = '0000'",
        "update alembic_version set version_num = '9999'",
        "delete from alembic_version",
    ],
)
def test_tables_of_another_version_are_no_health(house: House, statement: str) -> None:
    with house.engine.begin() as connection:
        connection.execute(text(statement))
    answer = health_of(house)
    assert (answer.status_code, answer.json) == (503, {"status": "tables of another version"})


def test_an_empty_database_is_no_health(settings: Settings, tmp_path: Path) -> None:
    house = make_house(replace(settings, database_url=f"sqlite:///{tmp_path / 'empty.sqlite3'}"))
    assert health_of(house).status_code == 503
    house.engine.dispose()


@pytest.mark.parametrize("url", ["sqlite:////nowhere/hub.sqlite3", "postgresql://hub@/hub?host=/nowhere"])
def test_a_store_out_of_reach_is_told(settings: Settings, url: str) -> None:
    house = make_house(replace(settings, database_url=url))
    answer = health_of(house)
    assert (answer.status_code, answer.json) == (503, {"status": "store unreachable"})
    house.engine.dispose()
