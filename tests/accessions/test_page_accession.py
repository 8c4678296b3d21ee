"""One accession: its bank sees lots, ledger and history; its group what became of the seed."""

from __future__ import annotations

from uuid import uuid4

import pytest

from hub.accessions.actions import enter, place_lot
from hub.accessions.rules import EntryKind
from tests.accessions.scene import approved, banked, lots, waiting
from tests.cast import Cast
from tests.support.browser import Browse
from tests.vetting.scene import collection, set_scene

QUERIES_FOR_THE_BANK = 11
QUERIES_FOR_THE_GROUP = 6


def test_the_bank_sees_it_whole(cast: Cast, browse: Browse) -> None:
    accession = banked(cast)
    first = lots(cast, accession)[0]
    with cast.work("tess") as work:
        place_lot(work, lot_id=first.id, place="Freezer 2, drawer 4")
        enter(work, lot_id=first.id, kind=EntryKind.TESTED, seeds=-15, why="test 7")
    page = browse("tess").get(f"/accessions/{accession.id}")
    assert page.heading == f"Accession {accession.number}"
    for words in (
        "Silene acaulis", "Fell Group", "3 lots, about 225 seeds", "A1", "Freezer 2, drawer 4", "−15",
        "test 7", "Tess", "Lot 01 placed: Freezer 2, drawer 4", f"numbered {accession.number}", "Cora",
    ):  # fmt: skip
        assert words in page.main, words


def test_the_group_sees_what_became_of_it(cast: Cast, browse: Browse) -> None:
    accession = banked(cast)
    first = lots(cast, accession)[0]
    with cast.work("tess") as work:
        place_lot(work, lot_id=first.id, place="Freezer 2, drawer 4")
    for name in ("alice", "bob"):
        page = browse(name).get(f"/accessions/{accession.id}")
        assert "Thank you, Fell Group" in page.main
        assert accession.number in page.main
        for inside in ("Lot 01", "Freezer", "ledger", "Cora", "Tess"):
            assert inside not in page.main, inside


def test_the_ledger_comes_as_a_file(cast: Cast, browse: Browse) -> None:
    accession = banked(cast)
    rows = browse("tess").get(f"/accessions/{accession.id}", **{"as": "csv"}).html.splitlines()
    assert len(rows) == 4
    assert ",01," in rows[1]
    assert ",banked,40,yes," in rows[1]


@pytest.mark.parametrize("name", ["charlie", "dora", "eve"])
def test_a_stranger_finds_nothing(cast: Cast, browse: Browse, name: str) -> None:
    accession = banked(cast)
    for path in ("", "/thanks.pdf"):
        browse(name).get(f"/accessions/{accession.id}{path}", status=404)


@pytest.mark.parametrize("name", ["olga", "stan"])
def test_roles_without_the_right_are_told_so(cast: Cast, browse: Browse, name: str) -> None:
    browse(name).get(f"/accessions/{banked(cast).id}", status=403)


def test_a_visitor_signs_in_first(cast: Cast, browse: Browse) -> None:
    assert browse().get(f"/accessions/{uuid4()}", status=302).location.startswith("/sign-in")


def test_what_is_not_there_and_the_wrong_verb(cast: Cast, browse: Browse) -> None:
    browse("cora").get(f"/accessions/{uuid4()}", status=404)
    browse("cora").post(f"/accessions/{banked(cast).id}", status=405)


def test_it_costs_the_same_for_sixty_lots_as_for_three(cast: Cast, browse: Browse) -> None:
    scene = set_scene(cast)
    few = approved(cast, waiting(cast, scene))
    many = approved(cast, waiting(cast, scene, tallies=collection().tallies, total_seeds=2400))
    tess, alice = browse("tess"), browse("alice")
    for accession in (few, many):
        tess.get(f"/accessions/{accession.id}")
        assert len(tess.queries) == QUERIES_FOR_THE_BANK
        alice.get(f"/accessions/{accession.id}")
        assert len(alice.queries) == QUERIES_FOR_THE_GROUP
