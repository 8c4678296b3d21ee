"""One submission on the bench: what a curator sees of it, and what a verdict does."""

from __future__ import annotations

from dataclasses import replace
from uuid import uuid4

import pytest

from hub.vetting import actions, queries
from hub.vetting.collection import Tally
from hub.vetting.rules import FindingState, PhotographKind, Severity, SubmissionState
from hub.web.uploads.exif import Position
from tests.vetting.pictures import picture_of
from tests.vetting.reading import lines, ticked
from tests.vetting.scene import begun, collection, handed_in, in_bulk, sent_back, set_scene, stands


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def at(submission_id, page=""):
    return f"/bench/{submission_id}/{page}".rstrip("/")


def open_of(cast, submission_id):
    with cast.work("cora") as work:
        found = queries.findings(work, queries.get(work, submission_id))
        return [each for each in found if each.state is FindingState.OPEN]


def with_pictures(cast, scene):
    """A collection with a photograph of the plant 100 m north, and one without any position."""
    submission_id = begun(cast, scene)
    with cast.work("alice") as work:
        for kind, place in (
            (PhotographKind.PLANT, Position(47.8009, -28.2)),
            (PhotographKind.DIAGNOSTIC, None),
        ):
            actions.add_photograph(
                work,
                submission_id=submission_id,
                kind=kind,
                upload=picture_of(position=place),
                caption="by us",
            )
        actions.hand_in(work, submission_id=submission_id, data=collection())
    return submission_id


def test_everything_that_a_verdict_needs_is_on_one_page(browse, cast, scene):
    page = browse("cora").get(at(with_pictures(cast, scene)))
    for words in (
        "5 days left",
        "Photographs asked for",
        "Not among the photographs",
        "Figures and source",
        "Source: ",
        "100 m from the place given",
        "no position",
        scene.sheet.number,
        "At most 10% of the ripe fruits of any one plant.",
        "60 mothers",
        "None gave more than its share",
        "Day of collecting12 July 2031",
        "Handed in 14 Jul 2031",
    ):
        assert words in page.main
    assert "<svg" in page.html
    assert "What changed" not in page.main


def test_a_mother_that_gave_too_much_is_pointed_out(browse, cast, scene):
    rows = (Tally("A1", 40, 12, 40), Tally("A2", None, 2, 40), *collection().tallies[2:])
    page = browse("cora").get(at(handed_in(cast, scene, tallies=rows)))
    assert "1 gave too much" in page.main
    assert "A1 | 40 | 12 | 4 | 30% too much | 40" in lines(page)
    assert "A2 | – | 2 | – | not known | 40" in lines(page)
    assert "12 of 40 ripe fruits were taken from plant A1; the sheet allows 4." in page.main


def test_seed_in_bulk_has_no_table_of_mothers(browse, cast, scene):
    submission_id = begun(cast, scene)
    with cast.work("alice") as work:
        actions.hand_in(work, submission_id=submission_id, data=in_bulk())
    assert "Tally of each mother" not in browse("cora").get(at(submission_id)).html


def test_a_new_revision_shows_what_changed_and_what_was_said(browse, cast, scene):
    submission_id = sent_back(cast, scene, "Please count again.")
    with cast.work("alice") as work:
        actions.hand_in(work, submission_id=submission_id, data=collection(plants_seen=610))
    page = browse("cora").get(at(submission_id))
    assert "Revision 2: 1 change" in page.main
    assert "Plants seen that day | 600 plants | 610 plants" in lines(page)
    assert "Please count again." in page.main
    assert "Returned 14 Jul 2031, 09:30, Cora" in page.main


def test_findings_are_resolved_overruled_and_opened_again(browse, cast, scene):
    submission_id = handed_in(cast, scene, voucher=None)
    stop, *others = open_of(cast, submission_id)
    cora = browse("cora")
    assert "It cannot be approved while 1 stop is open" in cora.get(at(submission_id)).main

    def settle(state, reason=""):
        fields = {"finding_ids": [str(stop.id)], "state": state, "reason": reason}
        return cora.follow(cora.post(at(submission_id, "findings"), fields))

    assert "1 finding is overruled." in (page := settle("overruled", "The herbarium has a sheet of it.")).text
    assert "Reason: The herbarium has a sheet of it." in page.main
    assert "It cannot be approved" not in page.main
    assert "1 finding is open again." in settle("open").text
    assert "1 finding is resolved." in settle("resolved").text
    assert stands(cast, submission_id).open_stops == 0
    assert len(open_of(cast, submission_id)) == len(others)


def test_overruling_without_a_reason_keeps_what_was_ticked(browse, cast, scene):
    submission_id = handed_in(cast, scene)
    found = open_of(cast, submission_id)[0]
    fields = {"finding_ids": [str(found.id)], "state": "overruled", "reason": ""}
    page = browse("cora").post(at(submission_id, "findings"), fields, status=422)
    assert "Please say why" in page.beside("reason")
    assert ticked(page) == [str(found.id)]


def test_a_finding_of_another_submission_is_not_found_here(browse, cast, scene):
    one, other = handed_in(cast, scene), handed_in(cast, scene)
    fields = {"finding_ids": [str(open_of(cast, other)[0].id)], "state": "resolved"}
    browse("cora").post(at(one, "findings"), fields, status=404)


def test_the_way_along_the_queue(browse, cast, scene):
    ids = sorted(handed_in(cast, scene) for _ in range(3))
    cora = browse("cora")
    first, middle, last = (cora.get(at(each)).links for each in ids)
    assert at(ids[1]) in first
    assert {at(ids[0]), at(ids[2])} <= set(middle)
    assert at(ids[1]) in last
    assert at(ids[2]) not in first


