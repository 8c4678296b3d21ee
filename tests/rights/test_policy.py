"""Who holds which right: the whole table, to be read by people and checked against the policy."""

from __future__ import annotations

from dataclasses import fields
from uuid import UUID

import pytest

from hub.rights.policy import POLICY, may
from hub.rights.right import Right
from hub.rights.scope import Role, Scope

SOMEBODY, SOMEWHERE = UUID(int=1), UUID(int=2)

SEATS = {
    "visitor": Scope.nobody(),
    "seatless": Scope(person_id=SOMEBODY),
    **{role.value: Scope(person_id=SOMEBODY, role=role, bank_id=SOMEWHERE) for role in Role},
}

# A cross where the seat holds the right.
GRID = """
right                visitor seatless lead member curator technician coordinator steward
public:read             x       x      x     x       x        x           x         x
account:own             .       x      x     x       x        x           x         x
group:read              .       .      x     x       x        .           .         .
group:manage            .       .      x     .       .        .           .         .
group:approve           .       .      .     .       x        .           .         x
bank:manage             .       .      .     .       x        .           .         .
hub:manage              .       .      .     .       .        .           .         x
audit:read              .       .      .     .       x        .           .         x
calculators:use         .       .      x     x       x        x           x         .
species:read            .       .      x     x       x        x           x         x
species:edit            .       .      .     .       x        .           .         .
wanted:edit             .       .      .     .       x        .           .         .
adoption:read           .       .      x     x       x        .           .         .
adoption:ask            .       .      x     .       .        .           .         .
adoption:decide         .       .      .     .       x        .           .         .
site:read               .       .      x     x       x        x           .         .
site:edit               .       .      x     .       x        .           .         .
site:share              .       .      .     .       x        .           .         .
permit:record           .       .      .     .       x        .           .         .
census:record           .       .      x     x       x        .           .         .
identity:verify         .       .      .     .       x        .           .         .
salvage:decide          .       .      .     .       x        .           .         .
sheet:read              .       .      x     x       x        x           .         .
sheet:issue             .       .      x     .       x        .           .         .
rule:override           .       .      .     .       x        .           .         .
submission:read         .       .      x     x       x        x           .         .
submission:write        .       .      x     x       .        .           .         .
submission:hand-in      .       .      x     .       .        .           .         .
submission:bench        .       .      .     .       x        x           .         .
submission:receive      .       .      .     .       x        x           .         .
submission:vet          .       .      .     .       x        .           .         .
accession:read          .       .      x     x       x        x           .         .
lot:read                .       .      .     .       x        x           .         .
lot:work                .       .      .     .       x        x           .         .
progress:read           .       .      x     x       x        x           x         x
progress:steer          .       .      .     .       x        .           x         .
"""

HEAD, *ROWS = [line.split() for line in GRID.strip().splitlines()]
CELLS = [
    (right, seat, mark == "x") for right, *marks in ROWS for seat, mark in zip(HEAD[1:], marks, strict=True)
]


@pytest.mark.parametrize(("right", "seat", "holds"), CELLS, ids=lambda value: str(value))
def test_each_seat_holds_what_the_grid_says(right: str, seat: str, holds: bool) -> None:
    assert may(SEATS[seat], Right(right)) is holds


def test_the_grid_shows_every_right_and_every_seat() -> None:
    assert [row[0] for row in ROWS] == [right.value for right in Right]
    assert HEAD[1:] == list(SEATS)


def test_every_right_has_its_row_in_the_policy() -> None:
    assert set(POLICY) == set(Right)
    assert all(POLICY.values())


def test_seeing_across_tenants_gives_no_right_by_itself() -> None:
    loud = Scope.everyone(because="a test")
    assert [right for right in Right if may(loud, right)] == [Right.PUBLIC_READ]


def test_rights_depend_on_the_role_and_not_on_the_place() -> None:
    bare = {field.name: None for field in fields(Scope) if field.name.endswith("_id")}
    for role in Role:
        here = Scope(**{**bare, "person_id": SOMEBODY}, role=role)
        there = Scope(SOMEBODY, role, SOMEWHERE, SOMEWHERE, SOMEWHERE)
        assert [may(here, right) for right in Right] == [may(there, right) for right in Right]
