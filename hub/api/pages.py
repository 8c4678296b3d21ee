"""The API below /api/v1, and a page at /api on which people can read what it offers."""

from __future__ import annotations

from typing import Any

from hub.api.blueprint import api
from hub.api.declared import operations
from hub.api.problems import write
from hub.web.errors import API_ERRORS
from hub.web.guard import Pages

operations()
pages = Pages("api", __name__)
pages.register_blueprint(api, url_prefix="/api/v1")


@pages.record_once
def prepare(state: Any) -> None:
    """Programs bring keys, never cookies, so no other site can act for them; they read problems as JSON."""
    state.app.extensions["csrf"].exempt(api)
    state.app.extensions[API_ERRORS] = write
