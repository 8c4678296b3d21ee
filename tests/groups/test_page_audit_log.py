"""The audit log: a bank's own to its curators, all of it to the steward, readable, narrowed, and verified."""

from __future__ import annotations

import csv
import io

import pytest
from sqlalchemy import func, select, text

from hub.audit.models import AuditEntry
from hub.audit.rules import Event
from hub.groups.audit_log import SUBJECTS
from hub.groups.event_words import EVENT_WORDS, SUBJECT_WORDS
from hub.rights.policy import may
from hub.rights.right import Right
from tests.cast import Cast
from tests.support.browser import Browse
from tests.taxa.garden import ARNICA, plant

PATH = "/audit"
EVERYBODY = ("alice", "bob", "charlie", "eve", "cora", "tess", "dora", "olga", "stan")


def test_every_event_has_its_words() -> None:
    assert {str(event) for event in Event} <= set(EVENT_WORDS)
    assert set(SUBJECTS) <= set(SUBJECT_WORDS)


@pytest.mark.parametrize("name", EVERYBODY)
def test_it_is_for_those_whom_the_policy_names(browse: Browse, cast: Cast, name: str) -> None:
    allowed = may(cast.scope(name), Right.AUDIT_READ)
    assert allowed == (name in ("cora", "dora", "stan"))
    browse(name).get(PATH, 200 if allowed else 403)
    browse(name).post(f"{PATH}/verify", status=303 if allowed else 403)


def test_visitors_sign_in(browse: Browse) -> None:
    assert browse().get(PATH, status=302).location.startswith("/sign-in")


def test_a_bank_reads_its_own_and_the_steward_all(browse: Browse, cast: Cast) -> None:
    plant(cast, ARNICA)
    seen = {name: browse(name).get(PATH).main for name in ("cora", "dora", "stan")}
    assert "Species added" not in seen["dora"]
    assert "Species added" in seen["cora"]
    assert "Cora" in seen["cora"]
    assert "Species added" in seen["stan"]


def test_it_costs_two_questions_however_long_the_chain(browse: Browse, cast: Cast) -> None:
    window = browse("cora")
    for names in ((ARNICA,), [f"Genus species{chr(97 + at // 26)}{chr(97 + at % 26)}" for at in range(60)]):
        plant(cast, *names)
        page = window.get(PATH)
        assert len(window.queries) == 2  # who asks, the page of the list
    (after,) = {link for link in page.links if "at=" in link}
    assert "Species added" in window.get(after).main


@pytest.mark.parametrize(
    ("query", "found"),
    [
        ({}, True), ({"subject": "taxon"}, True), ({"subject": "site"}, False), ({"search": "cora"}, True),
        ({"search": "alice"}, False), ({"search": "%"}, False), ({"since": "2031-07-14"}, True),
        ({"since": "2031-07-15"}, False), ({"until": "2031-07-14"}, True), ({"until": "2031-07-13"}, False),
        ({"since": "soon"}, True), ({"sort": "oldest"}, True), ({"subject": "nonsense"}, False),
    ],
)  # fmt: skip
def test_it_is_narrowed(browse: Browse, cast: Cast, query: dict[str, str], found: bool) -> None:
    plant(cast, ARNICA)
    page = browse("cora").get(PATH, **query).main
    assert ("Species added" in page) == found
    assert found or "No entry is like that" in page


def test_the_file_holds_every_entry_with_its_digest(browse: Browse, cast: Cast) -> None:
    plant(cast, ARNICA)
    file = browse("stan").get(PATH, **{"as": "csv"}).html.removeprefix("\ufeff")
    rows = list(csv.DictReader(io.StringIO(file)))
    with cast.everywhere() as work:
        digests = set(work.db.scalars(select(AuditEntry.digest)))
    assert {row["Digest"] for row in rows} == digests
    assert {row["What"] for row in rows} >= {"taxon:added"}


def test_a_whole_chain_is_said_to_be_whole(browse: Browse, cast: Cast) -> None:
    plant(cast, ARNICA)
    window = browse("cora")
    assert "Verified: the digest of" in window.get(PATH).main
    assert "Chain verified" in window.follow(window.press(PATH, f"{PATH}/verify")).main


def test_a_changed_entry_is_told_on_its_page_and_by_the_chain(browse: Browse, cast: Cast) -> None:
    plant(cast, ARNICA)
    with cast.everywhere() as work:
        serial = work.db.scalar(select(func.max(AuditEntry.serial)))
        meddle = text("update audit_entry set reason = 'never' where serial = :serial")
        work.db.execute(meddle, {"serial": serial})
    window = browse("cora")
    assert f"not as they were written: {serial}" in window.get(PATH).main
    assert f"broken at entry {serial}" in window.follow(window.press(PATH, f"{PATH}/verify")).main


def test_a_taken_out_entry_breaks_the_chain_of_another_bank_too(browse: Browse, cast: Cast) -> None:
    plant(cast, ARNICA)
    with cast.everywhere() as work:
        work.db.execute(text("delete from audit_entry where serial = 1"))
    window = browse("dora")
    assert "broken at entry" in window.follow(window.press(PATH, f"{PATH}/verify")).main
