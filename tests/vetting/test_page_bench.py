"""The queue: the most urgent first, filtered, searched, as a file, and read-only for the technician."""

from __future__ import annotations

from datetime import timedelta
from uuid import uuid4

import pytest
from sqlalchemy import text

from hub.db.work import Work
from hub.vetting import actions, queries
from hub.vetting.models import Submission
from hub.vetting.pages.bench_words import time_left
from hub.vetting.rules import SubmissionState, Urgency, rank_in_queue
from tests.cast import NOW
from tests.vetting.scene import handed_in, sent_back, set_scene, stands

BENCH = "/bench"


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def pressed(cast, submission_id, urgency, hours):
    """Make a submission’s seed so urgent, and due in so many hours."""
    with cast.everywhere() as work:
        submission = work.db.get_one(Submission, submission_id)
        submission.urgency, submission.urgency_rank = urgency, rank_in_queue(urgency, arrived=False)
        submission.deadline_at = None if hours is None else cast.now + timedelta(hours=hours)


def copies(cast, submission_id, times, state=SubmissionState.HANDED_IN):
    """More submissions like one, for long lists."""
    with cast.everywhere() as work:
        one = work.db.get_one(Submission, submission_id)
        known = {name: getattr(one, name) for name in Submission.__table__.columns.keys()}  # noqa: SIM118
        for at in range(times):
            own = {"id": uuid4(), "number": f"COPY-{at:03}-{state.value}", "sent_key": uuid4().hex}
            work.db.add(Submission(**{**known, **own, "state": state}))


def on_page(page):
    """The ids on the bench, from the top."""
    return [
        link.removeprefix("/bench/") for link in page.links if link.startswith("/bench/") and len(link) > 40
    ]


def test_what_waits_is_there_with_its_counts(browse, cast, scene):
    waiting = stands(cast, handed_in(cast, scene))
    page = browse("cora").get(BENCH)
    assert on_page(page) == [str(waiting.id)]
    for words in ("1 collection waits.", waiting.number, "Silene acaulis", "Fell Group", "5 days left"):
        assert words in page.main
    assert (waiting.open_stops, waiting.open_queries) == (0, 2)
    assert "2 queries" in page.main
    assert "1 note" in page.main
    assert "0 stops" not in page.main


def test_what_waits_is_counted_so_far_and_no_further(browse, cast, scene):
    first, cora = handed_in(cast, scene), browse("cora")
    copies(cast, first, queries.COUNTED - 1)
    assert "1,000 collections wait." in cora.get(BENCH).main
    copies(cast, first, 1, SubmissionState.RETURNED)
    assert "More than" not in cora.get(BENCH).main
    handed_in(cast, scene)
    assert "More than 1,000 collections wait." in cora.get(BENCH).main


def test_the_seed_that_cannot_wait_comes_first(browse, cast, scene):
    late, soon, damp, dry, endless = (handed_in(cast, scene) for _ in range(5))
    for each, urgency, hours in (
        (endless, Urgency.ALIVE, None),
        (dry, Urgency.DRY, 1),
        (damp, Urgency.DAMP, 30.5),
        (soon, Urgency.ALIVE, 2.5),
        (late, Urgency.ALIVE, -3.5),
    ):
        pressed(cast, each, urgency, hours)
    page = browse("cora").get(BENCH)
    assert on_page(page) == [str(each) for each in (late, soon, endless, damp, dry)]
    for words in ("3 hours over", "2 hours left", "30 hours left", "the sheet names no hours"):
        assert words in page.main
    assert page.main.index("3 hours over") < page.main.index("2 hours left")


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        (49, "2 days left"),
        (48, "2 days left"),
        (47.9, "47 hours left"),
        (1, "1 hour left"),
        (0, "0 hours left"),
        (-0.1, "0 hours over"),
        (-1, "1 hour over"),
        (-24, "24 hours over"),
        (-49, "2 days over"),
    ],
)
def test_the_time_left_is_said_in_whole_hours_or_days(hours, words):
    assert str(time_left(NOW + timedelta(hours=hours), NOW)) == words
    assert time_left(None, NOW) is None


def test_the_bench_is_filtered_and_searched(browse, cast, scene):
    waiting, back = handed_in(cast, scene), sent_back(cast, scene)
    stopped = handed_in(cast, scene, voucher=None)
    cora = browse("cora")
    every = {str(waiting), str(stopped)}

    def found(**asked):
        return set(on_page(cora.get(BENCH, **asked)))

    assert found() == found(search="fell gr") == found(taxon=scene.taxon_id) == every
    assert found(urgency="dry", group=cast.fell_group.id) == every
    assert found(state="returned") == found(state="returned", mine="yes") == {str(back)}
    assert found(open="stops") == {str(stopped)}
    assert found(open="queries") == {str(waiting)}
    assert found(search=stands(cast, waiting).number) == {str(waiting)}
    for nothing in ({"open": "clear"}, {"urgency": "alive"}, {"group": cast.vale_school.id}, {"search": "%"}):
        assert found(**nothing) == set()
    assert "None like that" in cora.get(BENCH, urgency="alive").main


