"""A club or school asks to join: open to all, limited in rate, answered by the bank alone."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from hub.audit.models import AuditEntry
from hub.groups.models import Group
from hub.groups.rules import GroupState
from tests.cast import Cast
from tests.support.browser import Browse
from tests.support.letters import letters_to

PATH = "/join"


def answers(cast: Cast, **changes: str) -> dict[str, str]:
    return {
        "name": "Tarn Friends",
        "kind": "club",
        "district": str(cast.north.id),
        "bank": str(cast.fell_bank.id),
        "contact_name": "Chair of the Friends",
        "contact_email": "Chair@Tarn.Example",
        "about": "Twelve of us, out every second Sunday.",
        **changes,
    }


def found(cast: Cast, name: str = "Tarn Friends") -> Group | None:
    with cast.everywhere() as work:
        return work.db.scalars(select(Group).where(Group.name == name)).one_or_none()


def test_it_works_and_tells_the_bank(browse: Browse, cast: Cast) -> None:
    window = browse()
    page = window.follow(window.fill(PATH, **answers(cast)))
    assert "answers by mail" in page.main
    assert page.heading == "What happens now"
    assert "Its letter has a link" in page.main
    assert "/sign-in" not in page.main
    group = found(cast)
    assert group
    assert (group.state, group.bank_id, group.code) == (GroupState.ASKED, cast.fell_bank.id, "TAFR")
    assert group.contact_email == "chair@tarn.example"
    (letter,) = letters_to(cast, "fell@bank.example")
    assert f"/groups/{group.id}" in letter.body
    with cast.everywhere() as work:
        event = work.db.scalars(select(AuditEntry).where(AuditEntry.event == "group:asked-to-join")).one()
        assert (event.thing_id, event.person_id) == (str(group.id), None)


def test_asking_opens_nothing(browse: Browse, cast: Cast) -> None:
    browse().fill(PATH, **answers(cast))
    assert letters_to(cast, "chair@tarn.example") == []


def test_the_page_costs_few_questions_and_shows_no_groups(browse: Browse) -> None:
    window = browse()
    page = window.get(PATH)
    assert "Fell Group" not in page.html
    assert len(window.queries) == 2  # districts, banks


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("name", "", "fill this in"),
        ("name", "x" * 121, "at most 120"),
        ("name", "Vale School", "known here"),
        ("kind", "", "choose one"),
        ("kind", "gang", "one of those offered"),
        ("district", "", "fill this in"),
        ("district", "not-an-id", "one of those offered"),
        ("district", "00000000-0000-4000-8000-000000000000", "one of the districts"),
        ("bank", "00000000-0000-4000-8000-000000000000", "does not serve"),
        ("contact_email", "nobody", "e-mail address"),
        ("contact_name", "two\nlines", "one line"),
        ("about", "x" * 2001, "at most 2,000"),
    ],
)
def test_it_says_what_is_wrong_and_keeps_what_was_typed(
    browse: Browse, cast: Cast, box: str, typed: str, says: str
) -> None:
    page = browse().post(PATH, answers(cast, **{box: typed}), 422)
    assert says in page.beside(box)
    assert page.typed("contact_name") == answers(cast, **{box: typed})["contact_name"]
    assert found(cast) is None


def test_asking_too_often_is_refused(browse: Browse, cast: Cast) -> None:
    window = browse()
    for number in range(5):
        window.fill(PATH, **answers(cast, name=f"Tarn Friends {number}"))
    window.fill(PATH, 429, **answers(cast))
    assert found(cast) is None


def test_it_needs_its_token(browse: Browse, cast: Cast) -> None:
    browse().post(PATH, {**answers(cast), "csrf_token": ""}, 400)
    assert found(cast) is None


def test_it_has_no_other_verbs(browse: Browse) -> None:
    assert browse().client.put(PATH).status_code == 405


def test_whoever_is_invited_or_has_an_account_finds_their_way(browse: Browse) -> None:
    page = browse().get(PATH)
    assert "Is your group here already?" in page.main
    assert "the letter has a link at which you choose a password" in page.main
    assert "/sign-in" in page.links


def test_each_line_of_the_summary_names_its_field(browse: Browse, cast: Cast) -> None:
    page = browse().post(PATH, {"name": "", "contact_name": ""}, 422)
    assert "Name of the club or school: Please fill this in." in page.main
    assert "Name: Please fill this in." in page.main
    assert "District: Please fill this in." in page.main
