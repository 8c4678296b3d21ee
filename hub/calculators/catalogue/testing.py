"""What a test of a few seeds says about the rest."""

from __future__ import annotations

from collections.abc import Sequence

from hub.calculators.calculator import Answer, Part, Topic
from hub.calculators.inputs import amounts, level, share, whole
from hub.calculators.pictures import Bars, Curve, ShareBar, traced_whole
from hub.science import proportions
from hub.science.proportions import Trial
from hub.science.quantity import Estimate, Evidence, Source, Unit
from hub.science.sources import EXACT_BINOMIAL, VIABLE_SEEDS
from hub.science.tolerances import compare_replicates
from hub.words import say

TOPIC = Topic(say("Testing"), say("What a test of a few seeds says about the rest."))

BY_NORMAL = Source("Half-width of the normal interval of a share", Evidence.ALGEBRA)

GOOD, TESTED = say("Good seeds"), say("Seeds tested")
GOOD_SHARE = say("Good seeds, as a share")


@TOPIC.calculator(
    "cut-test",
    say("How good is this seed, by a cut test?"),
    says=say("The filled, sound or viable share of all the seed, and how bad the rest may still be."),
    formula="Wilson’s interval; the bad share left possible by the exact binomial bound",
    inputs={
        "good": whole(GOOD, Unit.SEEDS, 0, proportions.LARGEST_TEST),
        "tested": whole(TESTED, Unit.SEEDS, 1, proportions.LARGEST_TEST),
        "level": level(),
    },
    example={"good": 9, "tested": 10},
)
def cut_test(good: int, tested: int, level: float) -> Answer:
    trial = Trial(good, tested)
    found = proportions.wilson_share(trial, level=level)
    bad = proportions.bad_share_not_ruled_out(trial, level=level)
    left = Estimate.exact(bad, Unit.SHARE, EXACT_BINOMIAL)
    return Answer(
        (Part("share", GOOD_SHARE, found), Part("bad_possible", say("Bad share that stays possible"), left)),
        ShareBar(GOOD_SHARE, found.value, found.low, found.high),
    )


@TOPIC.calculator(
    "seeds-to-prove",
    say("How many seeds must be tested to prove a share?"),
    says=say("The fewest, so that with so many bad ones the share is shown all the same."),
    formula="the least n with the exact binomial bound below 1 − share",
    inputs={
        "share": share(say("Good share to show"), 0.01, 0.99, usual=0.85),
        "bad": whole(say("Bad seeds among them"), Unit.SEEDS, 0, 100, usual=0),
        "level": level(),
    },
    example={},
)
def seeds_to_prove(share: float, bad: int, level: float) -> Answer:
    needed = proportions.seeds_to_prove(share, bad=bad, level=level)

    def shown(tested: int) -> float:
        return 1 - proportions.bad_share_not_ruled_out(Trial(tested - bad, tested), level=level)

    picture = Curve(
        say("Share that is shown, by seeds tested"),
        TESTED,
        say("Share shown"),
        traced_whole(shown, max(bad, 1), max(2 * needed, 10)),
        (needed, shown(needed)),
    )
    return Answer((Part("seeds", TESTED, Estimate.exact(needed, Unit.SEEDS, EXACT_BINOMIAL)),), picture)


@TOPIC.calculator(
    "seeds-to-estimate",
    say("How many seeds must be tested to know a share this well?"),
    says=say("So that the interval reaches no further than this to either side."),
    formula="n = z² p (1 − p) / h², rounded up",
    inputs={
        "share": share(
            say("Share you expect"), usual=0.5, hint=say("0.5 when you know nothing: it needs the most.")
        ),
        "half_width": share(say("To within"), 0.001, 0.5, usual=0.05),
        "level": level(),
    },
    example={},
)
def seeds_to_estimate(share: float, half_width: float, level: float) -> Answer:
    needed = proportions.seeds_to_estimate(share, half_width, level=level)
    return Answer((Part("seeds", TESTED, Estimate.exact(needed, Unit.SEEDS, BY_NORMAL)),))


@TOPIC.calculator(
    "viable-seeds",
    say("How many living seeds does the lot hold?"),
    says=say("Its count, times the filled share, times the viable share of the filled, each with its error."),
    formula="N · filled · viable; beta distribution of the product, errors of the count in relative terms",
    inputs={
        "seeds": whole(say("Seeds in the lot"), Unit.SEEDS),
        "seeds_low": whole(say("Seeds in the lot, low end"), Unit.SEEDS),
        "seeds_high": whole(say("Seeds in the lot, high end"), Unit.SEEDS),
        "filled": whole(say("Filled seeds"), Unit.SEEDS, 0, proportions.LARGEST_TEST),
        "cut": whole(say("Seeds cut"), Unit.SEEDS, 1, proportions.LARGEST_TEST),
        "viable": whole(say("Viable seeds"), Unit.SEEDS, 0, proportions.LARGEST_TEST),
        "tested": whole(TESTED, Unit.SEEDS, 1, proportions.LARGEST_TEST, hint=say("Of the filled ones.")),
        "level": level(),
    },
    example={
        "seeds": 7400, "seeds_low": 7280, "seeds_high": 7520,
        "filled": 46, "cut": 50, "viable": 88, "tested": 100,
    },
)  # fmt: skip
def viable_seeds(
    seeds: int, seeds_low: int, seeds_high: int, filled: int, cut: int, viable: int, tested: int, level: float
) -> Answer:
    low, high = min(seeds_low, seeds), max(seeds_high, seeds)
    count = Estimate(seeds, Unit.SEEDS, low, high, level, VIABLE_SEEDS)
    found = proportions.viable_seeds(count, Trial(filled, cut), Trial(viable, tested), level=level)
    rows = (
        (say("All"), float(seeds), str(seeds)),
        (say("Living"), found.value, str(round(found.value))),
        (say("Living, low end"), found.low, str(round(found.low))),
    )
    return Answer(
        (Part("seeds", say("Living seeds"), found),),
        Bars(say("Of all the seed"), say("Seed"), say("Seeds"), rows),
    )


@TOPIC.calculator(
    "replicates-agree",
    say("Do these replicates agree?"),
    says=say("Two or four replicates of 100 seeds, in per cent: may they be averaged?"),
    formula="range ≤ tolerance at the rounded mean, by the published table",
    inputs={"percents": amounts(say("Result of each replicate"), Unit.PERCENT, 0, 100, least=2)},
    example={"percents": [88, 92, 85, 90]},
)
def replicates_agree(percents: Sequence[float]) -> Answer:
    found = compare_replicates(percents)
    yes = say("They agree. Their mean may be used.")
    no = say("They differ too much. Do the test again.")
    rows = tuple(
        (say("Replicate {number}", number=at), each, say("{percent} %", percent=each))
        for at, each in enumerate(percents, 1)
    )
    return Answer(
        (
            Part("mean", say("Mean"), Estimate.exact(found.mean_percent, Unit.PERCENT, found.source)),
            Part("range", say("Range"), Estimate.exact(found.range_points, Unit.PERCENT, found.source)),
            Part(
                "tolerance",
                say("Range allowed"),
                Estimate.exact(found.tolerance_points, Unit.PERCENT, found.source),
            ),
        ),
        Bars(say("The replicates"), say("Replicate"), say("Result in %"), rows),
        yes if found.agree else no,
    )
