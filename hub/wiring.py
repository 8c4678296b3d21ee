"""The one place that knows every feature: it loads their rooms and puts the application together.

A feature is wired by being named in ``FEATURES``. Its ``models``, ``listeners`` and ``pages`` are imported
where they exist; ``pages`` must offer a blueprint of that name.
"""

from __future__ import annotations

from importlib import import_module
from importlib.util import find_spec
from types import ModuleType

from flask import Flask

from hub import front
from hub.config import Settings, resource_folder
from hub.db.engine import make_engine
from hub.db.files import Files
from hub.db.work import House
from hub.web.shared import prepare

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
    "calculators",
    "api",
)


def rooms(name: str) -> list[ModuleType]:
    """The module of this name in every feature that has one, in the order of a seed's life."""
    paths = [f"hub.{feature}.{name}" for feature in FEATURES]
    return [import_module(path) for path in paths if find_spec(path)]


def load_tables() -> None:
    """Import every table and every listener, so that metadata, fences and events are complete."""
    import_module("hub.db.numbering")
    import_module("hub.db.limits")
    rooms("models")
    rooms("listeners")


def make_house(settings: Settings) -> House:
    """Engine and files for these settings, with every table known."""
    load_tables()
    return House(settings, make_engine(settings.database_url), Files(settings))


def create_app(settings: Settings | None = None, house: House | None = None) -> Flask:
    """The whole hub as a WSGI application."""
    house = house or make_house(settings or Settings.from_environment())
    app = Flask("hub", template_folder=str(resource_folder("templates")), static_folder=None)
    callers = import_module("hub.groups.callers")
    callers.prepare(app)
    prepare(app, house, who=callers.who, menu=front.menu)
    for module in (front, *rooms("pages")):
        app.register_blueprint(module.pages)
    return app
