"""The commands. Each is imported only when it is asked for, so that asking for help costs nothing."""

from __future__ import annotations

import importlib
import sys
from typing import NamedTuple


class Command(NamedTuple):
    """One command: the line that explains it, and where its ``function(arguments) -> exit code`` stands."""

    summary: str
    module: str
    function: str


COMMANDS = {
    "demo": Command("build the invented Halverin Vale and open it", "hub.serving", "demo_command"),
    "serve": Command("open the hub whose data stand in HUB_DATA", "hub.serving", "serve_command"),
    "sheet": Command(
        "print the protocol sheet of one case, without a database", "hub.protocols.command", "sheet_command"
    ),
    "compute": Command("answer one calculator from its inputs", "hub.calculators.command", "compute_command"),
    "steward": Command("seat the first person who runs the hub", "hub.upkeep", "steward_command"),
    "db": Command("bring the database to this version’s tables, or compare them", "hub.upkeep", "db_command"),
    "audit": Command("verify the chain of who did what", "hub.upkeep", "audit_command"),
    "messages": Command(
        "gather the texts for people and renew the translations", "hub.web.catalogue", "messages_command"
    ),
    "bench": Command("measure the speed of the hub against its bars", "hub.bench", "main"),
    "test": Command("run every check of a checkout; further words go to pytest", "hub.selfcheck", "main"),
}


def main(arguments: list[str] | None = None) -> int:
    """Run the command that the first word names; its exit code is the answer."""
    words = sys.argv[1:] if arguments is None else arguments
    if not words or words[0] in {"-h", "--help", "help"}:
        print(listing())
        return 0
    command = COMMANDS.get(words[0])
    if command is None:
        known = ", ".join(COMMANDS)
        print(f"hub: there is no command “{words[0]}”. The commands are: {known}.", file=sys.stderr)
        return 2
    run = getattr(importlib.import_module(command.module), command.function)
    return int(run(words[1:]))


def listing() -> str:
    """What ``--help`` prints: one line for each command."""
    width = max(map(len, COMMANDS))
    lines = [f"  {name:<{width}}  {command.summary}" for name, command in COMMANDS.items()]
    return "\n".join(["usage: hub COMMAND [--help]", "", "The commands:", *lines])
