"""One species on the list: put on, changed, taken off after asking."""

from __future__ import annotations

from uuid import uuid4

import pytest

from hub.taxa import queries
from tests.taxa.garden import ARNICA, list_of, plant

NEED = {"needs-0-populations": "2"}


def line_of(cast, taxon):
    with cast.work("cora") as work:
        line = queries.wanted_of(work, cast.season.id, taxon.id)
        return line, queries.needs_of(work, line.id) if line else []


def add(cast):
    return f"/seasons/{cast.season.id}/wanted/add"


def test_a_species_is_put_on_by_its_name(browse, cast):
    (taxon,) = plant(cast, ARNICA)
    place = {"needs-1-populations": "1", "needs-1-district_id": str(cast.north.id)}
    browse("cora").fill(add(cast), species="arnica montana", priority="1", **NEED, **place)
    line, needs = line_of(cast, taxon)
    assert line.priority == 1
    assert {(need.populations, need.district_id) for need in needs} == {(2, None), (1, cast.north.id)}


@pytest.mark.parametrize(
    ("typed", "box", "says"),
    [
        ({"species": "Carex nigra"}, "species", "no species of this name"),
        ({"species": ""}, "species", "fill this in"),
        ({"priority": "4"}, "priority", "1 to 3"),
        ({"needs-0-populations": "0"}, "needs-0-populations", "1 to 99"),
        ({"needs-0-populations": "two"}, "needs-0-populations", "whole number"),
        ({"needs-1-populations": "3"}, "needs-1-ecoregion_id", "row already"),
        ({"needs-0-district_id": str(uuid4())}, "needs-0-district_id", "not in your region"),
        ({"needs-0-district_id": "north"}, "needs-0-district_id", "one of those offered"),
    ],
)
def test_what_is_wrong_stands_beside_its_box(browse, cast, typed, box, says):
    (taxon,) = plant(cast, ARNICA)
    page = browse("cora").fill(add(cast), 422, **{"species": ARNICA, "note": "kept", **NEED, **typed})
    assert says in page.beside(box)
    assert page.typed("note") == "kept"
    assert line_of(cast, taxon)[0] is None


def test_a_species_is_put_on_once(browse, cast):
    list_of(cast, ARNICA)
    page = browse("cora").fill(add(cast), 422, species=ARNICA, **NEED)
    assert "on the list already" in page.beside("species")


def test_a_line_without_needs_is_sent_back(browse, cast):
    plant(cast, ARNICA)
    assert browse("cora").fill(add(cast), 422, species=ARNICA).problems


def test_a_line_is_changed_from_what_it_was(browse, cast):
    (taxon,) = list_of(cast, ARNICA)
    window, path = browse("cora"), f"/seasons/{cast.season.id}/wanted/{taxon.id}"
    assert window.get(path).typed("needs-0-populations") == "2"
    window.fill(path, note="Ask first", **{"needs-0-populations": "", "needs-1-populations": "5"})
    line, needs = line_of(cast, taxon)
    assert (line.note, [need.populations for need in needs]) == ("Ask first", [5])


def test_taking_off_asks_first(browse, cast):
    (taxon,) = list_of(cast, ARNICA)
    window, path = browse("cora"), f"/seasons/{cast.season.id}/wanted/{taxon.id}"
    assert "no longer wanted" in window.get(f"{path}/remove").main
    assert line_of(cast, taxon)[0]
    window.fill(f"{path}/remove")
    assert line_of(cast, taxon)[0] is None
    for gone in (path, f"{path}/remove"):
        window.get(gone, 404)
    window.post(f"{path}/remove", status=404)


@pytest.mark.parametrize(("name", "status"), [("alice", 403), ("tess", 403), ("olga", 403), ("dora", 404)])
def test_nobody_else_changes_the_list(browse, cast, name, status):
    (taxon,) = list_of(cast, ARNICA)
    path = f"/seasons/{cast.season.id}/wanted/{taxon.id}"
    for each in (add(cast), path, f"{path}/remove"):
        browse(name).get(each, status)
        browse(name).post(each, {"species": ARNICA, "priority": "1", **NEED}, status)
    assert line_of(cast, taxon)[0].priority == 2


def test_what_is_not_there_is_not_found(browse, cast):
    plant(cast, ARNICA)
    for path in (f"/seasons/{cast.season.id}/wanted/{uuid4()}", f"/seasons/{uuid4()}/wanted/add"):
        browse("cora").get(path, 404)
        browse("cora").post(path, NEED, 404)
