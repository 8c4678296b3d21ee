"""The one place that knows every feature: its tables, pages, menu and the way a caller is worked out."""

from __future__ import annotations

from importlib import import_module

from flask import Flask

from hub.config import Settings, resource_folder
from hub.db.engine import make_engine
from hub.db.files import Files
from hub.db.work import House
from hub.web.caller import HOUSE

FEATURES = (
    "audit",
    "accounts",
    "groups",
    "taxa",
    "sites",
    "adoptions",
    "protocols",
    "collecting",
    "vetting",
    "accessions",
    "progress",
)


def load_tables() -> None:
    """Import every table, so that metadata, fences and migrations know them all."""
    import_module("hub.db.numbering")
    for feature in FEATURES:
        if feature not in ("progress",):
            import_module(f"hub.{feature}.models")


def make_house(settings: Settings) -> House:
    """Engine and files for these settings, with every table known."""
    load_tables()
    return House(settings, make_engine(settings.database_url), Files(settings))


def create_app(settings: Settings | None = None) -> Flask:
    """The whole hub as a WSGI application."""
    settings = settings or Settings.from_environment()
    app = Flask("hub", template_folder=str(resource_folder("templates")), static_folder=None)
    app.secret_key = settings.secret_key
    app.extensions[HOUSE] = make_house(settings)
    return app
