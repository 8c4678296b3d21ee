"""The first two fences: what one tenant asks never brings another's rows, however it is asked."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from sqlalchemy import delete, exists, func, select, text, union_all, update
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import aliased

from hub.config import Misconfigured
from hub.db.engine import make_engine
from hub.db.policies import refuse_a_mighty_role
from hub.db.tenancy import OutsideScope
from hub.db.work import House, Work
from hub.groups.models import Crew, Group
from tests.cast import Cast
from tests.support.databases import OWNER, PrivateServer

READS: dict[str, Callable[[Work], list[Any]]] = {
    "rows": lambda work: [crew.nickname for crew in work.db.scalars(select(Crew))],
    "a column": lambda work: list(work.db.scalars(select(Crew.nickname))),
    "an alias": lambda work: list(work.db.scalars(select(aliased(Crew).nickname))),
    "a subquery": lambda work: list(
        work.db.scalars(select(Crew.nickname).where(Crew.id.in_(select(aliased(Crew).id))))
    ),
    "a union": lambda work: list(
        work.db.scalars(union_all(select(Crew.nickname), select(Crew.nickname).where(Crew.headcount < 0)))
    ),
    "an outer join to an alias": lambda work: joined_to_alias(work),
    "a common table": lambda work: list(work.db.scalars(select(select(Crew.nickname).cte().c.nickname))),
    "an exists": lambda work: ["fells"] if work.db.scalar(select(exists(select(Crew)))) else [],
}


def joined_to_alias(work: Work) -> list[Any]:
    """Every crew beside one's own group: the alias is fenced where it is joined."""
    other = aliased(Crew)
    pairs = select(Group.name, other.nickname).outerjoin(other, other.headcount > 0)
    return [nickname for _, nickname in work.db.execute(pairs) if nickname]


@pytest.fixture
def crews(cast: Cast) -> Cast:
    """One crew in each of two groups of the same bank."""
    with cast.everywhere() as work:
        for group, seat, nickname in (
            (cast.fell_group, cast.seats["alice"], "fells"),
            (cast.vale_school, cast.seats["charlie"], "vales"),
        ):
            work.db.add(
                Crew(
                    group_id=group.id,
                    bank_id=group.bank_id,
                    nickname=nickname,
                    headcount=9,
                    age_band="9–11",
                    teacher_seat_id=seat.id,
                )
            )
    return cast


@pytest.mark.parametrize("how", READS)
def test_a_group_reads_its_own_rows_alone(crews: Cast, how: str) -> None:
    with crews.work("alice") as work:
        assert READS[how](work) == ["fells"]


@pytest.mark.parametrize("how", READS)
def test_another_banks_seat_reads_nothing(crews: Cast, how: str) -> None:
    with crews.work("dora") as work:
        assert READS[how](work) == []


def test_the_bank_reads_all_its_groups(crews: Cast) -> None:
    with crews.work("cora") as work:
        assert sorted(READS["rows"](work)) == ["fells", "vales"]


def test_counts_are_fenced(crews: Cast) -> None:
    with crews.work("alice") as work:
        assert work.db.scalar(select(func.count(Crew.id))) == 1
        assert work.db.scalar(select(func.sum(Crew.headcount))) == 9


def test_getting_by_key_is_fenced(crews: Cast) -> None:
    with crews.everywhere() as work:
        theirs = work.db.scalars(select(Crew.id).where(Crew.nickname == "vales")).one()
    with crews.work("alice") as work:
        assert work.db.get(Crew, theirs) is None


def test_changing_and_deleting_in_bulk_are_fenced(crews: Cast) -> None:
    with crews.work("alice") as work:
        work.db.execute(update(Crew).values(headcount=3))
    with crews.work("charlie") as work:
        work.db.execute(delete(Crew))
    with crews.everywhere() as work:
        assert work.db.execute(select(Crew.nickname, Crew.headcount)).all() == [("fells", 3)]


def test_adding_for_another_group_is_refused(crews: Cast) -> None:
    stray = Crew(
        group_id=crews.vale_school.id,
        bank_id=crews.fell_bank.id,
        nickname="strays",
        headcount=1,
        age_band="9–11",
        teacher_seat_id=crews.seats["alice"].id,
    )
    with pytest.raises(OutsideScope), crews.work("alice") as work:
        work.db.add(stray)


def test_a_group_and_a_bank_that_do_not_belong_together_are_refused(crews: Cast) -> None:
    with pytest.raises(DBAPIError), crews.everywhere() as work:
        work.db.add(
            Crew(
                group_id=crews.vale_school.id,
                bank_id=crews.far_bank.id,
                nickname="mixed",
                headcount=1,
                age_band="9–11",
                teacher_seat_id=crews.seats["charlie"].id,
            )
        )


@pytest.mark.parametrize("database_url", ["postgresql"], indirect=True)
@pytest.mark.parametrize("statement", ["select nickname from crew", "select count(*) from crew"])
def test_postgresql_fences_even_bare_sql(crews: Cast, statement: str) -> None:
    with crews.work("alice") as work:
        assert work.db.scalars(text(statement)).one() in ("fells", 1)
    with crews.work("dora") as work:
        assert work.db.scalars(text(statement)).all() in ([], [0])


@pytest.mark.parametrize("database_url", ["postgresql"], indirect=True)
def test_a_mighty_role_is_not_served(house: House, private_server: PrivateServer) -> None:
    """The tests' own server role is plain; the owner of the tables would see every tenant's rows."""
    refuse_a_mighty_role(house.engine)
    mighty = make_engine(private_server.url("postgres", OWNER))
    with pytest.raises(Misconfigured, match="plain role"):
        refuse_a_mighty_role(mighty)
    mighty.dispose()
