"""The note inside ``.venv`` that says what was put into it: one line for each thing that is complete."""

from __future__ import annotations

import hashlib
from pathlib import Path

LIBRARIES = "libraries complete"
UNFINISHED = "unfinished"


def note(root: Path) -> Path:
    """Where the note stands."""
    return root / ".venv" / "contents"


def lines(root: Path) -> set[str]:
    """What the note says; nothing when there is none."""
    try:
        return set(note(root).read_text().splitlines())
    except OSError:
        return set()


def locked(root: Path, purpose: str) -> str:
    """The line that an environment made by today's lock files carries."""
    digest = hashlib.sha256()
    for lock in (purpose, "build"):
        digest.update((root / ".requirements" / f"{lock}.lock").read_bytes())
    return f"{purpose} {digest.hexdigest()}"


def place(root: Path) -> str:
    """The line that tells a moved or copied environment apart: its programs still point to the old place."""
    return f"at {root}"


def locks_met(root: Path, purpose: str) -> bool:
    """Whether every locked package of this purpose is in."""
    return {locked(root, purpose), place(root)} <= lines(root)


def fresh(root: Path, purpose: str) -> bool:
    """Whether nothing at all is left to do. Asked at every start, so it reads three small files only."""
    wanted = {locked(root, purpose), place(root), LIBRARIES}
    return wanted <= lines(root) and (root / ".venv" / "bin" / "python").exists()


def half_made(root: Path) -> bool:
    """Whether the environment was left in the middle, or made for another place."""
    said = lines(root)
    return UNFINISHED in said or (bool(said) and place(root) not in said)


def begin(root: Path) -> None:
    """Mark the environment as half-made, so that an interrupted start is never taken for a whole one."""
    note(root).write_text(UNFINISHED + "\n")


def finish(root: Path, purpose: str) -> None:
    """Note the packages as complete. The test lock holds all that the run lock holds."""
    purposes = ("run", "test") if purpose == "test" else ("run",)
    said = [place(root), *(locked(root, name) for name in purposes)]
    note(root).write_text("\n".join(said) + "\n")


def note_libraries(root: Path) -> None:
    """Note that the system's libraries were all found, so that they need not be looked for again."""
    if LIBRARIES not in lines(root):
        with note(root).open("a") as file:
            file.write(LIBRARIES + "\n")
