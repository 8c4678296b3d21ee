"""Uploads are looked at for malware before anything reads them; no verdict means no file."""

from __future__ import annotations

import io
import socketserver
import struct
import sys
from collections.abc import Iterator
from dataclasses import replace
from threading import Thread

import pytest
from flask import Flask
from PIL import Image
from werkzeug.datastructures import FileStorage

from hub.config import Misconfigured, Settings
from hub.web.fields import Schema, Upload
from hub.web.uploads import picture, scan
from hub.words import Refused

# The test string that every scanner reports though it is harmless (EICAR, “Anti-Malware Testfile”: 68 bytes).
# It stands here in two parts, so that no scanner reports this file.
EICAR = rb"X5O!P%@AP[4\PZX54(P^)7CC)7}$EICAR" + rb"-STANDARD-ANTIVIRUS-TEST-FILE!$H+H*"
LARGEST = 1024 * 1024


class Scanner(socketserver.StreamRequestHandler):
    """A scanner that speaks INSTREAM as clamd(8) describes it, and knows one piece of malware."""

    def handle(self) -> None:
        assert self.rfile.read(len(b"zINSTREAM\0")) == b"zINSTREAM\0"
        body = b""
        while (length := struct.unpack(">I", self.rfile.read(4))[0]) != 0:
            body += self.rfile.read(length)
            if len(body) > LARGEST:
                self.wfile.write(b"INSTREAM size limit exceeded. ERROR\0")
                return
        self.server.seen.append(body)
        self.wfile.write(b"stream: Eicar-Test-Signature FOUND\0" if EICAR in body else b"stream: OK\0")


class Silent(socketserver.BaseRequestHandler):
    """A scanner that hangs up."""

    def handle(self) -> None:
        self.request.recv(10)


@pytest.fixture
def serving() -> Iterator:
    """Start a server with a handler, and give its address as a setting."""
    servers = []

    def start(handler) -> str:
        server = socketserver.ThreadingTCPServer(("127.0.0.1", 0), handler)
        server.daemon_threads, server.seen = True, []
        Thread(target=server.serve_forever, daemon=True).start()
        servers.append(server)
        start.seen = server.seen
        return f"clamd://127.0.0.1:{server.server_address[1]}"

    yield start
    for server in servers:
        server.shutdown()
        server.server_close()


def sent(body: bytes) -> FileStorage:
    return FileStorage(io.BytesIO(body), filename="a.jpg")


def photograph(size: int = 400) -> bytes:
    body = io.BytesIO()
    Image.effect_noise((size, size), 80).save(body, "PNG")
    return body.getvalue()


def looked_at(setting: str, body: bytes) -> None:
    scan.check(body, scan.scanner(setting))


def test_a_clean_file_passes_whole(serving) -> None:
    body = photograph()
    assert len(body) > 2 * scan.CHUNK
    looked_at(serving(Scanner), body)
    assert serving.seen == [body]


@pytest.mark.parametrize("around", [b"%s", b"before %s after", b"x" * 100_000 + b"%s"])
def test_the_test_string_of_scanners_is_refused(serving, around: bytes) -> None:
    with pytest.raises(Refused, match="carries malware"):
        looked_at(serving(Scanner), around % EICAR)


def test_a_file_too_long_for_the_scanner_is_refused(serving) -> None:
    with pytest.raises(Refused, match="does not answer"):
        looked_at(serving(Scanner), b"x" * (LARGEST + 1))


def test_a_scanner_that_is_down_or_hangs_up_lets_nothing_through(serving) -> None:
    for setting in ("clamd://127.0.0.1:9", serving(Silent)):
        with pytest.raises(Refused, match="does not answer"):
            looked_at(setting, photograph(20))


@pytest.mark.parametrize("reply", ["", "stream: Can't open. ERROR", "OK", "stream: OK but"])
def test_what_is_no_verdict_is_no_clean_bill(reply: str) -> None:
    with pytest.raises(scan.ScannerSilent):
        scan.verdict(reply)


PROGRAM = f"command:{sys.executable} -c "
READS = "import sys;sys.exit(int(b'EICAR-STANDARD'in(sys.stdin.buffer.read())))"


def test_a_program_of_the_operator_s_may_look_instead() -> None:
    setting = f'{PROGRAM}"{READS}"'
    looked_at(setting, photograph(20))
    with pytest.raises(Refused, match="carries malware"):
        looked_at(setting, EICAR)


@pytest.mark.parametrize("command", [f'{PROGRAM}"raise SystemExit(2)"', "command:/nowhere/to/be/found"])
def test_a_program_that_fails_lets_nothing_through(command: str) -> None:
    with pytest.raises(Refused, match="does not answer"):
        looked_at(command, photograph(20))


class PhotoSchema(Schema):
    photo = Upload(picture, required=True)


def test_it_comes_before_any_reader(serving, app: Flask) -> None:
    scan.prepare(app, serving(Scanner))
    with app.app_context():
        assert PhotoSchema().load({"photo": sent(photograph())})["photo"].width == 400
        problems = PhotoSchema().validate({"photo": sent(EICAR)})
    assert "carries malware" in str(problems["photo"][0])


def test_without_a_scanner_files_are_read_as_before(app: Flask) -> None:
    with app.app_context():
        assert PhotoSchema().load({"photo": sent(photograph(20))})["photo"].width == 20


@pytest.mark.parametrize(
    "raw", ["clamav://127.0.0.1:3310", "clamd://127.0.0.1", "clamd://:3310", "command:clamscan"]
)
def test_a_setting_that_cannot_be_used_is_told_at_the_start(tmp_path, raw: str) -> None:
    with pytest.raises(Misconfigured, match="HUB_SCAN must be"):
        Settings.from_environment({"HUB_DATA": str(tmp_path), "HUB_SCAN": raw})


def test_a_whole_hub_uses_its_scanner(house, serving) -> None:
    from hub.wiring import create_app

    settings = replace(house.settings, scan=serving(Scanner))
    app = create_app(house=replace(house, settings=settings))
    with app.app_context(), pytest.raises(Refused):
        scan.scanned(sent(EICAR))
