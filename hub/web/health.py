"""Whether the hub can answer: for load balancers and watchers, open to all and telling nothing."""

from __future__ import annotations

from flask import Flask, jsonify
from sqlalchemy import literal, select
from sqlalchemy.exc import SQLAlchemyError
from werkzeug.wrappers import Response

from hub.rights.right import Right
from hub.web.caller import house


def prepare(app: Flask) -> None:
    app.add_url_rule("/health", "health", health)


def health() -> Response:
    """200 when the store answers a question, 503 when it does not."""
    try:
        with house().engine.connect().execution_options(reads_only=True) as connection:
            connection.execute(select(literal(1)))
    except SQLAlchemyError:
        answer = jsonify(status="store unreachable")
        answer.status_code = 503
        return answer
    return jsonify(status="ok")


health.needs = Right.PUBLIC_READ  # type: ignore[attr-defined]