def test_a_return_tells_the_group_what_was_chosen(browse, cast, scene):
    submission_id = handed_in(cast, scene, identified_by="")
    named = next(each for each in open_of(cast, submission_id) if each.check == "identity_named")
    cora = browse("cora")
    asked = cora.get(at(submission_id, "return"))
    graver = [each for each in open_of(cast, submission_id) if each.severity is not Severity.NOTE]
    assert set(ticked(asked)) == {str(each.id) for each in graver}
    fields = {"remarks": "Who was it?", "finding_ids": [str(named.id)]}
    after = cora.post(at(submission_id, "return"), fields)
    assert after.location == "/bench"
    assert "went back to its group" in cora.follow(after).text
    assert stands(cast, submission_id).state is SubmissionState.RETURNED
    alice = browse("alice").get(f"/hand-ins/{submission_id}").main
    assert "Who was it?" in alice
    assert "Nobody is named who identified the plants." in alice
    assert "Not among the photographs" not in alice
    assert "Shown to the group" in cora.get(at(submission_id)).main


def test_after_a_verdict_comes_the_next(browse, cast, scene):
    first, second = sorted(handed_in(cast, scene) for _ in range(2))
    answer = browse("cora").post(at(first, "return"), {"remarks": "Please look again."})
    assert answer.location == at(second)


def test_declining_asks_first_and_gives_the_reason(browse, cast, scene):
    submission_id = handed_in(cast, scene)
    cora = browse("cora")
    assert "This cannot be undone" in cora.get(at(submission_id, "decline")).main
    assert stands(cast, submission_id).state is SubmissionState.HANDED_IN
    cora.fill(
        at(submission_id, "decline"), action=at(submission_id, "decline"), reason="All of it is mouldy."
    )
    assert stands(cast, submission_id).state is SubmissionState.DECLINED
    assert "All of it is mouldy." in browse("alice").get(f"/hand-ins/{submission_id}").main
    page = cora.get(at(submission_id))
    assert "Return with remarks" not in page.main
    assert "Resolve" not in page.main


@pytest.mark.parametrize(("page", "box"), [("return", "remarks"), ("decline", "reason")])
def test_a_verdict_without_words_is_sent_back(browse, cast, scene, page, box):
    submission_id = handed_in(cast, scene)
    cora = browse("cora")
    for nothing in ({}, {box: "  "}):
        answer = cora.post(at(submission_id, page), nothing, status=422)
        assert answer.beside(box)
    assert stands(cast, submission_id).state is SubmissionState.HANDED_IN


def test_what_does_not_wait_is_not_sent_back(browse, cast, scene):
    submission_id = sent_back(cast, scene)
    answer = browse("cora").post(at(submission_id, "return"), {"remarks": "Once more."}, status=422)
    assert "it waits for the group" in answer.text


def test_what_never_comes_back_can_be_declined(browse, cast, scene):
    """A group that has thrown the seed away will not hand it in again."""
    submission_id = sent_back(cast, scene)
    cora = browse("cora")
    main = cora.get(at(submission_id)).main
    assert "Decline" in main
    assert "Return with remarks" not in main
    cora.fill(at(submission_id, "decline"), action=at(submission_id, "decline"), reason="Thrown away.")
    assert stands(cast, submission_id).state is SubmissionState.DECLINED


def test_the_technician_reads_and_decides_nothing(browse, cast, scene):
    submission_id = handed_in(cast, scene)
    tess = browse("tess")
    page = tess.get(at(submission_id)).main
    assert "Photographs asked for" in page
    assert not {"Approve", "Resolve", "Decline"} & set(page.split())
    for verdict in ("return", "decline"):
        tess.get(at(submission_id, verdict), status=403)
        tess.post(at(submission_id, verdict), {}, status=403)
    tess.post(at(submission_id, "findings"), {}, status=403)


def test_who_may_open_it(browse, cast, scene):
    submission_id = handed_in(cast, scene)
    for name, status in (("alice", 403), ("charlie", 403), ("olga", 403), ("stan", 403), ("dora", 404)):
        browse(name).get(at(submission_id), status=status)
    dora, cora = browse("dora"), browse("cora")
    for page in ("return", "decline", "findings"):
        dora.post(at(submission_id, page), {"remarks": "x", "reason": "x", "state": "open"}, status=None)
    assert stands(cast, submission_id).state is SubmissionState.HANDED_IN
    cora.get(at(uuid4()), status=404)
    cora.get(at(begun(cast, scene)), status=404)
    cora.post(at(submission_id), status=405)
    cora.get(at(submission_id, "findings"), status=405)


def test_the_queries_of_one_page_do_not_grow_with_what_is_on_it(browse, cast, scene):
    cora = browse("cora")
    cora.get(at(handed_in(cast, scene)))
    few = len(cora.queries)
    cora.get(at(with_pictures(cast, scene)))
    assert len(cora.queries) == few == 15


def test_an_unknown_check_goes_by_its_id(browse, cast, scene):
    submission_id = handed_in(cast, scene)
    with cast.everywhere() as work:
        found = queries.findings(work, queries.get(work, submission_id))[0]
        found.check = "a_check_of_yore"
    assert "a_check_of_yore" in browse("cora").get(at(submission_id)).main


def test_a_hundred_mothers_are_shown_folded(browse, cast, scene):
    rows = tuple(replace(each, flag=f"B{at}") for at, each in enumerate(collection().tallies))
    assert (
        '<details class="mothers"><summary>'
        in browse("cora").get(at(handed_in(cast, scene, tallies=rows))).html
    )
