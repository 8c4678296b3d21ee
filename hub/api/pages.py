"""The API below /api/v1, and a page at /api on which people can read what it offers."""

from __future__ import annotations

from typing import Any

from flask import url_for
from werkzeug.wrappers import Response

from hub.api.blueprint import api
from hub.api.declared import operations
from hub.api.pace import TIMES
from hub.api.problems import write
from hub.api.readable import by_tag
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.errors import API_ERRORS
from hub.web.guard import Pages
from hub.web.render import render

operations()
pages = Pages("api", __name__)


@pages.get("/api", needs=Right.PUBLIC_READ)
def offers(work: Work) -> Response:
    return render(
        "api/operations.html",
        by_tag=list(by_tag()),
        header="Authorization: Bearer …",
        times=TIMES,
        document_url=url_for(".v1.openapi"),
    )


pages.register_blueprint(api, url_prefix="/api/v1")


@pages.record_once
def prepare(state: Any) -> None:
    """Programs bring keys, never cookies, so no other site can act for them; they read problems as JSON."""
    state.app.extensions["csrf"].exempt(api)
    state.app.extensions[API_ERRORS] = write
