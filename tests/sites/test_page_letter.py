"""Asking an owner: the letter's details, the letter itself, by mail or by hand."""

from __future__ import annotations

import io
from typing import Any

import pdfplumber
import pytest
from sqlalchemy import select

from hub.accounts.models import Letter
from hub.sites import actions, queries
from hub.sites.models import Site
from hub.taxa.rules import CareClass
from tests.cast import Cast
from tests.sites.litany import (
    Browse,
    asks_to_sign_in,
    hides_from,
    is_missing,
    keeps_its_verbs,
    opens_to,
    refuses,
)
from tests.sites.scene import TODAY, opened

DETAILS = {
    "starts_on": "2031-08-01",
    "ends_on": "2031-09-15",
    "people": "4",
    "one_in": "20",
    "wish": "We live near.",
}


def text_of(browse: Browse, site: Site, name: str = "alice", **details: Any) -> list[str]:
    """The words of the letter, page by page, single spaced."""
    answer = browse(name).get(f"/sites/{site.id}/letter.pdf", **details).answer
    assert answer.mimetype == "application/pdf"
    with pdfplumber.open(io.BytesIO(answer.data)) as pdf:
        return [" ".join((page.extract_text() or "").split()) for page in pdf.pages]


def test_the_litany(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    path = f"/sites/{site.id}/letter"
    opens_to(browse, path, ("alice", "cora"))
    for each in (path, f"{path}.pdf"):
        hides_from(browse, each)
        asks_to_sign_in(browse, each)
        for reader in ("bob", "tess", "olga"):
            browse(reader).get(each, 403)
    refuses(browse, path, ("bob",))
    is_missing(browse, "/sites/{}/letter")
    is_missing(browse, "/sites/{}/letter.pdf")
    keeps_its_verbs(browse, f"{path}.pdf", but=("GET",))


def test_the_letter_says_who_what_why_how_much_and_when(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast, care=CareClass.RARE)
    letter, slip = text_of(browse, site, **DETAILS)
    for words in (
        "The estate office", "Fell Group", "Fell Bank", "Silene acaulis (Moss campion): rare",
        "19 of 20",
        "At most 1 seed in every 20 that ripen in a year (5%)", "between 1 August 2031 and 15 September 2031",
        "4 people at most", "tests it and keeps it alive", "local law", "We live near.",
    ):  # fmt: skip
        assert words in letter
    for words in (
        "Reply slip",
        "Yes, with the conditions below.",
        "No.",
        "Conditions",
        "Signature",
        "Place and date",
    ):
        assert words in slip


def test_without_details_it_takes_the_usual_ones(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    assert "9 of 10" in text_of(browse, site)[0]


def test_a_critical_plant_is_asked_for_more_carefully(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast, care=CareClass.CRITICAL)
    assert "19 of 20" in text_of(browse, site, "cora")[0]


@pytest.mark.parametrize(
    "details", [{"one_in": "2"}, {"people": "many"}, {"starts_on": "31.2.2031"}, {"dragon": "1"}]
)
def test_a_letter_cannot_promise_nonsense(browse: Browse, cast: Cast, details: dict[str, str]) -> None:
    site, _ = opened(cast)
    page = browse("alice").get(f"/sites/{site.id}/letter.pdf", 400, **details)
    assert "cannot be used" in page.text


def test_dates_that_cross_are_said_beside_their_box(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    crossed = DETAILS | {"ends_on": "2031-07-01"}
    page = browse("alice").get(f"/sites/{site.id}/letter", 422, **crossed)
    assert "before the first" in page.beside("ends_on")
    assert page.typed("wish") == "We live near."
    browse("alice").get(f"/sites/{site.id}/letter.pdf", 409, **crossed)


def test_the_day_of_asking_is_noted(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    window, path = browse("alice"), f"/sites/{site.id}/letter"
    answer = window.post(path, {"on": "2031-07-10"})
    assert answer.location == f"/sites/{site.id}"
    with cast.work("alice") as work:
        permission = queries.newest_permission(work, site.id)
        assert permission is not None
        assert (permission.state, str(permission.asked_on)) == ("asked", "2031-07-10")
    assert "The owner was asked on 10 July 2031" in window.get(path).main


def letters(cast: Cast) -> list[Letter]:
    with cast.everywhere() as work:
        return list(work.db.scalars(select(Letter)))


def test_it_can_go_by_mail(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast, owner_email="office@estate.example")
    path = f"/sites/{site.id}/letter"
    browse("alice").post(path, {**DETAILS, "on": str(TODAY), "mailed": "yes"})
    (letter,) = letters(cast)
    assert letter.to == "office@estate.example"
    assert letter.subject == "May we collect some seed at Scar Top?"
    for words in ("Fell Group", "Silene acaulis", "1 seed in every 20", "We live near.", "flg@cast.example"):
        assert words in letter.body


def test_without_an_address_nothing_is_mailed_nor_noted(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    path = f"/sites/{site.id}/letter"
    page = browse("alice").post(path, {"on": str(TODAY), "mailed": "yes"}, status=422)
    assert "e-mail address is not known" in " ".join(page.problems)
    assert letters(cast) == []
    with cast.work("alice") as work:
        assert queries.newest_permission(work, site.id).state == "to ask"


def test_a_day_to_come_keeps_what_was_typed(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    path = f"/sites/{site.id}/letter"
    page = browse("alice").post(path, {**DETAILS, "on": "2031-07-15"}, status=422)
    assert "still to come" in page.beside("on")
    assert page.typed("wish") == "We live near."


def test_its_questions_do_not_grow_with_the_plants(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    window = browse("alice")
    window.get(f"/sites/{site.id}/letter")
    assert (
        len(window.queries) == 7
    )  # the caller; site, plants for the letter, group, bank, plants, permission
    with cast.work("alice") as work:
        actions.ask_permission(work, site_id=site.id, on=TODAY)
    window.get(f"/sites/{site.id}/letter")
    assert len(window.queries) == 7
