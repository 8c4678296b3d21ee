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
    if known.state is AdoptionState.SUSPENDED:
        first = len(steps)
    if known.state is AdoptionState.FULFILLED and not known.handed_in:
        return [done(step) if step.done else still(step, StepState.UNNEEDED) for step in steps]
    return [marked(step, at, first) for at, step in enumerate(steps)]


def marked(step: Step, at: int, first: int) -> Step:
    """What was done early stays done; what to do, and the button for it, stand at the next step alone."""
    if at == first:
        return replace(step, state=StepState.NEXT, day=step.day or step.usually)
    return done(step) if step.done else still(step, StepState.LATER)


def done(step: Step) -> Step:
    return replace(step, state=StepState.DONE, ways=())


def still(step: Step, state: StepState) -> Step:
    """A step to come says at most when that usually is: whatever else it says would be true only now."""
    usually = step.usually if state is StepState.LATER else None
    return replace(step, state=state, day=usually, person=None, about=None, ways=())
