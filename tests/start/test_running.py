"""``hub serve`` as an operator runs it: it says where it is once it answers, and stops when told to."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from http.client import HTTPConnection
from pathlib import Path

import pytest

from hub.serving import HOST
from tests.start.ports import free_port


class Running:
    """A server in processes of its own, and where it listens."""

    def __init__(self, data: Path) -> None:
        self.port = free_port()
        hub = Path(sys.executable).with_name("hub")
        command = [hub, "serve", "--port", str(self.port), "--data", data]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)

    def first_line(self) -> str:
        """What it prints first; it prints nothing until it answers."""
        assert self.process.stdout is not None
        return self.process.stdout.readline()

    def status_of(self, path: str) -> int:
        with closing(HTTPConnection(HOST, self.port, timeout=20)) as connection:
            connection.request("GET", path)
            return connection.getresponse().status

    def stopped_by(self, number: int) -> int:
        """Its exit code after this signal."""
        self.process.send_signal(number)
        return self.process.wait(timeout=20)


@pytest.fixture
def running(tmp_path: Path) -> Iterator[Running]:
    server = Running(tmp_path / "data")
    yield server
    if server.process.poll() is None:
        server.process.kill()
    server.process.communicate()


def test_another_wsgi_server_starts_no_hub_without_tables(tmp_path: Path):
    """``hub serve`` asks before; whoever serves ``hub.wsgi`` otherwise must not get a hub that only fails."""
    own = {**os.environ, "HUB_DATA": str(tmp_path)}
    run = subprocess.run([sys.executable, "-c", "import hub.wsgi"], env=own, capture_output=True, text=True)
    assert run.returncode == 1
    assert "Misconfigured: The tables are missing" in run.stderr


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_a_new_hub_answers_says_where_and_stops_cleanly(running: Running, number: int):
    assert running.first_line() == f"hub: Open http://{HOST}:{running.port} (stop with Ctrl+C)\n"
    assert running.status_of("/health") == 200
    assert running.stopped_by(number) == 0
    with socket.socket() as probe:
        probe.bind((HOST, running.port))  # Nothing holds it any more.
