"""How much seed comes up, how fast, and whether that differs."""

from __future__ import annotations

from collections.abc import Sequence

from hub.calculators.calculator import Answer, Inputs, Part, Topic
from hub.calculators.inputs import amount, amounts, counts, level, share, whole
from hub.calculators.pictures import Bars, Curve, ShareBar, traced
from hub.science.germination.comparison import compare_groups as compared
from hub.science.germination.counts import LONGEST_TEST_DAYS, SHORTEST_DAYS, GerminationTest
from hub.science.germination.curve import fit_curve
from hub.science.germination.half_time import HalfRule, half_time
from hub.science.germination.indices import germination_indices as indices_of
from hub.science.germination.pure_live_seed import bulk_to_weigh, pure_live_seed
from hub.science.proportions import LARGEST_TEST, Trial
from hub.science.quantity import Unit
from hub.words import Refused, say

TOPIC = Topic(say("Germination"), say("How much seed comes up, how fast, and whether that differs."))

UP = say("Share that is up")
DAY = say("Days from sowing")
NONE_UP = say("No seed came up, so there is no time to give.")
LONGEST_DRAWN = 1.25
"""The curve is drawn a quarter beyond the last count."""

COUNTS: Inputs = {
    "days": amounts(say("Days of the counts, from sowing"), Unit.DAYS, SHORTEST_DAYS, LONGEST_TEST_DAYS),
    "germinated": counts(say("Seeds that newly came up at each"), Unit.SEEDS, 0, LARGEST_TEST),
    "sown": whole(say("Seeds sown"), Unit.SEEDS, 1, LARGEST_TEST),
    "removed": whole(
        say("Seeds taken out"), Unit.SEEDS, 0, LARGEST_TEST, usual=0, hint=say("Empty, or rotted.")
    ),
}
EXAMPLE = {"days": [3, 5, 7, 9, 12, 15, 20], "germinated": [2, 11, 24, 20, 13, 6, 2], "sown": 100}


def test_of(days: Sequence[float], germinated: Sequence[int], sown: int, removed: int) -> GerminationTest:
    return GerminationTest(tuple(days), tuple(germinated), sown, removed)


def counted(test: GerminationTest) -> tuple[tuple[float, float], ...]:
    """What was up at each count, as a share of what could."""
    ups = [sum(test.germinated[:at]) for at in range(1, len(test.days) + 1)]
    return ((0.0, 0.0), *((day, up / test.result.tested) for day, up in zip(test.days, ups, strict=True)))


@TOPIC.calculator(
    "germination-indices",
    say("How much came up, how fast, and how evenly?"),
    says=say("The usual figures of one test at once."),
    formula="share k/n; mean Σ nᵢ tᵢ / Σ nᵢ; speed Σ nᵢ / tᵢ; synchrony Σ C(nᵢ, 2) / C(Σ nᵢ, 2)",
    inputs={**COUNTS, "level": level()},
    example=EXAMPLE,
)
def germination_indices(
    days: Sequence[float], germinated: Sequence[int], sown: int, removed: int, level: float
) -> Answer:
    test = test_of(days, germinated, sown, removed)
    found = indices_of(test, level=level)
    named = (
        ("final_share", say("Germinated, as a share"), found.final_share),
        ("half_time_coolbear", say("Half of them up after (Coolbear)"), found.half_time_coolbear),
        ("half_time_farooq", say("Half of them up after (Farooq)"), found.half_time_farooq),
        ("mean_time", say("Mean time"), found.mean_time),
        ("variance", say("Variance of the time"), found.variance),
        ("speed", say("Speed"), found.speed),
        ("uncertainty", say("Uncertainty"), found.uncertainty),
        ("synchrony", say("Synchrony"), found.synchrony),
    )
    parts = tuple(Part(name, label, figure) for name, label, figure in named if figure is not None)
    return Answer(parts, Curve(say("Seeds up, by day"), DAY, UP, counted(test)))


@TOPIC.calculator(
    "half-germination-time",
    say("When is half of what comes up, up?"),
    says=say("T50 by the two rules in use, which differ by up to half a seed’s time."),
    formula="tᵢ + (N′ − nᵢ)(tⱼ − tᵢ) / (nⱼ − nᵢ); N′ = (N + 1)/2 or N/2",
    inputs={**COUNTS, "level": level()},
    example=EXAMPLE,
)
def half_germination_time(
    days: Sequence[float], germinated: Sequence[int], sown: int, removed: int, level: float
) -> Answer:
    test = test_of(days, germinated, sown, removed)
    coolbear, farooq = (half_time(test, rule, level=level) for rule in (HalfRule.COOLBEAR, HalfRule.FAROOQ))
    if coolbear is None or farooq is None:
        raise Refused(NONE_UP)
    share = counted(test)[-1][1] / 2
    return Answer(
        (
            Part("coolbear", say("Half of them up after (Coolbear)"), coolbear),
            Part("farooq", say("Half of them up after (Farooq)"), farooq),
        ),
        Curve(say("Seeds up, by day"), DAY, UP, counted(test), (coolbear.value, share)),
    )


