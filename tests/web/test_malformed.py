"""Whatever a client sends, the answer is a 4xx page and never a fault of ours."""

from __future__ import annotations

import pytest
from flask import request
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hub.rights.right import Right
from hub.web.fields import Choice, Schema, Text, Upload
from hub.web.forms import Form
from hub.web.listing import Asked, Filter
from hub.web.render import render
from hub.web.sentences import explanation
from hub.web.uploads import picture
from hub.words import say
from tests.web.test_listing import Care

MULTIPART = "multipart/form-data; boundary=edge"


class PhotoSchema(Schema):
    name = Text(20, required=True)
    photo = Upload(picture)


@pytest.fixture
def target(app, pages):
    @pages.route("/form", needs=Right.PUBLIC_READ, methods=["GET", "POST"])
    def form(work):
        sent = Form.sent(PhotoSchema())
        with sent.answering():
            assert sent.data["name"]
        return render("errors/problem.html", form=sent, why=explanation(422))

    @pages.route("/list", needs=Right.PUBLIC_READ)
    def listed(work):
        asked = Asked.of([Filter("care", say("Care"), Choice(Care), str)], {"name": ()})
        assert set(asked.values) == {"search", "care"}
        return f"{len(asked.chips)} {asked.url()} {request.args}"

    app.register_blueprint(pages)
    return app.test_client()


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        (b"", MULTIPART),
        (b"--edge", MULTIPART),
        (b"--edge\r\nContent-Disposition: form-data\r\n\r\nx\r\n--edge--", MULTIPART),
        (b'--edge\r\nContent-Disposition: form-data; name="name"\r\n\r\nx', MULTIPART),
        (b"x", "multipart/form-data"),
        (b"name=%ff%fe%00", "application/x-www-form-urlencoded"),
        (b"name=" + b"&x=" * 50_000, "application/x-www-form-urlencoded"),
        (b"{", "application/json"),
        (b'--edge\r\nContent-Disposition: form-data; name="a"\r\n\r\n\r\n' * 7000 + b"--edge--", MULTIPART),
        (b'--edge\r\nContent-Disposition: form-data; name="name"\r\n\r\n' + b"x" * 3_000_000, MULTIPART),
    ],
)
def test_a_damaged_body_is_refused(target, body, kind):
    answer = target.post("/form", data=body, content_type=kind)
    assert 400 <= answer.status_code < 500
    assert answer.mimetype == "text/html"


@pytest.mark.parametrize(
    "address",
    [
        "/static/x/%00",
        "/static/x/css/%00.css",
        "/static/x/" + "a" * 5000,
        "/static/x/css",
        "/%ff%fe",
        "/%2e%2e/%2e%2e/etc/passwd",
        "//",
        "/\\",
    ],
)
def test_a_damaged_address_leads_nowhere(target, address):
    assert target.get(address, follow_redirects=True).status_code == 404


@pytest.mark.parametrize(
    "headers",
    [
        {"Accept-Language": "*;q=nonsense, \x80"},
        {"Cookie": "hub=nonsense; hub=.e30.x.y"},
        {"Host": "a b"},
        {"If-None-Match": 'W/"'},
        {"Content-Length": "-5"},
        {"Range": "bytes=9-1"},
    ],
)
def test_damaged_headers_are_survived(target, headers):
    assert target.get("/list", headers=headers).status_code < 500


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(st.dictionaries(st.sampled_from(["search", "care", "sort", "at", "as", "x"]), st.text(max_size=150)))
def test_any_question_to_a_list_is_answered(target, query):
    assert target.get("/list", query_string=query).status_code == 200
