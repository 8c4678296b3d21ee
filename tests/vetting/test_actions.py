"""Begin, keep, hand in, send back, decline: what each verb leaves in the store, on both databases."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from uuid import uuid4

import pytest
from sqlalchemy import select

from hub.accounts.models import Letter
from hub.audit.models import AuditEntry
from hub.collecting.queries import balance, taken_under
from hub.db.numbering import is_whole
from hub.groups.models import Crew
from hub.groups.rules import AgeBand
from hub.protocols.actions import withdraw as withdraw_sheet
from hub.vetting import actions, queries
from hub.vetting.rules import FindingState, RemarkKind, Severity, SubmissionState, Urgency
from hub.words import NotFound, Refused
from tests.vetting.scene import TODAY, begun, collection, handed_in, sent_back, set_scene, stands

RESERVED = 10_000  # what the bank needs of a common plant: less than half of the allowance of 24,000
CUT = 10
TAKEN = 2400 + CUT


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def hand_in(cast, submission_id, name="alice", **changes):
    with cast.work(name) as work:
        return actions.hand_in(work, submission_id=submission_id, data=collection(**changes))


def taken(cast, scene):
    with cast.everywhere() as work:
        return taken_under(work, scene.sheet.id)


def letters(cast, word):
    with cast.everywhere() as work:
        return [letter for letter in work.db.scalars(select(Letter)) if word in letter.subject]


def test_numbers_run_on_within_a_group_and_end_in_a_check_character(cast, scene):
    numbers = [stands(cast, begun(cast, scene)).number for _ in range(2)]
    assert [number.rpartition("-")[0] for number in numbers] == ["FLG-2031-0001", "FLG-2031-0002"]
    assert all(is_whole(number) for number in numbers)


def test_beginning_twice_with_one_key_begins_once(cast, scene):
    assert begun(cast, scene, key="a key made with the page") == begun(
        cast, scene, key="a key made with the page"
    )


def test_nobody_begins_under_a_sheet_of_another_group(cast, scene):
    for stranger in ("charlie", "eve"):
        with pytest.raises(NotFound), cast.work(stranger) as work:
            actions.begin(work, sheet_id=scene.sheet.id, sent_key="k")


def test_handing_in_freezes_a_revision_and_enters_the_ledger(cast, scene):
    submission_id = begun(cast, scene)
    hand_in(cast, submission_id)
    found = stands(cast, submission_id)
    assert (found.state, found.revision, found.draft) == (SubmissionState.HANDED_IN, 1, {})
    assert found.urgency is Urgency.DRY
    assert found.deadline_at == cast.now - timedelta(days=2) + timedelta(hours=168 + 2, minutes=45)
    with cast.work("alice") as work:
        (revision,) = queries.revisions(work, submission_id)
        assert queries.collection_of(revision) == collection()
        kept = balance(work, population_id=scene.population_id, year=2031)
    assert taken(cast, scene) == kept.taken == TAKEN
    assert kept.reserved == RESERVED - TAKEN
    assert len(letters(cast, f"{found.number} was handed in")) == 1


def test_the_same_sent_again_changes_nothing(cast, scene):
    submission_id = handed_in(cast, scene)
    before = stands(cast, submission_id).version
    hand_in(cast, submission_id)
    assert stands(cast, submission_id).version == before
    assert taken(cast, scene) == TAKEN
    assert len(letters(cast, "was handed in")) == 1


def test_something_else_sent_again_is_refused(cast, scene):
    submission_id = handed_in(cast, scene)
    with pytest.raises(Refused, match="handed in already"):
        hand_in(cast, submission_id, total_seeds=1)
    assert taken(cast, scene) == TAKEN


@pytest.mark.parametrize(("seeds", "sum_taken"), [(3000, 3000 + CUT), (1000, TAKEN), (2400, TAKEN)])
def test_a_second_revision_enters_what_is_more_and_frees_nothing(cast, scene, seeds, sum_taken):
    submission_id = sent_back(cast, scene)
    hand_in(cast, submission_id, total_seeds=seeds)
    assert taken(cast, scene) == sum_taken
    with cast.work("alice") as work:
        totals = [queries.collection_of(each).total_seeds for each in queries.revisions(work, submission_id)]
    assert totals == [2400, seeds]


def test_seed_written_back_is_found_and_given_back_only_by_an_approval(cast, scene):
    submission_id = sent_back(cast, scene)
    hand_in(cast, submission_id, total_seeds=1000, tallies=())
    with cast.work("cora") as work:
        found = {each.check for each in queries.findings(work, queries.get(work, submission_id))}
        assert "taken_lowered" in found
    assert taken(cast, scene) == TAKEN
    approve_all_the_same(cast, submission_id)
    assert taken(cast, scene) == 1000 + CUT


def test_a_day_moved_to_another_year_leaves_the_first_until_it_is_approved(cast, scene):
    submission_id = sent_back(cast, scene)
    hand_in(cast, submission_id, collected_on=collection().collected_on.replace(year=2030))
    assert [taken_in(cast, scene, year) for year in (2030, 2031)] == [TAKEN, TAKEN]
    approve_all_the_same(cast, submission_id)
    assert [taken_in(cast, scene, year) for year in (2030, 2031)] == [TAKEN, 0]


def test_an_approved_revision_that_said_more_stays_as_it_is(cast, scene):
    submission_id = sent_back(cast, scene)
    hand_in(cast, submission_id, total_seeds=3000, tallies=())
    approve_all_the_same(cast, submission_id)
    assert taken(cast, scene) == 3000 + CUT


def approve_all_the_same(cast, submission_id):
    with cast.work("cora") as work:
        open_ones = [each.id for each in queries.findings(work, queries.get(work, submission_id))]
        actions.settle(work, finding_ids=open_ones, state=FindingState.OVERRULED, reason="A slip of the pen.")
        submission = queries.get(work, submission_id, locked=True)
        actions.move(work, submission=submission, to=SubmissionState.APPROVED)


def taken_in(cast, scene, year):
    with cast.everywhere() as work:
        return balance(work, population_id=scene.population_id, year=year).taken


def test_handing_in_under_a_sheet_that_holds_no_longer_is_possible_and_found(cast, scene):
    submission_id = begun(cast, scene)
    with cast.work("cora") as work:
        withdraw_sheet(work, sheet_id=scene.sheet.id, reason="The owner has sold the land.")
    hand_in(cast, submission_id)
    found = stands(cast, submission_id)
    assert found.state is SubmissionState.HANDED_IN
    assert found.open_stops + found.open_queries > 0


def test_a_day_to_come_and_another_s_crew_are_refused_beside_their_boxes(cast, scene):
    submission_id = begun(cast, scene)
    with pytest.raises(Refused) as refusal:
        hand_in(cast, submission_id, collected_on=TODAY + timedelta(days=1))
    assert refusal.value.field == "collected_on"
    with cast.work("charlie") as work:
        crew = Crew(
            group_id=cast.vale_school.id, bank_id=cast.fell_bank.id, nickname="Swifts", headcount=9,
            age_band=AgeBand.FROM_8, teacher_seat_id=cast.seats["charlie"].id,
        )  # fmt: skip
        work.db.add(crew)
    with pytest.raises(Refused) as refusal:
        hand_in(cast, submission_id, crew_id=str(crew.id))
    assert refusal.value.field == "crew_id"
    assert stands(cast, submission_id).state is SubmissionState.DRAFT


def test_two_writers_do_not_overwrite_each_other_unseen(cast, scene):
    submission_id = begun(cast, scene)
    seen = stands(cast, submission_id).version
    with cast.work("bob") as work:
        actions.save_draft(work, submission_id=submission_id, draft=[("notes", "Bob")], version=seen)
    with pytest.raises(Refused, match="Somebody else wrote"), cast.work("alice") as work:
        actions.save_draft(work, submission_id=submission_id, draft=[("notes", "Alice")], version=seen)
    with pytest.raises(Refused, match="changed after you looked"), cast.work("alice") as work:
        actions.hand_in(work, submission_id=submission_id, data=collection(), version=seen)


def test_sending_back_tells_the_group_what_the_curator_chose(cast, scene):
    submission_id = handed_in(cast, scene, total_seeds=60_000)
    with cast.work("cora") as work:
        found = queries.findings(work, queries.get(work, submission_id))
        actions.send_back(
            work, submission_id=submission_id, remarks="Count again, please.", finding_ids=[found[0].id]
        )
    with cast.work("alice") as work:
        shared = queries.shared_findings(work, queries.get(work, submission_id))
        (remark,) = queries.remarks(work, submission_id)
    assert [each.id for each in shared] == [found[0].id]
    assert (remark.kind, remark.text, remark.by_name, remark.from_bank) == (
        RemarkKind.RETURN, "Count again, please.", "Cora", True,
    )  # fmt: skip
    (letter,) = letters(cast, "look at your collection")
    assert letter.to == "flg@cast.example"
    assert "Count again, please." in letter.body


def test_declining_needs_a_reason_and_leaves_the_ledger_alone(cast, scene):
    submission_id = handed_in(cast, scene)
    with pytest.raises(Refused) as refusal, cast.work("cora") as work:
        actions.decline(work, submission_id=submission_id, reason="  ")
    assert refusal.value.field == "reason"
    with cast.work("cora") as work:
        actions.decline(work, submission_id=submission_id, reason="Mouldy through and through.")
    assert stands(cast, submission_id).state is SubmissionState.DECLINED
    assert taken(cast, scene) == TAKEN
    assert "Mouldy through and through." in letters(cast, "cannot be banked")[0].body


def test_every_move_is_in_the_audit_chain(cast, scene):
    submission_id = sent_back(cast, scene)
    with cast.everywhere() as work:
        entries = work.db.scalars(select(AuditEntry).where(AuditEntry.thing_id == str(submission_id)))
        moves = [(each.before.get("state"), each.after.get("state")) for each in entries if each.before]
    assert moves == [("draft", "handed in"), ("handed in", "returned")]


def stopped(cast, scene):
    """A hand-in with an open stop: far more seeds than the population bears."""
    submission_id = handed_in(cast, scene, total_seeds=900_000)
    with cast.work("cora") as work:
        found = queries.findings(work, queries.get(work, submission_id))
    return submission_id, [each for each in found if each.severity is Severity.STOP]


def settle(cast, findings, state, reason="", name="cora"):
    with cast.work(name) as work:
        return actions.settle(work, finding_ids=[each.id for each in findings], state=state, reason=reason)


def test_a_stop_forbids_approval_until_it_is_settled_and_again_when_it_is_opened(cast, scene):
    submission_id, stops = stopped(cast, scene)
    assert stands(cast, submission_id).open_stops == len(stops) > 0
    with pytest.raises(Refused, match="still forbid"):
        approve(cast, submission_id)
    with pytest.raises(Refused, match="say why"):
        settle(cast, stops, FindingState.OVERRULED)
    assert settle(cast, stops, FindingState.OVERRULED, "Salvage.") == len(stops)
    assert stands(cast, submission_id).open_stops == 0
    assert settle(cast, stops, FindingState.OPEN) == len(stops)
    assert stands(cast, submission_id).open_stops == len(stops)
    settle(cast, stops, FindingState.RESOLVED)
    approve(cast, submission_id)
    with pytest.raises(Refused, match="approved this already"):
        settle(cast, stops, FindingState.OPEN)


def approve(cast, submission_id):
    with cast.work("cora") as work:
        found = queries.get(work, submission_id, locked=True)
        actions.move(work, submission=found, to=SubmissionState.APPROVED)


def test_findings_of_an_earlier_revision_and_of_another_bank_cannot_be_settled(cast, scene):
    submission_id, stops = stopped(cast, scene)
    with pytest.raises(NotFound):
        settle(cast, stops, FindingState.RESOLVED, name="dora")
    with cast.work("cora") as work:
        actions.send_back(work, submission_id=submission_id, remarks="Too many noughts?")
    hand_in(cast, submission_id, total_seeds=900)
    with pytest.raises(Refused, match="earlier revision"):
        settle(cast, stops, FindingState.RESOLVED)


def test_sharing_a_finding_of_another_submission_is_refused(cast, scene):
    stops = stopped(cast, scene)[1]
    other = handed_in(cast, scene)
    with pytest.raises(NotFound), cast.work("cora") as work:
        actions.send_back(work, submission_id=other, remarks="See here.", finding_ids=[stops[0].id])
    assert stands(cast, other).state is SubmissionState.HANDED_IN


def test_revisions_never_change_whatever_is_written_later(cast, scene):
    submission_id = sent_back(cast, scene)
    with cast.work("alice") as work:
        (before,) = queries.revisions(work, submission_id)
        actions.save_draft(work, submission_id=submission_id, draft=[("people", "1")])
    hand_in(cast, submission_id, people=1)
    with cast.work("alice") as work:
        first, second = queries.revisions(work, submission_id)
    assert (first.data, first.handed_in_at) == (before.data, before.handed_in_at)
    assert queries.collection_of(second) == replace(collection(), people=1)


def test_a_missing_submission_is_not_found(cast, scene):
    with pytest.raises(NotFound), cast.work("alice") as work:
        actions.withdraw(work, submission_id=uuid4())
