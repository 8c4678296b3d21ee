"""Routes that cannot forget their right: a page without ``needs=`` is a TypeError at import."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import wraps
from typing import Any, TypeVar
from urllib.parse import urlencode

from flask import Blueprint, Response, abort, g, make_response, redirect, request, url_for

from hub.rights.policy import may
from hub.rights.right import Right
from hub.web.caller import caller, house

View = TypeVar("View", bound=Callable[..., Any])
SAFE = frozenset({"GET", "HEAD", "OPTIONS"})


class Pages(Blueprint):
    """A blueprint whose views take ``Work`` first and name the right they need where they are declared."""

    def route(  # type: ignore[override]
        self, rule: str, *, needs: Right, because: str = "", **options: Any
    ) -> Callable[[View], View]:
        """Declare a page. ``because`` says why its work must see across all tenants, where it must."""

        def declare(view: View) -> View:
            endpoint = options.pop("endpoint", view.__name__)
            self.add_url_rule(rule, endpoint, guarded(view, needs, because), **options)
            return view

        return declare


def guarded(view: Callable[..., Any], needs: Right, because: str = "") -> Callable[..., Response]:
    """Wrap a view: check its right, open its work, commit once if it went well."""

    @wraps(view)
    def answer(**args: Any) -> Response:
        asking = caller()
        if not may(asking.scope, needs):
            return turned_away()
        reads = request.method in SAFE
        scope = replace(asking.scope, because=because) if because else asking.scope
        with house().work(scope, zone=asking.zone, reads_only=reads) as work:
            g.work = work
            response = make_response(view(work, **args))
            if not reads and response.status_code < 400:
                work.db.commit()
            return response

    answer.needs, answer.because = needs, because  # type: ignore[attr-defined]
    return answer


def turned_away() -> Response:
    """A visitor is asked to sign in; somebody signed in is told what is missing, or that it may not."""
    if caller().waits and request.method in SAFE:
        return make_response(redirect(url_for("accounts.second_step")))
    if caller().scope.person_id is not None:
        abort(403)
    if request.method not in SAFE:
        abort(401)
    back = urlencode({"next": request.full_path.rstrip("?")})
    return make_response(redirect(f"{url_for('accounts.sign_in')}?{back}"))
