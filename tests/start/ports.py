"""Ports for servers that the tests start."""

from __future__ import annotations

import socket
from random import SystemRandom

from hub.serving import HOST

# Below the range from which the machine takes ports for its own outgoing connections.
LISTENING = range(20_000, 32_000)


def free_port() -> int:
    """A port on which nothing listens; chosen at random, so that workers side by side do not meet."""
    while True:
        port = SystemRandom().choice(LISTENING)
        with socket.socket() as probe:
            if probe.connect_ex((HOST, port)) != 0:
                return port
