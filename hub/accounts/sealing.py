"""Secrets that the hub must read again are kept sealed: a copy of the store alone does not open them.

The key follows from the hub's own (``HUB_SECRET_KEY``), which stands outside the store. With another key the
sealed secrets are lost: their owners then use a recovery code, or ask for a reset.
"""

from __future__ import annotations

from base64 import urlsafe_b64encode

from cryptography.fernet import Fernet, InvalidToken
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

from hub.config import Settings

PURPOSE = b"funicle second factor"  # one key for one purpose (HKDF, RFC 5869 §3.2)


def box(settings: Settings) -> Fernet:
    """AES in CBC with an HMAC over it, as the library puts them together."""
    derived = HKDF(algorithm=SHA256(), length=32, salt=None, info=PURPOSE).derive(
        settings.secret_key.encode()
    )
    return Fernet(urlsafe_b64encode(derived))


def seal(settings: Settings, secret: str) -> str:
    return box(settings).encrypt(secret.encode()).decode()


def unseal(settings: Settings, sealed: str) -> str | None:
    """The secret, or None when it was sealed with another key or was changed."""
    try:
        return box(settings).decrypt(sealed.encode()).decode()
    except InvalidToken:
        return None
