"""What groups may become, who may invite whom, what crews may be called, and how codes are made."""

from __future__ import annotations

import re
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.groups.rules import (
    GROUP_MOVES,
    LIKE_A_NAME,
    LIKE_AN_ADDRESS,
    GroupState,
    code_from,
    may_become,
    may_invite,
    nickname_trouble,
)
from hub.rights.scope import Role

ALLOWED = {
    ("asked", "active"),
    ("asked", "declined"),
    ("declined", "active"),
    ("active", "closed"),
    ("closed", "active"),
}


@pytest.mark.parametrize(("old", "new"), list(product(GroupState, repeat=2)))
def test_every_move_is_allowed_or_refused(old: GroupState, new: GroupState) -> None:
    assert may_become(old, new) is ((old.value, new.value) in ALLOWED)
    assert set(GROUP_MOVES) == set(GroupState)


INVITERS = """
invites      lead member curator technician coordinator steward
lead          x     x       .        .           .         .
member        .     .       .        .           .         .
curator       .     .       x        x           .         .
technician    .     .       .        .           .         .
coordinator   .     .       .        .           .         .
steward       .     .       x        .           x         x
"""
HEAD, *ROWS = [line.split() for line in INVITERS.strip().splitlines()]


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_who_invites_whom(row: list[str]) -> None:
    for wanted, mark in zip(HEAD[1:], row[1:], strict=True):
        assert may_invite(Role(row[0]), Role(wanted)) is (mark == "x"), wanted


def test_a_visitor_invites_nobody() -> None:
    assert not any(may_invite(None, role) for role in Role)


@pytest.mark.parametrize(
    "nickname", ["The Teasels", "Crew 3", "Teasels", "Year 6 Kites", "team granite", "we like to go out"]
)
def test_made_up_names_are_taken(nickname: str) -> None:
    assert nickname_trouble(nickname) is None


@pytest.mark.parametrize(
    "nickname",
    ["Anna Brook", "anna brook", "Anna-Lena Brook", "Anna Maria Brook", "A. Brook", "Brook, Anna", "Mr Brook",
     "Åsa Öst", "Seán O’Dell", "Anna de Brook"],
)  # fmt: skip
def test_what_could_be_a_full_name_is_not(nickname: str) -> None:
    assert nickname_trouble(nickname) == LIKE_A_NAME


@pytest.mark.parametrize(
    "nickname",
    ["anna@school.example", "The 01632 960001", "call 0163 2960", "www.kites.example", "https://x"],
)
def test_nothing_that_reaches_a_pupil_is_taken(nickname: str) -> None:
    assert nickname_trouble(nickname) == LIKE_AN_ADDRESS


@given(st.text(max_size=40))
def test_every_nickname_gets_an_answer(nickname: str) -> None:
    assert nickname_trouble(nickname) in (None, LIKE_A_NAME, LIKE_AN_ADDRESS)


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("Fell Group", "FEGR"),
        ("Ostrith Alpine Society", "OAS"),
        ("Wanderers", "WA"),
        ("Öst Åkern Ström", "OAS"),
        ("草の会", "GROUP"),
    ],
)
def test_a_code_comes_from_the_name(name: str, code: str) -> None:
    assert code_from(name, ()) == code
    assert code_from(name, {code, f"{code}2"}) == f"{code}3"


@given(st.text(max_size=120), st.sets(st.sampled_from(["GROUP", "GROUP2", "AB", "AB2"])))
def test_a_code_is_new_and_fits_its_column(name: str, taken: set[str]) -> None:
    code = code_from(name, taken)
    assert code not in taken
    assert re.fullmatch(r"[A-Z]{1,6}[0-9]*", code)