@TOPIC.calculator(
    "germination-curve",
    say("How much would come up at most, and when?"),
    says=say("A smooth curve with a part that never germinates, fitted to one test."),
    formula="G(t) = d / (1 + (t₅₀ / t)^b); likelihood of counts between two looks",
    inputs={**COUNTS, "level": level()},
    example=EXAMPLE,
)
def germination_curve(
    days: Sequence[float], germinated: Sequence[int], sown: int, removed: int, level: float
) -> Answer:
    test = test_of(days, germinated, sown, removed)
    found = fit_curve(test, level=level)
    picture = Curve(
        say("Fitted share up, by day"),
        DAY,
        UP,
        traced(found.up_by, 0, LONGEST_DRAWN * test.days[-1]),
        (found.half_time.value, found.up_by(found.half_time.value)),
    )
    return Answer(
        (
            Part("share", say("Comes up at most"), found.share),
            Part("half_time", say("Half of that is up after"), found.half_time),
            Part("slope", say("Steepness"), found.slope),
        ),
        picture,
    )


@TOPIC.calculator(
    "compare-germination",
    say("Do these lots germinate differently?"),
    says=say(
        "Each lot’s replicates in one box; lots are told apart by how they differ beyond their replicates."
    ),
    formula="F of the deviance between lots over the scatter within",
    inputs={
        "germinated": counts(
            say("Seeds that came up in each replicate"), Unit.SEEDS, 0, LARGEST_TEST, least=2
        ),
        "sown": counts(say("Seeds sown in each replicate"), Unit.SEEDS, 1, LARGEST_TEST, least=2),
        "lots": counts(
            say("Lot of each replicate, by number"),
            Unit.NUMBER,
            1,
            100,
            least=2,
            hint=say("Such as 1 1 2 2."),
        ),
    },
    example={"germinated": [38, 41, 22, 27], "sown": [50, 50, 50, 50], "lots": [1, 1, 2, 2]},
)
def compare_germination(germinated: Sequence[int], sown: Sequence[int], lots: Sequence[int]) -> Answer:
    if not len(germinated) == len(sown) == len(lots):
        raise Refused(say("Each replicate needs its germinated seeds, its sown seeds and its lot."))
    numbers = sorted(set(lots))
    groups = [
        [Trial(up, of) for up, of, lot in zip(germinated, sown, lots, strict=True) if lot == number]
        for number in numbers
    ]
    found = compared(groups)
    rows = tuple(
        (
            say("Lot {number}", number=number),
            each.value,
            say("{share} as a share", share=round(each.value, 3)),
        )
        for number, each in zip(numbers, found.shares, strict=True)
    )
    shares = (
        Part(f"lot_{number}", say("Lot {number}", number=number), each)
        for number, each in zip(numbers, found.shares, strict=True)
    )
    return Answer(
        (Part("chance", say("Chance of such a difference if they were alike"), found.chance), *shares),
        Bars(say("Germinated, by lot"), say("Lot"), UP, rows),
    )


@TOPIC.calculator(
    "pure-live-seed",
    say("How much of this seed is pure and alive?"),
    says=say("And how much of it to weigh out for a wanted weight of pure live seed."),
    formula="purity · (germinated + dormant) / tested; bulk = wanted / that share",
    inputs={
        "purity": share(say("Part that is seed, by weight")),
        "germinated": whole(say("Seeds that came up"), Unit.SEEDS, 0, LARGEST_TEST),
        "dormant": whole(say("Dormant, shown to live"), Unit.SEEDS, 0, LARGEST_TEST, usual=0),
        "tested": whole(say("Seeds tested"), Unit.SEEDS, 1, LARGEST_TEST),
        "wanted_g": amount(say("Pure live seed wanted"), Unit.GRAMS, usual=100),
        "level": level(),
    },
    example={"purity": 0.92, "germinated": 78, "dormant": 6, "tested": 100},
)
def pure_live(
    purity: float, germinated: int, dormant: int, tested: int, wanted_g: float, level: float
) -> Answer:
    found = pure_live_seed(purity, Trial(germinated, tested), dormant_confirmed=dormant, level=level)
    return Answer(
        (
            Part("share", say("Pure live share"), found),
            Part("bulk", say("Weigh out"), bulk_to_weigh(wanted_g, found)),
        ),
        ShareBar(say("Pure live share"), found.value, found.low, found.high),
    )
