"""The table of all lots of an accession: containers and places noted together, by keyboard."""

from __future__ import annotations

from uuid import uuid4

import pytest
from sqlalchemy import func, select

from hub.accessions.models import Accession
from hub.audit.models import AuditEntry
from hub.audit.rules import Event
from tests.accessions.scene import approved, banked, lots, waiting
from tests.cast import Cast
from tests.support.browser import Browse
from tests.vetting.scene import collection, set_scene

QUERIES = 4


@pytest.fixture
def accession(cast: Cast) -> Accession:
    return banked(cast)


def kept(cast: Cast, accession: Accession) -> list[tuple[str, str]]:
    return [(lot.container, lot.place) for lot in lots(cast, accession)]


def notes(cast: Cast) -> int:
    with cast.everywhere() as work:
        found = select(func.count()).select_from(AuditEntry).where(AuditEntry.event == Event.LOT_PLACED)
        return work.db.scalar(found) or 0


def test_all_lots_are_placed_at_once(cast: Cast, browse: Browse, accession: Accession) -> None:
    tess, path = browse("tess"), f"/accessions/{accession.id}/places"
    typed = {"all_container": "foil bag", "all_place": "Freezer 2", "lots-1-place": "Freezer 9"}
    page = tess.follow(tess.fill(path, **typed))
    assert "3 lots have a new place." in page.text
    assert kept(cast, accession) == [("foil bag", p) for p in ("Freezer 2", "Freezer 9", "Freezer 2")]
    assert "Lot 02 placed: foil bag, Freezer 9" in page.main
    assert notes(cast) == 3


def test_what_stands_there_already_is_shown_and_changes_nothing(
    cast: Cast, browse: Browse, accession: Accession
) -> None:
    tess, path = browse("tess"), f"/accessions/{accession.id}/places"
    tess.fill(path, all_place="Freezer 2")
    assert tess.get(path).typed("lots-2-place") == "Freezer 2"
    assert "Nothing was changed." in tess.follow(tess.fill(path)).text
    assert notes(cast) == 3
    tess.fill(path, **{"lots-0-place": ""})
    assert [place for _, place in kept(cast, accession)] == ["", "Freezer 2", "Freezer 2"]


def test_a_slip_in_one_line_keeps_all_that_was_typed(
    cast: Cast, browse: Browse, accession: Accession
) -> None:
    typed = {"lots-0-place": "Freezer 1", "lots-1-container": "vial", "lots-2-place": "x" * 201}
    page = browse("tess").fill(f"/accessions/{accession.id}/places", status=422, **typed)
    assert "200" in page.beside("lots-2-place")
    for name, value in typed.items():
        assert page.typed(name) == value
    assert kept(cast, accession) == [("", "")] * 3


def test_a_lot_of_another_accession_is_not_there(cast: Cast, browse: Browse) -> None:
    scene = set_scene(cast)
    accession, beside = (approved(cast, waiting(cast, scene, people=n)) for n in (5, 6))
    other = lots(cast, beside)[0].id
    for stranger in (other, uuid4()):
        typed = {"lots-0-lot_id": str(stranger), "lots-0-place": "Freezer 1"}
        browse("tess").post(f"/accessions/{accession.id}/places", typed, status=404)
    browse("tess").post(f"/accessions/{accession.id}/places", {}, status=422)
    browse("tess").post(f"/accessions/{accession.id}/places", {"lots-0-lot_id": "x"}, status=422)


def test_it_costs_the_same_for_sixty_lots_as_for_three(cast: Cast, browse: Browse) -> None:
    scene, tess = set_scene(cast), browse("tess")
    few = approved(cast, waiting(cast, scene))
    many = approved(cast, waiting(cast, scene, tallies=collection().tallies, total_seeds=2400))
    for accession in (few, many):
        tess.get(f"/accessions/{accession.id}/places")
        assert len(tess.queries) == QUERIES


def test_who_may_not_and_what_is_not_there(browse: Browse, accession: Accession) -> None:
    path = f"/accessions/{accession.id}/places"
    for name, status in (("alice", 403), ("bob", 403), ("olga", 403), ("stan", 403), ("dora", 404)):
        browse(name).get(path, status=status)
        browse(name).post(path, status=status)
    assert browse().get(path, status=302).location.startswith("/sign-in")
    browse("tess").get(f"/accessions/{uuid4()}/places", status=404)
    browse("tess").post(f"/accessions/{uuid4()}/places", status=404)
