"""Every operation, asked by programs of other tenants with this one's keys: as if nothing were there."""

from __future__ import annotations

from typing import Any
from uuid import UUID, uuid4

import pytest
from werkzeug.test import TestResponse

from hub.api.declared import operations
from hub.api.operation import Operation
from tests.api.conftest import Programs
from tests.api.program import Program
from tests.cast import Cast
from tests.house_rules.belongings import Belongings, gather_belongings

SHARED = frozenset({"taxon_id", "season_id", "district_id", "ecoregion_id", "region_id"})
STRANGERS = ("eve", "dora", "charlie", "olga")


@pytest.fixture
def belongings(cast: Cast) -> Belongings:
    return gather_belongings(cast)


def private(operation: Operation) -> bool:
    return any(kind == "uuid" and name not in SHARED for kind, name in operation.arguments)


def sent(program: Program, operation: Operation, ids: dict[str, UUID]) -> TestResponse:
    """The operation on some things, with a key, a tag and a body of the right shape where one is known."""
    path = operation.documented_path
    for kind, name in operation.arguments:
        value = {"uuid": str(ids.get(name, uuid4())), "int": "2031"}.get(kind, "FLG-2031-S01-X")
        path = path.replace(f"{{{name}}}", value)
    more: dict[str, Any] = {}
    if operation.takes is not None and not operation.multipart:
        more["json"] = operation.example or {"reason": "So."}
    headers = {} if operation.reads else {"Idempotency-Key": uuid4().hex, "If-Match": '"a tag"'}
    return program.send(operation.method, path, headers=headers, **more)


@pytest.mark.parametrize("stranger", STRANGERS)
def test_a_stranger_learns_and_changes_nothing(
    program: Programs, belongings: Belongings, stranger: str
) -> None:
    asking, before, swept = program(stranger), belongings.fingerprint(), 0
    for operation in filter(private, operations()):
        theirs, nobodys = sent(asking, operation, belongings.ids), sent(asking, operation, {})
        assert theirs.status_code == nobodys.status_code, f"{operation.name} tells {stranger}"
        assert theirs.status_code in (403, 404, 415, 422), f"{operation.name}: {theirs.status}"
        assert not belongings.told_in(theirs.get_data(as_text=True)), f"{operation.name} tells {stranger}"
        swept += 1
    assert swept > 50
    assert belongings.fingerprint() == before


def test_whoever_has_no_key_gets_nothing(program: Programs, belongings: Belongings) -> None:
    visitor = program()
    for operation in filter(private, operations()):
        assert sent(visitor, operation, belongings.ids).status_code == 401, operation.name


@pytest.mark.parametrize("stranger", STRANGERS)
def test_no_list_shows_a_stranger_anything(program: Programs, belongings: Belongings, stranger: str) -> None:
    asking = program(stranger)
    for operation in (each for each in operations() if each.paged and not each.arguments):
        answer = asking.send("GET", operation.path)
        assert answer.status_code in (200, 403), operation.name
        assert not belongings.told_in(answer.get_data(as_text=True)), f"{operation.name} tells {stranger}"


def test_the_group_itself_can_read_all_of_it(program: Programs, belongings: Belongings) -> None:
    """So that the sweep has something to find."""
    asking, told = program("alice"), ""
    for operation in filter(private, operations()):
        if operation.reads and not operation.binary:
            told += sent(asking, operation, belongings.ids).get_data(as_text=True)
    assert belongings.told_in(told)