def test_every_order_shows_everything(browse, cast, scene):
    every = {str(handed_in(cast, scene)) for _ in range(3)}
    cora = browse("cora")
    for order in queries.BENCH_ORDERS:
        assert set(on_page(cora.get(BENCH, sort=order))) == every


def test_orders_are_what_they_say(browse, cast, scene):
    clean, grave = handed_in(cast, scene), handed_in(cast, scene, voucher=None)
    cora = browse("cora")
    assert on_page(cora.get(BENCH, sort="gravest")) == [str(grave), str(clean)]
    assert on_page(cora.get(BENCH, sort="number-down")) == [str(grave), str(clean)]
    assert on_page(cora.get(BENCH, sort="number")) == [str(clean), str(grave)]


def test_nonsense_filters_are_left_out_and_said(browse, cast, scene):
    handed_in(cast, scene)
    page = browse("cora").get(BENCH, state="lost", urgency="1", taxon="x", open="&", sort="colour", at="")
    assert "“lost” cannot be used for State" in page.text
    browse("cora").get(BENCH, at="torn", status=400)


def test_a_long_queue_is_paged_by_key(browse, cast, scene):
    first = handed_in(cast, scene)
    copies(cast, first, 60)
    cora = browse("cora")
    page = cora.get(BENCH)
    after = next(link for link in page.links if "at=" in link)
    seen = on_page(page) + on_page(cora.get(after))
    assert len(on_page(page)) == 50
    assert len(set(seen)) == len(seen) == 61


def test_the_list_as_a_file(browse, cast, scene):
    number = stands(cast, handed_in(cast, scene)).number
    file = browse("cora").client.get(BENCH, query_string={"as": "csv"}).get_data(as_text=True)
    head, line, rest = file.split("\r\n")
    assert head.startswith("\ufeffNumber,Species,Population,Group,State,Seed")
    assert line.startswith(
        f"{number},Silene acaulis,SIL-ACA 01,Fell Group,Handed in,Dry,2031-07-19T12:15+00:00,,"
    )
    assert line.endswith(",2031-07-14T09:30+00:00,0,2,1")
    assert rest == ""


def test_an_empty_bench_says_so(browse, cast):
    assert "The bench is clear" in browse("cora").get(BENCH).main


def test_who_sees_the_bench(browse, cast, scene):
    waiting = str(handed_in(cast, scene))
    assert on_page(browse("tess").get(BENCH)) == [waiting]
    assert on_page(browse("dora").get(BENCH)) == []
    for name in ("alice", "bob", "eve", "olga", "stan"):
        browse(name).get(BENCH, status=403)
        browse(name).get(f"{BENCH}/findings", status=403)
    assert browse().get(BENCH, status=302).location.startswith("/sign-in")
    browse("cora").post(BENCH, status=405)


def test_the_queries_of_the_bench_do_not_grow(browse, cast, scene):
    first = handed_in(cast, scene)
    cora = browse("cora")
    cora.get(BENCH)
    few = len(cora.queries)
    copies(cast, first, 12)
    copies(cast, first, 30, SubmissionState.APPROVED)
    cora.get(BENCH)
    assert len(cora.queries) == few == 6


def test_decided_submissions_cost_the_queue_nothing(house, cast, scene):
    """The index on bank, state and urgency leads straight to what waits."""
    if house.engine.dialect.name != "sqlite":
        pytest.skip("on few rows PostgreSQL reads whole tables, whatever the index")
    with cast.work("cora") as work:
        plan = plan_of(work)
    assert "ix_submission_queue (bank_id=? AND state=?)" in plan
    assert "SCAN" not in plan


def plan_of(work: Work) -> str:
    """How SQLite goes about the first page of the queue."""
    from hub.db.keyset import in_order

    statement = in_order(queries.bench(work), queries.BENCH_ORDERS["urgent"]).limit(51)
    asked = statement.compile(work.db.get_bind(), compile_kwargs={"literal_binds": True})
    return " ".join(row[-1] for row in work.db.execute(text(f"EXPLAIN QUERY PLAN {asked}")))


def test_a_decision_takes_it_off_the_queue(browse, cast, scene):
    waiting = handed_in(cast, scene)
    with cast.work("cora") as work:
        actions.decline(work, submission_id=waiting, reason="mouldy")
    cora = browse("cora")
    assert on_page(cora.get(BENCH)) == []
    assert on_page(cora.get(BENCH, state="declined")) == [str(waiting)]
    assert "Decided by me" in cora.get(BENCH, state="declined").main
