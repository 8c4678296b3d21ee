"""The operator seats the first steward, who then chooses a password by the printed link."""

from __future__ import annotations

from hub.groups.first_steward import open_steward
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse

GOOD = "granite kestrels over a quiet tarn"


def test_a_new_person_chooses_a_password_and_runs_the_hub(browse: Browse, cast: Cast) -> None:
    link = open_steward(cast.house, "Sue@Hub.Example", "Sue")
    path = link.removeprefix("http://127.0.0.1:8020")
    window = browse()
    window.fill("/sign-in", 422, email="sue@hub.example", password=PASSWORD)
    window.fill(path, new=GOOD)
    window.fill("/sign-in", email="sue@hub.example", password=GOOD)
    window.get("/hub")


def test_done_twice_it_is_one_person_in_one_seat(browse: Browse, cast: Cast) -> None:
    first, second = (open_steward(cast.house, "sue@hub.example", "Sue") for _ in range(2))
    browse().get(first.removeprefix("http://127.0.0.1:8020"), 303)
    browse().get(second.removeprefix("http://127.0.0.1:8020"))
    assert browse("stan").get("/hub").main.count("Remove Sue") == 1


def test_somebody_known_keeps_their_password(browse: Browse, cast: Cast) -> None:
    open_steward(cast.house, "olga@cast.example", "Olga")
    window = browse()
    window.fill("/sign-in", email="olga@cast.example", password=PASSWORD)
    assert "steward" in window.get("/account").text
