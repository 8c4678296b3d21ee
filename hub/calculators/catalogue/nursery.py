"""How many seeds to sow."""

from __future__ import annotations

from hub.calculators.calculator import Answer, Inputs, Part, Topic
from hub.calculators.inputs import amounts, share, whole
from hub.calculators.pictures import Curve, ShareBar, traced_whole
from hub.science.nursery import cells, sowing
from hub.science.proportions import LARGEST_TEST, Trial
from hub.science.quantity import Unit
from hub.words import say

TOPIC = Topic(say("Nursery"), say("How many seeds to sow, so that enough plants stand in the end."))

SOW = say("Seeds to sow")
PLANTS = say("Plants wanted")
CHANCE = say("Chance of having enough")
BANK_FIRST = say("Keep back what the bank is to keep before you sow.")

WANTED: Inputs = {
    "plants": whole(PLANTS, Unit.PLANTS, 0, sowing.MOST_PLANTS),
    "chance": share(CHANCE, 0.5, sowing.SUREST, usual=0.95),
}


@TOPIC.calculator(
    "seeds-to-sow",
    say("How many seeds must we sow for so many plants?"),
    says=say(
        "With the shares that live through each stage. Sowing plants over share fails every second time."
    ),
    formula="the least n with P(Bin(n, p) ≥ N) ≥ chance; beta-binomial for alike batches",
    inputs={
        **WANTED,
        "stages": amounts(
            say("Share that lives through each stage"),
            Unit.SHARE,
            0,
            1,
            hint=say("Germinates, is pricked out, is planted: 0.8 0.7 0.75."),
        ),
        "likeness": share(
            say("How alike the seeds of a batch fare"),
            0,
            0.5,
            usual=0,
            hint=say("0 for seeds on their own, 0.05 to 0.1 where whole trays fail."),
        ),
    },
    example={"plants": 10, "stages": [0.8, 0.7, 0.75]},
)
def seeds_to_sow(plants: int, chance: float, stages: list[float], likeness: float) -> Answer:
    through = sowing.share_through(stages)
    found = sowing.seeds_to_sow(plants, through, chance=chance, likeness=likeness)
    picture = None
    if not likeness:
        needed = round(found.value)
        picture = Curve(
            say("Chance of enough plants, by seeds sown"),
            SOW,
            CHANCE,
            traced_whole(lambda n: sowing.chance_of_plants(n, plants, through), 0, max(2 * needed, 10)),
            (needed, sowing.chance_of_plants(needed, plants, through)),
        )
    return Answer((Part("seeds", SOW, found),), picture, cautions=(BANK_FIRST,))


@TOPIC.calculator(
    "seeds-to-sow-after-test",
    say("How many seeds must we sow, going by a small trial?"),
    says=say("A share known from a few seeds is itself uncertain, so a few more are sown."),
    formula="the least n with P(BetaBin(n, k + ½, m − k + ½) ≥ N) ≥ chance",
    inputs={
        **WANTED,
        "became": whole(say("Seeds of the trial that became plants"), Unit.SEEDS, 1, LARGEST_TEST),
        "tested": whole(say("Seeds of the trial"), Unit.SEEDS, 1, LARGEST_TEST),
    },
    example={"plants": 10, "became": 42, "tested": 60},
)
def seeds_to_sow_after_test(plants: int, chance: float, became: int, tested: int) -> Answer:
    found = sowing.seeds_to_sow_after_test(plants, Trial(became, tested), chance=chance)
    return Answer((Part("seeds", SOW, found),), cautions=(BANK_FIRST,))


@TOPIC.calculator(
    "empty-cells",
    say("How many cells of the tray stay empty?"),
    says=say("And how many seeds a cell keep that below a wanted share."),
    formula="(1 − g)^s",
    inputs={
        "germinating_share": share(say("Share that germinates"), 0.001, 1),
        "seeds_in_cell": whole(say("Seeds in a cell"), Unit.SEEDS, 1, cells.MOST_IN_CELL, usual=1),
        "most_empty": share(say("Empty cells you can bear"), 0.0001, 1, usual=0.05),
    },
    example={"germinating_share": 0.74, "seeds_in_cell": 3},
)
def empty_cells(germinating_share: float, seeds_in_cell: int, most_empty: float) -> Answer:
    empty = cells.empty_cells(germinating_share, seeds_in_cell)
    needed = cells.seeds_in_each_cell(germinating_share, most_empty)
    label = say("Cells that stay empty")
    return Answer(
        (Part("empty", label, empty), Part("seeds", say("Seeds a cell to stay below that"), needed)),
        ShareBar(label, empty.value, empty.low, empty.high, most_empty),
    )
