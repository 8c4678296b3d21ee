"""The file store: whole files under keys made by the hub, on disk or in an S3-compatible store by setting."""

from __future__ import annotations

from typing import TYPE_CHECKING
from uuid import uuid4

from hub.words import NotFound

if TYPE_CHECKING:
    from hub.config import Settings


class Files:
    """Bytes in, bytes out. A file is either whole or absent, and never changes once it is there."""

    def __init__(self, settings: Settings) -> None:
        from obstore.store import LocalStore, from_url

        if settings.file_store:
            self._store = from_url(settings.file_store)
        else:
            folder = settings.data_dir / "files"
            folder.mkdir(parents=True, exist_ok=True)
            self._store = LocalStore(folder)

    def keep(self, data: bytes, *, kind: str, ending: str) -> str:
        """Store bytes under a fresh key and return it. ``kind`` names the folder, ``ending`` the type."""
        key = f"{kind}/{uuid4().hex}.{ending}"
        self._store.put(key, data)
        return key

    def read(self, key: str) -> bytes:
        """The whole file. Raises NotFound when there is none under this key."""
        try:
            return bytes(self._store.get(key).bytes())
        except FileNotFoundError as missing:
            raise NotFound(key) from missing
