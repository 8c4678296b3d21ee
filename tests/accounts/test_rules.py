"""Which passwords are refused, and how long a session lives.

Lengths: NIST SP 800-63B-4 §3.1.1.2 (at least 15 characters alone, at least 64 allowed, no composition rules).
Names of the hub refused: OWASP ASVS 5.0 6.2.11. The words themselves: common practice, no source.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.accounts.rules import GUESSED_FIRST, TOO_LONG, TOO_SHORT, is_live, weakness

OWN = ["Fell Bank", "Halverin Vale", "alice.brook@cast.example", "Alice Brook"]


@pytest.mark.parametrize(
    "password",
    [
        "kestrels over granite at dusk",
        "no CAPITALS or digits needed here"[:64],
        "ſtrange ünïcode ßentence ✓✓",
        "x7Kq-9mWz-Rt4v-Lp2c",
        "six hundred and fourteen umbrellas, folded twice " * 5,
    ],
)
def test_good_passwords_are_taken_whatever_they_are_made_of(password: str) -> None:
    assert weakness(password, OWN) is None


@pytest.mark.parametrize(
    "password",
    [
        "passwordpassword",
        "Password12345678",
        "P455w0rdP455w0rd!",
        "qwertyuiopasdfghjkl",
        "1234567890123456",
        "aaaaaaaaaaaaaaaaaaaa",
        "abcabcabcabcabcabc",
        "Fell Bank fell bank 2031",
        "halverin-vale-2031!!",
        "alicebrook alicebrook",
        "Sunshine!Football1",
        "gfedcba987654321",
    ],
)
def test_what_is_guessed_first_is_refused(password: str) -> None:
    assert weakness(password, OWN) == GUESSED_FIRST


def test_fifteen_characters_are_enough_and_fourteen_are_not() -> None:
    assert weakness("kestrel granite"[:14], ()) == TOO_SHORT
    assert weakness("kestrel granite", ()) is None


def test_characters_are_counted_as_people_see_them_composed() -> None:
    decomposed = "e\u0301" * 14  # fourteen letters é, each written as two code points
    assert weakness(decomposed, ()) == TOO_SHORT


def test_256_characters_are_allowed_and_no_more() -> None:
    long = "".join(chr(0x4E00 + n) for n in range(257))
    assert weakness(long[:256], ()) is None
    assert weakness(long, ()) == TOO_LONG


@given(st.text(max_size=300), st.lists(st.text(max_size=40), max_size=4))
def test_every_text_gets_an_answer(password: str, names: list[str]) -> None:
    assert weakness(password, names) in (None, TOO_SHORT, TOO_LONG, GUESSED_FIRST)


@given(st.sampled_from(OWN), st.integers(0, 9999))
def test_a_name_and_a_number_never_make_a_password(name: str, number: int) -> None:
    assert weakness(f"{name}{name}{number}", OWN) is not None


NOON = datetime(2031, 7, 14, 12, tzinfo=UTC)


@pytest.mark.parametrize(
    ("seen", "ends", "ended", "live"),
    [
        (NOON - timedelta(minutes=59), NOON + timedelta(days=1), None, True),
        (NOON - timedelta(minutes=60), NOON + timedelta(days=1), None, False),
        (NOON - timedelta(minutes=1), NOON, None, False),
        (NOON - timedelta(minutes=1), NOON + timedelta(days=1), NOON, False),
    ],
    ids=["in use", "left alone", "too old", "ended"],
)
def test_a_session_lives_while_it_is_used(
    seen: datetime, ends: datetime, ended: datetime | None, live: bool
) -> None:
    hour = timedelta(hours=1)
    assert is_live(now=NOON, seen_at=seen, ends_at=ends, ended_at=ended, idle=hour) is live
