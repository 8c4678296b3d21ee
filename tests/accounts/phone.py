"""A phone for the tests: it reads the secret from the page and shows the codes of any moment."""

from __future__ import annotations

import base64
import hashlib
import hmac
import struct
import time

from tests.cast import PASSWORD
from tests.support.browser import Browser

PATH = "/account/second-step"


class Phone:
    """Makes codes as RFC 6238 describes them, by the standard library alone: a second opinion."""

    def __init__(self, secret: str) -> None:
        self.key = base64.b32decode(secret.replace(" ", ""))

    def code(self, later: int = 0) -> str:
        """The code of the present moment, or of some seconds later."""
        step = int(time.time() + later) // 30
        digest = hmac.digest(self.key, struct.pack(">Q", step), hashlib.sha1)
        start = digest[-1] & 15
        return f"{(struct.unpack('>I', digest[start : start + 4])[0] & 0x7FFFFFFF) % 1_000_000:06d}"


def begun(window: Browser) -> Phone:
    """Begin to set up a second step, and let a phone read its secret."""
    page = window.follow(window.fill(PATH, password=PASSWORD))
    (secret,) = ["".join(each.itertext()) for each in page.all("code")]
    return Phone(secret)


def set_up(window: Browser) -> tuple[Phone, list[str]]:
    """Turn the second step on; the phone, and the recovery codes."""
    phone = begun(window)
    page = window.fill(f"{PATH}/set-up", 200, code=phone.code())
    return phone, ["".join(each.itertext()) for each in page.all("code")]


def password_shown(window: Browser, name: str = "alice") -> None:
    """Sign in as far as the password goes."""
    answer = window.fill("/sign-in", email=f"{name}@cast.example", password=PASSWORD)
    assert answer.location.startswith("/sign-in/code"), answer.location
