"""Carries the plan out, with one plain line of progress for each step."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from hub.bootstrap import debian, stamp
from hub.bootstrap.machine import look, python_of, starts, uv_for
from hub.bootstrap.plan import Step, plan

WITHOUT_NETWORK = "Is this machine connected to the internet? Start again when it is."


class Failed(Exception):
    """A step did not succeed; the message says what to do about it."""


def complete(root: Path, purpose: str) -> None:
    """Bring ``.venv`` below ``root`` to what ``purpose`` needs; exit with 1 and a sentence if that fails."""
    try:
        steps = plan(look(root, purpose))
        for step in steps:
            carry_out(root, purpose, step)
        if not debian.missing_libraries():
            stamp.note_libraries(root)
    except Failed as failure:
        sys.exit(f"hub: {failure}")
    except OSError as error:
        sys.exit(f"hub: {error.strerror}: {error.filename}. Nothing outside .venv was changed.")
    except KeyboardInterrupt:
        sys.exit("\nhub: Stopped. The next start makes the environment afresh.")


def carry_out(root: Path, purpose: str, step: Step) -> None:
    """Say what is done, and do it."""
    if step.action == "stop":
        raise Failed(step.says)
    print(f"hub: {step.says}", flush=True)
    work: dict[str, Callable[[], None]] = {
        "tell": lambda: None,
        "debian": lambda: install_from_debian(root, step.packages),
        "environment": lambda: make_environment(root),
        "installer": lambda: fetch_installer(root),
        "packages": lambda: install_packages(root, purpose),
        "project": lambda: install_project(root, purpose),
    }
    work[step.action]()


def run(command: list[str], cwd: Path, failure: str) -> None:
    """Run quietly; on failure show the last lines of what the program said."""
    done = subprocess.run(command, cwd=cwd, stdin=subprocess.DEVNULL, capture_output=True, text=True)  # noqa: S603
    if done.returncode != 0:
        said = "\n".join(f"  | {line}" for line in (done.stdout + done.stderr).splitlines()[-8:])
        raise Failed(f"{failure}\n{said}")


def install_from_debian(root: Path, packages: tuple[str, ...]) -> None:
    """Install system packages. Without them the hub still runs, so a failure is told and not final."""
    apt = ["env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-qq", "-o", "DPkg::Lock::Timeout=120"]
    try:
        run([*apt, "update"], root, "Debian’s list of packages could not be fetched.")
        run(
            [*apt, "install", "-y", "--no-install-recommends", *packages],
            root,
            "They could not be installed.",
        )
    except Failed as failure:
        later = debian.install_command(packages)
        print(f"hub: {failure}\nhub: Going on without them. To add them later: {later}", flush=True)


def make_environment(root: Path) -> None:
    """A new, empty environment in place of whatever half-made one stands there."""
    folder = root / ".venv"
    if folder.exists():
        shutil.rmtree(folder)
    uv = shutil.which("uv") and uv_for(root)
    tool = [uv, "venv", "--quiet", "--python", sys.executable] if uv else [sys.executable, "-m", "venv"]
    run([*tool, str(folder)], root, "The environment could not be made.")
    stamp.begin(root)


def fetch_installer(root: Path) -> None:
    """Fetch uv into the environment; where that fails, pip does the work, more slowly."""
    try:
        install(root, "", "--require-hashes", "-r", ".requirements/installer.lock")
    except Failed:
        print("hub: … not to be had, going on with pip.", flush=True)


def install_packages(root: Path, purpose: str) -> None:
    """Everything that the locks name, each package checked against its hash."""
    stamp.begin(root)
    locks = ["-r", f".requirements/{purpose}.lock", "-r", ".requirements/build.lock"]
    install(root, f"The packages could not be installed. {WITHOUT_NETWORK}", "--require-hashes", *locks)


def install_project(root: Path, purpose: str) -> None:
    """Link this checkout into the environment, so that the ``hub`` command stands beside its Python."""
    link = ["--no-deps", "--no-build-isolation", "--editable", "."]
    install(root, "The hub command could not be put into the environment.", *link)
    stamp.finish(root, purpose)


def install(root: Path, failure: str, *what: str) -> None:
    """Install with the quickest tool there is; where uv fails, pip may still know the way out."""
    *first, last = installers(root)
    for tool in first:
        try:
            return run([*tool, *what], root, failure)
        except Failed:
            continue
    return run([*last, *what], root, failure)


def installers(root: Path) -> list[list[str]]:
    """The beginnings of the commands that install into the environment, quickest first."""
    uv, python, tools = uv_for(root), python_of(root), []
    if uv:
        tools.append([uv, "pip", "install", "--quiet", "--python", python])
    if starts(python, "-m", "pip"):
        tools.append([python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"])
    return tools
