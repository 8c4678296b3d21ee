"""Signing in: works, keeps nothing secret on screen, says the same to everybody whom it refuses."""

from __future__ import annotations

from datetime import timedelta

import pytest
import time_machine
from sqlalchemy import select

from hub.accounts import passwords
from hub.accounts.models import Person, SignIn
from hub.accounts.secrets import digest_of
from hub.audit.models import AuditEntry
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse

ALICE = "alice@cast.example"


def test_it_works(browse: Browse, cast: Cast) -> None:
    window = browse()
    answer = window.fill("/sign-in", email=" Alice@Cast.Example ", password=PASSWORD)
    assert answer.location == "/"
    assert "group lead, Fell Group" in window.get("/account").text
    with cast.everywhere() as work:
        entry = work.db.scalars(select(AuditEntry).where(AuditEntry.event == "account:signed-in")).one()
        assert entry.person_id == cast.people["alice"].id


def test_the_cookie_holds_a_secret_that_the_store_does_not(browse: Browse, cast: Cast) -> None:
    window = browse()
    answer = window.fill("/sign-in", email=ALICE, password=PASSWORD)
    cookie = answer.answer.headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie
    with window.client.session_transaction() as session:
        token = session["_user_id"]
    assert len(token) >= 43  # 32 bytes in base64: twice the 128 bits of ASVS 5.0 7.2.3
    with cast.everywhere() as work:
        assert work.db.scalars(select(SignIn.token_digest)).all() == [digest_of(token)]


def test_each_sign_in_has_a_token_and_form_token_of_its_own(browse: Browse) -> None:
    window, seen = browse(), set()
    for _ in range(2):
        window.client.delete_cookie("hub")
        before = window.form_token
        window.fill("/sign-in", email=ALICE, password=PASSWORD)
        with window.client.session_transaction() as session:
            seen |= {session["_user_id"], session.get("csrf_token", before)}
    assert len(seen) == 4


@pytest.mark.parametrize("typed", [(ALICE, "not her password"), ("nobody@cast.example", PASSWORD)])
def test_it_says_the_same_to_everybody_it_refuses(browse: Browse, cast: Cast, typed: tuple[str, str]) -> None:
    page = browse().fill("/sign-in", 422, email=typed[0], password=typed[1])
    assert page.problems == [
        "The address and the password do not fit together. Check both, or use the link below to choose "
        "a new one."
    ]
    assert page.typed("email") == typed[0]
    assert typed[1] not in page.html
    with cast.everywhere() as work:
        refused = work.db.scalars(
            select(AuditEntry).where(AuditEntry.event == "account:sign-in-refused")
        ).one()
        assert typed[0] not in str(vars(refused))
        assert work.db.scalars(select(SignIn)).all() == []


def test_an_unknown_address_costs_as_much_work(
    cast: Cast, browse: Browse, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[str] = []
    real = passwords.hasher

    def counted(settings: object) -> object:
        made.append("Argon2id")
        return real(settings)  # type: ignore[arg-type]

    monkeypatch.setattr(passwords, "hasher", counted)
    window = browse()
    for email in (ALICE, "nobody@cast.example"):
        window.fill("/sign-in", 422, email=email, password="not the password")
    assert len(made) == 2


def test_a_closed_account_is_an_unknown_one(browse: Browse, cast: Cast) -> None:
    with cast.everywhere() as work:
        work.db.get_one(Person, cast.people["bob"].id).closed_at = work.now
    browse().fill("/sign-in", 422, email="bob@cast.example", password=PASSWORD)


@pytest.mark.parametrize(
    ("wanted", "lands"),
    [
        ("/our-group?a=b", "/our-group?a=b"),
        ("https://elsewhere.example/", "/"),
        ("//elsewhere.example/", "/"),
        ("/\\elsewhere.example/", "/"),
        ("javascript:alert(1)", "/"),
    ],
)
def test_it_goes_back_to_the_wanted_page_of_this_hub_alone(browse: Browse, wanted: str, lands: str) -> None:
    window = browse()
    form = {"email": ALICE, "password": PASSWORD, "next": wanted}
    assert window.post("/sign-in", form).location == lands


def test_a_page_that_needs_a_seat_sends_a_visitor_here_and_back(browse: Browse) -> None:
    window = browse()
    sent = window.get("/our-group?from=letter", 302)
    answer = window.fill(sent.location, email=ALICE, password=PASSWORD)
    assert answer.location == "/our-group?from=letter"


def test_whoever_is_signed_in_is_not_asked_again(browse: Browse) -> None:
    assert browse("alice").get("/sign-in", 302).location == "/"


@pytest.mark.parametrize(("box", "typed"), [("email", ""), ("password", ""), ("email", "alice")])
def test_it_says_what_is_missing_beside_the_box(browse: Browse, box: str, typed: str) -> None:
    page = browse().fill("/sign-in", 422, **{"email": ALICE, "password": PASSWORD, box: typed})
    assert page.beside(box)


def test_it_needs_the_token_of_its_own_form(browse: Browse, cast: Cast) -> None:
    window = browse()
    window.get("/sign-in")
    fields = {"email": ALICE, "password": PASSWORD, "csrf_token": "made up"}
    assert "open too long" in window.post("/sign-in", fields, 400).main
    with cast.everywhere() as work:
        assert work.db.scalars(select(SignIn)).all() == []


def test_guessing_is_slowed_and_the_owner_is_not_locked_out(browse: Browse) -> None:
    window = browse()
    for _ in range(10):
        window.fill("/sign-in", 422, email=ALICE, password="a wild guess")
    told = window.fill("/sign-in", 429, email=ALICE, password=PASSWORD)
    assert int(told.answer.headers["Retry-After"]) > 0
    owner = browse()
    owner.client.environ_base["REMOTE_ADDR"] = "203.0.113.7"
    owner.fill("/sign-in", email=ALICE, password=PASSWORD)


def test_the_limit_passes(browse: Browse, cast: Cast) -> None:
    window = browse()
    for _ in range(11):
        window.post("/sign-in", {"email": ALICE, "password": "a wild guess"}, status=None)
    with time_machine.travel(cast.now + timedelta(minutes=16)):
        window.fill("/sign-in", email=ALICE, password=PASSWORD)


def test_it_has_no_other_verbs(browse: Browse) -> None:
    assert browse().client.put("/sign-in").status_code == 405
