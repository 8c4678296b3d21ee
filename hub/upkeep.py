"""The steward's commands: ``hub db`` keeps the tables up to date, ``hub audit`` verifies the chain."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Mapping

from sqlalchemy.exc import DBAPIError

from hub.audit.queries import first_broken_link
from hub.config import Misconfigured, Settings
from hub.db.work import House
from hub.rights.scope import Scope
from hub.wiring import make_house

Verdict = tuple[bool, str]


def db_command(arguments: list[str]) -> int:
    """``hub db upgrade | check``: answers 0 when the tables are those of this version."""
    verbs = {"upgrade": upgraded, "check": compared}
    return answer("db", arguments, verbs, "change the tables, or only compare them")


def audit_command(arguments: list[str]) -> int:
    """``hub audit verify``: answers 0 when every entry follows from the one before it."""
    return answer("audit", arguments, {"verify": verified}, "reckon every link of the chain again")


def answer(
    command: str, arguments: list[str], verbs: Mapping[str, Callable[[House], Verdict]], help: str
) -> int:
    """Run the verb on the hub of these settings, print its verdict, and answer with an exit code."""
    parser = argparse.ArgumentParser(prog=f"hub {command}")
    parser.add_argument("verb", choices=verbs, help=help)
    verb = verbs[parser.parse_args(arguments).verb]
    try:
        house = make_house(Settings.from_environment())
        good, sentence = verb(house)
        house.engine.dispose()
    except Misconfigured as refusal:
        good, sentence = False, str(refusal)
    except DBAPIError as error:
        good, sentence = False, f"The database answers: {error.orig}. Are its address and its tables right?"
    print(f"hub: {sentence}", file=sys.stdout if good else sys.stderr)
    return 0 if good else 1


def upgraded(house: House) -> Verdict:
    """Run the migrations that this database has not seen."""
    from hub.db import migrate  # half a second, which only this command needs to spend

    migrate.upgrade(house.engine)
    return True, "The tables are up to date."


def compared(house: House) -> Verdict:
    """Whether the tables are those that this version works with."""
    from hub.db import migrate

    count = len(migrate.differences(house.engine))
    if count:
        return False, f"The tables differ from this version’s in {count} places. Run “hub db upgrade”."
    return True, "The tables are those of this version."


def verified(house: House) -> Verdict:
    """Whether the record of who did what is whole."""
    with house.work(Scope.everyone(because="a steward verifies the chain"), reads_only=True) as work:
        serial = first_broken_link(work)
    if serial is not None:
        return False, f"The chain is broken at entry {serial}: it, or what stood there, was changed."
    return True, "The chain is whole."
