"""Whether the hub can answer: for load balancers and watchers, open to all and telling nothing."""

from __future__ import annotations

from flask import Flask, jsonify
from sqlalchemy import Engine
from sqlalchemy.exc import SQLAlchemyError
from werkzeug.wrappers import Response

from hub.db.revision import is_current, seen_by
from hub.rights.right import Right
from hub.web.caller import house


def prepare(app: Flask) -> None:
    app.add_url_rule("/health", "health", health)


def health() -> Response:
    """200 when the store answers and holds the tables of this version, 503 with the reason when not."""
    trouble = trouble_with(house().engine)
    answer = jsonify(status=trouble or "ok")
    answer.status_code = 503 if trouble else 200
    return answer


def trouble_with(store: Engine) -> str | None:
    """Why the hub cannot work with its store."""
    try:
        with store.connect().execution_options(reads_only=True) as connection:
            return None if is_current(seen_by(connection)) else "tables of another version"
    except SQLAlchemyError:
        return "store unreachable"


health.needs = Right.PUBLIC_READ  # type: ignore[attr-defined]
