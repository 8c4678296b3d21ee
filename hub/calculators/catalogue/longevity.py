"""How long dried seed lives, and when to test it again."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from enum import StrEnum

from hub.calculators.calculator import Answer, Part, Topic
from hub.calculators.figures import OnDay
from hub.calculators.inputs import amount, amounts, choice, counts, day, level, share
from hub.calculators.pictures import Curve, traced
from hub.science.longevity import equation, relative
from hub.science.longevity.constants import CONSTANTS
from hub.science.longevity.equation import GREATEST_SHARE, LEAST_SHARE, Mark
from hub.science.longevity.fitting import StoredTest, fit_series
from hub.science.longevity.next_test import Keeping, next_test_on, years_to_next_test
from hub.science.longevity.sources import NEXT_TEST
from hub.science.longevity.store import COLDEST_C, HOTTEST_C, WETTEST_PERCENT, Behaviour, Store
from hub.science.proportions import LARGEST_TEST, Trial
from hub.science.quantity import Estimate, Unit
from hub.words import Refused, Words, say

TOPIC = Topic(say("Longevity"), say("How long dried seed lives, and when to test it again."))

ALIVE = say("Share alive")
YEARS = say("Years in store")
LONGER = say("Times as long")
CROPS_ONLY = say("Only crops are known. For a wild plant this shows how seed ages, not when yours will.")
DRAWN_FURTHER = 1.5
TEST_AT = 0.85

Known = StrEnum("Known", {name.replace(" ", "_"): name for name in CONSTANTS})  # type: ignore[misc]
SPECIES: dict[StrEnum, Words] = {each: Words(each.value) for each in Known}
BEHAVIOURS: dict[StrEnum, Words] = {
    Behaviour.ORTHODOX: say("Bears drying"),
    Behaviour.UNKNOWN: say("Not known"),
    Behaviour.INTERMEDIATE: say("Bears some drying"),
    Behaviour.RECALCITRANT: say("Dies when dried"),
}
KEEPING: dict[StrEnum, Words] = {Keeping.WELL: say("Keeps well"), Keeping.POORLY: say("Keeps poorly")}


BEHAVIOUR = choice(say("What the seed bears"), BEHAVIOURS, Behaviour.UNKNOWN)
SPECIES_BOX = choice(say("Species"), SPECIES, next(iter(Known)), hint=CROPS_ONLY)
MOISTURE = amount(say("Moisture, of fresh weight"), Unit.PERCENT, 0, WETTEST_PERCENT, usual=5)
TEMPERATURE = amount(say("Temperature"), Unit.DEGREES_CELSIUS, COLDEST_C, HOTTEST_C, usual=-18)
FIRST = share(say("Share alive at first"), LEAST_SHARE, GREATEST_SHARE, usual=0.95)


@TOPIC.calculator(
    "viability-after",
    say("How much will be alive after some years?"),
    says=say("For the few crops whose constants are known."),
    formula="v = K − p / σ; log σ = K_E − C_W log m − C_H t − C_Q t²",
    inputs={
        "species": SPECIES_BOX,
        "moisture_percent": MOISTURE,
        "temperature_c": TEMPERATURE,
        "initial_share": FIRST,
        "years": amount(YEARS, Unit.YEARS, 0, 2000, usual=50),
        "level": level(),
    },
    example={"species": "Allium cepa", "temperature_c": 5, "moisture_percent": 8},
)
def viability_after(
    species: StrEnum,
    moisture_percent: float,
    temperature_c: float,
    initial_share: float,
    years: float,
    level: float,
) -> Answer:
    constants, store = CONSTANTS[species.value], dry_store(moisture_percent, temperature_c)

    def alive(after: float) -> float:
        days = after * equation.DAYS_A_YEAR
        return equation.viability_after(constants, store, initial_share, days, level=level).value

    days = years * equation.DAYS_A_YEAR
    found = equation.viability_after(constants, store, initial_share, days, level=level)
    picture = Curve(
        say("Share alive, by years"),
        YEARS,
        ALIVE,
        traced(alive, 0, max(DRAWN_FURTHER * years, 1)),
        (years, found.value),
    )
    return Answer((Part("share", ALIVE, found),), picture)


@TOPIC.calculator(
    "time-to-viability",
    say("How long until viability has fallen so far?"),
    says=say("For the few crops whose constants are known."),
    formula="p = σ (K − probit of the share waited for)",
    inputs={
        "species": SPECIES_BOX,
        "moisture_percent": MOISTURE,
        "temperature_c": TEMPERATURE,
        "initial_share": FIRST,
        "wanted_share": share(
            say("Share of the first viability waited for"), LEAST_SHARE, GREATEST_SHARE, usual=TEST_AT
        ),
        "level": level(),
    },
    example={"species": "Allium cepa", "temperature_c": 5, "moisture_percent": 8},
)
def time_to_viability(
    species: StrEnum,
    moisture_percent: float,
    temperature_c: float,
    initial_share: float,
    wanted_share: float,
    level: float,
) -> Answer:
    constants, store = CONSTANTS[species.value], dry_store(moisture_percent, temperature_c)
    found = equation.time_to(constants, store, initial_share, wanted_share, Mark.OF_INITIAL, level=level)

    def alive(after: float) -> float:
        days = after * equation.DAYS_A_YEAR
        return equation.viability_after(constants, store, initial_share, days).value

    picture = Curve(
        say("Share alive, by years"),
        YEARS,
        ALIVE,
        traced(alive, 0, DRAWN_FURTHER * found.value),
        (found.value, alive(found.value)),
    )
    return Answer((Part("years", YEARS, found),), picture)


def dry_store(moisture_percent: float, temperature_c: float) -> Store:
    """All species with constants bear drying."""
    return Store(moisture_percent=moisture_percent, temperature_c=temperature_c, behaviour=Behaviour.ORTHODOX)


@TOPIC.calculator(
    "store-comparison",
    say("How much longer will seed live in a better store?"),
    says=say("Drier, colder or both; for any species that bears drying. There is no date in this."),
    formula="10^(C_H (t − t′) + C_Q (t² − t′²)) · (m / m′)^C_W, C_W from 4 to 6",
    inputs={
        "behaviour": BEHAVIOUR,
        "moisture_before": amount(say("Moisture before"), Unit.PERCENT, 0, WETTEST_PERCENT),
        "temperature_before": amount(say("Temperature before"), Unit.DEGREES_CELSIUS, COLDEST_C, HOTTEST_C),
        "moisture_after": amount(say("Moisture after"), Unit.PERCENT, 0, WETTEST_PERCENT),
        "temperature_after": amount(say("Temperature after"), Unit.DEGREES_CELSIUS, COLDEST_C, HOTTEST_C),
    },
    example={
        "behaviour": "orthodox",
        "moisture_before": 10,
        "temperature_before": 20,
        "moisture_after": 5,
        "temperature_after": -18,
    },
)
def store_comparison(
    behaviour: StrEnum,
    moisture_before: float,
    temperature_before: float,
    moisture_after: float,
    temperature_after: float,
) -> Answer:
    before, after = stores(behaviour, moisture_before, temperature_before, moisture_after, temperature_after)
    both = relative.life_factor(before, after)
    drier = relative.moisture_factor(before, after)
    colder = relative.temperature_factor(before.temperature_c, after.temperature_c)
    return Answer(
        (
            Part("both", LONGER, both),
            Part("drier", say("Of that, by moisture"), drier),
            Part("colder", say("Of that, by temperature"), colder),
        )
    )


@TOPIC.calculator(
    "rule-of-thumb-life",
    say("How much longer, by the old rule of thumb?"),
    says=say("Each percent of moisture and each 5 °C doubles life. Rougher than the comparison of stores."),
    formula="2^((m − m′) + (t − t′) / 5)",
    inputs={
        "moisture_before": amount(say("Moisture before"), Unit.PERCENT, *relative.RULE_OF_THUMB_PERCENT),
        "temperature_before": amount(
            say("Temperature before"), Unit.DEGREES_CELSIUS, *relative.RULE_OF_THUMB_C
        ),
        "moisture_after": amount(say("Moisture after"), Unit.PERCENT, *relative.RULE_OF_THUMB_PERCENT),
        "temperature_after": amount(
            say("Temperature after"), Unit.DEGREES_CELSIUS, *relative.RULE_OF_THUMB_C
        ),
    },
    example={"moisture_before": 10, "temperature_before": 20, "moisture_after": 6, "temperature_after": 5},
)
def rule_of_thumb_life(
    moisture_before: float, temperature_before: float, moisture_after: float, temperature_after: float
) -> Answer:
    both = stores(Behaviour.ORTHODOX, moisture_before, temperature_before, moisture_after, temperature_after)
    return Answer((Part("times", LONGER, relative.rule_of_thumb(*both)),))


def stores(
    behaviour: StrEnum,
    moisture_before: float,
    temperature_before: float,
    moisture_after: float,
    temperature_after: float,
) -> tuple[Store, Store]:
    kind = Behaviour(behaviour)
    before, after = (
        Store(moisture_percent=moisture, temperature_c=temperature, behaviour=kind)
        for moisture, temperature in (
            (moisture_before, temperature_before),
            (moisture_after, temperature_after),
        )
    )
    return before, after


@TOPIC.calculator(
    "viability-decline",
    say("How fast is this lot dying, by its own tests?"),
    says=say("From tests of one lot on two days or more, all in one store."),
    formula="probit of the share alive = K + slope · days, by weighted likelihood",
    inputs={
        "days": amounts(say("Days of the tests, from the first"), Unit.DAYS, 0, least=2),
        "alive": counts(say("Seeds alive in each"), Unit.SEEDS, 0, LARGEST_TEST, least=2),
        "tested": counts(say("Seeds tested in each"), Unit.SEEDS, 1, LARGEST_TEST, least=2),
        "wanted_share": share(
            say("Share of the first viability waited for"), LEAST_SHARE, GREATEST_SHARE, usual=TEST_AT
        ),
        "level": level(),
    },
    example={"days": [0, 1800, 3600, 5500], "alive": [97, 92, 84, 71], "tested": [100, 100, 100, 100]},
)
def viability_decline(
    days: Sequence[float], alive: Sequence[int], tested: Sequence[int], wanted_share: float, level: float
) -> Answer:
    if not len(days) == len(alive) == len(tested):
        raise Refused(say("Each test needs its day, its living seeds and its tested seeds."))
    tests = [StoredTest(*each) for each in zip(days, map(Trial, alive, tested), strict=True)]
    line = fit_series(tests, level=level)
    wait = line.time_to(wanted_share, Mark.OF_INITIAL)
    years = max(wait.value, days[-1] / equation.DAYS_A_YEAR)
    picture = Curve(
        say("Share alive, by years"),
        YEARS,
        ALIVE,
        traced(
            lambda at: line.viability_at(at * equation.DAYS_A_YEAR).value, 0, min(DRAWN_FURTHER * years, 200)
        ),
        (wait.value, line.viability_at(wait.value * equation.DAYS_A_YEAR).value),
    )
    return Answer(
        (
            Part("years", say("Falls so far after"), wait),
            Part("days_per_probit", say("Days in which it falls by one probit"), line.days_per_probit),
        ),
        picture,
    )


@TOPIC.calculator(
    "next-viability-test",
    say("When should this lot be tested again?"),
    says=say("A third of the time to 85 % of the first result, where that time is known; else by custom."),
    formula="min(t₈₅ / 3, 40 years); without t₈₅ ten years where seed keeps well, five where poorly",
    inputs={
        "last_test": day(say("Day of the last test")),
        "years_to_85": amount(
            say("Years until 85 % of the first viability"),
            Unit.YEARS,
            0,
            100_000,
            needed=False,
            hint=say("Leave it empty when nobody knows."),
        ),
        "keeping": choice(say("Otherwise: how well such seed keeps"), KEEPING, Keeping.POORLY),
    },
    example={"last_test": "2031-03-15"},
)
def next_viability_test(last_test: date, years_to_85: float | None, keeping: StrEnum) -> Answer:
    known = None
    if years_to_85 is not None:
        known = Estimate.exact(years_to_85, Unit.YEARS, NEXT_TEST)
    wait = years_to_next_test(known, Keeping(keeping))
    on = OnDay(next_test_on(last_test, wait), wait.source)
    return Answer((Part("day", say("Test it again on"), on), Part("years", say("Years to wait"), wait)))
