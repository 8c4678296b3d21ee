"""The audit chain holds together, and shows when somebody has been at it."""

from __future__ import annotations

import pytest
from sqlalchemy import text

from hub.audit.actions import record
from hub.audit.queries import first_broken_link, history_of
from hub.audit.rules import Event
from tests.cast import Cast


def tell(cast: Cast, times: int) -> None:
    for number in range(times):
        with cast.work("cora") as work:
            record(work, Event.GROUP_MOVED, cast.fell_group, before={"n": number}, after={"n": number + 1})


def test_a_whole_chain_is_whole(cast: Cast) -> None:
    tell(cast, 4)
    with cast.everywhere() as work:
        assert first_broken_link(work) is None
        history = history_of(work, thing_kind="groups", thing_id=str(cast.fell_group.id))
    assert [entry.after["n"] for entry in history] == [1, 2, 3, 4]


@pytest.mark.parametrize(
    "meddle",
    [
        "update audit_entry set reason = 'something else' where serial = 2",
        """update audit_entry set after = '{"n": 7}' where serial = 2""",
        "delete from audit_entry where serial = 2",
        "delete from audit_entry where serial = 4",
        "delete from audit_head",
    ],
    ids=["a reason reworded", "a figure changed", "one taken out", "the last cut off", "the head removed"],
)
def test_meddling_shows(cast: Cast, meddle: str) -> None:
    """By bare SQL, as somebody would who has the database: the hub’s own sessions refuse it."""
    tell(cast, 4)
    with cast.everywhere() as work:
        work.db.execute(text(meddle))
    with cast.everywhere() as work:
        assert first_broken_link(work) is not None


def test_a_group_reads_only_its_own_history(cast: Cast) -> None:
    tell(cast, 2)
    with cast.work("alice") as work:
        assert len(history_of(work, thing_kind="groups", thing_id=str(cast.fell_group.id))) == 0
    with cast.work("dora") as work:
        assert history_of(work, thing_kind="groups", thing_id=str(cast.fell_group.id)) == []
