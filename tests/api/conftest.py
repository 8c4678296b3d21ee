"""Programs of the cast, at the cast's own moment."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
import time_machine
from flask import Flask

from tests.api.program import Program
from tests.cast import Cast

Programs = Callable[..., Program]


@pytest.fixture
def program(app: Flask, cast: Cast) -> Iterator[Programs]:
    """``program("alice")`` acts for Alice in her seat, ``program()`` has no key."""
    with time_machine.travel(cast.now, tick=True):
        yield lambda name=None: Program(app, cast, name)
