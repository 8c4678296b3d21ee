"""The rounds go on, whatever becomes of one duty."""

from __future__ import annotations

from sqlalchemy import select

from hub.accounts.delivery import deliver_due
from hub.accounts.letters import post
from hub.accounts.models import Letter, LetterState
from hub.db.work import House
from hub.rounds import Rounds
from hub.words import say
from tests.cast import Cast


def test_a_duty_that_breaks_keeps_none_of_the_others_back(house: House) -> None:
    done: list[str] = []

    def breaks(house: House) -> None:
        raise KeyError("a fault of ours")

    Rounds(house).go((breaks, lambda house: done.append("second")))
    assert done == ["second"]


def test_a_letter_that_cannot_be_written_holds_up_no_other(cast: Cast) -> None:
    with cast.everywhere() as work:
        for to in ("jörg@cast.example", "eve@cast.example"):
            post(work, to=to, subject=say("A letter"), body=[say("A line.")])
    assert deliver_due(cast.house, now=cast.now) == 1
    with cast.everywhere() as work:
        states = dict(work.db.execute(select(Letter.to, Letter.state)).all())
    assert states == {"jörg@cast.example": LetterState.FAILED, "eve@cast.example": LetterState.SENT}
