"""When fruit will be ripe, and when to look."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from hub.calculators.calculator import Answer, Part, Topic
from hub.calculators.figures import OnDay
from hub.calculators.inputs import amount, amounts, day, level, share, whole
from hub.calculators.pictures import Curve
from hub.science.phenology import degree_days as warmth
from hub.science.phenology.degree_days import Day, Thresholds
from hub.science.phenology.forecast import MOST_WARMTH, ripe_on
from hub.science.phenology.looks import LONGEST_DAYS, Seen, came_by, middle_day
from hub.science.phenology.visits import LONGEST_DAYS as LONGEST_SEASON
from hub.science.phenology.visits import Season, next_visit
from hub.science.quantity import Unit
from hub.words import Refused, say

TOPIC = Topic(say("Ripening"), say("When fruit will be ripe, and when to look."))

GATHERED = say("Degree days so far")
SINCE = say("Days from the first")
LOWS = say("Lowest temperature of each day")
HIGHS = say("Highest temperature of each day")
THRESHOLDS = {
    "lower_c": amount(
        say("Lower threshold"), Unit.DEGREES_CELSIUS, warmth.COLDEST_C, warmth.HOTTEST_C, usual=5
    ),
    "upper_c": amount(
        say("Upper threshold"), Unit.DEGREES_CELSIUS, warmth.COLDEST_C, warmth.HOTTEST_C, needed=False
    ),
}
TEMPERATURES = {
    "lows_c": amounts(LOWS, Unit.DEGREES_CELSIUS, warmth.COLDEST_C, warmth.HOTTEST_C),
    "highs_c": amounts(HIGHS, Unit.DEGREES_CELSIUS, warmth.COLDEST_C, warmth.HOTTEST_C),
}
LOWS_EXAMPLE = [6, 8, 9, 11, 10, 12, 13, 12, 11, 13] * 4
HIGHS_EXAMPLE = [15, 17, 20, 22, 19, 23, 24, 22, 20, 25] * 4


def days_of(lows_c: Sequence[float], highs_c: Sequence[float]) -> list[Day]:
    if len(lows_c) != len(highs_c):
        raise Refused(say("Each day needs its lowest and its highest temperature."))
    return [Day(low, high) for low, high in zip(lows_c, highs_c, strict=True)]


def drawn(sums: Sequence[float], marked: tuple[float, float] | None = None) -> Curve:
    points = ((0.0, 0.0), *((float(at), total) for at, total in enumerate(sums, 1)))
    return Curve(say("Warmth gathered, by day"), SINCE, GATHERED, points, marked)


@TOPIC.calculator(
    "degree-days",
    say("How much warmth has this season given?"),
    says=say("Degree days between the thresholds, each day taken for one sine."),
    formula="A(lower) − A(upper); A(b) = [(M − b)(π/2 − θ) + W cos θ] / π, θ = asin((b − M) / W)",
    inputs={**TEMPERATURES, **THRESHOLDS},
    example={"lows_c": LOWS_EXAMPLE[:20], "highs_c": HIGHS_EXAMPLE[:20]},
)
def degree_days(
    lows_c: Sequence[float], highs_c: Sequence[float], lower_c: float, upper_c: float | None
) -> Answer:
    days, thresholds = days_of(lows_c, highs_c), Thresholds(lower_c, upper_c)
    found = warmth.degree_days(days, thresholds)
    return Answer((Part("degree_days", GATHERED, found),), drawn(warmth.gathered(days, thresholds)))


@TOPIC.calculator(
    "ripe-day",
    say("When will the first fruit be ripe?"),
    says=say("From the end of flowering and the warmth of the seasons before. No history, no forecast."),
    formula="the first day whose degree days reach the mean of the seasons; ends by Student’s t for one more",
    inputs={
        "flowering_ended": day(say("Flowering ended on")),
        "seen_within_days": whole(say("Days between the visits that saw it"), Unit.DAYS, 0, 60, usual=7),
        "seasons": amounts(
            say("Degree days that it took in each season before"), Unit.DEGREE_DAYS, 0, MOST_WARMTH, least=2
        ),
        **TEMPERATURES,
        **THRESHOLDS,
        "level": level(0.9),
    },
    example={
        "flowering_ended": "2031-06-01",
        "seasons": [260, 275, 250, 268, 281],
        "lows_c": LOWS_EXAMPLE,
        "highs_c": HIGHS_EXAMPLE,
    },
)
def ripe_day(
    flowering_ended: date,
    seen_within_days: int,
    seasons: Sequence[float],
    lows_c: Sequence[float],
    highs_c: Sequence[float],
    lower_c: float,
    upper_c: float | None,
    level: float,
) -> Answer:
    sums = warmth.gathered(days_of(lows_c, highs_c), Thresholds(lower_c, upper_c))
    found = ripe_on(flowering_ended, sums, seasons, began_within_days=seen_within_days, level=level)
    on = OnDay(found.day, found.source, found.earliest, found.latest, found.level, found.warnings)
    after = (found.day - flowering_ended).days
    seen = say("The temperatures are yours: those to come are a guess. Keep visiting.")
    return Answer(
        (Part("day", say("First ripe fruit on"), on),),
        drawn(sums, (after + 1.0, sums[after])),
        cautions=(seen,),
    )


@TOPIC.calculator(
    "next-visit",
    say("When should we look again?"),
    says=say("So that of all fruit that ripens, hardly any is gone before you come."),
    formula="the longest wait w with [F(v + w − s) − F(v)] / [F(v + w) − F(v)] ≤ chance",
    inputs={
        "seasons": amounts(
            say("Days from end of flowering to first ripe fruit, each season"),
            Unit.DAYS,
            0,
            LONGEST_SEASON,
            least=0,
            hint=say("With fewer than three seasons the answer is the weekly rhythm."),
        ),
        "last_visit_day": whole(
            say("Days from end of flowering to your last visit"), Unit.DAYS, 0, LONGEST_SEASON
        ),
        "stays_days": whole(say("Days that ripe fruit stays on the plant"), Unit.DAYS, 1, 60, usual=7),
        "missed_at_most": share(say("Chance of missing it"), 0.001, 0.5, usual=0.05),
    },
    example={"seasons": [41, 46, 39, 44, 48], "last_visit_day": 30},
)
def next_look(
    seasons: Sequence[float], last_visit_day: int, stays_days: int, missed_at_most: float
) -> Answer:
    found = next_visit(
        [Season(days) for days in seasons], last_visit_day, stays_days, missed_at_most=missed_at_most
    )
    return Answer((Part("days", say("Look again after"), found),))


@TOPIC.calculator(
    "ripening-from-visits",
    say("When did it ripen, if we only looked now and then?"),
    says=say("Each plant’s last visit without and first visit with ripe fruit; 0 where it was never seen."),
    formula="Turnbull’s likeliest distribution on intervals (without, with]",
    inputs={
        "without": amounts(say("Last visit without, each plant"), Unit.DAYS, 0, LONGEST_DAYS),
        "with_fruit": amounts(say("First visit with, each plant"), Unit.DAYS, 0, LONGEST_DAYS),
    },
    example={"without": [35, 35, 42, 42, 42, 49, 49, 56], "with_fruit": [42, 42, 49, 49, 49, 56, 56, 0]},
)
def ripening_from_visits(without: Sequence[float], with_fruit: Sequence[float]) -> Answer:
    if len(without) != len(with_fruit):
        raise Refused(say("Each plant needs its last visit without and its first visit with ripe fruit."))
    seen = [Seen(last, first or None) for last, first in zip(without, with_fruit, strict=True)]
    found = middle_day(seen)
    came = came_by(seen)
    points = ((0.0, 0.0), *zip(came.days, came.shares, strict=True))
    picture = Curve(say("Share ripe, by day"), say("Day"), say("Share of the plants"), points)
    return Answer((Part("day", say("Half were ripe on day"), found),), picture)
