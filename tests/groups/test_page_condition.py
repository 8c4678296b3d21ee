"""The condition of the hub and its letters: for the steward alone, true, and without anybody's words."""

from __future__ import annotations

import shutil
from datetime import timedelta

import pytest

from hub.accounts.letters import post
from hub.accounts.models import Letter, LetterState
from hub.db import migrate, pulse
from hub.groups import condition
from hub.rounds import Rounds
from hub.words import say
from tests.cast import Cast
from tests.support.browser import Browse

PATH, LETTERS = "/hub/condition", "/hub/letters"
PLENTY = shutil._ntuple_diskusage(10**12, 0, 9 * 10**11)


@pytest.fixture(autouse=True)
def room_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    """The machine that runs the tests may be full."""
    monkeypatch.setattr(condition.shutil, "disk_usage", lambda path: PLENTY)


def written(cast: Cast, to: str, **changes: object) -> None:
    """A letter in the queue, with what has become of it so far."""
    with cast.everywhere() as work:
        post(work, to=to, subject=say("A letter"), body=[say("The secret link.")])
        work.db.flush()
        letter = work.db.query(Letter).filter_by(to=to).one()
        for name, value in changes.items():
            setattr(letter, name, value)


def migrations_left(patch: pytest.MonkeyPatch, *names: str) -> None:
    """Say which are still to run; tests/db tries the real question."""
    patch.setattr(migrate, "missing", lambda engine: list(names))


def beaten(cast: Cast, *broken: str, ago: timedelta = timedelta()) -> None:
    pulse.note(cast.house.settings.data_dir, cast.now - ago, broken)


def test_a_hub_in_good_condition_says_so(browse: Browse, cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    beaten(cast)
    migrations_left(monkeypatch)
    page = browse("stan").get(PATH).main
    for words in (
        "Nothing asks for your attention",
        "answers.",
        "All have run",
        "None waits",
        "900.0 GB free",
    ):
        assert words in page, words
    assert "look at this" not in page


def test_it_asks_few_questions(browse: Browse, cast: Cast) -> None:
    window = browse("stan")
    window.get(PATH)
    ours = [each for each in window.queries if "alembic" not in each and "pg_" not in each]
    assert len(ours) <= 4  # who asks, letters by state, the last trouble; and the look at the migrations


@pytest.mark.parametrize("name", ["alice", "cora", "tess", "olga"])
@pytest.mark.parametrize("path", [PATH, LETTERS])
def test_nobody_else_may_look(browse: Browse, name: str, path: str) -> None:
    browse(name).get(path, 403)


@pytest.mark.parametrize("path", [PATH, LETTERS])
def test_visitors_sign_in_and_nobody_posts(browse: Browse, path: str) -> None:
    assert browse().get(path, status=302).location.startswith("/sign-in")
    browse("stan").post(path, status=405)


def test_what_is_wrong_is_told(browse: Browse, cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    beaten(cast, "deliver_due", ago=timedelta(hours=1))
    written(cast, "late@cast.example", written_at=cast.now - timedelta(hours=2), trouble="no route to host")
    written(cast, "dead@cast.example", state=LetterState.FAILED, trouble="mailbox full")
    monkeypatch.setattr(condition.shutil, "disk_usage", lambda path: PLENTY._replace(free=10**8))
    migrations_left(monkeypatch, "0001")
    page = browse("stan").get(PATH).main
    for words in (
        "Something asks for your attention", "Still to run: 0001", "1 letter waits",
        "1 could not be delivered", "Last trouble", "0.1 GB free", "Broken off: deliver_due",
    ):  # fmt: skip
        assert words in page, words
    assert page.count("look at this") == 4


def test_before_any_round_it_says_so(browse: Browse) -> None:
    assert "None so far on this machine" in browse("stan").get(PATH).main


def test_letters_are_listed_without_their_words(browse: Browse, cast: Cast) -> None:
    written(cast, "late@cast.example", tries=3, trouble="no route to host")
    written(cast, "gone@cast.example", state=LetterState.SENT)
    window = browse("stan")
    page = window.get(LETTERS)
    assert len(window.queries) == 2
    assert "late@cast.example" in page.main
    assert "no route to host" in page.main
    assert "gone@" not in page.main
    assert "secret" not in page.html
    assert "gone@" in window.get(LETTERS, state="sent").main
    assert "No letter is like that" in window.get(LETTERS, search="nobody").main
    assert "secret" not in window.get(LETTERS, **{"as": "csv"}).html
    assert "late@cast.example" in window.get(LETTERS, **{"as": "csv"}).html


def test_with_nothing_waiting_it_says_so(browse: Browse) -> None:
    assert "Every letter has gone" in browse("stan").get(LETTERS).main


def test_a_round_leaves_its_mark_and_names_what_broke(cast: Cast) -> None:
    def breaks(house: object) -> None:
        raise KeyError("a fault of ours")

    folder = cast.house.settings.data_dir
    assert pulse.last(folder) is None
    Rounds(cast.house).go((breaks,))
    assert pulse.last(folder).broken == ("breaks",)
    Rounds(cast.house).go(())
    assert pulse.last(folder).broken == ()
    (folder / pulse.FILE).write_text("torn")
    assert pulse.last(folder) is None
