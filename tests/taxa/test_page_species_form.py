"""The curator's forms for a species: its traits, its standings, its ecoregions."""

from __future__ import annotations

from uuid import uuid4

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import select

from hub.taxa import queries
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass, LifeForm
from tests.taxa.garden import ARNICA, CAMPION, plant

FORMS = ("edit", "standings", "ecoregions")
RANK = {"kind": "rank", "text": "S1", "place": "Test Vale", "authority": "Test Survey", "as_of": "2030-05-01"}


def rows(*given):
    return {f"standings-{at}-{name}": value for at, row in enumerate(given) for name, value in row.items()}


def stored(cast, taxon):
    with cast.work("cora") as work:
        return queries.get(work, taxon.id)


def test_a_new_species_leads_on_to_its_standings(browse, cast):
    window = browse("cora")
    page = window.fill(
        "/species/new",
        scientific_name=ARNICA,
        family="Compositae",
        hazards=["toxic"],
        ripens_from="7",
        ripens_to="8",
    )
    with cast.work("cora") as work:
        taxon = work.db.scalars(select(Taxon)).one()
    assert (taxon.family, taxon.hazards, taxon.native) == ("Asteraceae", ["toxic"], None)
    assert page.location.endswith(f"/species/{taxon.id}/standings")


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("scientific_name", "", "fill this in"),
        ("scientific_name", "Silene cf. acaulis", "no part of a name"),
        ("scientific_name", "silene acaulis", "here already"),
        ("family", "Daisies", "-aceae"),
        ("life_form", "giant", "one of those offered"),
        ("hazards", "dragon", "one of those offered"),
        ("seed_mass_mg", "1,500", "two ways"),
        ("seed_mass_mg", "-1", "from"),
        ("ripens_from", "13", "1 to 12"),
        ("ripens_from", "7", ""),
        ("collect_from_bbch", "x", "two digits"),
        ("sensitivity", "9", "1 to 4"),
        ("persistent_seed_bank", "maybe", "yes, no, or not known"),
        ("native", "perhaps", "yes, no, or not known"),
        ("hazards", ["none", "toxic"], "both “none” and some"),
    ],
)
def test_what_is_wrong_stands_beside_its_box(browse, cast, box, typed, says):
    plant(cast, CAMPION)
    typed_before = {"scientific_name": ARNICA, "vernacular": "Wolf’s bane", box: typed}
    page = browse("cora").fill("/species/new", 422, **typed_before)
    assert says in page.beside(box)
    assert page.problems
    assert page.typed("vernacular") == "Wolf’s bane"
    with cast.work("cora") as work:
        assert len(list(work.db.scalars(select(Taxon)))) == 1


def test_a_species_is_changed_from_what_it_was(browse, cast):
    (taxon,) = plant(
        cast, ARNICA, dioecious=True, persistent_seed_bank=False, seed_mass_mg=0.08, hazards=["toxic"]
    )
    window = browse("cora")
    page = window.get(f"/species/{taxon.id}/edit")
    assert page.typed("seed_mass_mg") == "0.08"
    window.fill(f"/species/{taxon.id}/edit", life_form="perennial_herb")
    now = stored(cast, taxon)
    assert now.life_form is LifeForm.PERENNIAL_HERB
    assert (now.dioecious, now.persistent_seed_bank, now.seed_mass_mg, now.hazards) == (
        True,
        False,
        0.08,
        ["toxic"],
    )


@pytest.mark.parametrize("hazards", [None, [], ["toxic"]])
@pytest.mark.parametrize("answer", [None, False, True])
def test_silence_stays_silence_and_no_stays_no(browse, cast, answer, hazards):
    (taxon,) = plant(cast, ARNICA, native=answer, clonal=answer, masting=answer, hazards=hazards)
    browse("cora").fill(f"/species/{taxon.id}/edit", vernacular="Mountain daisy")
    now = stored(cast, taxon)
    assert (now.vernacular, now.native, now.clonal, now.masting) == ("Mountain daisy", *[answer] * 3)
    assert now.hazards == hazards


