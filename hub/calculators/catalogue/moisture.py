"""How dry seed is, and how dry it will be."""

from __future__ import annotations

from enum import StrEnum

from hub.calculators.calculator import Answer, Part, Topic
from hub.calculators.inputs import amount, choice, share
from hub.calculators.pictures import Bars, Curve, traced
from hub.science import drying
from hub.science.moisture import desiccant as dried_by
from hub.science.moisture import isotherm, salts
from hub.science.moisture.desiccant import Desiccant
from hub.science.moisture.salts import Salt
from hub.science.quantity import Estimate, Unit
from hub.science.sources import FRESH_BASIS
from hub.words import Words, say

TOPIC = Topic(say("Moisture"), say("How dry seed is, and how dry it will be."))

MOISTURE = say("Moisture, of fresh weight")
STEP = say("Last digit of the balance")
HUMIDITY = say("Relative humidity of the air")
TEMPERATURE = amount(
    say("Temperature"), Unit.DEGREES_CELSIUS, isotherm.COLDEST_C, isotherm.HOTTEST_C, usual=15
)
OIL = share(
    say("Oil in the dry seed"),
    0,
    isotherm.MOST_OIL,
    usual=0.2,
    hint=say("Grasses 0.02, legumes 0.02 to 0.2, daisies and mustards 0.2 to 0.4 (from memory)."),
)
DESICCANTS: dict[StrEnum, Words] = {
    Desiccant.GEL_TO_15_RH: say("Silica gel, until the box reads 15 %"),
    Desiccant.GEL_TO_25_RH: say("Silica gel, until the box reads 25 %"),
    Desiccant.BEADS: say("Zeolite beads"),
}
SALTS: dict[StrEnum, Words] = {
    Salt.LITHIUM_CHLORIDE: say("Lithium chloride"),
    Salt.MAGNESIUM_CHLORIDE: say("Magnesium chloride"),
    Salt.SODIUM_CHLORIDE: say("Table salt (sodium chloride)"),
    Salt.POTASSIUM_SULFATE: say("Potassium sulfate"),
}
HARMFUL = (Salt.LITHIUM_CHLORIDE, Salt.MAGNESIUM_CHLORIDE)
POISON = say(
    "Lithium and magnesium chloride harm skin and eyes, and lithium is a poison: wear gloves, label the jar."
)


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


@TOPIC.calculator(
    "equilibrium-moisture",
    say("How dry will seed become in this air?"),
    says=say("The moisture at which seed of so much oil comes to rest in air of this humidity."),
    formula="m = d / (100 + d) · 100; d = (1 − oil) √(−440 ln(1 − RH)) / (1.1 + t / 90)",
    inputs={
        "humidity_percent": amount(HUMIDITY, Unit.PERCENT, isotherm.DRIEST_RH, isotherm.WETTEST_RH, usual=15),
        "temperature_c": TEMPERATURE,
        "oil_share": OIL,
    },
    example={},
)
def equilibrium_moisture(humidity_percent: float, temperature_c: float, oil_share: float) -> Answer:
    found = isotherm.moisture_in_air(humidity_percent, temperature_c, oil_share)
    picture = Curve(
        say("Moisture of the seed, by humidity"),
        say("Humidity in %"),
        say("Moisture in %"),
        traced(
            lambda humidity: isotherm.moisture_in_air(humidity, temperature_c, oil_share).value,
            isotherm.DRIEST_RH,
            isotherm.WETTEST_RH,
        ),
        (humidity_percent, found.value),
    )
    return Answer((Part("moisture", MOISTURE, found),), picture)


@TOPIC.calculator(
    "humidity-of-seed",
    say("What should a card in the jar read, for seed this dry?"),
    says=say("The humidity that seed of this moisture keeps around itself."),
    formula="RH = 1 − exp(−(d (1.1 + t / 90) / (1 − oil))² / 440); d = 100 m / (100 − m)",
    inputs={
        "moisture_percent": amount(MOISTURE, Unit.PERCENT, 0, drying.WETTEST),
        "temperature_c": TEMPERATURE,
        "oil_share": OIL,
    },
    example={"moisture_percent": 5},
)
def humidity_of_seed(moisture_percent: float, temperature_c: float, oil_share: float) -> Answer:
    found = isotherm.humidity_of_seed(moisture_percent, temperature_c, oil_share)
    return Answer((Part("humidity", HUMIDITY, found),))


@TOPIC.calculator(
    "desiccant-needed",
    say("How much silica gel dries this seed?"),
    says=say(
        "In a closed box, at rest. Gel that has taken up so much must be dried in the oven and used again."
    ),
    formula="W (m − m′) / (100 − m′) / capacity · safety",
    inputs={
        "weight_g": amount(say("Weight of the seed"), Unit.GRAMS, drying.LIGHTEST),
        "moisture_percent": amount(say("Moisture now"), Unit.PERCENT, 0, drying.WETTEST),
        "wanted_percent": amount(say("Wanted moisture"), Unit.PERCENT, 0, drying.WETTEST, usual=5),
        "desiccant": choice(say("Desiccant"), DESICCANTS, Desiccant.GEL_TO_15_RH),
        "safety": amount(say("Safety factor"), Unit.TIMES, 1, dried_by.MOST_SAFETY, usual=1),
    },
    example={"weight_g": 100, "moisture_percent": 12},
)
def desiccant_needed(
    weight_g: float, moisture_percent: float, wanted_percent: float, desiccant: StrEnum, safety: float
) -> Answer:
    kind = Desiccant(desiccant)
    needed = dried_by.desiccant_needed(weight_g, moisture_percent, wanted_percent, kind, safety=safety)
    water = dried_by.water_to_remove(weight_g, moisture_percent, wanted_percent)
    return Answer(
        (Part("desiccant", say("Desiccant"), needed), Part("water", say("Water it must take up"), water))
    )


@TOPIC.calculator(
    "hygrometer-check",
    say("Does this hygrometer tell the truth?"),
    says=say("Close it in a jar over wet salt for a day, then read it."),
    formula="RH = A exp(B / kelvins) over the wet salt",
    inputs={
        "salt": choice(say("Salt"), SALTS, Salt.SODIUM_CHLORIDE),
        "temperature_c": amount(
            say("Temperature"), Unit.DEGREES_CELSIUS, salts.COLDEST_C, salts.HOTTEST_C, usual=20
        ),
        "reading_percent": amount(say("It reads"), Unit.PERCENT, 0, 100),
    },
    example={"reading_percent": 72},
)
def hygrometer_check(salt: StrEnum, temperature_c: float, reading_percent: float) -> Answer:
    found = salts.check_hygrometer(Salt(salt), temperature_c, reading_percent)
    rows = (
        (say("The air"), found.humidity.value, say("{percent} %", percent=round(found.humidity.value, 1))),
        (say("It reads"), reading_percent, say("{percent} %", percent=reading_percent)),
    )
    yes = say("It agrees to within {points} points.", points=salts.AGREES_WITHIN)
    no = say(
        "It is off by more than {points} points: write the correction on it.", points=salts.AGREES_WITHIN
    )
    return Answer(
        (Part("humidity", HUMIDITY, found.humidity), Part("off_by", say("Off by"), found.off_by)),
        Bars(say("Air and reading"), say("What"), say("Humidity in %"), rows),
        yes if found.agrees else no,
        (POISON,) if salt in HARMFUL else (),
    )
