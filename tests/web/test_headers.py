"""The browser is told the same careful things on every answer (OWASP ASVS 5.0.0, chapter 3.4)."""

from __future__ import annotations

import re
from uuid import uuid4

import pytest
from flask import Flask

from hub.config import Settings
from hub.rights.scope import Role, Scope
from hub.web import assets, headers
from hub.web.caller import WHO, Caller, caller


@pytest.mark.parametrize("path", ["/health", "/nowhere", "/static/x/css/nowhere.css"])
def test_every_answer_carries_the_policy(client, path):
    told = client.get(path).headers
    policy = dict(part.split(" ", 1) for part in told["Content-Security-Policy"].split("; "))
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == "'self'"
    assert "unsafe" not in told["Content-Security-Policy"]
    assert told["X-Content-Type-Options"] == "nosniff"
    assert "geolocation=(self)" in told["Permissions-Policy"]
    assert "Strict-Transport-Security" not in told


def test_strict_transport_only_where_the_hub_is_reached_over_https(tmp_path):
    app = Flask("probe")
    headers.prepare(app, Settings(tmp_path, "sqlite://", "x", base_url="https://hub.example"))
    seconds = re.match(r"max-age=(\d+)", app.test_client().get("/").headers["Strict-Transport-Security"])
    assert int(seconds[1]) >= 365 * 24 * 3600


def test_pages_of_somebody_signed_in_are_stored_nowhere_and_assets_are_kept(app):
    app.extensions[WHO] = lambda: Caller(Scope(uuid4(), Role.LEAD, uuid4(), uuid4(), uuid4()), "Ada", "Lead")
    app.before_request(lambda: caller() and None)
    assert app.test_client().get("/nowhere").headers["Cache-Control"] == "no-store"
    with app.test_client().get(f"/static/{assets.current_edition()}/css/page.css") as answer:
        assert answer.cache_control.immutable


def test_pages_of_visitors_are_asked_for_anew(client):
    assert client.get("/nowhere").headers["Cache-Control"] == "no-cache"


def test_an_asset_of_this_edition_is_kept_for_a_year_and_of_an_older_one_not(client):
    name = "css/page.css"
    fresh = client.get(f"/static/{assets.current_edition()}/{name}")
    stale = client.get(f"/static/000000000000/{name}")
    assert fresh.status_code == stale.status_code == 200
    assert fresh.cache_control.max_age == 365 * 24 * 3600
    assert fresh.cache_control.immutable
    assert not stale.cache_control.max_age
    fresh.close(), stale.close()


@pytest.mark.parametrize("path", ["../shared.py", "%2e%2e/shared.py", "/etc/hostname", "css/../../shared.py"])
def test_nothing_outside_the_folder_is_served(client, path):
    assert client.get(f"/static/x/{path}", follow_redirects=True).status_code == 404
