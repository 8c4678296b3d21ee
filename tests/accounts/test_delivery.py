"""Letters leave once: to a folder or over real SMTP; tried again when a server is down."""

from __future__ import annotations

import email
import socket
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import timedelta
from email.message import EmailMessage
from email.policy import SMTP

import pytest
from aiosmtpd.controller import Controller
from aiosmtpd.smtp import Envelope

from hub.accounts.carriers import carrier
from hub.accounts.delivery import LEASE, MOST_TRIES, deliver_due, leased, wait_after
from hub.accounts.letters import post
from hub.accounts.models import LetterState
from hub.config import Misconfigured
from hub.db.work import House
from hub.words import say
from tests.cast import NOW, Cast
from tests.support.letters import letters_to

TO = "eve@cast.example"


def write(cast: Cast, subject: str = "Höhe über Fell – 3 seeds", to: str = TO) -> None:
    with cast.everywhere() as work:
        post(
            work, to=to, subject=say(subject), body=[say("Hello {name},", name="Eve"), "https://a.example/b"]
        )


def in_folder(house: House) -> list[EmailMessage]:
    files = sorted((house.settings.data_dir / "post").glob("*.eml"))
    return [email.message_from_bytes(file.read_bytes(), policy=SMTP) for file in files]  # type: ignore[misc]


class Postbox:
    """A mail server's memory, with answers that a test chooses."""

    def __init__(self) -> None:
        self.answers: list[str] = []
        self.taken: list[Envelope] = []

    async def handle_DATA(self, server: object, session: object, envelope: Envelope) -> str:  # noqa: N802
        answer = self.answers.pop(0) if self.answers else "250 Taken"
        if answer.startswith("250"):
            self.taken.append(envelope)
        return answer


@pytest.fixture
def postbox() -> Postbox:
    return Postbox()


@pytest.fixture
def by_smtp(house: House, postbox: Postbox) -> Iterator[House]:
    """The same house, with a real mail server on this machine."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    server = Controller(postbox, hostname="127.0.0.1", port=port)
    server.start()
    yield replace(house, settings=replace(house.settings, mail=f"smtp://127.0.0.1:{port}"))
    server.stop()


def test_a_letter_lands_in_the_folder_as_written(cast: Cast) -> None:
    write(cast)
    assert deliver_due(cast.house, now=NOW) == 1
    (letter,) = in_folder(cast.house)
    assert letter["To"] == TO
    assert letter["Subject"] == "Höhe über Fell – 3 seeds"
    assert letter["Auto-Submitted"] == "auto-generated"
    assert "Hello Eve," in letter.get_content()
    assert "http://127.0.0.1:8020" in letter.get_content()


def test_what_has_left_is_not_sent_again_and_keeps_no_secrets(cast: Cast) -> None:
    write(cast)
    assert [deliver_due(cast.house, now=NOW), deliver_due(cast.house, now=NOW)] == [1, 0]
    (kept,) = letters_to(cast, TO)
    assert (kept.state, kept.body) == (LetterState.SENT, "")


def test_an_uncommitted_letter_never_leaves(cast: Cast) -> None:
    with cast.house.work(cast.scope("alice"), now=NOW) as work:
        post(work, to=TO, subject=say("Never"), body=[])
    assert deliver_due(cast.house, now=NOW) == 0


def test_a_letter_goes_over_smtp(cast: Cast, by_smtp: House, postbox: Postbox) -> None:
    write(cast)
    assert deliver_due(by_smtp, now=NOW) == 1
    (envelope,) = postbox.taken
    assert envelope.rcpt_tos == [TO]
    assert envelope.mail_from == "hub@funicle.invalid"
    message = email.message_from_bytes(envelope.content or b"", policy=SMTP)
    assert message["Subject"] == "Höhe über Fell – 3 seeds"


def test_a_busy_server_is_tried_again_later(cast: Cast, by_smtp: House, postbox: Postbox) -> None:
    postbox.answers = ["451 Come back later"]
    write(cast)
    assert deliver_due(by_smtp, now=NOW) == 0
    (waiting,) = letters_to(cast, TO)
    assert waiting.state is LetterState.WAITING
    assert "451" in waiting.trouble
    assert deliver_due(by_smtp, now=NOW + timedelta(seconds=59)) == 0
    assert deliver_due(by_smtp, now=NOW + timedelta(seconds=60)) == 1


def test_a_refused_letter_is_given_up(cast: Cast, by_smtp: House, postbox: Postbox) -> None:
    postbox.answers = ["550 No such person"]
    write(cast)
    deliver_due(by_smtp, now=NOW)
    (given_up,) = letters_to(cast, TO)
    assert given_up.state is LetterState.FAILED
    assert "550" in given_up.trouble


def test_a_server_that_is_gone_loses_nothing_for_more_than_half_a_day(cast: Cast, house: House) -> None:
    away = replace(house, settings=replace(house.settings, mail="smtp://127.0.0.1:1"))
    write(cast)
    now = NOW
    for tries in range(1, MOST_TRIES + 1):
        deliver_due(away, now=now)
        (letter,) = letters_to(cast, TO)
        assert letter.tries == tries
        now = letter.due_at
    assert letter.state is LetterState.FAILED
    assert now - NOW > timedelta(hours=12)


def test_waits_grow_and_stay_within_bounds() -> None:
    waits = [wait_after(tries) for tries in range(1, 40)]
    assert waits == sorted(waits)
    assert (waits[0], waits[-1]) == (timedelta(minutes=1), timedelta(hours=4))


def test_a_letter_whose_postman_died_is_taken_up_by_another(cast: Cast) -> None:
    write(cast)
    (letter,) = letters_to(cast, TO)
    assert leased(cast.house, letter.id, NOW) is not None
    assert leased(cast.house, letter.id, NOW) is None
    assert deliver_due(cast.house, now=NOW + LEASE - timedelta(seconds=1)) == 0
    assert deliver_due(cast.house, now=NOW + LEASE) == 1


def test_many_postmen_at_once_carry_each_letter_once(cast: Cast, by_smtp: House, postbox: Postbox) -> None:
    for number in range(8):
        write(cast, f"Letter {number}")
    with ThreadPoolExecutor(4) as postmen:
        rounds = [postmen.submit(deliver_due, by_smtp, now=NOW) for _ in range(4)]
    assert sum(each.result() for each in rounds) == 8
    assert len(postbox.taken) == 8


@pytest.mark.parametrize("mail", ["pigeon", "http://a.example", "smtp://"])
def test_a_setting_that_cannot_be_used_is_told(house: House, mail: str) -> None:
    with pytest.raises(Misconfigured, match="HUB_MAIL"):
        carrier(replace(house.settings, mail=mail))
