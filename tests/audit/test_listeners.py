"""Those who listen hear of an event once, in the same transaction, and never of another."""

from __future__ import annotations

from typing import Any

from hub.audit.actions import record
from hub.audit.listeners import when
from hub.audit.rules import Event
from hub.db.work import Work
from tests.cast import Cast


def test_a_listener_hears_its_event_alone_and_once(cast: Cast) -> None:
    heard: list[Any] = []

    @when(Event.REGION_MADE)
    def listen(work: Work, thing: Any) -> None:
        heard.append(thing)

    when(Event.REGION_MADE)(listen)  # registering again, as a second import would, changes nothing
    with cast.work("stan") as work:
        record(work, Event.REGION_MADE, cast.region)
        record(work, Event.BANK_MADE, cast.fell_bank)
    assert heard == [cast.region]
