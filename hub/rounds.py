"""The rounds: what the hub does by itself every few seconds, beside the pages, in each serving process.

Every duty may run in any number of processes at once and be cut off at any moment: each does its work in
small transactions and finds again what it left undone.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from functools import wraps
from threading import Event, Thread

from hub.accounts.delivery import deliver_due
from hub.adoptions.actions import lapse_due
from hub.db import pulse
from hub.db.limits import forget_old
from hub.db.work import House, Work
from hub.protocols.dates import note_dates
from hub.protocols.renewals import renew_due
from hub.rights.scope import Scope
from hub.sites.actions import expire_due
from hub.web.pdf_keeping import prune

EVERY = 5.0  # seconds
SELDOM = 360  # rounds: the calendar turns slowly
UPKEEP = Scope.everyone(because="the hub's own upkeep")
log = logging.getLogger("hub.rounds")


def by_itself(duty: Callable[[Work], object]) -> Callable[[House], None]:
    """A duty across all tenants, in one transaction."""

    @wraps(duty)
    def go(house: House) -> None:
        with house.work(UPKEEP) as work:
            duty(work)
            work.db.commit()

    return go


OFTEN: tuple[Callable[[House], object], ...] = (renew_due, deliver_due)
ONCE_IN_A_WHILE: tuple[Callable[[House], object], ...] = (
    *(by_itself(duty) for duty in (expire_due, lapse_due, note_dates, forget_old)),
    prune,
)


class Rounds(Thread):
    """Runs until ``stop`` is called or the process ends."""

    def __init__(self, house: House, every: float = EVERY) -> None:
        super().__init__(name="rounds", daemon=True)
        self.house, self.every = house, every
        self._stopped = Event()

    def run(self) -> None:
        number = 0
        while not self._stopped.wait(self.every):
            self.go(OFTEN if number % SELDOM else ONCE_IN_A_WHILE + OFTEN)
            number += 1

    def go(self, duties: tuple[Callable[[House], object], ...]) -> None:
        """Do each duty; one that fails is tried again on the next round and keeps none of the others back."""
        broken = []
        for duty in duties:
            try:
                duty(self.house)
            except Exception:  # whatever it is, it must not end the rounds of this process for good
                broken.append(getattr(duty, "__name__", "duty"))
                log.exception("A round was broken off; the next one goes on")
        pulse.note(self.house.settings.data_dir, self.house.now(), broken)

    def stop(self) -> None:
        """End after the present duty."""
        self._stopped.set()
        self.join()


def start_rounds(house: House) -> Rounds:
    """Begin the rounds in the background."""
    rounds = Rounds(house)
    rounds.start()
    return rounds
