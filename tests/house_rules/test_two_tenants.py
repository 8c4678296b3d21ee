"""The two-tenant sweep: no route, asked by anybody of one tenant, gives away or touches another's.

One group's whole season is played; then everybody who has no business with it asks for each thing of it by
its key, over every route there is. The answer must be the same as for a key that does not exist.
"""

from __future__ import annotations

from uuid import UUID, uuid4

import pytest
from flask import Flask
from werkzeug.routing import Rule

from tests.cast import Cast
from tests.house_rules.belongings import Belongings, gather_belongings
from tests.support.browser import Browser

# Shared by all, or open to visitors: their keys give nothing away.
SHARED = frozenset(
    {"taxon_id", "season_id", "wanted_id", "district_id", "ecoregion_id", "region_id", "bank_id", "rule_id"}
)
STRANGERS = ("eve", "dora", "charlie", "olga")
SAFE = frozenset({"GET", "HEAD", "OPTIONS"})


@pytest.fixture
def belongings(cast: Cast) -> Belongings:
    return gather_belongings(cast)


def private(rule: Rule) -> set[str]:
    return {name for name in rule.arguments if name.endswith("_id")} - SHARED


def private_rules(app: Flask) -> list[Rule]:
    return [rule for rule in app.url_map.iter_rules() if private(rule)]


def filled(app: Flask, rule: Rule, ids: dict[str, UUID]) -> str:
    """The address of a rule with keys put in; a choice of words gets the first of them."""
    values: dict[str, object] = {}
    for name, converter in rule._converters.items():
        choice = sorted(getattr(converter, "items", ("plain",)))[0]
        values[name] = ids.get(name, uuid4()) if name.endswith("_id") else choice
    with app.test_request_context():
        return str(rule.build(values, append_unknown=False)[1])  # type: ignore[index]


def test_every_private_key_has_something_behind_it(app: Flask, belongings: Belongings) -> None:
    """A route with a new kind of key must be swept too: add what it names to the belongings."""
    missing = {name for rule in private_rules(app) for name in private(rule)} - belongings.ids.keys()
    assert not missing, f"nothing to sweep with for {sorted(missing)}: see tests/house_rules/belongings.py"


@pytest.mark.parametrize("stranger", STRANGERS)
def test_a_stranger_learns_nothing_by_looking(app: Flask, belongings: Belongings, stranger: str) -> None:
    browser = Browser(app, belongings.cast, stranger)
    for rule in private_rules(app):
        if "GET" in (rule.methods or ()) and not rule.rule.startswith("/api/"):
            theirs = browser.client.get(filled(app, rule, belongings.ids))
            nobodys = browser.client.get(filled(app, rule, {}))
            assert theirs.status_code in (403, 404), f"{stranger} looks at {rule}: {theirs.status}"
            assert theirs.status_code == nobodys.status_code, f"{rule} tells {stranger} that it is there"
            assert not belongings.told_in(theirs.get_data(as_text=True)), f"{rule} tells {stranger} of it"


@pytest.mark.parametrize("stranger", STRANGERS)
def test_a_stranger_changes_nothing(app: Flask, belongings: Belongings, stranger: str) -> None:
    browser = Browser(app, belongings.cast, stranger)
    token = browser.form_token
    before = belongings.fingerprint()
    for rule in private_rules(app):
        if (rule.methods or set()) - SAFE and not rule.rule.startswith("/api/"):
            theirs = browser.client.post(filled(app, rule, belongings.ids), data={"csrf_token": token})
            nobodys = browser.client.post(filled(app, rule, {}), data={"csrf_token": token})
            assert theirs.status_code == nobodys.status_code, f"{stranger} sends to {rule}: {theirs.status}"
            assert theirs.status_code >= 300, f"{rule} answers {stranger} with {theirs.status}"
    assert belongings.fingerprint() == before


@pytest.mark.parametrize("visitor_method", ["GET", "POST"])
def test_a_visitor_is_asked_to_sign_in(app: Flask, belongings: Belongings, visitor_method: str) -> None:
    browser = Browser(app, belongings.cast)
    token = browser.form_token
    for rule in private_rules(app):
        if visitor_method in (rule.methods or ()) and not rule.rule.startswith("/api/"):
            address = filled(app, rule, belongings.ids)
            data = {"csrf_token": token} if visitor_method == "POST" else None
            answer = browser.client.open(address, method=visitor_method, data=data)
            sent_to_sign_in = answer.status_code == 302 and "/sign-in" in answer.headers["Location"]
            assert sent_to_sign_in or answer.status_code in (401, 403, 404), f"{rule}: {answer.status}"
            assert not belongings.told_in(answer.get_data(as_text=True)), f"{rule} tells a visitor of it"
