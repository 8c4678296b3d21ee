"""The figures that rules give, and which of two answers is the more careful one.

Where several rules give the same figure, the most careful answer wins; a rule that lifts a
figure (approved salvage) is heard alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Figure:
    """One figure: its unit, and either a direction of care or its answers, most careful first."""

    unit: str = ""
    careful: str = ""  # "low" or "high" for numbers
    answers: tuple[str, ...] = ()
    bounds: tuple[float, float] = (0, float("inf"))

    def rank(self, value: Any) -> float:
        """The smaller, the more careful."""
        if self.answers:
            return self.answers.index(value)
        return float(-value if self.careful == "high" else value)

    def allows(self, value: Any) -> bool:
        """Whether this can be a value of the figure at all."""
        if self.answers:
            return value in self.answers
        numeric = isinstance(value, int | float) and not isinstance(value, bool)
        return numeric and self.bounds[0] <= value <= self.bounds[1]


def _share(unit: str) -> Figure:
    return Figure(unit, careful="low", bounds=(0, 1))


FIGURES: dict[str, Figure] = {
    "verdict": Figure(answers=("stop", "not_yet", "lifted")),
    "route": Figure(answers=("untested", "moist", "spores", "fast", "dry")),
    "handling": Figure(answers=("by_mother", "bulk")),
    "season_share": _share("of the season’s ripe seed"),
    "season_factor": _share("times the share"),
    "groups_sharing": Figure("groups", careful="high", bounds=(1, 10_000)),
    "visit_share": _share("of the seed ripe on the day"),
    "plant_share": _share("of the ripe fruits of one plant"),
    "plant_limit": Figure(answers=("below", "up_to")),
    "seasons_in_ten": Figure("seasons in ten years", careful="low"),
    "seasons_running": Figure("seasons running", careful="low"),
    "mothers_goal": Figure("mothers", careful="high"),
    "mothers_minimum": Figure("mothers", careful="high"),
    "seed_goal": Figure("seeds", careful="low"),
    "hours_to_bank": Figure("hours", careful="low"),
    "container": Figure(
        answers=("packet", "moist_bag", "vented_box", "covered_tray", "mesh_sack", "paper_bag")
    ),
    "drying": Figure(answers=("never", "bank", "home")),
    "freezing": Figure(answers=("never", "bank", "home")),
    "cut_seeds": Figure("seeds", careful="low"),
    "counts": Figure(
        answers=("fruit", "head", "pod", "cone", "catkin", "nut", "frond", "spike", "berry"),
    ),
}
