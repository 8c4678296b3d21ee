"""A small app of the real shared pieces: real settings, real SQLite, one table, and an accounts stand-in."""

from __future__ import annotations

from pathlib import Path

import pytest
from flask import Flask

from hub.config import Settings, resource_folder
from hub.db.engine import make_engine
from hub.db.files import Files
from hub.db.work import House
from hub.rights.right import Right
from hub.web import shared
from hub.web.caller import VISITOR
from hub.web.guard import Pages


@pytest.fixture
def house(tmp_path: Path) -> House:
    settings = Settings(
        tmp_path, f"sqlite:///{tmp_path / 'hub.sqlite3'}", "for-tests-alone", quick_passwords=True
    )
    engine = make_engine(settings.database_url)
    yield House(settings, engine, Files(settings))
    engine.dispose()


@pytest.fixture
def pages() -> Pages:
    """A blueprint for the routes that one test needs; add them before asking for ``client``."""
    return Pages("probe", __name__)


@pytest.fixture
def app(house: House, pages: Pages) -> Flask:
    app = Flask("funicle-probe", static_folder=None, template_folder=str(resource_folder("templates")))
    app.config.update(TESTING=True, WTF_CSRF_ENABLED=False)
    shared.prepare(app, house, who=lambda: VISITOR, menu=lambda caller: [])
    app.register_blueprint(accounts())
    return app


@pytest.fixture
def client(app: Flask, pages: Pages):
    app.register_blueprint(pages)
    return app.test_client()


def accounts() -> Pages:
    """The few addresses that the page frame links to."""
    pages = Pages("accounts", __name__)
    for name in ("sign_in", "sign_out", "take_seat", "account"):
        pages.route(f"/{name}", needs=Right.PUBLIC_READ, endpoint=name)(lambda work: "")
    return pages
