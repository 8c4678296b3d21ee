"""Days and times of day, as ISO 8601 writes them and browsers send them."""

from __future__ import annotations

import re
from datetime import date, time
from typing import Any

from marshmallow import fields

from hub.web.fields.plain import Plain, Within
from hub.words import say

# A year typed with a digit too few or too many falls outside; an old herbarium sheet does not.
FIRST_DAY = date(1700, 1, 1)
LAST_DAY = date(2199, 12, 31)
DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
CLOCK = re.compile(r"\d{2}:\d{2}(:\d{2})?", re.ASCII)


class Day(Plain, fields.Date):
    """A calendar day from ``earliest`` to ``latest``, both allowed."""

    default_error_messages = {
        "invalid": say("Please give a day of the calendar as year-month-day, such as 2026-06-12."),
        "format": say("Please give a day of the calendar as year-month-day, such as 2026-06-12."),
    }

    def __init__(self, earliest: date = FIRST_DAY, latest: date = LAST_DAY, **options: Any) -> None:
        super().__init__(**options)
        sentence = say("The day must lie from {first} to {last}.", first=earliest, last=latest)
        self.within = Within(earliest, latest, sentence)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> date:
        text = value.strip() if isinstance(value, str) else ""
        if not DAY.fullmatch(text):
            raise self.make_error("invalid")
        try:
            day = date.fromisoformat(text)
        except ValueError:
            raise self.make_error("invalid") from None
        found: date = self.within(day)
        return found


class Clock(Plain, fields.Time):
    """A time of day, in the place where it was written down."""

    default_error_messages = {
        "invalid": say("Please give a time of day as hours:minutes, such as 14:30."),
        "format": say("Please give a time of day as hours:minutes, such as 14:30."),
    }

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> time:
        text = value.strip() if isinstance(value, str) else ""
        if not CLOCK.fullmatch(text):
            raise self.make_error("invalid")
        try:
            return time.fromisoformat(text)
        except ValueError:
            raise self.make_error("invalid") from None
