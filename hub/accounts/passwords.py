"""Passwords: hashed with Argon2id."""

from __future__ import annotations

from argon2 import PasswordHasher

from hub.config import Settings


def hasher(settings: Settings) -> PasswordHasher:
    """The library's own defaults; a cheap setting for tests, where every case makes nine people."""
    return (
        PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
        if settings.quick_passwords
        else PasswordHasher()
    )


def hashed(settings: Settings, password: str) -> str:
    return hasher(settings).hash(password)
