"""What stands out beside the hub’s other collections of the species: odd figures, or the same thing twice."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import NamedTuple

from hub.science.distance import Position
from hub.science.outliers import SMALLEST_ON_LOG, Scale, compare_with_past
from hub.science.similarity import Collected, likeness
from hub.vetting.checks.answers import Answers, percent, query
from hub.vetting.checks.grounds import OWN
from hub.vetting.checks.mothers import amounts
from hub.vetting.collection import Collection, Handling
from hub.vetting.evidence import Evidence
from hub.words import Words, say

HALF_YEAR_DAYS, YEAR_DAYS = 183, 366


class Measure(NamedTuple):
    """A figure that collections of one species have in common."""

    label: Words
    scale: Scale
    of: Callable[[Collection, int], float | None]


def unusual_figure(evidence: Evidence) -> Answers:
    """A figure far from those of past collections may be right, or a slip of the pen."""
    begins = evidence.taxon.ripens_from or 1
    past = [each.collection for each in evidence.earlier if each.approved]
    for name, (label, scale, of) in MEASURES.items():
        value = of(evidence.collection, begins)
        seen = [figure for each in past if (figure := of(each, begins)) is not None]
        comparison = compare_with_past(value, seen, scale=scale) if value is not None else None
        if comparison and comparison.unusual:
            words = say(
                "{label}: {value}. In {past} earlier collections it was usually {low} to {high}.",
                label=label,
                value=round(comparison.value, 1),
                past=comparison.past,
                low=round(comparison.usual_low, 1),
                high=round(comparison.usual_high, 1),
            )
            known = {
                "usual_low": comparison.usual_low,
                "usual_high": comparison.usual_high,
                "past": comparison.past,
            }
            source = f"{comparison.source.citation} ({comparison.source.evidence})"
            yield query("unusual_figure", words, source, {"value": comparison.value, **known}, about=name)


def _seeds_a_fruit(given: Collection, begins: int) -> float | None:
    return _above_nothing(given.seeds_per_fruit)


def _seeds_a_mother(given: Collection, begins: int) -> float | None:
    return _above_nothing(given.total_seeds / given.mothers) if given.mothers else None


def _fruits_a_mother(given: Collection, begins: int) -> float | None:
    return _above_nothing((given.fruits_taken or 0) / given.mothers) if given.mothers else None


def _day_of_season(given: Collection, begins: int) -> float:
    """Days from the first month of ripening, from half a year before it to half a year after."""
    days = (given.collected_on - date(given.collected_on.year, begins, 1)).days
    return float((days + HALF_YEAR_DAYS) % YEAR_DAYS - HALF_YEAR_DAYS)


def _above_nothing(figure: float | None) -> float | None:
    """The ratio scale has no place for nothing."""
    return figure if figure is not None and figure >= SMALLEST_ON_LOG else None


MEASURES: Mapping[str, Measure] = {
    "seeds a fruit": Measure(say("Seeds a fruit"), Scale.RATIO, _seeds_a_fruit),
    "seeds a mother": Measure(say("Seeds a mother"), Scale.RATIO, _seeds_a_mother),
    "fruits a mother": Measure(say("Fruits taken from a mother"), Scale.RATIO, _fruits_a_mother),
    "day of season": Measure(
        say("Days after the first month of ripening began"), Scale.DIFFERENCE, _day_of_season
    ),
}


def near_duplicate(evidence: Evidence) -> Answers:
    """The same collection may be sent by two members of a group, or on paper and by phone."""
    this = _collected(evidence.collection)
    alike = ((likeness(this, _collected(each.collection)), each) for each in evidence.earlier)
    found = max(
        ((score, each) for score, each in alike if score.likely_the_same),
        key=lambda pair: pair[0].score,
        default=None,
    )
    if found is None:
        return
    score, other = found
    own = say("This looks like collection {number} of the same group, handed in before.", number=other.number)
    words = own if other.same_group else say("This looks like another collection that was handed in before.")
    parts = {str(part.what): round(part.likeness, 3) for part in score.parts}
    told = {"number": other.number} if other.same_group else {}
    known = {**told, "likeness_share": round(score.score, 3), "parts": parts}
    yield query("near_duplicate", words, OWN, {"likeness": percent(score.score), **known})


def _collected(given: Collection) -> Collected:
    return Collected(
        day=given.collected_on,
        position=Position(latitude=given.latitude, longitude=given.longitude),
        uncertainty_m=given.uncertainty_m,
        seeds=given.total_seeds,
        seeds_by_mother=tuple(amounts(given)) if given.handling is Handling.BY_MOTHER else (),
    )
