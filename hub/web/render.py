"""Pages: a template with its frame (who, menu, notices), and the answer after something was done."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from flask import (
    Flask,
    current_app,
    flash,
    get_flashed_messages,
    has_request_context,
    make_response,
    redirect,
    render_template,
)
from jinja2 import StrictUndefined
from werkzeug.wrappers import Response

from hub.web.caller import Caller, caller
from hub.web.language import language_tag, said
from hub.words import Words

MENU = "funicle-menu"


@dataclass(frozen=True)
class MenuEntry:
    """One line of the main menu; ``count`` is how many things wait there."""

    label: Words
    url: str
    current: bool = False
    count: int = 0


Menu = Callable[[Caller], Sequence[MenuEntry]]


class Notices:
    """What is to be said once on the next page. Only a page that shows its notices uses them up."""

    def __iter__(self) -> Iterator[tuple[str, str]]:
        return iter(get_flashed_messages(with_categories=True))  # type: ignore[arg-type]

    def __len__(self) -> int:
        return len(get_flashed_messages())


def prepare(app: Flask, menu: Menu) -> None:
    """Give an app its frame. A template that names something it was not given fails in the tests."""
    app.jinja_env.undefined = StrictUndefined
    app.extensions[MENU] = menu
    app.context_processor(frame)


def frame() -> dict[str, Any]:
    """What every template may use beside its own values. A letter has a language, but no menu."""
    if not has_request_context():
        return {"who": None, "menu": [], "notices": [], "language": language_tag()}
    asking = caller()
    signed_in = asking.scope.person_id is not None
    return {
        "who": asking if signed_in else None,
        "menu": list(current_app.extensions[MENU](asking)),
        "notices": Notices(),
        "language": language_tag(),
    }


def render(template: str, **values: Any) -> Response:
    """A page. With a ``form`` that has problems its status is 422, so that nothing is committed."""
    form = values.get("form")
    status = 422 if form is not None and form.problems else 200
    return make_response(render_template(template, **values), status)


def notice(words: Words | str, kind: str = "done") -> None:
    """Say something once, on top of the next page. ``kind`` is ``done``, ``note`` or ``problem``."""
    flash(said(words), kind)


def done(words: Words | str, url: str) -> Response:
    """After something was done: say so, and go on to a page that is safe to load again."""
    notice(words, "done")
    return redirect(url, code=303)
