"""Which steps lead from what was found on this machine to an environment the hub runs in. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from hub.bootstrap.debian import install_command

OLDEST_PYTHON = (3, 11)


@dataclass(frozen=True)
class Situation:
    """What was found, as plain facts."""

    python: tuple[int, int]
    writable: bool  # the checkout can be written to
    usable: bool  # .venv is there, whole, and something can install into it
    locks_met: bool  # and holds every locked package
    uv: bool  # the quick installer is at hand
    ensurepip: bool  # this Python can make an environment with pip in it
    libraries: tuple[str, ...]  # Debian packages missing for PDFs
    programs: tuple[str, ...]  # Debian packages missing for the checks
    may_install: bool  # root, with apt-get


class Step(NamedTuple):
    """One thing to do, by its name in ``hub.bootstrap.build``, and what the person reads meanwhile."""

    action: str
    says: str
    packages: tuple[str, ...] = ()


def plan(found: Situation) -> list[Step]:
    """The steps in their order; nothing when all is there; a single ``stop`` when it cannot be done."""
    obstacle = None if found.locks_met else what_stands_in_the_way(found)
    if obstacle is not None:
        return [Step("stop", obstacle)]
    return system_steps(found) + environment_steps(found)


def what_stands_in_the_way(found: Situation) -> str | None:
    """The sentence to stop with, or None."""
    if found.python < OLDEST_PYTHON:
        here, needed = (".".join(map(str, version)) for version in (found.python, OLDEST_PYTHON))
        return f"This is Python {here}; the hub needs {needed} or newer."
    if not found.writable:
        return (
            "This folder cannot be written to, so no environment can be made in it. Copy the project "
            "to a folder of your own and start there, or run “pip install .” and use the hub command."
        )
    if wants_venv_package(found) and not found.may_install:
        return (
            f"This Python cannot make environments yet. Run once: {install_command(wanted_packages(found))}"
        )
    return None


def wants_venv_package(found: Situation) -> bool:
    """Debian keeps the part of Python that makes environments in a package of its own."""
    return not (found.usable or found.uv or found.ensurepip)


def wanted_packages(found: Situation) -> tuple[str, ...]:
    """Everything from Debian that is missing."""
    venv = ("python3-venv",) if wants_venv_package(found) else ()
    return (*venv, *found.libraries, *found.programs)


def system_steps(found: Situation) -> list[Step]:
    """Install what is missing from Debian, or say what is off without it and how to get it."""
    packages = wanted_packages(found)
    if not packages:
        return []
    if found.may_install:
        return [Step("debian", f"Installing from Debian: {', '.join(packages)} …", packages)]
    off = ["PDF sheets"] if found.libraries else []
    off += [f"the checks with {program}" for program in found.programs]
    return [Step("tell", f"Without {' and '.join(off)} until you run once: {install_command(packages)}")]


def environment_steps(found: Situation) -> list[Step]:
    """Make the environment where there is none, then fill it."""
    if found.locks_met:
        return []
    make = [] if found.usable else [Step("environment", "Making the environment in .venv …")]
    fetch = [] if found.uv else [Step("installer", "Fetching a quick installer …")]
    fill = [
        Step("packages", "Installing the locked packages (seconds; up to a minute on a slow line) …"),
        Step("project", "Putting the hub command into the environment …"),
    ]
    return make + fetch + fill
