"""The curator's list of adoptions, and the answer to one request or many."""

from __future__ import annotations

from collections.abc import Callable
from uuid import UUID

import pytest
from sqlalchemy import select

from hub.accounts.models import Letter
from hub.adoptions.rules import AdoptionState
from tests.adoptions.scene import adopted, asked, set_bank, stands, wanted_species
from tests.cast import Cast
from tests.support.browser import Browser

Browse = Callable[..., Browser]


@pytest.fixture
def campion(cast: Cast) -> UUID:
    return wanted_species(cast)


def test_the_list_shows_who_has_what(cast: Cast, browse: Browse, campion: UUID) -> None:
    asked(cast, campion, "alice", wish="We live beside it.")
    text = browse("cora").get("/adoptions").main
    for words in ("Silene acaulis", "Fell Group", "Northern Part", "Requested", "We live beside it."):
        assert words in text


def test_each_filter_narrows_it(cast: Cast, browse: Browse, campion: UUID) -> None:
    asked(cast, campion, "alice")
    adopted(cast, wanted_species(cast, "Ulmus glabra"), "charlie")
    cora = browse("cora")
    for query, ours, theirs in (
        ({"search": "fell gr"}, True, False),
        ({"search": "ulmus"}, False, True),
        ({"state": "requested"}, True, False),
        ({"stage": "adopted"}, False, True),
        ({"taxon": str(campion)}, True, False),
        ({"group": str(cast.vale_school.id)}, False, True),
        ({"district": str(cast.north.id)}, True, True),
        ({"season": str(cast.season.id)}, True, True),
        ({"state": "nonsense"}, True, True),
    ):
        rows = cora.get("/adoptions", **query, **{"as": "csv"}).html
        assert ("Fell Group" in rows, "Vale School" in rows) == (ours, theirs), query
    assert "Nothing fits all of that" in cora.get("/adoptions", state="lapsed").main


def test_it_opens_on_what_waits_and_leads_on_to_all(cast: Cast, browse: Browse, campion: UUID) -> None:
    cora = browse("cora")
    adopted(cast, wanted_species(cast, "Ulmus glabra"), "charlie")
    page = cora.get("/adoptions")
    assert "Nobody waits for an answer" in page.main
    asked(cast, campion, "alice")
    page = cora.get("/adoptions")
    assert "Fell Group" in page.main
    assert "Ulmus glabra" not in page.html.partition("<table")[2]
    every = next(link for link in page.links if link.endswith("?sort=newest"))
    assert "Ulmus glabra" in cora.get(every).html.partition("<table")[2]
    without = next(link for link in page.links if link.endswith("?sort=oldest"))  # the chip taken away
    assert "Ulmus glabra" in cora.get(without).html.partition("<table")[2]


@pytest.mark.parametrize(
    "order", ["newest", "oldest", "species", "species-down", "group", "group-down", "moved", "moved-up"]
)
def test_it_sorts_and_pages(cast: Cast, browse: Browse, campion: UUID, order: str) -> None:
    asked(cast, campion, "alice")
    asked(cast, campion, "charlie")
    rows = browse("cora").get("/adoptions", sort=order, **{"as": "csv"}).html.splitlines()[1:]
    first = [row.split(",")[1] for row in rows]
    assert sorted(first) == ["Fell Group", "Vale School"]
    if order.startswith("group"):
        assert (first == sorted(first)) == (order == "group")


def test_it_costs_the_same_for_thirty_rows_as_for_one(cast: Cast, browse: Browse, campion: UUID) -> None:
    set_bank(cast, adoptions_per_group=99)
    asked(cast, campion)
    cora = browse("cora")
    cora.get("/adoptions")
    few = len(cora.queries)
    for n in range(30):
        asked(
            cast,
            wanted_species(cast, f"Species number{chr(97 + n)}" if n < 26 else f"Species more{chr(71 + n)}"),
        )
    cora.get("/adoptions")
    assert len(cora.queries) == few == 6


def test_another_bank_sees_none_of_it(cast: Cast, browse: Browse, campion: UUID) -> None:
    asked(cast, campion)
    page = browse("dora").get("/adoptions", sort="newest")
    assert "No adoptions yet" in page.main
    assert "Fell Group" not in page.html


def test_only_curators_see_the_list_and_answer(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = asked(cast, campion)
    for name in ("alice", "bob", "tess", "olga", "stan"):
        for path in ("/adoptions", f"/adoptions/accept?ids={adoption.id}"):
            browse(name).get(path, status=403)
        browse(name).post("/adoptions/accept", {"ids": str(adoption.id)}, status=403)
    assert browse().get("/adoptions", status=302).location.startswith("/sign-in")
    browse("cora").post("/adoptions", status=405)
    assert stands(cast, adoption).state is AdoptionState.REQUESTED


def test_one_yes_for_several_requests(cast: Cast, browse: Browse, campion: UUID) -> None:
    both = [asked(cast, campion, name) for name in ("alice", "charlie")]
    cora = browse("cora")
    path = "/adoptions/accept?" + "&".join(f"ids={each.id}" for each in both)
    asks = cora.get(path)
    assert asks.heading == "Accept 2 requests"
    answer = cora.fill(path, reason="Good luck.")
    assert "2 requests accepted" in cora.follow(answer).text
    assert {stands(cast, each).state for each in both} == {AdoptionState.ACTIVE}
    with cast.everywhere() as work:
        assert all("Good luck." in letter.body for letter in work.db.scalars(select(Letter)))


def test_a_no_needs_its_reason(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = asked(cast, campion)
    cora, path = browse("cora"), f"/adoptions/decline?ids={adoption.id}"
    page = cora.fill(path, status=422)
    assert "Please fill this in." in page.beside("reason")
    cora.fill(path, reason="Too steep for a school.")
    declined = stands(cast, adoption)
    assert (declined.state, declined.reason) == (AdoptionState.DECLINED, "Too steep for a school.")


def test_what_was_answered_meanwhile_is_said(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = adopted(cast, campion)
    page = browse("cora").post("/adoptions/accept", {"ids": str(adoption.id)}, status=422)
    assert "active now" in page.problems[0]


def test_nothing_ticked_nothing_done(cast: Cast, browse: Browse, campion: UUID) -> None:
    asked(cast, campion)
    cora = browse("cora")
    assert "Tick at least one" in cora.follow(cora.get("/adoptions/accept", status=302)).text


@pytest.mark.parametrize("typed", ["nonsense", str(UUID(int=7))])
def test_what_is_not_there_is_not_answered(cast: Cast, browse: Browse, campion: UUID, typed: str) -> None:
    cora = browse("cora")
    cora.get("/adoptions/accept", ids=typed, status=404)
    cora.post("/adoptions/decline", {"ids": typed, "reason": "No."}, status=404)


def test_a_stranger_s_curator_cannot_answer(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = asked(cast, campion)
    dora = browse("dora")
    dora.get("/adoptions/accept", ids=str(adoption.id), status=404)
    dora.post("/adoptions/accept", {"ids": str(adoption.id)}, status=404)
    assert stands(cast, adoption).state is AdoptionState.REQUESTED
