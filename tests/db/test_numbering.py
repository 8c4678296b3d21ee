"""Numbers follow one another without gaps, and their check character catches slips of the pen."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hub.db.numbering import is_whole, next_in, with_check
from tests.cast import Cast

NUMBERS = st.from_regex(r"[A-Z]{2,6}-20[0-9]{2}-[0-9]{4}", fullmatch=True)


def test_a_series_counts_from_one_and_each_series_for_itself(cast: Cast) -> None:
    with cast.work("cora") as work:
        assert [next_in(work, "FELL 2031") for _ in range(3)] == [1, 2, 3]
        assert next_in(work, "FAR 2031") == 1
    with cast.work("cora") as work:
        assert next_in(work, "FELL 2031") == 4


def test_a_number_that_was_not_used_is_given_again(cast: Cast) -> None:
    with cast.house.work(cast.scope("cora"), now=cast.now) as work:
        next_in(work, "FELL 2031")
        work.db.rollback()
    with cast.work("cora") as work:
        assert next_in(work, "FELL 2031") == 1


@given(NUMBERS)
def test_a_number_with_its_check_character_is_whole(number: str) -> None:
    assert is_whole(with_check(number))


@given(NUMBERS, st.integers(0, 13), st.sampled_from("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
def test_one_wrong_sign_is_always_caught(number: str, place: int, sign: str) -> None:
    """ISO 7064 detects every single substitution (ISO/IEC 7064:2003, §5; from memory)."""
    whole = with_check(number)
    place %= len(whole)
    if whole[place] in ("-", sign):
        return
    assert not is_whole(whole[:place] + sign + whole[place + 1 :])


@given(NUMBERS)
def test_lower_case_and_spaces_are_forgiven(number: str) -> None:
    assert is_whole(with_check(number).lower().replace("-", " "))
