"""What is measured, and how: medians of rounds that take turns, after a warm-up, in one process."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from statistics import median
from typing import Any

Act = Callable[[], object]


@dataclass(frozen=True)
class Figure:
    """One measured number, and the bar that it must not pass."""

    name: str
    value: float
    unit: str  # "×" for a ratio, else a unit of time
    bar: float
    how: str  # what was compared with what
    medians: dict[str, float] = field(default_factory=dict)  # milliseconds

    @property
    def holds(self) -> bool:
        return self.value <= self.bar

    def as_json(self) -> dict[str, Any]:
        return {
            "name": self.name,
            "value": round(self.value, 4),
            "unit": self.unit,
            "bar": self.bar,
            "holds": self.holds,
            "how": self.how,
            "medians_ms": {name: round(value, 3) for name, value in self.medians.items()},
        }

    def __str__(self) -> str:
        verdict = "holds" if self.holds else "FAILS"
        parts = ", ".join(f"{name} {value:.2f} ms" for name, value in self.medians.items())
        return (
            f"{verdict}  {self.name}: {self.value:.2f} {self.unit}, at most {self.bar:g} {self.unit}\n"
            f"       {self.how}" + (f" ({parts})" if parts else "")
        )


def ratio(name: str, how: str, *, bar: float, rounds: int, **acts: Act) -> Figure:
    """How many times as long the first act takes as the second."""
    medians = side_by_side(rounds, **acts)
    measured, against = medians.values()
    return Figure(name, measured / against, "×", bar, how, medians)


def side_by_side(rounds: int, **acts: Act) -> dict[str, float]:
    """The median of each act in milliseconds. They take turns, so that a busy machine slows all alike."""
    for act in acts.values():
        act()
    times: dict[str, list[float]] = {name: [] for name in acts}
    for _ in range(rounds):
        for name, act in acts.items():
            times[name].append(milliseconds(act))
    return {name: median(found) for name, found in times.items()}


def milliseconds(act: Act) -> float:
    """How long one act takes; what other acts left behind is tidied up first."""
    gc.collect()
    begun = time.perf_counter()
    act()
    return (time.perf_counter() - begun) * 1000
