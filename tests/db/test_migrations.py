"""A database brought up by the migrations equals one made from the models."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import Engine, inspect, text

from hub.db.base import Base
from hub.db.engine import make_engine
from hub.db.migrate import differences, missing, see_all_rows, upgrade
from hub.db.tenancy import scoped_classes
from hub.wiring import load_tables
from tests.cast import Cast


@pytest.fixture(params=["sqlite", "postgresql"])
def empty(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engine]:
    """A database with nothing in it."""
    load_tables()
    if request.param == "sqlite":
        url = f"sqlite:///{tmp_path / 'empty.db'}"
    else:
        server = request.getfixturevalue("private_server")
        server.run("drop database if exists hub_empty", "create database hub_empty owner hub_server")
        url = server.url("hub_empty")
    engine = make_engine(url)
    yield engine
    engine.dispose()


def test_migrations_lead_to_the_models(empty: Engine) -> None:
    upgrade(empty)
    assert differences(empty) == []
    assert set(inspect(empty).get_table_names()) == {*Base.metadata.tables, "alembic_version"}


def test_what_is_still_to_run_is_told(empty: Engine) -> None:
    assert missing(empty)[0] == "0001"
    upgrade(empty)
    assert missing(empty) == []


def test_upgrading_twice_changes_nothing(empty: Engine) -> None:
    upgrade(empty)
    upgrade(empty)
    assert differences(empty) == []


@pytest.mark.parametrize("empty", ["postgresql"], indirect=True)
def test_every_scoped_table_stands_behind_its_policy(empty: Engine) -> None:
    upgrade(empty)
    with empty.connect() as connection:
        fenced = connection.exec_driver_sql(
            "select relname from pg_class where relrowsecurity and relforcerowsecurity"
        )
        assert set(fenced.scalars()) == {cls.__tablename__ for cls in scoped_classes()}  # type: ignore[attr-defined]


@pytest.mark.parametrize("database_url", ["postgresql"], indirect=True)
def test_a_migration_reaches_every_tenants_rows(cast: Cast) -> None:
    """Policies bind the role that migrates too: without a word they would hide all that it is to change."""
    renamed = text("update groups set name = name || '!'")
    with cast.house.engine.connect() as connection:
        assert connection.execute(renamed).rowcount == 0
        see_all_rows(connection)
        assert connection.execute(renamed).rowcount > 2
        connection.rollback()
        assert connection.execute(renamed).rowcount == 0, "it lasts no longer than the transaction"
