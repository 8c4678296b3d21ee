"""An answer as programs read it: one JSON object."""

from __future__ import annotations

from datetime import date
from typing import Any

from hub.calculators.calculator import Answer, Figure
from hub.science.quantity import Evidence, Source

WHOLE_FROM = 100


def as_json(answer: Answer) -> dict[str, Any]:
    """``value`` for one figure, ``values`` by name for several; then source and warnings of the whole."""
    first, *others = answer.parts
    shown = {"values": {part.name: figure(part.figure) for part in answer.parts}} if others else {}
    return {
        **(shown or figure(first.figure)),
        **({"verdict": str(answer.verdict)} if answer.verdict else {}),
        "source": "; ".join(map(named, answer.sources)),
        "warnings": [str(warning) for warning in answer.warnings],
    }


def figure(found: Figure) -> dict[str, Any]:
    """Value and unit; the interval with its level where there is one."""
    told: dict[str, Any] = {"value": plain(found.value), "unit": str(found.unit.value)}
    if found.low != found.high:
        told["interval"] = {"low": plain(found.low), "high": plain(found.high), "level": found.level}
    return told


def rounded(value: float) -> float:
    """As people read it: whole from a hundred on, else the first three digits that count."""
    return float(round(value)) if abs(value) >= WHOLE_FROM else float(f"{value:.3g}")


def plain(value: float | date) -> Any:
    """A day in ISO 8601; a number to twelve digits, and whole ones without a point."""
    if isinstance(value, date):
        return value.isoformat()
    rounded = float(f"{value:.12g}")
    return int(rounded) if rounded.is_integer() and abs(rounded) < 2**53 else rounded


def named(source: Source) -> str:
    """A source that was read stands alone; of any other it is said how sure we are."""
    if source.evidence is Evidence.PUBLISHED:
        return source.citation
    return f"{source.citation} ({source.evidence.value})"
