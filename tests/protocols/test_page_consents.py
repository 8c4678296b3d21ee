"""A curator's consent: its form, the bound that the rules set, and taking it back."""

from __future__ import annotations

import pytest
from sqlalchemy import update

from hub.protocols import queries
from hub.sites.models import Population
from hub.sites.rules import Origin
from hub.taxa.rules import CareClass
from tests.protocols.scene import current, round_of, set_scene

QUERIES = 24


@pytest.fixture
def scene(cast):
    return set_scene(cast, care_class=CareClass.CRITICAL)


@pytest.fixture
def path(scene):
    return f"/adoptions/{scene.adoption_id}/populations/{scene.population_id}/consent"


def test_a_critical_plant_waits_for_the_curator(scene):
    assert scene.sheet.status != "ready"


def test_consent_opens_the_sheet_with_the_curators_share(browse, cast, path, scene):
    cora = browse("cora")
    page = cora.follow(cora.fill(path, share="4", reason="Seen on 2 July."))
    assert "You have consented." in page.text
    sheet = queries.sheet_of(current(cast, scene))
    assert (sheet.headline.season_share.value, sheet.case["sign_off"]["by"]) == (0.04, "Cora")
    assert "Seen on 2 July." in cora.get(path).main


@pytest.mark.parametrize(
    ("share", "words"),
    [("11", "at most 10%"), ("0", "at most 10%"), ("", "Please fill this in."),
     ("much", "Please give a number"), ("-1", "from 0 to 100"), ("1e9", "Please give a number")],
)  # fmt: skip
def test_a_share_beyond_the_rules_is_refused_beside_its_box(browse, cast, path, scene, share, words):
    page = browse("cora").fill(path, 422, share=share, reason="Seen.")
    assert words in page.beside("share")
    assert page.typed("reason") == "Seen."
    assert current(cast, scene).id == scene.sheet.id


def test_a_consent_is_taken_back(browse, cast, path, scene):
    cora = browse("cora")
    cora.fill(path, share="4", reason="Seen.")
    round_of(cast)
    (link,) = (each for each in cora.get(path).links if each.endswith("/take-back"))
    assert "Please fill this in." in cora.fill(link, 422, reason="").beside("reason")
    cora.fill(link, reason="A drought.")
    assert round_of(cast) == 1
    assert current(cast, scene).status != "ready"
    assert cora.fill(link, 422, reason="Again.").problems
    assert "taken back on" in cora.get(path).main


def test_a_stop_that_no_consent_lifts_is_told(browse, cast, path):
    with cast.everywhere() as work:
        work.db.execute(update(Population).values(origin=Origin.SOWN))
    assert "no consent lifts that" in browse("cora").get(path).main
    assert "No consent can lift this" in browse("cora").fill(path, 422, share="1", reason="x").problems[0]


def test_only_the_banks_curators_consent(browse, path):
    for name, status in (("alice", 403), ("tess", 403), ("olga", 403), ("dora", 404)):
        browse(name).get(path, status)
    assert "/sign-in" in browse().get(path, 302).location
    browse("cora").get("/adoptions/00000000-0000-4000-8000-000000000000/populations/"
                       "00000000-0000-4000-8000-000000000000/consent", 404)  # fmt: skip


def test_its_queries(browse, path):
    window = browse("cora")
    window.get(path)
    assert len(window.queries) <= QUERIES, "\n".join(window.queries)
