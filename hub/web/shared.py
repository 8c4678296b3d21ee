"""Everything that pages share, put into an app by one call of the wiring."""

from __future__ import annotations

from datetime import timedelta

from flask import Flask
from flask_wtf import CSRFProtect
from werkzeug.middleware.proxy_fix import ProxyFix

from hub.config import Settings
from hub.db.work import House
from hub.web import assets, errors, headers, health, language, limits, render
from hub.web.caller import HOUSE, WHO, Who
from hub.web.render import Menu
from hub.web.uploads import scan

MEGABYTE = 1024 * 1024
FORM_TEXT = MEGABYTE  # all the text boxes of one form together
FORM_PARTS = 6000  # a full table of 500 rows has up to ten boxes a row


def prepare(app: Flask, house: House, *, who: Who, menu: Menu) -> None:
    """Make an app speak, answer errors, guard its forms and its headers."""
    app.extensions[HOUSE] = house
    app.extensions[WHO] = who
    app.config.from_mapping(configuration(house.settings))
    if house.settings.trusted_proxies:
        hops = house.settings.trusted_proxies
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=hops, x_proto=hops, x_host=hops)  # type: ignore[method-assign]
    CSRFProtect(app)
    language.prepare(app)
    render.prepare(app, menu)
    errors.prepare(app)
    headers.prepare(app, house.settings)
    assets.prepare(app)
    limits.prepare(app)
    scan.prepare(app, house.settings.scan)
    health.prepare(app)


def configuration(settings: Settings) -> dict[str, object]:
    """Flask's own settings, as ours ask for them."""
    secure = settings.secure_cookies
    return {
        "SECRET_KEY": settings.secret_key,
        "SESSION_COOKIE_NAME": "__Host-hub" if secure else "hub",
        "SESSION_COOKIE_SECURE": secure,
        "SESSION_COOKIE_HTTPONLY": True,
        "SESSION_COOKIE_SAMESITE": "Lax",
        "PERMANENT_SESSION_LIFETIME": timedelta(days=settings.session_days),
        "MAX_CONTENT_LENGTH": settings.upload_mb * MEGABYTE,
        "MAX_FORM_MEMORY_SIZE": FORM_TEXT,
        "MAX_FORM_PARTS": FORM_PARTS,
        "WTF_CSRF_TIME_LIMIT": None,  # a form lives as long as the session: a slow evening loses nothing
    }
