"""A look for malware in every file before anything else reads it, where the operator has set up a scanner.

``HUB_SCAN=clamd://host:port`` asks a daemon that speaks clamd's INSTREAM (clamd(8));
``HUB_SCAN=command:/path`` runs a program that reads the file from its standard input and ends with 0 for
clean, 1 for found. A scanner that does not answer lets nothing through.
"""

from __future__ import annotations

import logging
import socket
import struct
import subprocess
from collections.abc import Callable
from functools import partial
from shlex import split
from urllib.parse import urlsplit

from flask import Flask, current_app
from werkzeug.datastructures import FileStorage

from hub.words import Refused, say

FOUND = say(
    "This file carries malware and was not taken in. Please have the device that it is from looked at."
)
NO_ANSWER = say(
    "Files are checked for malware here, and the checker does not answer, so none is taken in now. Please "
    "try again later."
)
SCANNER = "funicle-scanner"
COMMAND = "command:"
PATIENCE = 30  # seconds
CHUNK = 64 * 1024  # bytes
LENGTH = struct.Struct(">I")  # clamd(8): four bytes, unsigned, in network byte order
LONGEST_REPLY = 4096  # bytes
CLEAN, INFECTED = 0, 1
IsClean = Callable[[bytes], bool]
log = logging.getLogger(__name__)


class ScannerSilent(Exception):
    """The scanner gave no verdict."""


def prepare(app: Flask, setting: str) -> None:
    """Give an app its scanner, or none."""
    app.extensions[SCANNER] = scanner(setting) if setting else None


def scanner(setting: str) -> IsClean:
    """What looks at a file, as the setting names it; ``hub.config`` has looked at how it is written."""
    if setting.startswith(COMMAND):
        return partial(by_command, split(setting.removeprefix(COMMAND)))
    where = urlsplit(setting)
    return partial(by_daemon, where.hostname or "", where.port or 0)


def scanned(upload: FileStorage) -> FileStorage:
    """The same upload, when its bytes are clean or no scanner is set up. Raises Refused."""
    is_clean: IsClean | None = current_app.extensions[SCANNER]
    if is_clean is not None:
        data = upload.stream.read()
        upload.stream.seek(0)
        check(data, is_clean)
    return upload


def check(data: bytes, is_clean: IsClean) -> None:
    """Raises Refused for what is not clean, and when there is no verdict."""
    try:
        clean = is_clean(data)
    except (ScannerSilent, OSError, subprocess.SubprocessError) as trouble:
        log.error("The malware scanner gave no verdict: %s", trouble)
        raise Refused(NO_ANSWER) from trouble
    if not clean:
        log.warning("Malware was refused in an upload of %d bytes", len(data))
        raise Refused(FOUND)


def by_daemon(host: str, port: int, data: bytes) -> bool:
    """Ask over TCP: the command, chunks each behind its length, a length of nothing; then the verdict."""
    with socket.create_connection((host, port), timeout=PATIENCE) as line:
        line.sendall(b"zINSTREAM\0")
        for at in range(0, len(data), CHUNK):
            piece = data[at : at + CHUNK]
            line.sendall(LENGTH.pack(len(piece)) + piece)
        line.sendall(LENGTH.pack(0))
        return verdict(reply_on(line))


def reply_on(line: socket.socket) -> str:
    """One reply, up to the zero byte that ends it or the end of the line."""
    reply = b""
    while not reply.endswith(b"\0") and len(reply) < LONGEST_REPLY:
        piece = line.recv(LONGEST_REPLY)
        if not piece:
            break
        reply += piece
    return reply.rstrip(b"\0").decode("utf-8", "replace").strip()


def verdict(reply: str) -> bool:
    """``stream: OK`` or ``stream: … FOUND``; anything else is no verdict."""
    if reply == "stream: OK":
        return True
    if reply.endswith(" FOUND"):
        return False
    raise ScannerSilent(reply[:200] or "the line was closed")


def by_command(command: list[str], data: bytes) -> bool:
    """Ask a program of the operator's. No shell, and no name from outside, is part of the command."""
    done = subprocess.run(command, input=data, capture_output=True, timeout=PATIENCE, check=False)  # noqa: S603
    if done.returncode not in (CLEAN, INFECTED):
        raise ScannerSilent(f"{command[0]} ended with {done.returncode}")
    return done.returncode == CLEAN