def test_none_known_is_ticked(browse, cast):
    (taxon,) = plant(cast, ARNICA)
    browse("cora").fill(f"/species/{taxon.id}/edit", hazards=["none"], native="yes")
    assert (stored(cast, taxon).hazards, stored(cast, taxon).native) == ([], True)


@pytest.mark.parametrize("form", FORMS)
def test_a_stale_form_is_sent_back(browse, cast, form):
    (taxon,) = plant(cast, ARNICA)
    path = f"/species/{taxon.id}/{form}"
    fields = {"scientific_name": ARNICA} if form == "edit" else {}
    page = browse("cora").post(path, {**fields, "version": "99"}, 422)
    assert "Somebody else has changed this species" in " ".join(page.problems)


def test_standings_decide_the_care_class(browse, cast):
    (taxon,) = plant(cast, ARNICA)
    window, path = browse("cora"), f"/species/{taxon.id}/standings"
    page = window.follow(window.fill(path, **rows(RANK)))
    assert "Its care class is now: critical" in page.main
    assert stored(cast, taxon).care_class is CareClass.CRITICAL
    assert window.get(path).typed("standings-0-text") == "S1"
    window.fill(path, **rows({**dict.fromkeys(RANK, ""), "permit_needed": ""}))
    assert stored(cast, taxon).care_class is CareClass.UNKNOWN


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("text", "S9", "S needs a level"),
        ("text", "", "fill this in"),
        ("kind", "", "choose one"),
        ("place", "", "fill this in"),
        ("as_of", "2032-01-01", "not come yet"),
        ("as_of", "1.5.2030", "year-month-day"),
    ],
)
def test_a_standing_that_cannot_be_is_sent_back_beside_its_row(browse, cast, box, typed, says):
    (taxon,) = plant(cast, ARNICA)
    given = rows({**RANK, "text": "S5", "authority": "Other"}, {**RANK, box: typed})
    page = browse("cora").fill(f"/species/{taxon.id}/standings", 422, **given)
    assert says in page.beside(f"standings-1-{box}")
    assert page.typed("standings-0-text") == "S5"
    assert stored(cast, taxon).care_class is CareClass.UNKNOWN


def test_ecoregions_are_ticked(browse, cast):
    (taxon,) = plant(cast, ARNICA)
    window, path = browse("cora"), f"/species/{taxon.id}/ecoregions"
    window.fill(path, ecoregion_ids=[str(cast.meadows.id)])
    assert "T.1 Meadows" in window.get(f"/species/{taxon.id}").main
    for wrong in (str(uuid4()), "meadows"):
        assert window.fill(path, 422, ecoregion_ids=[wrong]).beside("ecoregion_ids")


@pytest.mark.parametrize("name", ["alice", "tess", "olga", "stan"])
def test_nobody_else_changes_a_species(browse, cast, name):
    (taxon,) = plant(cast, ARNICA)
    window = browse(name)
    for path in ("/species/new", *(f"/species/{taxon.id}/{form}" for form in FORMS)):
        window.get(path, 403)
        window.post(path, {"scientific_name": CAMPION}, 403)


def test_what_is_not_there_is_not_found(browse, cast):
    window = browse("cora")
    for form in FORMS:
        window.get(f"/species/{uuid4()}/{form}", 404)
        window.post(f"/species/{uuid4()}/{form}", status=404)


BOXES = st.dictionaries(
    st.sampled_from(
        ["scientific_name", "family", "storage", "hazards", "seed_mass_mg", "ripens_from", "note", "strange"]
    ),
    st.text(max_size=15),
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=20)
@given(typed=BOXES)
def test_no_input_breaks_the_form(browse, cast, typed):
    window = browse("cora")
    token = window.form_token
    answer = window.client.post("/species/new", data={"csrf_token": token, **typed})
    assert answer.status_code in (303, 422)
