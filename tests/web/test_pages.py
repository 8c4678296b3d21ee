"""A page's frame, its errors and its headers, through a real app with a real store."""

from __future__ import annotations

import html5lib
import pytest
from flask import abort
from marshmallow import ValidationError
from sqlalchemy import text
from sqlalchemy.exc import DataError, IntegrityError, OperationalError
from sqlalchemy.orm.exc import StaleDataError

from hub.db.tenancy import OutsideScope
from hub.rights.right import Right
from hub.web.errors import API_ERRORS
from hub.web.fields import Schema, Text
from hub.web.forms import Form
from hub.web.render import done, render
from hub.web.sentences import explanation
from hub.words import NotFound, Refused, say

OPEN = Right.PUBLIC_READ


class NameSchema(Schema):
    name = Text(10, required=True)


@pytest.fixture
def names(house, pages):
    """A page that stores names, and refuses one after it was stored."""
    with house.engine.begin() as connection:
        connection.execute(text("create table name (name text primary key)"))

    @pages.route("/names", needs=OPEN, methods=["POST"])
    def add(work):
        form = Form.sent(NameSchema())
        with form.answering():
            work.db.execute(text("insert into name values (:name)"), form.data)
            if form.data["name"] == "no":
                raise Refused(say("Not this name."), field="name")
            return done(say("Kept {name}.", name=form.data["name"]), "/names")
        return render("errors/problem.html", form=form, why=explanation(422))

    return lambda: stored(house)


def stored(house):
    with house.engine.begin() as connection:
        return connection.execute(text("select name from name order by name")).scalars().all()


def test_what_was_done_is_stored_said_once_and_safe_to_load_again(names, client):
    answer = client.post("/names", data={"name": "Ada"})
    assert answer.status_code == 303
    assert names() == ["Ada"]
    assert "Kept Ada." in client.get("/nowhere").text
    assert "Kept Ada." not in client.get("/nowhere").text


def test_a_refusal_answers_422_and_undoes_what_was_begun(names, client):
    assert client.post("/names", data={"name": "no"}).status_code == 422
    assert client.post("/names", data={"name": ""}).status_code == 422
    assert names() == []


def test_a_clash_in_the_store_keeps_the_form_and_the_row(names, client):
    client.post("/names", data={"name": "Ada"})
    assert client.post("/names", data={"name": "Ada"}).status_code == 422
    assert names() == ["Ada"]


@pytest.mark.parametrize(
    ("fault", "status"),
    [
        (NotFound("x"), 404),
        (OutsideScope("x"), 404),
        (Refused(say("Not in this state.")), 409),
        (IntegrityError("x", {}, Exception()), 409),
        (StaleDataError(), 409),
        (DataError("x", {}, Exception()), 400),
        (ValidationError("x"), 422),
    ],
)
def test_each_fault_has_its_status_and_page(pages, app, fault, status):
    @pages.route("/fault", needs=OPEN)
    def fail(work):
        raise fault

    app.register_blueprint(pages)
    answer = app.test_client().get("/fault")
    assert answer.status_code == status
    assert answer.mimetype == "text/html"
    if isinstance(fault, Refused):
        assert "Not in this state." in answer.text


@pytest.mark.parametrize(
    "status", [400, 401, 403, 404, 405, 406, 409, 410, 412, 413, 414, 415, 422, 428, 429, 431, 451]
)
def test_every_status_has_a_page_that_is_whole_html(pages, app, status):
    @pages.route("/fault", needs=OPEN)
    def fail(work):
        if status == 451:
            abort(451)
        abort(status, description=say("Because of {what}.", what="<b>this</b>"))

    app.register_blueprint(pages)
    answer = app.test_client().get("/fault")
    assert answer.status_code == status
    assert "<b>this</b>" not in answer.text
    html5lib.HTMLParser(strict=True).parse(answer.text)


def test_a_fault_of_our_own_names_a_reference_and_nothing_else(pages, app, caplog):
    @pages.route("/fault", needs=OPEN)
    def fail(work):
        raise RuntimeError("secret detail")

    app.register_blueprint(pages)
    app.testing = False
    answer = app.test_client().get("/fault")
    assert answer.status_code == 500
    assert "secret detail" not in answer.text
    reference = answer.text.split("<strong>")[1].split("</strong>")[0]
    assert reference in caplog.text
    assert "secret detail" in caplog.text
    assert "script-src 'self'" in answer.headers["Content-Security-Policy"]


def test_a_busy_store_asks_to_come_back(pages, app, caplog):
    @pages.route("/fault", needs=OPEN)
    def fail(work):
        raise OperationalError("secret statement", {}, Exception("database is locked"))

    app.register_blueprint(pages)
    answer = app.test_client().get("/fault")
    assert answer.status_code == 503
    assert answer.headers["Retry-After"] == "5"
    assert "secret statement" not in answer.text
    assert "database is locked" in caplog.text


def test_the_api_writes_its_own_problems(app):
    app.extensions[API_ERRORS] = lambda error, why: app.make_response((str(why.title), error.code))
    answer = app.test_client().get("/api/v1/nothing")
    assert answer.status_code == 404
    assert answer.text == "Nothing here"


def test_a_wrong_verb_says_which_are_right(client):
    for verb in ("DELETE", "TRACE"):
        answer = client.open("/health", method=verb)
        assert answer.status_code == 405
        assert "GET" in answer.headers["Allow"]


def test_a_form_without_its_token_is_refused_and_says_what_to_do(app, names, pages):
    app.config["WTF_CSRF_ENABLED"] = True
    app.register_blueprint(pages)
    answer = app.test_client().post("/names", data={"name": "Ada"})
    assert answer.status_code == 400
    assert "open too long" in answer.text
    assert names() == []


def test_a_body_beyond_the_limit_is_refused(app, names, pages):
    app.register_blueprint(pages)
    answer = app.test_client().post("/names", data={"name": "x" * 13_000_000})
    assert answer.status_code == 413
