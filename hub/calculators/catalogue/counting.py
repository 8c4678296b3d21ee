"""How many seeds are in a bag, from the weight of a few."""

from __future__ import annotations

from collections.abc import Sequence

from hub.calculators.calculator import Answer, Inputs, Part, Topic
from hub.calculators.inputs import amount, amounts, level, share, tick, whole
from hub.calculators.pictures import Bars
from hub.science import counts as weighed
from hub.science.counts import Weighing
from hub.science.quantity import Unit
from hub.words import say

TOPIC = Topic(say("Counting"), say("How many seeds are in a bag, from the weight of a few."))

WEIGHTS = say("Weight of each replicate")
BY_CUSTOM = say("Eight replicates of 100 seeds by custom.")
EACH = say("Seeds in a replicate")
CHAFFY = say("Chaffy seed")
CHAFFY_HINT = say("Seed with plumes, hairs or bracts varies more, and is allowed to.")
STEP = say("Last digit of the balance")
EIGHT = [0.512, 0.498, 0.505, 0.520, 0.493, 0.508, 0.501, 0.515]

REPLICATES: Inputs = {
    "weights_g": amounts(WEIGHTS, Unit.GRAMS, weighed.LIGHTEST, least=2, hint=BY_CUSTOM),
    "seeds_each": whole(EACH, Unit.SEEDS, 1, usual=100),
    "balance_step_g": amount(STEP, Unit.GRAMS, 0, 1000, usual=0),
    "chaffy": tick(CHAFFY, hint=CHAFFY_HINT),
    "level": level(),
}


@TOPIC.calculator(
    "thousand-seed-weight",
    say("What do a thousand seeds weigh?"),
    says=say("From replicates of equally many seeds, and how well they agree."),
    formula="1000 · mean / seeds each; Student’s t; they agree up to a variation of 4 %, chaffy seed 6 %",
    inputs=REPLICATES,
    example={"weights_g": EIGHT},
)
def thousand_seed_weight(
    weights_g: Sequence[float], seeds_each: int, balance_step_g: float, chaffy: bool, level: float
) -> Answer:
    weighing = Weighing(tuple(weights_g), seeds_each, balance_step_g)
    found = weighed.thousand_seed_weight(weighing, chaffy=chaffy, level=level)
    spread = say("The weights vary by {percent} %.", percent=round(weighing.variation_percent, 2))
    return Answer((Part("weight", say("Weight of a thousand seeds"), found),), shown(weights_g), spread)


@TOPIC.calculator(
    "seeds-by-weight",
    say("How many seeds are in this bag?"),
    says=say("Weigh the bag’s seed and some counted replicates, equally dry."),
    formula="seeds = W · purity · seeds each / mean weight",
    inputs={
        "lot_weight_g": amount(say("Weight of all the seed"), Unit.GRAMS, 0),
        "purity": share(say("Part of it that is seed, by weight"), usual=1),
        **REPLICATES,
    },
    example={"lot_weight_g": 37.4, "weights_g": EIGHT},
)
def seeds_by_weight(
    lot_weight_g: float,
    purity: float,
    weights_g: Sequence[float],
    seeds_each: int,
    balance_step_g: float,
    chaffy: bool,
    level: float,
) -> Answer:
    weighing = Weighing(tuple(weights_g), seeds_each, balance_step_g)
    found = weighed.seeds_by_weight(weighing, lot_weight_g, purity=purity, chaffy=chaffy, level=level)
    return Answer((Part("seeds", say("Seeds in the bag"), found),), shown(weights_g))


def shown(weights_g: Sequence[float]) -> Bars:
    """The replicates beside each other, so that a stray one shows."""
    rows = tuple(
        (say("Replicate {number}", number=at), each, say("{weight} g", weight=each))
        for at, each in enumerate(weights_g, 1)
    )
    return Bars(WEIGHTS, say("Replicate"), say("Weight in g"), rows)
