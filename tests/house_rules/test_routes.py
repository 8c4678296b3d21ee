"""Every route says whom it is for, in an address that people can read."""

from __future__ import annotations

import re

import pytest
from flask import Flask
from werkzeug.routing import Rule

from hub.rights.right import Right

# What serves files or answers machines before anybody is known.
OPEN = frozenset({"static", "assets.asset", "health", "health.health"})


def rules(app: Flask) -> list[Rule]:
    return [rule for rule in app.url_map.iter_rules() if rule.endpoint not in OPEN]


def test_every_route_names_the_right_it_needs(app: Flask) -> None:
    for rule in rules(app):
        needs = getattr(app.view_functions[rule.endpoint], "needs", None)
        assert isinstance(needs, Right), (
            f"{rule} ({rule.endpoint}) names no right: declare it through Pages or Api, with needs=Right.…"
        )


def test_a_route_without_a_right_does_not_even_import() -> None:
    from hub.web.guard import Pages

    pages = Pages("forgetful", __name__)
    with pytest.raises(TypeError, match="needs"):
        pages.get("/forgotten")(lambda work: "")  # type: ignore[call-arg]


def test_keys_in_addresses_are_uuids(app: Flask) -> None:
    for rule in rules(app):
        for name, converter in rule._converters.items():
            kind = type(converter).__name__
            keyed = name.endswith("_id") and name != "rule_id"  # a rule of the rulebook goes by its name
            assert not keyed or kind == "UUIDConverter", f"{rule}: write <uuid:{name}>"


def test_addresses_are_kebab_case(app: Flask) -> None:
    for rule in rules(app):
        plain = re.sub(r"<[^>]+>", "", rule.rule)
        assert re.fullmatch(r"[a-z0-9/.\-]*", plain), f"{rule}: lower case, digits and dashes alone"


def test_nothing_is_changed_by_looking(app: Flask) -> None:
    """A route that changes something is not reached by GET: its view never answers both."""
    for rule in rules(app):
        methods = (rule.methods or set()) - {"HEAD", "OPTIONS"}
        assert len(methods) == 1, f"{rule}: one view for looking and one for changing, not {methods}"
