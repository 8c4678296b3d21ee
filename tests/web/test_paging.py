"""Walking a list page by page shows every row exactly once, in order, forwards and back."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from uuid import UUID
from zoneinfo import ZoneInfo

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Numeric, create_engine, select
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column
from werkzeug.exceptions import BadRequest

from hub.config import Settings
from hub.db.base import Moment
from hub.db.keyset import in_order
from hub.db.tenancy import ScopedSession
from hub.db.work import Work
from hub.rights.scope import Scope
from hub.web.paging import page_of

NOON = datetime(2026, 6, 1, 12, 0, tzinfo=UTC)


class Base(DeclarativeBase):
    pass


class Thing(Base):
    __tablename__ = "paged_thing"
    __table_args__ = {"prefixes": ["TEMPORARY"]}

    id: Mapped[UUID] = mapped_column(primary_key=True)
    name: Mapped[str]
    day: Mapped[date | None]
    seen: Mapped[datetime] = mapped_column(Moment)
    mass: Mapped[Decimal | None] = mapped_column(Numeric(8, 2))


ORDERS = {
    "name": (Thing.name, Thing.id),
    "newest": (Thing.day.desc(), Thing.name.asc(), Thing.id.desc()),
    "day": (Thing.day, Thing.mass.desc(), Thing.id),
    "seen": (Thing.seen.desc(), Thing.id),
}
things = st.builds(
    Thing,
    id=st.uuids(),
    name=st.sampled_from(["Poa", "Carex", "Ézé", "carex"]),
    day=st.none() | st.dates(date(2026, 1, 1), date(2026, 1, 4)),
    seen=st.sampled_from([NOON + timedelta(seconds=each) for each in range(3)]),
    mass=st.none() | st.decimals(0, 2, places=1),
)


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def work(request, tmp_path_factory):
    """Work over one temporary table, on each kind of database in turn."""
    url = "sqlite://"
    if request.param == "postgresql":
        url = request.getfixturevalue("private_server").url("postgres")
    engine = create_engine(url)
    options = Settings(tmp_path_factory.mktemp("paging"), url, "key")
    with engine.connect() as connection:
        Base.metadata.create_all(connection)
        connection.commit()
        with ScopedSession.of(Scope.everyone(because="a list of its own"), bind=connection) as session:
            yield Work(session, session.scope, NOON, options, None, ZoneInfo("UTC"))
    engine.dispose()


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(
    rows=st.lists(things, max_size=14, unique_by=lambda thing: thing.id),
    order=st.sampled_from(sorted(ORDERS)),
    size=st.integers(1, 5),
)
def test_every_row_comes_once_in_order_forwards_and_back(work, rows, order, size):
    work.db.rollback()
    work.db.add_all(rows)
    work.db.flush()
    by = ORDERS[order]
    whole = [thing.id for thing in work.db.scalars(in_order(select(Thing), by))]
    pages = list(forwards(work, by, size))
    assert [thing.id for page in pages for thing in page.items] == whole
    assert all(len(page.items) == size for page in pages[:-1])
    back, page = [], pages[-1]
    while page.previous:
        page = page_of(work, select(Thing), by, at=page.previous, size=size)
        back.append([thing.id for thing in page.items])
    assert back[::-1] == [[thing.id for thing in page.items] for page in pages[:-1]]


def forwards(work, by, size):
    page = page_of(work, select(Thing), by, size=size)
    yield page
    while page.next:
        page = page_of(work, select(Thing), by, at=page.next, size=size)
        yield page


def test_empty_values_come_last_in_both_directions(work):
    work.db.rollback()
    for at, day in enumerate([None, date(2026, 1, 2), date(2026, 1, 1)]):
        work.db.add(Thing(id=UUID(int=at), name="Poa", day=day, seen=NOON))
    up = page_of(work, select(Thing), (Thing.day, Thing.id)).items
    down = page_of(work, select(Thing), (Thing.day.desc(), Thing.id)).items
    assert [thing.day for thing in up] == [date(2026, 1, 1), date(2026, 1, 2), None]
    assert [thing.day for thing in down] == [date(2026, 1, 2), date(2026, 1, 1), None]


def test_a_statement_of_several_things_gives_rows_with_names(work):
    work.db.rollback()
    work.db.add(Thing(id=UUID(int=9), name="Poa", day=None, seen=NOON))
    (row,) = page_of(work, select(Thing, Thing.name.label("called")), (Thing.name, Thing.id)).items
    assert row.called == "Poa"
    assert row.Thing.id == UUID(int=9)


@given(cursor=st.text(max_size=80))
def test_no_cursor_can_be_made_up(work, cursor):
    if cursor:
        with pytest.raises(BadRequest):
            page_of(work, select(Thing), (Thing.id,), at=cursor)


def test_a_cursor_of_another_order_is_refused(work):
    work.db.rollback()
    work.db.add_all(Thing(id=UUID(int=at), name="Poa", day=None, seen=NOON) for at in range(3))
    cursor = page_of(work, select(Thing), (Thing.name, Thing.id), size=1).next
    with pytest.raises(BadRequest):
        page_of(work, select(Thing), (Thing.seen, Thing.id), at=cursor)
