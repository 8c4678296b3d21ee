"""Species are added once, changed with their reasons kept, and found by any spelling."""

from __future__ import annotations

import pytest
from sqlalchemy import select
from sqlalchemy.orm.exc import StaleDataError

from hub.audit.queries import history_of
from hub.taxa import actions, queries
from hub.taxa.models import Evidence, Taxon
from hub.taxa.rules import CareClass, StorageBehaviour
from hub.words import NotFound, Refused
from tests.taxa.garden import ARNICA, CAMPION, VETCH, WILLOW, plant


def refusal(cast, **given):
    with pytest.raises(Refused) as refused, cast.work("cora") as work:
        actions.add(work, **given)
    return refused.value


def test_a_species_is_kept_with_its_names(cast):
    (taxon,) = plant(cast, "Salix  ×capreola J.Kern. ex Andersson")
    assert (taxon.scientific_name, taxon.canonical, taxon.search_key) == (
        WILLOW,
        "Salix ×capreola",
        "salix capreola",
    )


def test_nothing_is_taken_for_harmless(cast):
    (taxon,) = plant(cast, ARNICA)
    assert taxon.care_class is CareClass.UNKNOWN
    assert (taxon.storage, taxon.storage_evidence) == (StorageBehaviour.UNKNOWN, Evidence.DEFAULT)


# The conserved alternatives of Art. 18.5 and 18.6 of the Code (Shenzhen 2018).
@pytest.mark.parametrize(
    ("given", "kept"),
    [
        ("Compositae", "Asteraceae"),
        ("cruciferae", "Brassicaceae"),
        ("Gramineae", "Poaceae"),
        ("Guttiferae", "Clusiaceae"),
        ("Labiatae", "Lamiaceae"),
        ("Leguminosae", "Fabaceae"),
        ("Papilionaceae", "Fabaceae"),
        ("Palmae", "Arecaceae"),
        ("UMBELLIFERAE", "Apiaceae"),
        (" Rosaceae ", "Rosaceae"),
        ("", ""),
    ],
)
def test_families_have_one_name(given, kept):
    from hub.taxa.families import read_family

    assert read_family(given) == kept


