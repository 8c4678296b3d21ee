"""Secrets that are handed out once: 256 random bits for the holder, a digest for the store."""

from __future__ import annotations

import secrets
from hashlib import sha256
from typing import NamedTuple


class Secret(NamedTuple):
    """What the holder gets, and what is kept to know it again."""

    token: str
    digest: str


def fresh() -> Secret:
    """A new secret. 32 bytes from the system's generator, so it can be neither guessed nor met twice."""
    token = secrets.token_urlsafe(32)
    return Secret(token, digest_of(token))


def digest_of(token: str) -> str:
    """SHA-256, in hexadecimal. A secret of 256 random bits needs no slow hash."""
    return sha256(token.encode("utf-8", "surrogatepass")).hexdigest()
