"""A copy of the demo to measure on, with readers who are signed in."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from flask import Flask
from flask.testing import FlaskClient

from hub.config import Settings
from hub.db.work import House
from hub.demo.building import build, days_ahead_in, sign_ins
from hub.demo.founding import PASSWORD
from hub.rights.scope import Scope
from hub.wiring import create_app, make_house

EVERYONE = Scope.everyone(because="measuring")
TOKEN = re.compile(r'name="csrf_token"[^>]* value="([^"]+)"')


@dataclass(frozen=True)
class Stage:
    """One hub to measure."""

    folder: Path
    house: House
    app: Flask

    def reader(self, role: str) -> FlaskClient:
        """A client signed in to the seat that the demo offers for a role."""
        client = self.app.test_client()
        page = client.get("/sign-in").get_data(as_text=True)
        token = TOKEN.search(page)
        typed = {"csrf_token": token[1] if token else "", "email": address(role), "password": PASSWORD}
        fetched(client, "/sign-in", typed)
        return client


def address(role: str) -> str:
    """The e-mail address that the demo offers for a role."""
    return next(each.email for each in sign_ins() if each.role == role)


def fetched(client: FlaskClient, path: str, typed: dict[str, str] | None = None) -> bytes:
    """The whole answer to one request. A refusal would be quick, and worth nothing: it ends the run."""
    with client.post(path, data=typed) if typed else client.get(path) as answer:
        if answer.status_code not in (200, 303):
            raise RuntimeError(f"{path} answered {answer.status}")
        return answer.get_data()


@contextmanager
def staged(built: Path, folder: Path) -> Iterator[Stage]:
    """Copy a built demo into a new folder, and open it there."""
    shutil.copytree(built, folder)
    settings = replace(settings_of(folder), days_ahead=days_ahead_in(folder))
    house = make_house(settings)
    yield Stage(folder, house, create_app(house=house))
    house.engine.dispose()


def built_demo(folder: Path) -> Path:
    """The demo played into a folder."""
    build(folder, say=lambda line: None)
    return folder


def settings_of(folder: Path) -> Settings:
    return Settings.from_environment({"HUB_DATA": str(folder)})