@pytest.mark.parametrize(
    ("given", "field", "says"),
    [
        ({"scientific_name": "Silene"}, "scientific_name", "whole name"),
        ({"scientific_name": "Silene cf. acaulis"}, "scientific_name", "no part of a name"),
        ({"scientific_name": "Silene 'Rosea'"}, "scientific_name", "garden variety"),
        ({"scientific_name": ""}, "scientific_name", "Write a scientific name"),
        ({"scientific_name": f"Silene acaulis {'L. ' * 70}"}, "scientific_name", "too long"),
        ({"scientific_name": ARNICA, "family": "Daisies"}, "family", "-aceae"),
        ({"scientific_name": ARNICA, "ripens_from": 7}, "ripens_to", "both months"),
        ({"scientific_name": ARNICA, "flowers_from": 13}, "flowers_from", "1 to 12"),
        ({"scientific_name": ARNICA, "collect_from_bbch": "8"}, "collect_from_bbch", "two digits"),
        ({"scientific_name": ARNICA, "seed_mass_mg": 0}, "seed_mass_mg", "more than nothing"),
        ({"scientific_name": ARNICA, "sensitivity": 5}, "sensitivity", "1 to 4"),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field(cast, given, field, says):
    refused = refusal(cast, **given)
    assert refused.field == field
    assert says in str(refused)


@pytest.mark.parametrize("again", [CAMPION, "Silene acaulis", "silene acaulis L.", "Silene ×acaulis"])
def test_one_species_is_there_once(cast, again):
    plant(cast, CAMPION)
    refused = refusal(cast, scientific_name=again)
    assert refused.field == "scientific_name"
    assert CAMPION in str(refused)


def test_a_change_is_recorded_and_no_change_is_not(cast):
    (taxon,) = plant(cast, ARNICA)
    with cast.work("cora") as work:
        actions.change(work, taxon_id=taxon.id, version=taxon.version, vernacular="Arnica", seed_mass_mg=1.2)
        actions.change(work, taxon_id=taxon.id, vernacular="Arnica", seed_mass_mg=1.2)
        events = history_of(work, thing_kind="taxon", thing_id=str(taxon.id))
    assert [entry.event for entry in events] == ["taxon:added", "taxon:changed"]
    assert (events[1].before, events[1].after) == (
        {"vernacular": "", "seed_mass_mg": None},
        {"vernacular": "Arnica", "seed_mass_mg": 1.2},
    )


def test_a_species_may_be_renamed_but_not_into_another(cast):
    arnica, _ = plant(cast, "Arnica montanum", CAMPION)
    with cast.work("cora") as work:
        renamed = actions.change(work, taxon_id=arnica.id, scientific_name=ARNICA)
        assert renamed.search_key == "arnica montana"
    with pytest.raises(Refused), cast.work("cora") as work:
        actions.change(work, taxon_id=arnica.id, scientific_name="Silene acaulis")


def test_a_change_of_what_was_seen_before_somebody_else_changed_it_is_refused(cast):
    (taxon,) = plant(cast, ARNICA)
    seen = taxon.version
    with cast.work("dora") as work:
        actions.change(work, taxon_id=taxon.id, vernacular="Wolf’s bane")
    with pytest.raises(Refused, match="Somebody else"), cast.work("cora") as work:
        actions.change(work, taxon_id=taxon.id, version=seen, vernacular="Arnica")


def test_two_at_once_cannot_both_be_kept(cast):
    (taxon,) = plant(cast, ARNICA)
    with cast.house.work(cast.scope("cora"), now=cast.now, reads_only=True) as late:
        stale = queries.get(late, taxon.id)
        late.db.expunge(stale)
    with cast.work("dora") as work:
        actions.change(work, taxon_id=taxon.id, note="first")
    with cast.house.work(cast.scope("cora"), now=cast.now) as work:
        work.db.add(stale)
        stale.note = "second"
        with pytest.raises(StaleDataError):
            work.db.flush()


def test_a_trait_that_does_not_exist_is_a_fault_in_the_code(cast):
    with pytest.raises(TypeError), cast.work("cora") as work:
        actions.add(work, scientific_name=ARNICA, colour="yellow")


def test_an_unknown_id_is_not_found(cast):
    with pytest.raises(NotFound), cast.work("cora") as work:
        queries.get(work, cast.season.id)


@pytest.mark.parametrize(
    "typed",
    [
        "Salix ×capreola",
        "salix x capreola",
        "SALIX CAPREOLA",
        "capreola salix",
        "Salix capreola Andersson",
        "sali capr",
        "Salix × capreola J.Kern. ex Andersson",
        "  salix\u00a0capreola ",
        "kern capreola",
    ],
)
def test_search_finds_every_spelling(cast, typed):
    plant(cast)
    with cast.work("cora") as work:
        found = [
            taxon.scientific_name for taxon in work.db.scalars(select(Taxon).where(queries.matching(typed)))
        ]
    assert found == [WILLOW]


@pytest.mark.parametrize(
    "typed", ["Oxytropis campestris halverina", "oxytropis ssp. halverina", "O. campestris var. halverina"]
)
def test_rank_markers_make_no_difference(cast, typed):
    plant(cast)
    with cast.work("cora") as work:
        assert [
            taxon.scientific_name for taxon in work.db.scalars(select(Taxon).where(queries.matching(typed)))
        ] == [VETCH]


def test_search_knows_everyday_names_and_both_names_of_a_family(cast):
    plant(cast, ARNICA, vernacular="Wolf’s bane", family="Compositae")
    plant(cast, "Isoetes lacustris L.")
    with cast.work("cora") as work:

        def found(typed):
            return [
                taxon.canonical for taxon in work.db.scalars(select(Taxon).where(queries.matching(typed)))
            ]

        assert found("wolf bane") == found("COMPOSITAE") == found("asteraceae") == ["Arnica montana"]
        assert found("Isoëtes") == ["Isoetes lacustris"]
        assert found("%") == found("_") == found("12") == found("× var.") == []


@pytest.mark.parametrize("typed", [ARNICA, "arnica montana", "Arnica montana Linnaeus", " Arnica  montana"])
def test_find_takes_any_way_to_write_the_name(cast, typed):
    (taxon,) = plant(cast, ARNICA)
    with cast.work("cora") as work:
        assert queries.find(work, typed).id == taxon.id
        assert queries.find(work, "Arnica") is None
        assert queries.find(work, "12") is None
