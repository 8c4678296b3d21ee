"""The salvage forms: opened with evidence, agreed, decided, and the evidence for those let in alone."""

from __future__ import annotations

import io
from datetime import timedelta

import pytest

from hub.sites import actions, queries
from hub.sites.models import Salvage
from tests.cast import Cast
from tests.sites.litany import (
    Browse,
    asks_to_sign_in,
    hides_from,
    is_missing,
    keeps_its_verbs,
    opens_to,
    refuses,
)
from tests.sites.scene import TODAY, opened

PDF = b"%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer <<>>\n%%EOF\n"


@pytest.fixture
def case(cast: Cast) -> Salvage:
    _, population = opened(cast)
    with cast.work("alice") as work:
        return actions.ask_salvage(
            work,
            population_id=population.id,
            evidence="Planning decision 17.",
            evidence_on=TODAY,
            loss_expected_on=TODAY + timedelta(days=30),
        )


def now(cast: Cast, case: Salvage) -> Salvage:
    with cast.work("cora") as work:
        return queries.get_salvage(work, case.id)


def test_the_litany_of_agreeing(browse: Browse, case: Salvage) -> None:
    path = f"/salvage/{case.id}/agree"
    opens_to(browse, path, ("alice", "cora"))
    hides_from(browse, path)
    refuses(browse, path, ("bob", "tess", "olga"))
    asks_to_sign_in(browse, path)
    is_missing(browse, "/salvage/{}/agree")
    keeps_its_verbs(browse, path)


def test_the_litany_of_deciding(browse: Browse, case: Salvage) -> None:
    path = f"/salvage/{case.id}/decide"
    opens_to(browse, path, ("cora",))
    hides_from(browse, path, ("dora",))
    refuses(browse, path, ("alice", "bob", "tess", "olga"))
    is_missing(browse, "/salvage/{}/decide")
    keeps_its_verbs(browse, path)


def test_a_case_is_opened_with_its_evidence(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    path = f"/populations/{population.id}/salvage"
    hides_from(browse, path)
    refuses(browse, path, ("bob", "tess"))
    typed = {"evidence": "Planning decision 17.", "evidence_on": "2031-07-01"}
    browse("alice").fill(path, **typed, evidence_file=(io.BytesIO(PDF), "plan.pdf"))
    with cast.work("alice") as work:
        opened_case = queries.newest_salvage(work, population.id)
    assert opened_case is not None
    evidence = f"/salvage/{opened_case.id}/evidence"
    assert browse("bob").get(evidence).answer.data == PDF
    hides_from(browse, evidence)
    page = browse("bob").get(f"/populations/{population.id}")
    assert "It waits for: the owner’s agreement, a curator’s approval." in page.main


@pytest.mark.parametrize(
    ("name", "typed", "sentence"),
    [
        ("evidence", "", "fill this in"),
        ("evidence_on", "2031-07-15", "still to come"),
        ("loss_expected_on", "soon", "day of the calendar"),
    ],
)
def test_what_is_no_evidence(browse: Browse, cast: Cast, name: str, typed: str, sentence: str) -> None:
    _, population = opened(cast)
    fields = {"evidence": "Planning decision 17.", "evidence_on": "2031-07-01", name: typed}
    page = browse("alice").fill(f"/populations/{population.id}/salvage", status=422, **fields)
    assert sentence in page.beside(name)


def test_both_words_approve_it(browse: Browse, cast: Cast, case: Salvage) -> None:
    window = browse("cora")
    answer = window.fill(f"/salvage/{case.id}/decide", decision="approve", reason="Seen on the ground.")
    assert "counts once the owner agrees" in window.follow(answer).text
    browse("alice").fill(f"/salvage/{case.id}/agree", on="2031-07-12")
    assert now(cast, case).state == "approved"


def test_nobody_decides_by_leaving_it_open(browse: Browse, cast: Cast, case: Salvage) -> None:
    page = browse("cora").fill(f"/salvage/{case.id}/decide", status=422, reason="Hm.")
    assert "choose one" in page.beside("decision")
    assert now(cast, case).decided_at is None


def test_a_decision_is_final_for_the_refused(browse: Browse, cast: Cast, case: Salvage) -> None:
    path = f"/salvage/{case.id}/decide"
    browse("cora").fill(path, decision="refuse", reason="The road was moved.")
    page = browse("cora").fill(path, status=422, decision="approve", reason="After all.")
    assert "decided already" in " ".join(page.problems)
    assert now(cast, case).state == "refused"


def test_without_evidence_of_its_own_there_is_nothing_to_fetch(browse: Browse, case: Salvage) -> None:
    browse("alice").get(f"/salvage/{case.id}/evidence", 404)


def test_its_questions_are_few(browse: Browse, case: Salvage) -> None:
    window = browse("cora")
    for name in ("agree", "decide"):
        window.get(f"/salvage/{case.id}/{name}")
        assert len(window.queries) == 3  # the caller, the case, the population
