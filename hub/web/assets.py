"""Style sheets, scripts and pictures: addresses that change with their content, so browsers may keep them.

All files share one edition, taken from all their bytes, and it stands in the path. So a style sheet's or a
script's own relative links stay inside the same edition.
"""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path

from flask import Flask, send_from_directory, url_for
from werkzeug.wrappers import Response

from hub.rights.right import Right

FOLDER = Path(__file__).resolve().parent / "static"
A_YEAR = 365 * 24 * 3600  # seconds


def prepare(app: Flask) -> None:
    """Serve the assets, and give templates ``asset('css/page.css')``."""
    app.add_url_rule("/static/<edition>/<path:name>", "static", serve)
    app.jinja_env.globals["asset"] = asset


def asset(name: str) -> str:
    """The address of one asset."""
    return url_for("static", edition=current_edition(), name=name)


def serve(edition: str, name: str) -> Response:
    """One asset. An address of an older edition gets today's file, and is told not to keep it."""
    answer = send_from_directory(FOLDER, name)
    if edition == current_edition():
        answer.cache_control.max_age = A_YEAR
        answer.cache_control.public = True
        answer.cache_control.immutable = True
        answer.cache_control.no_cache = None
    return answer


serve.needs = Right.PUBLIC_READ  # type: ignore[attr-defined]


@cache
def current_edition() -> str:
    """Twelve hexadecimal digits that stand for the bytes of all assets together."""
    digest = hashlib.sha256()
    for path in sorted(FOLDER.rglob("*")):
        if path.is_file():
            digest.update(path.relative_to(FOLDER).as_posix().encode() + b"\0" + path.read_bytes())
    return digest.hexdigest()[:12]
