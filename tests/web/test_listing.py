"""A list's address says what it shows; what cannot be read is left out and said."""

from __future__ import annotations

from enum import StrEnum
from urllib.parse import parse_qs, urlsplit

import pytest

from hub.web.fields import Choice, Yes
from hub.web.listing import Asked, Filter
from hub.words import say


class Care(StrEnum):
    RARE = "rare"
    WATCH = "watch"


FILTERS = (
    Filter("care", say("Care class"), Choice(Care), {Care.RARE: say("rare"), Care.WATCH: say("watch")}.get),
    Filter("stalled", say("Stalled"), Yes(), lambda value: say("yes")),
)
ORDERS = {"name": ("name",), "newest": ("day",), "oldest": ("day",)}


@pytest.fixture
def ask(app):
    def asked(query):
        with app.test_request_context(f"/adoptions?{query}"):
            found = Asked.of(FILTERS, ORDERS)
            return found, found.values, found.chips

    return asked


def query_of(url):
    return {name: text for name, (text,) in parse_qs(urlsplit(url).query).items()}


def test_values_are_read_by_the_fields(ask):
    _, values, chips = ask("search=carex&care=rare&stalled=yes")
    assert values == {"search": "carex", "care": Care.RARE, "stalled": True}
    assert [label for label, _ in chips] == ["Search: carex", "Care class: rare", "Stalled: yes"]


def test_each_chip_takes_away_its_own_filter_alone(ask):
    _, _, chips = ask("search=carex&care=rare&sort=newest&at=x")
    assert query_of(chips[0][1]) == {"care": "rare", "sort": "newest"}
    assert query_of(chips[1][1]) == {"search": "carex", "sort": "newest"}


def test_a_filter_that_cannot_be_read_is_left_out(ask):
    asked, values, _ = ask("care=nonsense&search=carex&unknown=1")
    assert values == {"search": "carex", "care": None, "stalled": False}
    assert "nonsense" not in asked.csv


def test_an_unknown_order_is_the_usual_one(ask):
    assert ask("sort=nonsense")[0].order == "name"


def test_the_csv_link_asks_for_the_same_list(ask):
    asked, _, _ = ask("care=rare&sort=newest")
    assert query_of(asked.csv) == {"care": "rare", "sort": "newest", "as": "csv"}
    assert ask("as=csv")[0].wants_csv


def test_a_heading_sorts_and_turns(ask):
    heading = ask("sort=oldest")[0].column(say("Day"), up="oldest", down="newest")
    assert heading["sorted"] == "up"
    assert query_of(heading["url"]) == {"sort": "newest"}
    assert ask("")[0].column(say("Day"), up="oldest", down="newest")["sorted"] is None
    assert ask("")[0].column(say("Mass"), number=True)["url"] is None
