"""Fixtures of vetting's tests: one draft in one store, or one window on it, for many random tries."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest

from tests.cast import Cast
from tests.support.browser import Browse
from tests.vetting.scene import begun, set_scene


@pytest.fixture
def store(cast: Cast) -> tuple[Cast, Any]:
    return cast, begun(cast, set_scene(cast))


@dataclass
class Window:
    """A signed-in client and a good token, for sending what no form would."""

    client: Any
    token: str


@pytest.fixture
def pages(browse: Browse, store: tuple[Cast, Any]) -> tuple[Window, Cast, Any]:
    alice = browse("alice")
    return Window(alice.client, alice.form_token), *store
