"""Approval is one transaction: all of it or nothing, once, under a number that leaves no gap."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from sqlalchemy import create_engine, func, select, text
from sqlalchemy.exc import DBAPIError

from hub.accessions.models import Accession, Lot, LotEntry
from hub.accounts.models import Letter
from hub.adoptions.models import Adoption, StageCount
from hub.adoptions.rules import AdoptionState, Stage
from hub.audit.queries import first_broken_link
from hub.db.numbering import Serial, is_whole
from hub.vetting.collection import Tally
from hub.vetting.models import Remark, Submission
from hub.vetting.rules import SubmissionState
from hub.words import NotFound, Refused
from tests.accessions.scene import approved, lots, waiting
from tests.cast import Cast
from tests.vetting.scene import begun, in_bulk, set_scene, stands

MADE = (Accession, Lot, LotEntry, Remark)


def counts(cast: Cast) -> dict[str, Any]:
    """How many rows of each kind an approval makes, and where the counts of stages stand."""
    with cast.everywhere() as work:
        rows = {
            kind.__name__: work.db.scalar(select(func.count()).select_from(kind)) for kind in (*MADE, Letter)
        }
        stages = {row.stage: row.adoptions for row in work.db.scalars(select(StageCount)) if row.adoptions}
        serials = {
            row.series: row.last for row in work.db.scalars(select(Serial)) if "accession" in row.series
        }
        return rows | {"stages": stages, "serials": serials, "broken": first_broken_link(work)}


def test_everything_is_made_at_once(cast: Cast) -> None:
    before = counts(cast)
    accession = approved(cast, waiting(cast), remark="Well kept.")
    after = counts(cast)
    assert is_whole(accession.number)
    assert accession.number.startswith("FELL-2031-0001-")
    assert {name: after[name] - before[name] for name in ("Accession", "Lot", "LotEntry", "Remark")} == {
        "Accession": 1, "Lot": 3, "LotEntry": 3, "Remark": 1,
    }  # fmt: skip
    assert [(lot.label, lot.mother, lot.balance_seeds) for lot in lots(cast, accession)] == [
        ("01", "A1", 40), ("02", "A2", 80), ("03", "A3", 120),
    ]  # fmt: skip
    assert after["broken"] is None


def test_it_carries_the_adoption_to_its_end(cast: Cast) -> None:
    accession = approved(cast, waiting(cast))
    with cast.everywhere() as work:
        adoption = work.db.scalars(select(Adoption)).one()
    assert (adoption.stage, adoption.state) == (Stage.ACCESSIONED, AdoptionState.FULFILLED)
    assert counts(cast)["stages"] == {Stage.ACCESSIONED: 1}
    assert stands(cast, accession.submission_id).state is SubmissionState.APPROVED


REFUSE = {
    "sqlite": [
        "create trigger break_down before insert on lot_entry when (select count(*) from lot_entry) >= 2 "
        "begin select raise(abort, 'the disk is full'); end"
    ],
    "postgresql": [
        "create function break_down() returns trigger language plpgsql as $$ begin "
        "if (select count(*) from lot_entry) >= 2 then raise exception 'the disk is full'; end if; "
        "return new; end $$",
        "create trigger break_down before insert on lot_entry for each row execute function break_down()",
    ],
}
MEND = {"sqlite": ["drop trigger break_down"], "postgresql": ["drop trigger break_down on lot_entry"]}


def as_owner(cast: Cast, statements: dict[str, list[str]]) -> None:
    """Change the tables themselves, as only their owner may."""
    kind, url = cast.house.engine.dialect.name, cast.house.engine.url
    owner = create_engine(url if kind == "sqlite" else url.set(username="hub_owner"))
    with owner.begin() as connection:
        for statement in statements[kind]:
            connection.execute(text(statement))
    owner.dispose()


def test_a_breakdown_half_way_leaves_nothing(cast: Cast) -> None:
    submission_id = waiting(cast)
    before = counts(cast)
    as_owner(cast, REFUSE)  # the database breaks down at the third entry of the ledger
    with pytest.raises(DBAPIError, match="the disk is full"):
        approved(cast, submission_id, remark="Well kept.")
    assert counts(cast) == before
    assert stands(cast, submission_id).state is SubmissionState.HANDED_IN
    as_owner(cast, MEND)
    assert approved(cast, submission_id).serial == 1


def test_approving_twice_makes_one(cast: Cast) -> None:
    submission_id = waiting(cast)
    assert approved(cast, submission_id).id == approved(cast, submission_id).id
    assert counts(cast)["Accession"] == 1


def test_two_curators_at_once_make_one(cast: Cast) -> None:
    submission_id = waiting(cast)
    with ThreadPoolExecutor(4) as pool:
        made = list(pool.map(lambda _: approved(cast, submission_id).id, range(4)))
    assert len(set(made)) == 1
    assert counts(cast)["Lot"] == 3


def test_numbers_have_no_gaps_however_many_come_at_once(cast: Cast) -> None:
    scene = set_scene(cast)
    waits = [waiting(cast, scene) for _ in range(6)]
    with cast.everywhere() as work:
        work.db.get_one(Submission, waits[0]).open_stops = 1
    with ThreadPoolExecutor(6) as pool:
        found = list(pool.map(lambda each: attempted(cast, each), waits))
    assert sorted(filter(None, found)) == [1, 2, 3, 4, 5]


def attempted(cast: Cast, submission_id: Any) -> int | None:
    try:
        return approved(cast, submission_id).serial
    except Refused:
        return None


def test_bulk_seed_makes_one_lot(cast: Cast) -> None:
    bulk = in_bulk()
    accession = approved(
        cast, waiting(cast, handling=bulk.handling, tallies=(), bulk=bulk.bulk, total_seeds=2400)
    )
    assert [(lot.label, lot.mother, lot.balance_seeds) for lot in lots(cast, accession)] == [("B", "", 2400)]


def test_seed_by_mother_of_which_none_gave_any_is_refused(cast: Cast) -> None:
    submission_id = waiting(cast, tallies=(Tally("A1", 30, 0),), total_seeds=10)
    with pytest.raises(Refused, match="No mother plant gave seed"):
        approved(cast, submission_id)
    assert stands(cast, submission_id).state is SubmissionState.HANDED_IN


def test_a_draft_cannot_be_approved(cast: Cast) -> None:
    with pytest.raises(Refused, match="draft"):
        approved(cast, begun(cast, set_scene(cast)))


def test_another_bank_s_curator_does_not_find_it(cast: Cast) -> None:
    with pytest.raises(NotFound):
        approved(cast, waiting(cast), curator="dora")
