"""Where the hub requires it, seats of banks, regions and the hub open only with a second step."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest
import time_machine

from hub.accounts.models import ApiToken
from hub.config import Misconfigured, Settings
from hub.wiring import create_app
from tests.accounts.phone import set_up
from tests.cast import Cast
from tests.support.browser import Browser

GUARDED = ("cora", "tess", "olga", "stan")


@pytest.fixture
def strict(cast: Cast) -> Iterator[Callable[[str], Browser]]:
    """Windows of a hub that requires a second step."""
    settings = replace(cast.house.settings, second_factor="required")
    app = create_app(house=replace(cast.house, settings=settings))
    with time_machine.travel(cast.now, tick=True):
        yield lambda name: Browser(app, cast, name)


@pytest.mark.parametrize("name", GUARDED)
def test_by_password_alone_such_a_seat_stays_shut(strict: Callable[[str], Browser], name: str) -> None:
    window = strict(name)
    assert window.get("/", 302).location == "/account/second-step"
    assert "opens as soon as it is set up" in window.get("/account/second-step").main
    window.post("/hub/banks/new" if name == "stan" else "/bank/settings", status=403)


def test_it_opens_once_the_step_is_set_up(strict: Callable[[str], Browser]) -> None:
    window = strict("cora")
    assert window.get("/bank", 302).location == "/account/second-step"
    set_up(window)
    window.get("/bank")
    assert window.get("/", 302).location != "/account/second-step"


@pytest.mark.parametrize("name", ["alice", "bob"])
def test_volunteers_are_not_asked(strict: Callable[[str], Browser], name: str) -> None:
    window = strict(name)
    window.get("/our-group")
    assert "Please set it up" not in window.get("/account/second-step").main


def test_a_key_made_without_a_seat_is_no_key(strict: Callable[[str], Browser], cast: Cast) -> None:
    page = strict("cora").fill("/account/keys", 422, name="Way round", days="30")
    assert "you have none" in page.problems[0]
    with cast.everywhere() as work:
        assert work.db.query(ApiToken).count() == 0


def test_a_hub_asks_unless_it_is_told_otherwise(tmp_path) -> None:
    env = {"HUB_DATA": str(tmp_path)}
    assert Settings.from_environment(env).second_factor == "asked"
    assert Settings.from_environment({**env, "HUB_SECOND_FACTOR": "required"}).second_factor == "required"
    with pytest.raises(Misconfigured, match="HUB_SECOND_FACTOR must be asked or required"):
        Settings.from_environment({**env, "HUB_SECOND_FACTOR": "maybe"})
