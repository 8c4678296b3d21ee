"""Signing in: works, keeps nothing secret on screen, says the same to everybody whom it refuses."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from sqlalchemy import select

from hub.accounts.models import SignIn
from hub.audit.models import AuditEntry
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browser

Browse = Callable[..., Browser]
ALICE = "alice@cast.example"


def test_it_works(browse: Browse, cast: Cast) -> None:
    window = browse()
    answer = window.fill("/sign-in", email=" Alice@Cast.Example ", password=PASSWORD)
    assert answer.location == "/"
    page = window.get("/account")
    assert "group lead, Fell Group" in page.text
    with cast.everywhere() as work:
        entry = work.db.scalars(select(AuditEntry).where(AuditEntry.event == "account:signed-in")).one()
        assert entry.person_id == cast.people["alice"].id


def test_a_page_costs_few_questions(browse: Browse) -> None:
    window = browse("alice")
    window.get("/account")
    assert len(window.queries) == 4  # the caller; then the person, the sessions, the keys
