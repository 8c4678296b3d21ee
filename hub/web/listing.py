"""What every list page shares: search, filters and order from its address, chips and links.

A page reads::

    asked = Asked.of(FILTERS, queries.ORDERS)
    statement = queries.listed(work, **asked.values)
    if asked.wants_csv:
        return csv_download("adoptions", HEAD, rows(asked.everything(work, statement)))
    return render("adoptions/list.html", asked=asked, page=asked.page(work, statement))
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any
from urllib.parse import urlencode

from flask import request
from marshmallow import ValidationError, fields
from sqlalchemy import Select
from werkzeug.exceptions import RequestEntityTooLarge

from hub.db.keyset import in_order
from hub.db.work import Work
from hub.web.fields import Schema, Text
from hub.web.language import said
from hub.web.paging import Page, page_of
from hub.web.render import notice
from hub.words import Words, say

LONGEST_DOWNLOAD = 20_000  # rows; more would not fit a spreadsheet that a person can work with
TOO_MANY = say("This list has more than {most} lines. Please narrow it with the filters, then download it.")
LEFT_OUT = say("“{typed}” cannot be used for {filter}, so that filter was left out.")
SEARCH = say("Search")
Orders = Mapping[str, Sequence[Any]]


@dataclass(frozen=True)
class Filter:
    """One thing a list can be narrowed by. ``reads`` puts a value in words for its chip."""

    name: str
    label: Words
    field: fields.Field[Any]
    reads: Callable[[Any], Words | str] = str


SEARCHES = Filter("search", SEARCH, Text(100))


class Asked:
    """What the address of a list asks for. What cannot be read is left out, and the page says so."""

    def __init__(
        self, filters: Sequence[Filter], orders: Orders, given: Mapping[str, str], path: str
    ) -> None:
        self.filters = {each.name: each for each in (SEARCHES, *filters)}
        self.orders = orders
        self.path = path
        self.at = given.get("at", "")
        self.wants_csv = given.get("as") == "csv"
        self.typed = {name: text for name in self.filters if (text := given.get(name, "").strip())}
        wanted = given.get("sort", "")
        self.order = wanted if wanted in orders else next(iter(orders))

    @classmethod
    def of(cls, filters: Sequence[Filter], orders: Orders) -> Asked:
        """Read the present request. ``orders`` names the ways to sort, the usual one first."""
        return cls(filters, orders, request.args, request.path)

    @cached_property
    def values(self) -> dict[str, Any]:
        """A value or None for every filter, ``search`` among them."""
        schema = Schema.from_dict({name: each.field for name, each in self.filters.items()})()
        try:
            return schema.load(self.typed)
        except ValidationError as wrong:
            for name in wrong.normalized_messages():
                label = self.filters[name].label
                notice(Words(LEFT_OUT.text, {"typed": self.typed.pop(name), "filter": label}), "note")
            return schema.load(self.typed)

    @property
    def search(self) -> str:
        return self.typed.get("search", "")

    def page(self, work: Work, statement: Select[*tuple[Any, ...]]) -> Page:
        """The asked page of a list."""
        return page_of(work, statement, self.orders[self.order], at=self.at)

    def everything(self, work: Work, statement: Select[*tuple[Any, ...]]) -> Sequence[Any]:
        """All rows of the list in its order, for a download. Raises 413 beyond ``LONGEST_DOWNLOAD`` rows."""
        asked = in_order(statement, self.orders[self.order]).limit(LONGEST_DOWNLOAD + 1)
        rows = work.db.execute(asked).all()
        if len(rows) > LONGEST_DOWNLOAD:
            raise RequestEntityTooLarge(Words(TOO_MANY.text, {"most": LONGEST_DOWNLOAD}))  # type: ignore[arg-type]
        return [row[0] for row in rows] if len(statement.column_descriptions) == 1 else rows

    def url(self, **changes: str) -> str:
        """The list's own address with some of its parts changed; empty parts and the cursor go."""
        usual = next(iter(self.orders))
        parts = {"sort": "" if self.order == usual else self.order, **self.typed, **changes}
        kept = {name: text for name, text in parts.items() if text}
        return f"{self.path}?{urlencode(kept)}" if kept else self.path

    @property
    def chips(self) -> list[tuple[str, str]]:
        """Each filter in force in words, with the address of the list without it."""
        return [
            (f"{said(each.label)}: {said(each.reads(self.values[name]))}", self.url(**{name: ""}))
            for name, each in self.filters.items()
            if self.values[name] not in (None, "", False)
        ]

    @property
    def clear(self) -> str:
        """The whole list, unfiltered."""
        return self.url(**dict.fromkeys(self.filters, ""))

    @property
    def csv(self) -> str:
        return self.url(**{"as": "csv"})

    def after(self, page: Page) -> str | None:
        return self.url(at=page.next) if page.next else None

    def before(self, page: Page) -> str | None:
        return self.url(at=page.previous) if page.previous else None

    def column(self, label: Words, up: str = "", down: str = "", number: bool = False) -> dict[str, Any]:
        """A heading for ``parts/tables.html``: its link sorts by it, or turns the order round."""
        sorted_now = "up" if self.order == up else "down" if self.order == down else None
        turned = down if sorted_now == "up" and down else up or down
        url = self.url(sort=turned) if turned else None
        return {"label": said(label), "url": url, "sorted": sorted_now if turned else None, "number": number}
