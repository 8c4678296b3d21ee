"""A thread that does the post round every few seconds, beside the pages, in each serving process."""

from __future__ import annotations

import logging
from threading import Event, Thread

from sqlalchemy.exc import SQLAlchemyError

from hub.accounts.delivery import deliver_due
from hub.db.work import House

EVERY = 5.0  # seconds
log = logging.getLogger("hub.post")


class Postman(Thread):
    """Runs until ``stop`` is called or the process ends. A letter cut off in between is carried later."""

    def __init__(self, house: House, every: float = EVERY) -> None:
        super().__init__(name="postman", daemon=True)
        self.house, self.every = house, every
        self._stopped = Event()

    def run(self) -> None:
        while not self._stopped.wait(self.every):
            try:
                deliver_due(self.house)
            except (SQLAlchemyError, OSError):
                log.exception("The post round was broken off; the next one goes on")

    def stop(self) -> None:
        """End after the present letter."""
        self._stopped.set()
        self.join()


def start_postman(house: House, every: float = EVERY) -> Postman:
    """Begin delivering in the background."""
    postman = Postman(house, every)
    postman.start()
    return postman
