"""Passwords: hashed with Argon2id, compared in constant work."""

from __future__ import annotations

import unicodedata

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from hub.config import Settings


def hasher(settings: Settings) -> PasswordHasher:
    """The library's own defaults; a cheap setting for tests, where every case makes nine people."""
    return (
        PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
        if settings.quick_passwords
        else PasswordHasher()
    )


def composed(password: str) -> str:
    """The one spelling that is hashed (NFC), so that every keyboard writes the same password."""
    return unicodedata.normalize("NFC", password)


def hashed(settings: Settings, password: str) -> str:
    return hasher(settings).hash(composed(password))


def matches(settings: Settings, stored: str | None, password: str) -> bool:
    """Whether a password fits what is stored. Where nothing is stored, as much work is done for nothing."""
    if not stored:
        hashed(settings, password)
        return False
    try:
        return hasher(settings).verify(stored, composed(password))
    except (VerificationError, InvalidHashError):
        return False


def is_outdated(settings: Settings, stored: str) -> bool:
    """Whether a hash was made with other settings than today's, and should be made afresh."""
    return hasher(settings).check_needs_rehash(stored)
