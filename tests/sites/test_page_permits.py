"""The list of permits and the bank's forms."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest
from sqlalchemy import select

from hub.sites import actions
from hub.sites.models import Permit, Population
from tests.cast import Cast
from tests.sites.litany import Browse, asks_to_sign_in, is_missing, keeps_its_verbs, opens_to, refuses
from tests.sites.scene import TODAY, opened

TYPED = {"authority": "Plant Office", "number": "PO/7", "starts_on": "2031-06-01", "ends_on": "2031-09-30"}


def permit(cast: Cast, population: Population, **more: Any) -> Permit:
    usual = {
        "authority": "Plant Office",
        "number": "PO/1",
        "starts_on": TODAY,
        "ends_on": TODAY,
        "cap_seeds": 400,
    }
    with cast.work("cora") as work:
        return actions.record_permit(work, taxon_id=population.taxon_id, **usual | more)


def permits(cast: Cast) -> list[Permit]:
    with cast.everywhere() as work:
        return list(work.db.scalars(select(Permit)))


def test_the_litany(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    end = f"/permits/{permit(cast, population).id}/end"
    opens_to(browse, "/permits", ("alice", "bob", "cora", "tess"))
    for path in ("/permits/record", end):
        opens_to(browse, path, ("cora",))
        refuses(browse, path, ("alice", "bob", "tess", "olga"))
        asks_to_sign_in(browse, path)
        keeps_its_verbs(browse, path)
    browse("dora").get(end, 404)
    is_missing(browse, "/permits/{}/end")
    browse("olga").get("/permits", 403)


def test_each_sees_its_own_banks(browse: Browse, cast: Cast) -> None:
    site, population = opened(cast)
    permit(cast, population, site_id=site.id)
    page = browse("alice").get("/permits")
    for words in ("PO/1", "Silene acaulis", "Scar Top", "400 seeds", "Holds today"):
        assert words in page.main
    for stranger in ("charlie", "eve", "dora"):
        assert "No permits yet" in browse(stranger).get("/permits").main


def test_it_is_searched_filtered_and_given_as_a_file(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    permit(cast, population)
    permit(
        cast, population, number="PO/2", starts_on=TODAY.replace(year=2030), ends_on=TODAY.replace(year=2030)
    )
    window = browse("cora")
    assert "PO/2" not in window.get("/permits", holds="yes").main
    assert "PO/2" not in window.get("/permits", search="po/1").main
    assert "No permit is like that" in window.get("/permits", search="zzz").main
    text = window.get("/permits", **{"as": "csv", "sort": "oldest"}).html.removeprefix("\ufeff")
    assert [row["Number"] for row in csv.DictReader(io.StringIO(text))] == ["PO/2", "PO/1"]


def test_a_permit_is_recorded(browse: Browse, cast: Cast) -> None:
    site, population = opened(cast)
    browse("cora").fill(
        "/permits/record", **TYPED, species="Silene acaulis", site_id=str(site.id), cap_seeds="1 200"
    )
    (recorded,) = permits(cast)
    assert (recorded.taxon_id, recorded.site_id, recorded.cap_seeds) == (population.taxon_id, site.id, 1200)


@pytest.mark.parametrize(
    ("more", "name", "sentence"),
    [
        ({"species": "Draco volans"}, "species", "No species"),
        ({}, "", "which species, which site"),
        ({"species": "Silene acaulis", "ends_on": "2031-05-01"}, "ends_on", "before the first"),
        ({"species": "Silene acaulis", "cap_seeds": "lots"}, "cap_seeds", "whole number"),
        ({"species": "Silene acaulis", "number": ""}, "number", "fill this in"),
    ],
)
def test_what_cannot_be(browse: Browse, cast: Cast, more: dict[str, str], name: str, sentence: str) -> None:
    opened(cast)
    page = browse("cora").fill("/permits/record", status=422, **TYPED | more)
    assert sentence in (page.beside(name) if name else " ".join(page.problems))
    assert page.typed("authority") == "Plant Office"
    assert permits(cast) == []


def test_a_permit_is_ended_with_a_reason(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    path = f"/permits/{permit(cast, population).id}/end"
    assert "fill this in" in browse("cora").fill(path, status=422).beside("reason")
    browse("cora").fill(path, reason="A fire.")
    (ended,) = permits(cast)
    assert ended.ended_on == TODAY
    assert "Ended 14 July 2031" in browse("alice").get("/permits").main


def test_its_questions_do_not_grow_with_its_rows(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    window = browse("alice")
    for number in range(3):
        permit(cast, population, number=f"PO/{number}")
        window.get("/permits")
        assert len(window.queries) == 2  # the caller, the page
