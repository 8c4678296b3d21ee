"""Features above that must act in the same transaction when something below them has happened.

A census is recorded in ``sites``; the sheets that it overtakes live in ``protocols``, which ``sites`` may not
know. So ``protocols`` listens: ``@when(Event.CENSUS_RECORDED)``. The wiring imports every ``listeners.py``.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from typing import Any

from hub.audit.rules import Event
from hub.db.work import Work

Listener = Callable[[Work, Any], None]
_listeners: dict[Event, list[Listener]] = defaultdict(list)


def when(*events: Event) -> Callable[[Listener], Listener]:
    """Call this function with the work and the changed row, right after the event was recorded."""

    def register(listener: Listener) -> Listener:
        for event in events:
            if listener not in _listeners[event]:
                _listeners[event].append(listener)
        return listener

    return register


def tell(work: Work, event: Event, thing: Any) -> None:
    """Tell everybody who listens for this event, in the order in which they registered."""
    for listener in _listeners[event]:
        listener(work, thing)
