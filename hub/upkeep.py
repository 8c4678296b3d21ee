"""The steward's commands: the tables up to date, the audit chain verified, the first steward seated."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Mapping

from marshmallow import ValidationError
from sqlalchemy.exc import DBAPIError

from hub.audit.queries import first_broken_link
from hub.config import Misconfigured, Settings
from hub.db.work import House
from hub.groups.first_steward import open_steward
from hub.rights.scope import Scope
from hub.web.fields import Email
from hub.wiring import make_house

Verdict = tuple[bool, str]


def db_command(arguments: list[str]) -> int:
    """``hub db upgrade | check``: answers 0 when the tables are those of this version."""
    verbs = {"upgrade": upgraded, "check": compared}
    return answer("db", arguments, verbs, "change the tables, or only compare them")


def audit_command(arguments: list[str]) -> int:
    """``hub audit verify``: answers 0 when every entry follows from the one before it."""
    return answer("audit", arguments, {"verify": verified}, "reckon every link of the chain again")


def steward_command(arguments: list[str]) -> int:
    """``hub steward --email ADDRESS --name NAME``: prints a link at which they choose a password."""
    parser = argparse.ArgumentParser(prog="hub steward")
    parser.add_argument("--email", required=True, type=email_address, help="where the hub writes to")
    parser.add_argument("--name", required=True, help="what the steward is called on screen")
    options = parser.parse_args(arguments)
    return told(lambda house: (True, seated(house, options.email, options.name)))


def email_address(typed: str) -> str:
    """The address as the pages take it."""
    try:
        return str(Email(required=True).deserialize(typed))
    except ValidationError as wrong:
        raise argparse.ArgumentTypeError(str(wrong.messages[0])) from None


def seated(house: House, email: str, name: str) -> str:
    return f"Open this within 24 hours to choose a password:\n{open_steward(house, email, name)}"


def answer(
    command: str, arguments: list[str], verbs: Mapping[str, Callable[[House], Verdict]], help: str
) -> int:
    """Run the verb on the hub of these settings, print its verdict, and answer with an exit code."""
    parser = argparse.ArgumentParser(prog=f"hub {command}")
    parser.add_argument("verb", choices=verbs, help=help)
    return told(verbs[parser.parse_args(arguments).verb])


def told(verb: Callable[[House], Verdict]) -> int:
    """Do something to the hub of these settings, print what came of it, and answer with an exit code."""
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
