"""How long a hub that was started before takes until it answers."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

from hub.bench.figure import Figure
from hub.config import ROOT
from hub.serving import healthy

BAR = 2.0  # seconds
PORTS = range(28_100, 28_200)


def second_start(built: Path, *, rounds: int) -> Figure:
    """From the command to the first 200 of ``/health``, for a hub whose tables stand."""
    seconds = [one_start(built, port) for port in PORTS[: rounds + 1]][1:]
    how = "“hub serve” over a built folder, until /health answers"
    return Figure.over("Second start", seconds, "s", BAR, how)


def one_start(built: Path, port: int) -> float:
    """Start, wait for the first answer, stop."""
    command = [sys.executable, "-m", "hub", "serve", "--port", str(port), "--data", str(built)]
    begun = time.perf_counter()
    server = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.DEVNULL)  # noqa: S603
    try:
        while not healthy(port):
            if server.poll() is not None:
                raise RuntimeError(f"the server ended with {server.returncode} before it answered")
            time.sleep(0.01)
        return time.perf_counter() - begun
    finally:
        server.terminate()
        server.wait()
