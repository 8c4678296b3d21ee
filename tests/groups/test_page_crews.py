"""A school's crews: a made-up name, a number, an age band; never anything that points at a child."""

from __future__ import annotations

import pytest
from sqlalchemy import inspect, select

from hub.groups.models import Crew
from tests.cast import Cast
from tests.support.browser import Browse

PATH = "/our-group/crews/new"
TEASELS = {"nickname": "The Teasels", "headcount": "12", "age_band": "8 to 11"}


def crews(cast: Cast) -> list[Crew]:
    with cast.everywhere() as work:
        return list(work.db.scalars(select(Crew).order_by(Crew.nickname)))


def test_it_works(browse: Browse, cast: Cast) -> None:
    window = browse("charlie")
    window.fill(PATH, **TEASELS)
    (crew,) = crews(cast)
    assert (crew.headcount, crew.age_band, crew.group_id) == (12, "8 to 11", cast.vale_school.id)
    assert crew.teacher_seat_id == cast.seats["charlie"].id
    page = window.get("/our-group")
    assert "The Teasels" in page.main
    assert "8 to 11 years" in page.main


def test_nothing_else_can_be_kept_of_pupils() -> None:
    kept = {column.key for column in inspect(Crew).columns}
    assert kept == {
        "id", "group_id", "bank_id", "nickname", "headcount", "age_band", "teacher_seat_id", "retired_at",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("nickname", "Anna Brook", "full name"),
        ("nickname", "anna@school.example", "e-mail"),
        ("nickname", "x", "at least 2"),
        ("headcount", "0", "1 to 60"),
        ("headcount", "61", "1 to 60"),
        ("headcount", "a dozen", "whole number"),
        ("age_band", "9", "one of those offered"),
    ],
)
def test_it_says_what_is_wrong_and_keeps_what_was_typed(
    browse: Browse, cast: Cast, box: str, typed: str, says: str
) -> None:
    page = browse("charlie").post(PATH, {**TEASELS, box: typed}, 422)
    assert says in page.beside(box)
    assert page.typed("headcount") == {**TEASELS, box: typed}["headcount"]
    assert crews(cast) == []


def test_it_can_be_changed_and_retired(browse: Browse, cast: Cast) -> None:
    window = browse("charlie")
    window.fill(PATH, **TEASELS)
    path = f"/our-group/crews/{crews(cast)[0].id}"
    window.fill(path, headcount="14")
    assert crews(cast)[0].headcount == 14
    assert window.fill(path, 422, nickname="Anna Brook").typed("nickname") == "Anna Brook"
    window.press(path, f"{path}/retire")
    assert "The Teasels" not in window.get("/our-group").main.replace("“The Teasels”", "")
    window.get(path, 404)
    window.post(f"{path}/retire", status=404)


def test_a_name_is_taken_once_in_a_school(browse: Browse, cast: Cast) -> None:
    window = browse("charlie")
    window.fill(PATH, **TEASELS)
    assert "Choose another" in window.fill(PATH, 422, **TEASELS).beside("nickname")
    assert len(crews(cast)) == 1


def test_a_club_has_none(browse: Browse, cast: Cast) -> None:
    page = browse("alice").fill(PATH, 422, **TEASELS)
    assert "for schools" in " ".join(page.problems)
    assert "Crews" not in browse("alice").get("/our-group").main


def test_strangers_and_members(browse: Browse, cast: Cast) -> None:
    browse("charlie").fill(PATH, **TEASELS)
    path = f"/our-group/crews/{crews(cast)[0].id}"
    alice = browse("alice")
    alice.get(path, 404)
    alice.post(path, {**TEASELS, "headcount": "1"}, 404)
    alice.post(f"{path}/retire", status=404)
    browse("bob").get(path, 403)
    browse("bob").post(PATH, TEASELS, 403)
    browse("cora").get(path, 403)
    assert "/sign-in" in browse().get(PATH, 302).location
    alice.get("/our-group/crews/00000000-0000-4000-8000-000000000000", 404)
    alice.get(f"{path}/retire", 405)
    assert crews(cast)[0].headcount == 12
