"""What every list asks: where to go on, how many, in which order, and what to narrow it by.

A resource reads::

    ASKS = listing("Adoptions", queries.ORDERS, state=Choice(AdoptionState))

    @api.shows("/adoptions", needs=…, summary=…, asks=ASKS, gives=AdoptionShown(), paged=True)
    def adoptions(work, asked):
        return asked.page(work, queries.adoptions(work, **asked.filters))
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from marshmallow import fields, post_load
from sqlalchemy import Select

from hub.db.work import Work
from hub.web.fields import Choice, Schema, Text, Whole
from hub.web.paging import Page, page_of

MOST, USUAL = 200, 50
LONGEST_CURSOR = 1000  # characters
Orders = Mapping[str, Sequence[Any]]


@dataclass(frozen=True)
class Asked:
    """What one request asks of a list."""

    filters: dict[str, Any]
    sort: str
    order: Sequence[Any]
    at: str
    size: int

    def by(self, orders: Orders) -> Asked:
        """The same, where the columns behind the names of the orders depend on what was asked."""
        return replace(self, order=orders[self.sort])

    def page(self, work: Work, statement: Select[*tuple[Any, ...]]) -> Page:
        """The asked page."""
        return page_of(work, statement, self.order, at=self.at, size=self.size)


class ListSchema(Schema):
    """The query of a list; each list adds its own filters and orders."""

    orders: Orders

    cursor = Text(LONGEST_CURSOR, metadata={"description": "Where to go on, from `next` or a Link."})
    limit = Whole(1, MOST, load_default=USUAL, metadata={"description": "How many items a page has at most."})

    @post_load
    def made(self, data: dict[str, Any], **kwargs: Any) -> Asked:
        sort = data.pop("sort").value
        at, size = data.pop("cursor") or "", data.pop("limit") or USUAL
        return Asked(data, sort, self.orders[sort], at, size)


def listing(name: str, orders: Orders, *, search: bool = True, **filters: fields.Field[Any]) -> ListSchema:
    """The schema of one list's query. The first of its orders is the usual one."""
    offered = StrEnum(f"{name}Order", {each.replace("-", "_").upper(): each for each in orders})  # type: ignore[misc]
    inner: dict[str, Any] = dict(filters)
    if search:
        inner["search"] = Text(100, metadata={"description": "Words that must all occur."})
    inner["sort"] = Choice(offered, load_default=next(iter(offered)), metadata={"description": "The order."})
    made = ListSchema.from_dict(inner, name=f"{name}Query")
    made.orders = orders  # type: ignore[attr-defined]
    return made()  # type: ignore[return-value]
