"""A curator says yes: asked first, one accession, one page that leads on."""

from __future__ import annotations

from datetime import time
from uuid import uuid4

import pytest

from hub.vetting.actions import seed_arrived
from hub.vetting.models import Submission
from hub.vetting.rules import SubmissionState
from tests.accessions.scene import waiting
from tests.cast import Cast
from tests.support.browser import Browse
from tests.support.letters import letters_to
from tests.vetting.scene import COLLECTED, begun, sent_back, set_scene, stands

QUERIES = 6
GOING_ON = {"without_arrival": "yes"}


def test_yes_makes_an_accession_and_offers_its_labels(cast: Cast, browse: Browse) -> None:
    path = f"/submissions/{waiting(cast)}/approve"
    cora = browse("cora")
    asks = cora.get(path)
    assert len(cora.queries) == QUERIES
    assert "This cannot be taken back." in asks.main
    result = cora.follow(cora.fill(path, remark="Beautifully kept apart.", without_arrival="yes"))
    assert result.heading.startswith("It is accession FELL-2031-0001-")
    assert "3 lots were made, about 240 seeds" in result.main
    assert any(link.endswith("/labels") for link in result.links)
    (letter,) = letters_to(cast, "flg@cast.example")[-1:]
    assert "thank you for accession FELL-2031-0001-" in letter.subject
    assert "Beautifully kept apart." in letter.body


def test_seed_that_nobody_has_seen_is_warned_of(cast: Cast, browse: Browse) -> None:
    submission_id, cora = waiting(cast), browse("cora")
    path = f"/submissions/{submission_id}/approve"
    asks = cora.get(path)
    assert "Nobody at the bank has noted that this seed arrived." in asks.main
    assert f"/bench/{submission_id}/arrival" in asks.links
    again = cora.fill(path, status=422, remark="Well done.")
    assert "tick that you go on without it" in again.beside("without_arrival")
    assert again.typed("remark") == "Well done."
    assert stands(cast, submission_id).state is SubmissionState.HANDED_IN
    with cast.work("tess") as work:
        seed_arrived(work, submission_id=submission_id, day=work.today, at=time(8), note="")
    asks = cora.get(path)
    assert "Nobody at the bank" not in asks.main
    assert "Mon, 14 Jul 2031, 08:00" in asks.main
    cora.fill(path)
    assert stands(cast, submission_id).state is SubmissionState.APPROVED


def test_the_group_s_word_is_shown_but_is_not_the_bank_s(cast: Cast, browse: Browse) -> None:
    submission_id = waiting(cast, reached_bank_on=COLLECTED)
    asks = browse("cora").get(f"/submissions/{submission_id}/approve")
    assert "The group says that it brought it on 12 July 2031." in asks.main
    assert "Nobody at the bank" in asks.main


def test_the_remark_reaches_the_group_with_its_hand_in(cast: Cast, browse: Browse) -> None:
    submission_id = waiting(cast)
    browse("cora").fill(f"/submissions/{submission_id}/approve", **GOING_ON, remark="Beautifully kept apart.")
    assert "Beautifully kept apart." in browse("alice").get(f"/hand-ins/{submission_id}").main


def test_asked_again_it_leads_to_the_one_there_is(cast: Cast, browse: Browse) -> None:
    path, cora = f"/submissions/{waiting(cast)}/approve", browse("cora")
    first = cora.fill(path, **GOING_ON).location
    assert cora.post(path).location == first
    assert cora.get(path, status=302).location == first


def test_an_open_stop_forbids_it_and_keeps_what_was_typed(cast: Cast, browse: Browse) -> None:
    submission_id, cora = waiting(cast), browse("cora")
    with cast.everywhere() as work:
        work.db.get_one(Submission, submission_id).open_stops = 2
    page = cora.fill(f"/submissions/{submission_id}/approve", status=422, remark="Well done.")
    assert "2 findings still forbid this" in page.problems[0]
    assert page.typed("remark") == "Well done."
    assert stands(cast, submission_id).state is SubmissionState.HANDED_IN


def test_what_does_not_wait_cannot_be_approved(cast: Cast, browse: Browse) -> None:
    scene = set_scene(cast)
    cora, returned = browse("cora"), sent_back(cast, scene)
    assert "does not wait for an answer" in cora.get(f"/submissions/{returned}/approve").main
    assert "sent this back" in cora.post(f"/submissions/{returned}/approve", status=422).problems[0]
    cora.get(f"/submissions/{begun(cast, scene)}/approve", status=404)


@pytest.mark.parametrize("typed", [{"remark": "x" * 2001}, {"surprise": "1"}])
def test_what_the_form_does_not_ask_for_changes_nothing(
    cast: Cast, browse: Browse, typed: dict[str, str]
) -> None:
    submission_id = waiting(cast)
    browse("cora").post(f"/submissions/{submission_id}/approve", typed, status=422)
    assert stands(cast, submission_id).state is SubmissionState.HANDED_IN


def test_only_the_bank_s_own_curator_may(cast: Cast, browse: Browse) -> None:
    path = f"/submissions/{waiting(cast)}/approve"
    for name in ("alice", "bob", "tess", "olga", "stan"):
        browse(name).get(path, status=403)
        browse(name).post(path, status=403)
    for name in ("dora",):
        browse(name).get(path, status=404)
        browse(name).post(path, status=404)
    assert browse().get(path, status=302).location.startswith("/sign-in")


def test_what_is_not_there(cast: Cast, browse: Browse) -> None:
    cora = browse("cora")
    for path in (f"/submissions/{uuid4()}/approve", f"/accessions/{uuid4()}/made"):
        cora.get(path, status=404)
    cora.post(f"/submissions/{uuid4()}/approve", status=404)
    cora.post(f"/accessions/{uuid4()}/made", status=405)
