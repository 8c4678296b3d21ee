"""A browser of the tests' own: signs in one of the cast, fills forms, looks over every page it fetches."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from flask import Flask
from sqlalchemy import Engine, event
from werkzeug.test import TestResponse

from hub.accounts.actions import begin_session
from hub.web.caller import HOUSE
from tests.cast import Cast
from tests.support.html import Page, form_at, looked_over

FIREFOX = "Firefox on Linux"


@dataclass
class Browser:
    """One window. Without a name it is a visitor's."""

    app: Flask
    cast: Cast
    name: str | None = None
    queries: list[str] = field(default_factory=list)  # what the last page asked the database

    def __post_init__(self) -> None:
        self.client = self.app.test_client()
        if self.name:
            self.sign_in(self.name)

    def sign_in(self, name: str) -> None:
        """Begin a session as the sign-in page does; that page's own tests type the password."""
        with self.cast.house.work(self.cast.scope(name)) as work:
            token = begin_session(work, person=self.cast.people[name], device=FIREFOX)
            work.db.commit()
        with self.client.session_transaction() as session:
            session["_user_id"], session["_fresh"] = token, True

    def get(self, path: str, status: int = 200, **query: Any) -> Page:
        """Fetch a page and look it over."""
        with asked(self.app.extensions[HOUSE].engine) as self.queries:
            answer = self.client.get(path, query_string=query or None)
        return self.seen(answer, status)

    def post(self, path: str, fields: Mapping[str, Any] | None = None, status: int | None = 303) -> Page:
        """Send fields with a good token of the session, as a form of some page would."""
        with asked(self.app.extensions[HOUSE].engine) as self.queries:
            answer = self.client.post(path, data={"csrf_token": self.form_token, **(fields or {})})
        return self.seen(answer, status)

    def fill(self, path: str, status: int = 303, action: str | None = None, **fields: Any) -> Page:
        """Open a page, fill the form in it that goes to ``action`` (by default the first), and send it."""
        form = form_at(self.get(path), action)
        answer = self.client.post(form.action or path, data={**form.values, **fields})
        return self.seen(answer, status)

    def press(self, path: str, action: str, status: int = 303) -> Page:
        """Open a page and press the button that goes to ``action``."""
        return self.fill(path, status, action)

    def follow(self, page: Page) -> Page:
        """Go where the last answer leads."""
        assert page.location, "the answer leads nowhere"
        return self.get(page.location)

    @property
    def form_token(self) -> str:
        page = self.get("/account" if self.name else "/sign-in")
        return str(form_at(page, None, anywhere=True).values["csrf_token"])

    def seen(self, answer: TestResponse, status: int | None) -> Page:
        """The answer as a page, looked over; any status will do where none is expected."""
        text = answer.get_data(as_text=True) if answer.mimetype.startswith("text/") else ""
        assert status in (None, answer.status_code), f"{answer.request.path}: {answer.status}\n{text}"
        page = Page(answer.status_code, text, answer.headers.get("Location", ""), answer)
        if answer.mimetype == "text/html" and not page.location:
            looked_over(page, answer.request.path)
        return page


Browse = Callable[..., Browser]


@contextmanager
def asked(engine: Engine) -> Iterator[list[str]]:
    """What is asked of the database meanwhile; the words that open a transaction do not count."""
    statements: list[str] = []

    def note(connection: Any, cursor: Any, statement: str, *rest: Any) -> None:
        if "set_config" not in statement and not statement.startswith(("BEGIN", "PRAGMA")):
            statements.append(statement)

    event.listen(engine, "before_cursor_execute", note)
    try:
        yield statements
    finally:
        event.remove(engine, "before_cursor_execute", note)
