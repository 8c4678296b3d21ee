"""This document itself."""

from __future__ import annotations

from flask import Response

from hub.api.blueprint import api
from hub.api.document import written
from hub.api.etags import conditional
from hub.db.work import Work
from hub.rights.right import Right
from hub.words import say


@api.shows(
    "/openapi.json",
    needs=Right.PUBLIC_READ,
    summary=say("This document"),
    binary="application/json",
)
def openapi(work: Work) -> Response:
    answer = Response(written(), content_type="application/json")
    return conditional(answer)
