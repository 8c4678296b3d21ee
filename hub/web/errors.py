"""Whatever goes wrong, as a page that says what was wrong, what was kept and what to do next."""

from __future__ import annotations

import secrets
from collections.abc import Callable

from flask import Flask, current_app, make_response, render_template, request
from flask_wtf.csrf import CSRFError
from marshmallow import ValidationError
from sqlalchemy.exc import DataError, IntegrityError, OperationalError
from sqlalchemy.orm.exc import StaleDataError
from werkzeug.exceptions import (
    BadRequest,
    Conflict,
    HTTPException,
    InternalServerError,
    ServiceUnavailable,
    UnprocessableEntity,
)
from werkzeug.exceptions import NotFound as PageNotFound
from werkzeug.wrappers import Response

from hub.db.tenancy import OutsideScope
from hub.web.language import language_tag
from hub.web.sentences import CHANGED_MEANWHILE, EXPIRED, Explanation, explanation, refused
from hub.words import NotFound, Refused

A_MOMENT = 5  # seconds until a busy store is worth another try
API = "/api/"
API_ERRORS = "funicle-api-errors"
ApiErrors = Callable[[HTTPException, Explanation], Response]


def prepare(app: Flask) -> None:
    """Answer every error of an app. The API puts its own writer at ``app.extensions[API_ERRORS]``."""
    app.register_error_handler(HTTPException, http_problem)
    app.register_error_handler(CSRFError, lambda error: answer(error, EXPIRED))
    app.register_error_handler(NotFound, lambda error: http_problem(PageNotFound()))
    app.register_error_handler(OutsideScope, outside_scope)
    app.register_error_handler(Refused, lambda error: answer(Conflict(), refused(error.words)))
    app.register_error_handler(IntegrityError, lambda error: answer(Conflict(), CHANGED_MEANWHILE))
    app.register_error_handler(StaleDataError, lambda error: answer(Conflict(), CHANGED_MEANWHILE))
    app.register_error_handler(DataError, lambda error: http_problem(BadRequest()))
    app.register_error_handler(ValidationError, lambda error: http_problem(UnprocessableEntity()))
    app.register_error_handler(OperationalError, busy)


def http_problem(error: HTTPException) -> Response:
    """The page for a status; a redirect that travels as an exception goes on untouched."""
    if error.code is None or error.code < 400:
        return Response.force_type(error.get_response())
    if isinstance(error, InternalServerError):
        return alone(error, error.original_exception)
    return answer(error, explanation(error.code, error.description))


def answer(error: HTTPException, why: Explanation) -> Response:
    """One problem as HTML, or handed to the API's own writer, with the headers that its status asks for."""
    writer: ApiErrors | None = current_app.extensions.get(API_ERRORS)
    if writer and request.path.startswith(API):
        return writer(error, why)
    page = make_response(render_template("errors/problem.html", why=why), error.code)
    return with_headers(page, error)


def with_headers(page: Response, error: HTTPException) -> Response:
    """Keep what a status carries beside its page: Allow with 405, Retry-After with 429."""
    for name, value in error.get_headers():
        if name.lower() in ("allow", "retry-after", "www-authenticate"):
            page.headers[name] = value
    return page


def outside_scope(error: OutsideScope) -> Response:
    """A row was about to land in another tenant: our fault, logged as one, and nothing is given away."""
    current_app.logger.error("Refused a write outside the scope: %s", error)
    return http_problem(PageNotFound())


def busy(error: OperationalError) -> Response:
    """The store is locked, full or out of reach: nothing that the reader sent, and worth a second try."""
    return alone(ServiceUnavailable(retry_after=A_MOMENT), error)


def alone(error: HTTPException, cause: BaseException | None = None) -> Response:
    """A page for our own faults. It needs no store and no session, and names a reference for the log."""
    reference = secrets.token_hex(4)
    current_app.logger.error("Reference %s: fault at %s", reference, request.endpoint, exc_info=cause)
    why = explanation(error.code or 500)
    writer: ApiErrors | None = current_app.extensions.get(API_ERRORS)
    if writer and request.path.startswith(API):
        return writer(error, why)
    template = current_app.jinja_env.get_template("errors/broken.html")
    page = make_response(template.render(why=why, reference=reference, language=language_tag()), error.code)
    return with_headers(page, error)
