"""The demo hub for tests: played once for all the processes of a run, then copied to whoever changes it."""

from __future__ import annotations

import fcntl
import random
import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from flask import Flask
from werkzeug.serving import make_server

from hub.config import Settings
from hub.db.work import House
from hub.demo.building import build, days_ahead_in, sign_ins
from hub.demo.founding import PASSWORD
from hub.wiring import create_app, make_house

HOST = "127.0.0.1"
BELOW_EPHEMERAL = range(20_000, 32_000)  # systems lend ports from 32768 up to outgoing connections
SIGN_INS = {each.role: each.email for each in sign_ins()}


@dataclass(frozen=True)
class DemoHub:
    """A demo hub that answers."""

    house: House
    app: Flask
    url: str

    password = PASSWORD

    def email(self, role: str) -> str:
        """The address of the seat that the demo offers for a role."""
        return SIGN_INS[role]


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a demo that nobody changes: the first process that asks builds it, the others wait."""
    shared = tmp_path_factory.getbasetemp()
    if shared.name.startswith("popen-"):  # one process of several: what is above it belongs to all
        shared = shared.parent
    folder = shared / "demo"
    with (shared / "demo.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        build(folder, say=lambda line: None)
    return folder


@pytest.fixture(scope="module")
def demo_hub(demo_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[DemoHub]:
    """A demo of this module's own, served at an address of this machine alone."""
    copy = tmp_path_factory.mktemp("demo") / "hub"
    shutil.copytree(demo_folder, copy)
    with served(copy) as hub:
        yield hub


@contextmanager
def opened(folder: Path, **settings: str) -> Iterator[House]:
    """The house of a built demo, on the day that it stands on."""
    found = Settings.from_environment({"HUB_DATA": str(folder), **settings})
    house = make_house(replace(found, days_ahead=days_ahead_in(folder)))
    yield house
    house.engine.dispose()


@contextmanager
def served(folder: Path) -> Iterator[DemoHub]:
    """A built demo behind a server in this process."""
    port = free_port()
    url = f"http://{HOST}:{port}"
    with opened(folder, HUB_BASE_URL=url) as house:
        app = create_app(house=house)
        server = make_server(HOST, port, app, threaded=True)
        thread = threading.Thread(target=server.serve_forever, daemon=True)
        thread.start()
        try:
            yield DemoHub(house, app, url)
        finally:
            server.shutdown()
            thread.join()
            server.server_close()


def free_port() -> int:
    """A port that nobody listens on."""
    for port in random.SystemRandom().sample(BELOW_EPHEMERAL, 50):
        with socket.socket() as probe:
            if probe.connect_ex((HOST, port)) != 0:
                return port
    raise OSError("found no free port")
