"""The list of sites: what is let in, searched, filtered, ordered, and its file without exact places."""

from __future__ import annotations

import csv
import io

import pytest

from hub.sites import actions
from hub.taxa.rules import CareClass
from tests.cast import Cast
from tests.sites.litany import Browse, asks_to_sign_in, keeps_its_verbs, refuses
from tests.sites.scene import TODAY, a_site, opened
from tests.support.html import Page


def names(page: Page) -> list[str]:
    """The names in the first column."""
    rows = [row for body in page.all("main")[0].iter("tbody") for row in body.iter("tr")]
    return ["".join(next(row.iter("a")).itertext()) for row in rows]


def several(cast: Cast) -> None:
    opened(cast, name="Beck Side")
    with cast.work("alice") as work:
        a_site(work, cast, name="Abbot’s Moss", latitude=47.9)
    with cast.work("cora") as work:
        a_site(work, cast, name="Carr End", latitude=47.5, district_id=cast.south.id)


def test_each_sees_what_it_is_let_in_on(browse: Browse, cast: Cast) -> None:
    several(cast)
    assert names(browse("alice").get("/sites")) == ["Abbot’s Moss", "Beck Side"]
    assert names(browse("bob").get("/sites")) == ["Abbot’s Moss", "Beck Side"]
    assert names(browse("cora").get("/sites")) == ["Abbot’s Moss", "Beck Side", "Carr End"]
    for stranger in ("charlie", "eve", "dora"):
        assert "No sites yet" in browse(stranger).get("/sites").main


def test_it_is_searched_filtered_and_turned_round(browse: Browse, cast: Cast) -> None:
    several(cast)
    window = browse("cora")
    assert names(window.get("/sites", search="beck")) == ["Beck Side"]
    assert names(window.get("/sites", district=cast.south.id)) == ["Carr End"]
    assert names(window.get("/sites", sort="name-down"))[0] == "Carr End"
    assert names(window.get("/sites", state="granted")) == []
    assert "No site is like that" in window.get("/sites", state="granted").main


def test_only_sites_of_a_species(browse: Browse, cast: Cast) -> None:
    several(cast)
    window = browse("alice")
    (taxon_id,) = [
        option.get("value")
        for option in window.get("/sites").all("option")
        if option.text == "Silene acaulis"
    ]
    assert names(window.get("/sites", taxon=taxon_id)) == ["Beck Side"]


def test_its_order_by_the_permissions_last_day(browse: Browse, cast: Cast) -> None:
    several(cast)
    with cast.work("alice") as work:
        site = a_site(work, cast, name="Dale Foot")
        asked = actions.ask_permission(work, site_id=site.id, on=TODAY)
        actions.grant_permission(
            work, permission_id=asked.id, answered_on=TODAY, starts_on=TODAY, ends_on=TODAY
        )
    assert names(browse("cora").get("/sites", sort="ends"))[0] == "Dale Foot"


def file_of(browse: Browse, name: str) -> list[dict[str, str]]:
    text = browse(name).get("/sites", **{"as": "csv"}).html.removeprefix("\ufeff")
    return list(csv.DictReader(io.StringIO(text)))


def test_the_file_rounds_a_rare_plants_place(browse: Browse, cast: Cast) -> None:
    # 0.1° for a rare taxon: Chapman (2020), table 7, as hub.science.localities cites it.
    opened(cast, care=CareClass.RARE, latitude=47.80123, longitude=-28.19876)
    (row,) = file_of(browse, "alice")
    assert (row["Latitude (°, WGS 84)"], row["Longitude (°, WGS 84)"]) == ("47.8", "-28.2")
    assert int(row["Uncertainty (m)"]) > 6000
    assert "0.1°" in row["How exact the place is"]
    assert "estate" not in str(row), "who owns it leads there too"


def test_the_file_withholds_a_critical_plants_place_in_words(browse: Browse, cast: Cast) -> None:
    opened(cast, care=CareClass.CRITICAL)
    (row,) = file_of(browse, "cora")
    assert row["Latitude (°, WGS 84)"] == row["Uncertainty (m)"] == "withheld"
    assert row["How exact the place is"].startswith("The place is withheld")


def test_a_site_where_nothing_is_noted_counts_as_unknown(browse: Browse, cast: Cast) -> None:
    with cast.work("alice") as work:
        a_site(work, cast, latitude=47.80123)
    (row,) = file_of(browse, "alice")
    assert row["Latitude (°, WGS 84)"] == "47.8"


@pytest.mark.parametrize(
    ("query", "status"),
    [
        ({"at": "torn"}, 400),
        ({"sort": "dragons"}, 200),
        ({"taxon": "x", "district": "y", "state": "z"}, 200),
        ({"search": "%_\\'\""}, 200),
        ({"as": "pdf"}, 200),
    ],
)
def test_an_odd_address_is_answered_calmly(browse: Browse, query: dict[str, str], status: int) -> None:
    browse("cora").get("/sites", status, **query)
    browse("cora").get("/permits", status, **query)


def test_it_is_not_for_everybody(browse: Browse) -> None:
    refuses_looking = ("olga", "stan")
    for name in refuses_looking:
        browse(name).get("/sites", 403)
    asks_to_sign_in(browse, "/sites")
    keeps_its_verbs(browse, "/sites", but=("GET",))
    refuses(browse, "/sites/open", ("bob", "tess", "olga"))


def test_its_questions_do_not_grow_with_its_rows(browse: Browse, cast: Cast) -> None:
    window = browse("cora")
    window.get("/sites")
    empty = len(window.queries)
    several(cast)
    window.get("/sites")
    assert len(window.queries) == empty == 4  # the caller; the page; the districts and the species to choose
