"""The codes of a second factor: six digits that change every thirty seconds (TOTP, RFC 6238)."""

from __future__ import annotations

import base64
import hmac
import secrets
from datetime import datetime
from typing import NamedTuple

import pyotp

PERIOD = 30  # seconds, as RFC 6238 §4.1 has it by default
DIGITS = 6
# The present step, one for a slow network (RFC 6238 §5.2), one for a clock that runs ahead (§6).
STEPS_TRIED = (0, -1, 1)
ISSUER = "Funicle"
RECOVERY_BYTES = 15  # 120 bits: enough for a plain digest, which ASVS 5.0 6.5.2 allows from 112 on
RECOVERY_CODES = 8
GROUP = 4  # letters that are written together, so that a code can be copied from paper


class Shown(NamedTuple):
    """What is shown once while a second factor is set up."""

    secret: str  # for typing, in groups
    address: str  # for the QR code: what code programs read


def fresh_secret() -> str:
    """160 random bits in base32, the length that RFC 4226 §4 recommends."""
    return pyotp.random_base32(32)


def code_at(secret: str, step: int) -> str:
    """The code of one step of thirty seconds, counted from 1970."""
    return pyotp.HOTP(secret, digits=DIGITS).at(step)


def step_at(moment: datetime) -> int:
    return int(moment.timestamp()) // PERIOD


def step_of(secret: str, typed: str, now: datetime) -> int | None:
    """The step whose code was typed, or None. Every step is compared, so the time taken tells nothing."""
    present = step_at(now)
    steps = [present + off for off in STEPS_TRIED]
    fitting = [step for step in steps if hmac.compare_digest(code_at(secret, step), plain(typed))]
    return fitting[0] if fitting else None


def shown(secret: str, email: str) -> Shown:
    address = pyotp.TOTP(secret, digits=DIGITS, interval=PERIOD).provisioning_uri(
        name=email, issuer_name=ISSUER
    )
    return Shown(grouped(secret, " "), address)


def plain(typed: str) -> str:
    """A code as it is compared: spaces and dashes are for reading alone. Only ASCII can be compared."""
    return "".join(sign for sign in typed.upper() if sign.isascii() and sign.isalnum())


def is_recovery_code(typed: str) -> bool:
    return len(plain(typed)) == RECOVERY_BYTES * 8 // 5


def fresh_recovery_codes() -> list[str]:
    """Codes for a lost phone: capital letters and digits in groups, from the system's generator."""
    drawn = (base64.b32encode(secrets.token_bytes(RECOVERY_BYTES)).decode() for _ in range(RECOVERY_CODES))
    return [grouped(code, "-") for code in drawn]


def grouped(text: str, mark: str) -> str:
    return mark.join(text[at : at + GROUP] for at in range(0, len(text), GROUP))
