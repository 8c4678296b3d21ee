"""What every answer tells the browser: where content may come from, what the page may use, what to keep."""

from __future__ import annotations

from flask import Flask, g
from werkzeug.wrappers import Response

from hub.config import Settings

CONTENT = "; ".join(
    [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "frame-ancestors 'none'",
        "base-uri 'none'",
    ]
)
# Field pages ask for the position and the camera; nothing here needs the rest.
ABILITIES = "geolocation=(self), camera=(self), microphone=(), payment=(), usb=(), serial=()"
ALWAYS = {
    "Content-Security-Policy": CONTENT,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",  # the CSRF check reads the referrer of our own pages under https
    "Permissions-Policy": ABILITIES,
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
HTTPS_ONLY = "max-age=31536000; includeSubDomains"


def prepare(app: Flask, settings: Settings) -> None:
    """Put the headers on every answer of an app, errors included."""
    headers = ALWAYS | ({"Strict-Transport-Security": HTTPS_ONLY} if settings.secure_cookies else {})

    @app.after_request
    def tell(answer: Response) -> Response:
        for name, value in headers.items():
            answer.headers.setdefault(name, value)
        keep_private(answer)
        return answer


def keep_private(answer: Response) -> None:
    """Pages of somebody signed in are stored nowhere; other pages are asked for anew each time.

    Assets, which are the same for everybody, say themselves how long they keep; so do photographs, which
    never change, and which only the reader's own browser may keep.
    """
    if answer.cache_control.public or answer.cache_control.private:
        return
    asking = g.get("caller")
    if asking is not None and asking.scope.person_id is not None:
        answer.headers["Cache-Control"] = "no-store"
    elif "Cache-Control" not in answer.headers:
        answer.headers["Cache-Control"] = "no-cache"
        answer.vary.update(["Cookie", "Accept-Language"])
