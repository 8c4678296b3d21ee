"""The season of one adopted species as one path: what is done, what comes next, who does it, and where.

Pure: facts in, steps out. The first step that is not done is the next, and everything after it comes later.
"""

from __future__ import annotations

from dataclasses import replace

from hub.adoptions.rules import AdoptionState
from hub.progress.known import Known, Step, StepState
from hub.progress.season_steps import STEPS


def path_of(known: Known) -> list[Step]:
    """The eight steps in order, each marked."""
    steps = [step(known) for step in STEPS]
    first = next((at for at, step in enumerate(steps) if not step.done), len(steps))
    paused = known.state is AdoptionState.SUSPENDED
    return [marked(step, at, len(steps) if paused else first) for at, step in enumerate(steps)]


def marked(step: Step, at: int, first: int) -> Step:
    """What was done early stays done; what to do, and the button for it, stand at the next step alone."""
    if at == first:
        return replace(step, state=StepState.NEXT)
    if step.done:
        return replace(step, state=StepState.DONE, ways=())
    return replace(step, state=StepState.LATER, person=None, about=None, ways=())
