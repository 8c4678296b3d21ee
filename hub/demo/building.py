"""Build the demo hub in a folder of its own, once."""

from __future__ import annotations

import logging
import os
import shutil
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from hub.accounts.delivery import deliver_due
from hub.accounts.passwords import hashed
from hub.config import Misconfigured, Settings
from hub.db.work import House
from hub.demo import founding, land, seasons
from hub.demo.files import entries, today
from hub.demo.founding import PASSWORD
from hub.demo.world import Step, World
from hub.protocols.renewals import renew_due
from hub.wiring import make_house

BUILT = "built"  # a file beside the database: the last thing to be written, and to come to its place
UNFINISHED = "building"  # the folder inside the hub's own in which it is played
log = logging.getLogger("hub.demo")
Progress = Callable[[str], None]


@dataclass(frozen=True)
class SignIn:
    """One way into the demo."""

    role: str
    email: str

    def __str__(self) -> str:
        return f"{self.role:<14} {self.email}   password: {PASSWORD}"


# The seats that a visitor of the demo is offered, one for each role.
OFFERED = {
    "group lead": "thornmere-ramblers-lead",
    "school teacher": "kestergill-primary-lead",
    "member": "thornmere-ramblers-member",
    "curator": "curator",
    "technician": "technician",
    "coordinator": "coordinator",
    "steward": "steward",
    "another bank": "corrant-curator",
}


def build(data_dir: Path, say: Progress = print) -> list[SignIn]:
    """Play the demo into a folder of its own unless it is there already, and return the ways in.

    It may be broken off at any moment: what is half played is wiped at the next start, and what was played
    to its end goes on to its place.
    """
    if not (data_dir / BUILT).exists():
        unfinished = data_dir / UNFINISHED
        if not (unfinished / BUILT).exists():
            refuse_anything_else(data_dir)
            play_into(unfinished, say)
        move_up(unfinished)
    return sign_ins()


def refuse_anything_else(data_dir: Path) -> None:
    """A demo seats a steward whose password everybody knows: never beside the people of a real hub."""
    if data_dir.exists() and any(entry.name != UNFINISHED for entry in data_dir.iterdir()):
        raise Misconfigured(f"{data_dir} holds something that is no demo. Name another folder with --data.")


def play_into(folder: Path, say: Progress) -> None:
    """Play the whole demo into a folder, in place of whatever stands there."""
    from hub.db.migrate import upgrade  # time that only the first start needs to spend

    if folder.exists():
        shutil.rmtree(folder)
    settings = replace(Settings.from_environment({"HUB_DATA": str(folder)}), days_ahead=days_ahead())
    house = make_house(settings)
    upgrade(house.engine)
    play(house, say)
    house.engine.dispose()
    (folder / BUILT).write_text(f"{days_ahead()}\n")


def move_up(folder: Path) -> None:
    """Bring everything one folder up, the mark of the built demo last."""
    for entry in sorted(folder.iterdir(), key=lambda entry: entry.name == BUILT):
        os.replace(entry, folder.parent / entry.name)
    folder.rmdir()


def days_ahead() -> int:
    """How far the demo's day lies after today."""
    return max(0, (today() - datetime.now(UTC).date()).days)


def days_ahead_in(data_dir: Path) -> int:
    """How far a built demo lives ahead: reckoned when it was built, so that its days go on."""
    return int((data_dir / BUILT).read_text())


def play(house: House, say: Progress = print) -> World:
    """Do everything that the files tell, in the order of its days, through the hub's own actions."""
    world = World(house, hashed(house.settings, PASSWORD))
    founding.lay_out(world)
    founding.staff(world)
    founding.species(world)
    steps = sorted(
        [
            *founding.groups(world),
            *founding.corrections(),
            *founding.seasons(world),
            *land.steps(),
            *seasons.steps(),
        ]
    )
    for number, step in enumerate(steps):
        if number % 100 == 0:
            say(f"hub:   {step.at.date().isoformat()} …")
        renew_before(house, steps, number)
        step.does(world)
    renew_due(house, now=steps[-1].at)
    while deliver_due(house, now=steps[-1].at + timedelta(days=1)):
        pass
    return world


def renew_before(house: House, steps: list[Step], number: int) -> None:
    """Between two days the hub makes its rounds, as it would have."""
    if number and steps[number].at.date() != steps[number - 1].at.date():
        renew_due(house, now=steps[number - 1].at + timedelta(minutes=1))


def sign_ins() -> list[SignIn]:
    """The ways in, as they are printed when the demo starts."""
    addresses = {
        seat["key"]: seat["email"] for group in entries("groups.toml", "group") for seat in group["seats"]
    }
    for table in ("bank_seat", "region_seat", "hub_seat"):
        addresses |= {seat["key"]: seat["email"] for seat in entries("groups.toml", table)}
    return [SignIn(role, addresses[key]) for role, key in OFFERED.items()]
