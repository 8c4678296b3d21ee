"""Like findings of many submissions, settled together with one reason."""

from __future__ import annotations

from uuid import uuid4

import pytest
from sqlalchemy import select

from hub.vetting import actions
from hub.vetting.models import FindingRecord
from hub.vetting.rules import FindingState
from tests.vetting.reading import lines, ticked
from tests.vetting.scene import collection, handed_in, set_scene, stands

ALIKE = "/bench/findings"
NAMED = {"check": "identity_named", "severity": "query"}
HERE = f"{ALIKE}?check=identity_named&severity=query"
REASON = "The leader’s name stands on every voucher."


@pytest.fixture
def three(cast):
    """Three collections that name nobody who identified the plants."""
    scene = set_scene(cast)
    return [handed_in(cast, scene, identified_by="") for _ in range(3)]


def findings(cast, submissions, check="identity_named"):
    with cast.everywhere() as work:
        found = select(FindingRecord).where(
            FindingRecord.submission_id.in_(submissions), FindingRecord.check == check
        )
        return list(work.db.scalars(found.order_by(FindingRecord.id)))


def sent(found, state="resolved", reason=REASON, **changes):
    return {
        "finding_ids": [str(each.id) for each in found],
        "state": state,
        "reason": reason,
    } | changes


def test_what_is_open_is_gathered_by_check(browse, three):
    page = browse("cora").get(ALIKE)
    assert "Who identified the plants | Query | 3 | 3" in lines(page)
    severities = [line.split(" | ")[1] for line in lines(page) if line.count(" | ") == 3][1:]
    assert severities == sorted(severities, key=["Stop", "Query", "Note"].index)
    assert HERE in page.links


def test_each_is_shown_with_its_submission(browse, cast, three):
    page = browse("cora").get(ALIKE, **NAMED)
    assert page.heading == "Who identified the plants"
    for each in three:
        assert stands(cast, each).number in page.main
        assert f"/bench/{each}" in page.links
    assert page.main.count("Nobody is named who identified the plants.") == 3


def test_many_are_resolved_with_one_reason(browse, cast, three):
    found = findings(cast, three)
    before = {each: stands(cast, each).open_queries for each in three}
    cora = browse("cora")
    after = cora.follow(cora.post(HERE, sent(found[:2])))
    assert "2 findings are resolved." in after.text
    assert "Who identified the plants | Query | 1 | 1" in lines(after)
    settled = [each for each in findings(cast, three) if each.state is FindingState.RESOLVED]
    assert {each.id for each in settled} == {each.id for each in found[:2]}
    assert {each.reason for each in settled} == {REASON}
    fewer = {each: before[each] - stands(cast, each).open_queries for each in three}
    assert fewer == {each: int(each in {one.submission_id for one in found[:2]}) for each in three}


def test_overruling_asks_for_a_reason_and_keeps_the_ticks(browse, cast, three):
    found = findings(cast, three)
    page = browse("cora").post(HERE, sent(found[:2], "overruled", " "), status=422)
    assert "Please say why" in page.beside("reason")
    assert set(ticked(page)) == {str(each.id) for each in found[:2]}
    assert all(each.state is FindingState.OPEN for each in findings(cast, three))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"finding_ids": []}, "No finding is ticked."),
        ({"finding_ids": ["x"]}, "Please choose one of those offered."),
        ({"state": "lost"}, "Please choose one of those offered."),
        ({"strange": "1"}, "does not ask for “strange”"),
    ],
)
def test_bad_input_is_said_and_changes_nothing(browse, cast, three, changes, words):
    page = browse("cora").post(HERE, sent(findings(cast, three), **changes), status=422)
    assert words in page.text
    assert all(each.state is FindingState.OPEN for each in findings(cast, three))


@pytest.mark.parametrize(
    "where", [ALIKE, f"{ALIKE}?check=x&severity=grave", f"{ALIKE}?check=x&severity=stop"]
)
def test_a_torn_address_still_says_what_was_wrong(browse, cast, three, where):
    page = browse("cora").post(where, sent([]), status=422)
    assert "No finding is ticked." in page.main


def test_one_that_no_longer_waits_is_refused(browse, cast, three):
    found = findings(cast, three)
    with cast.work("cora") as work:
        actions.send_back(work, submission_id=three[0], remarks="Who was it?")
    page = browse("cora").post(HERE, sent(found), status=422)
    assert "it waits for the group" in page.text
    assert all(each.state is FindingState.OPEN for each in findings(cast, three))


def test_what_was_handed_in_again_is_not_settled_by_an_old_page(browse, cast, three):
    old = findings(cast, three[:1])
    with cast.work("cora") as work:
        actions.send_back(work, submission_id=three[0], remarks="Who was it?")
    with cast.work("alice") as work:
        actions.hand_in(work, submission_id=three[0], data=collection(identified_by="", plants_seen=601))
    assert "about an earlier revision" in browse("cora").post(HERE, sent(old), status=422).text
    assert browse("cora").get(ALIKE, **NAMED).main.count("Nobody is named") == 3


def test_nothing_open_says_so(browse, cast, three):
    assert "None of these is open" in browse("cora").get(ALIKE, check="gone", severity="note").main
    assert "Nothing is open" in browse("dora").get(ALIKE).main


def test_the_technician_reads_and_settles_nothing(browse, cast, three):
    page = browse("tess").get(ALIKE, **NAMED)
    assert page.main.count("Nobody is named") == 3
    assert "Resolve" not in page.main
    browse("tess").post(HERE, sent(findings(cast, three)), status=403)


def test_another_banks_findings_are_not_there(browse, cast, three):
    dora = browse("dora")
    assert "Nobody is named" not in dora.get(ALIKE, **NAMED).main
    dora.post(HERE, sent(findings(cast, three)), status=404)
    browse("cora").post(HERE, sent([], finding_ids=[str(uuid4())]), status=404)


def test_the_queries_do_not_grow(browse, cast, three):
    cora = browse("cora")
    cora.get(ALIKE, **NAMED)
    few = len(cora.queries)
    cora.post(HERE, sent(findings(cast, three)[:2]))
    cora.get(ALIKE, **NAMED)
    assert len(cora.queries) == few == 2
    cora.get(ALIKE)
    assert len(cora.queries) == 2
