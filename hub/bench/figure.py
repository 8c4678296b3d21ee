"""What is measured, and how: medians over rounds in which acts take turns, after a warm-up."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from statistics import median, quantiles
from typing import Any

Act = Callable[[], object]
Clock = Callable[[], float]  # seconds since some moment


@dataclass(frozen=True)
class Figure:
    """One measured number, and the bar that it must not pass."""

    name: str
    value: float
    unit: str  # "×" for a ratio, else a unit of time
    bar: float
    how: str  # what was compared with what
    spread: tuple[float, float] | None = None  # the middle half of the rounds, in the same unit
    medians: dict[str, float] = field(default_factory=dict)  # milliseconds

    @classmethod
    def over(cls, name: str, rounds: list[float], unit: str, bar: float, how: str, **took: float) -> Figure:
        """The median of what each round gave, with its quartiles."""
        return cls(name, median(rounds), unit, bar, how, middle_half(rounds), took)

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
            "spread": self.spread and [round(end, 4) for end in self.spread],
            "how": self.how,
            "medians_ms": {name: round(value, 3) for name, value in self.medians.items()},
        }

    def __str__(self) -> str:
        verdict = "holds" if self.holds else "FAILS"
        parts = ", ".join(f"{name} {value:.2f} ms" for name, value in self.medians.items())
        half = " ({:.2f} to {:.2f} in half of the rounds)".format(*self.spread) if self.spread else ""
        return (
            f"{verdict}  {self.name}: {self.value:.2f} {self.unit}{half}, at most {self.bar:g} {self.unit}\n"
            f"       {self.how}" + (f" ({parts})" if parts else "")
        )


def middle_half(rounds: list[float]) -> tuple[float, float] | None:
    """Where the middle half of the rounds lies; nothing to say of one round."""
    if len(rounds) < 2:
        return None
    low, _, high = quantiles(rounds, n=4, method="inclusive")
    return low, high


def ratio(name: str, how: str, *, bar: float, rounds: int, **acts: Act) -> Figure:
    """How many times as long the first act takes as the second, round by round."""
    times = side_by_side(rounds, acts)
    measured, against = times.values()
    ratios = [one / other for one, other in zip(measured, against, strict=True)]
    medians = {act: median(found) for act, found in times.items()}
    return Figure.over(name, ratios, "×", bar, how, **medians)


def side_by_side(
    rounds: int, acts: Mapping[str, Act], clock: Clock = time.perf_counter
) -> dict[str, list[float]]:
    """Each act in milliseconds, round by round. They take turns, so that a busy machine slows all alike."""
    for act in acts.values():
        act()
    times: dict[str, list[float]] = {name: [] for name in acts}
    for _ in range(rounds):
        for name, act in acts.items():
            times[name].append(milliseconds(act, clock))
    return times


def milliseconds(act: Act, clock: Clock = time.perf_counter) -> float:
    """How long one act takes; what other acts left behind is tidied up first."""
    gc.collect()
    begun = clock()
    act()
    return (clock() - begun) * 1000
