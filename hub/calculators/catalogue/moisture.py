"""How dry seed is, and how dry it will be."""

from __future__ import annotations

from hub.calculators.calculator import Answer, Part, Topic
from hub.calculators.inputs import amount
from hub.calculators.pictures import Curve, traced
from hub.science import drying
from hub.science.quantity import Estimate, Unit
from hub.science.sources import FRESH_BASIS
from hub.words import say

TOPIC = Topic(say("Moisture"), say("How dry seed is, and how dry it will be."))

MOISTURE = say("Moisture, of fresh weight")
STEP = say("Last digit of the balance")


@TOPIC.calculator(
    "oven-moisture",
    say("How moist is this seed, by the oven?"),
    says=say("Three weighings of one sample in its container. The interval is that of the balance alone."),
    formula="100 (before − after) / (before − container)",
    inputs={
        "container_g": amount(say("Empty container"), Unit.GRAMS),
        "before_g": amount(say("Before the oven, with container"), Unit.GRAMS),
        "after_g": amount(say("After the oven, with container"), Unit.GRAMS),
        "balance_step_g": amount(STEP, Unit.GRAMS, 0, 1000, usual=0.001),
    },
    example={"container_g": 12.0, "before_g": 17.0, "after_g": 16.65},
)
def oven_moisture(container_g: float, before_g: float, after_g: float, balance_step_g: float) -> Answer:
    found = drying.moisture_from_oven(container_g, before_g, after_g, balance_step_g=balance_step_g)
    return Answer((Part("moisture", MOISTURE, found),))


@TOPIC.calculator(
    "two-stage-moisture",
    say("How moist was seed that was dried twice?"),
    says=say("Very moist seed is dried a little first, then ground and dried in the oven."),
    formula="S₁ + S₂ − S₁ S₂ / 100",
    inputs={
        "first_percent": amount(say("Lost in the first drying"), Unit.PERCENT, 0, drying.WETTEST),
        "second_percent": amount(say("Lost in the oven"), Unit.PERCENT, 0, drying.WETTEST),
    },
    example={"first_percent": 20, "second_percent": 9},
)
def two_stage_moisture(first_percent: float, second_percent: float) -> Answer:
    return Answer((Part("moisture", MOISTURE, drying.moisture_in_two_stages(first_percent, second_percent)),))


@TOPIC.calculator(
    "target-weight",
    say("What will this seed weigh when it is dry enough?"),
    says=say("Weigh the bag, dry it, and stop at this weight."),
    formula="W (100 − m) / (100 − m′)",
    inputs={
        "weight_g": amount(say("Weight now"), Unit.GRAMS, drying.LIGHTEST),
        "moisture_percent": amount(say("Moisture now"), Unit.PERCENT, 0, drying.WETTEST),
        "wanted_percent": amount(say("Wanted moisture"), Unit.PERCENT, 0, drying.WETTEST, usual=5),
    },
    example={"weight_g": 250, "moisture_percent": 12},
)
def target_weight(weight_g: float, moisture_percent: float, wanted_percent: float) -> Answer:
    found = drying.target_weight(weight_g, moisture_percent, wanted_percent)
    picture = Curve(
        say("Weight, by moisture"),
        say("Moisture in %"),
        say("Weight in g"),
        traced(
            lambda wanted: drying.target_weight(weight_g, moisture_percent, wanted).value, 0, moisture_percent
        ),
        (wanted_percent, found.value),
    )
    return Answer((Part("weight", say("Weight when dry"), found),), picture)


@TOPIC.calculator(
    "moisture-after-drying",
    say("How moist is the seed now, by its weight?"),
    says=say("From a moisture that was measured once, and the two weights."),
    formula="100 − (100 − m) W / W′",
    inputs={
        "moisture_percent": amount(say("Moisture then"), Unit.PERCENT, 0, drying.WETTEST),
        "weight_g": amount(say("Weight then"), Unit.GRAMS, drying.LIGHTEST),
        "weight_now_g": amount(say("Weight now"), Unit.GRAMS, drying.LIGHTEST),
    },
    example={"moisture_percent": 12, "weight_g": 250, "weight_now_g": 234},
)
def moisture_after_drying(moisture_percent: float, weight_g: float, weight_now_g: float) -> Answer:
    return Answer(
        (Part("moisture", MOISTURE, drying.moisture_after_drying(moisture_percent, weight_g, weight_now_g)),)
    )


@TOPIC.calculator(
    "moisture-basis",
    say("What is this moisture on the other basis?"),
    says=say("Tables give moisture of fresh or of dry weight; mixing them up is a common slip."),
    formula="d = 100 m / (100 − m); m = 100 d / (100 + d)",
    inputs={"moisture_percent": amount(MOISTURE, Unit.PERCENT, 0, drying.WETTEST)},
    example={"moisture_percent": 12},
)
def moisture_basis(moisture_percent: float) -> Answer:
    dry = drying.dry_basis_from_fresh(moisture_percent)
    return Answer(
        (Part("of_dry", say("Moisture, of dry weight"), Estimate.exact(dry, Unit.PERCENT, FRESH_BASIS)),)
    )
