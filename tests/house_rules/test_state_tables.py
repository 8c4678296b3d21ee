"""Every table of moves covers its states whole, and every state has words for people."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from enum import StrEnum

import pytest

from hub.wiring import rooms
from hub.words import Words

TABLE = "_MOVES"
Moves = dict[StrEnum, frozenset[StrEnum]]


def tables() -> Iterator[tuple[str, Moves]]:
    for module in rooms("rules"):
        yield from ((name, table) for name, table in vars(module).items() if name.endswith(TABLE))


TABLES = dict(tables())


def test_the_features_keep_tables_of_moves() -> None:
    assert {"ADOPTION_MOVES", "PERMISSION_MOVES", "SUBMISSION_MOVES", "ACCESSION_MOVES"} <= TABLES.keys()


@pytest.mark.parametrize("name", TABLES)
def test_every_state_stands_in_its_table(name: str) -> None:
    table = TABLES[name]
    states = set(type(next(iter(table))))
    assert set(table) == states, "a state without a row has no way out that anybody decided"
    assert all(to <= states for to in table.values())


@pytest.mark.parametrize("name", TABLES)
def test_no_state_moves_to_itself(name: str) -> None:
    assert not [state for state, to in TABLES[name].items() if state in to]


@pytest.mark.parametrize("name", TABLES)
def test_every_state_can_be_reached_from_the_first(name: str) -> None:
    table = TABLES[name]
    first = next(iter(type(next(iter(table)))))
    reached, waiting = {first}, [first]
    while waiting:
        new = table[waiting.pop()] - reached
        reached |= new
        waiting += new
    assert reached == set(table), f"nothing leads to {set(table) - reached}"


@pytest.mark.parametrize("name", TABLES)
def test_every_state_has_words_for_people(name: str) -> None:
    wordless = [state for state in TABLES[name] if not spoken(state)]
    assert not wordless


def spoken(state: StrEnum) -> bool:
    """Words of its own, or a row in a table of words of its feature's pages."""
    if isinstance(getattr(state, "words", None), Words):
        return True
    feature = type(state).__module__.rpartition(".")[0]
    rooms("pages")  # imported, so that their tables are there to be looked at
    modules = [module for path, module in list(sys.modules.items()) if path.startswith(f"{feature}.")]
    tables = [table for module in modules for table in vars(module).values() if isinstance(table, dict)]
    return any(isinstance(table.get(state), Words) for table in tables)
