"""Handing in, drafts and lists are held back when one person sends far more than any person types."""

from __future__ import annotations

import pytest

from hub.web.limits import DOWNLOADS
from tests.cast import Cast
from tests.support.browser import Browse

NOBODY_S = "00000000-0000-4000-8000-000000000000"  # an id of nothing; the tests’ names must not change by run
SUBMISSION = f"/hand-ins/{NOBODY_S}"


@pytest.mark.parametrize(
    ("who", "path", "times"),
    [
        ("alice", "/hand-ins", 60),
        ("alice", f"{SUBMISSION}/hand-in", 60),
        ("alice", f"{SUBMISSION}/write", 600),
        ("alice", f"{SUBMISSION}/keep", 600),
        ("cora", f"/seasons/{NOBODY_S}/import", 60),
        ("cora", f"/seasons/{NOBODY_S}/import/confirm", 60),
    ],
)
def test_one_too_many_waits(browse: Browse, cast: Cast, who: str, path: str, times: int) -> None:
    window, other = browse(who), browse("charlie" if who == "alice" else "dora")
    token = window.form_token
    for _ in range(times):
        assert window.client.post(path, data={"csrf_token": token}).status_code in (404, 422)
    told = window.post(path, {"csrf_token": token}, 429)
    assert 0 < int(told.answer.headers["Retry-After"]) <= 3600
    assert "too often in a short time" in told.main
    other.post(path, status=None)
    assert window.get("/account").status == 200


def test_downloads_of_lists_are_held_back_whichever_list_it_is(browse: Browse) -> None:
    window = browse("cora")
    for at in range(DOWNLOADS):
        window.get("/taxa" if at % 2 else "/accessions", None, **{"as": "csv"})
    told = window.get("/sites", 429, **{"as": "csv"})
    assert int(told.answer.headers["Retry-After"]) > 0
    assert "too often in a short time" in told.main
    window.get("/sites")
    browse("tess").get("/sites", **{"as": "csv"})
