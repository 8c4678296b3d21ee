"""How many plants there are, what they bear, and how much of it may leave."""

from __future__ import annotations

from collections.abc import Sequence

from hub.calculators.calculator import Answer, Part, Topic, Use
from hub.calculators.inputs import amount, amounts, counts, level, share, whole
from hub.calculators.pictures import Bars, ShareBar
from hub.science import population
from hub.science import take as crops
from hub.science.quantity import Estimate, Evidence, Source, Unit
from hub.words import say, say_n

TOPIC = Topic(say("Take"), say("How many plants there are, what they bear, and how much of it may leave."))

PLANTS = say("Plants")
FROM_LOW_END = Source("Whole seeds and fruits, rounded down from the low end of the crop", Evidence.OWN)
SHARE_ALLOWED = say("Share that may be taken")
FROM_SHEET = say(
    "Follow the protocol sheet. It knows the law, the permit and what others took; this does not."
)
LOW, HIGH = say("Low end"), say("High end")


@TOPIC.calculator(
    "population-from-plots",
    say("How many plants grow here, by counts on plots?"),
    says=say("From two or more equal plots, laid out at random over the whole area."),
    formula="N = (A / a) · mean count; Student’s t with finite population correction",
    inputs={
        "counts": counts(say("Plants on each plot"), Unit.PLANTS, least=2),
        "plot_area_m2": amount(say("Area of one plot"), Unit.SQUARE_METRES, 0.0001),
        "total_area_m2": amount(say("Whole area"), Unit.SQUARE_METRES, 0.0001),
        "level": level(),
    },
    uses=(
        Use(
            say("Enter it as a count of this population"),
            "sites.census",
            "population_id",
            {"plants": "plants"},
        ),
    ),
    example={"counts": [3, 0, 7, 4, 2, 5, 1, 3, 6, 2], "plot_area_m2": 1, "total_area_m2": 400},
)
def population_from_plots(
    counts: Sequence[int], plot_area_m2: float, total_area_m2: float, level: float
) -> Answer:
    found = population.population_from_plots(
        counts, plot_area_m2=plot_area_m2, total_area_m2=total_area_m2, level=level
    )
    rows = tuple(
        (say("Plot {number}", number=at), float(each), say_n("{n} plant", "{n} plants", n=each))
        for at, each in enumerate(counts, 1)
    )
    return Answer(
        (Part("plants", PLANTS, found),), Bars(say("Plants on each plot"), say("Plot"), PLANTS, rows)
    )


@TOPIC.calculator(
    "population-from-walk",
    say("How many plants grow here, by a count on foot?"),
    says=say("The interval is what the counters say of their own count, and nothing else."),
    formula="N ± e N",
    inputs={
        "counted": whole(say("Plants counted"), Unit.PLANTS),
        "error_share": share(
            say("Part that may be missed or counted twice"),
            usual=0.1,
            hint=say("0.1 reads “to within a tenth”."),
        ),
    },
    example={"counted": 240},
)
def population_from_walk(counted: int, error_share: float) -> Answer:
    return Answer(
        (Part("plants", PLANTS, population.population_from_walk(counted, error_share=error_share)),)
    )


@TOPIC.calculator(
    "mean-per-plant",
    say("How many fruits does a plant bear, how many seeds a fruit?"),
    says=say("The mean of what sampled plants or fruits bear. Choose them at random, not the best."),
    formula="mean ± t s / √n",
    inputs={"counts": amounts(say("Counted on each"), Unit.NUMBER, least=2), "level": level()},
    example={"counts": [12, 30, 8, 22, 17, 25, 9, 14, 31, 19]},
)
def mean_per_plant(counts: Sequence[float], level: float) -> Answer:
    return Answer((Part("mean", say("Mean"), population.sample_mean(counts, Unit.NUMBER, level=level)),))


@TOPIC.calculator(
    "seed-crop",
    say("How many seeds does the population bear this year?"),
    says=say(
        "Plants in fruit, fruits a plant, good seeds a fruit, and the part that is ripe, each with its ends."
    ),
    formula="S = plants · fruits · seeds · ripe; var by Goodman’s exact product, lognormal ends",
    inputs={
        "plants": whole(say("Plants in fruit"), Unit.PLANTS, 1),
        "plants_low": whole(say("Plants in fruit, at least"), Unit.PLANTS),
        "fruits_by_plant": counts(say("Fruits on each sampled plant"), Unit.FRUITS, least=2),
        "seeds_by_fruit": counts(say("Good seeds in each sampled fruit"), Unit.SEEDS, least=2),
        "ripe_share": share(say("Ripe part of the fruits"), 0.001, 1, usual=1),
    },
    example={
        "plants": 200,
        "plants_low": 160,
        "fruits_by_plant": [12, 30, 8, 22, 17, 25, 9, 14, 31, 19],
        "seeds_by_fruit": [14, 9, 20, 17, 11, 15, 18, 8, 16, 13],
    },
)
def seed_crop(
    plants: int,
    plants_low: int,
    fruits_by_plant: Sequence[int],
    seeds_by_fruit: Sequence[int],
    ripe_share: float,
) -> Answer:
    low = min(plants_low, plants)
    counted = population.population_from_walk(plants, error_share=(plants - low) / plants)
    found = crops.seed_crop(
        [
            counted,
            population.sample_mean(fruits_by_plant, Unit.FRUITS),
            population.sample_mean(seeds_by_fruit, Unit.SEEDS),
            Estimate.exact(ripe_share, Unit.SHARE, FROM_LOW_END),
        ]
    )
    rows = (
        (LOW, found.low, say_n("{n} seed", "{n} seeds", n=round(found.low))),
        (say("Best guess"), found.value, say_n("{n} seed", "{n} seeds", n=round(found.value))),
        (HIGH, found.high, say_n("{n} seed", "{n} seeds", n=round(found.high))),
    )
    picture = Bars(say("The crop and its ends"), say("End"), say("Seeds"), rows)
    return Answer((Part("seeds", say("Seeds borne"), found),), picture)


@TOPIC.calculator(
    "seed-allowance",
    say("How many seeds, and how many whole fruits, may leave?"),
    says=say("A share of the crop, always from its low end, rounded down to whole seeds and whole fruits."),
    formula="seeds = ⌊share · S_low⌋; fruits = ⌊seeds / seeds per fruit⌋",
    inputs={
        "share": share(
            SHARE_ALLOWED, 0, 1, usual=0.1, hint=say("The protocol sheet says which share holds here.")
        ),
        "crop": whole(say("Seed crop, best guess"), Unit.SEEDS),
        "crop_low": whole(say("Seed crop, low end"), Unit.SEEDS),
        "seeds_per_fruit": amount(say("Good seeds in a fruit"), Unit.SEEDS, 0.001),
    },
    example={"crop": 52000, "crop_low": 36000, "seeds_per_fruit": 14},
)
def seed_allowance(share: float, crop: int, crop_low: int, seeds_per_fruit: float) -> Answer:
    low = min(crop_low, crop)
    borne = Estimate(crop, Unit.SEEDS, low, crop, crops.CROP_LEVEL, FROM_LOW_END)
    per_fruit = Estimate.exact(seeds_per_fruit, Unit.SEEDS, FROM_LOW_END)
    found = crops.allowance(share, borne, per_fruit)
    taken = found.seeds / crop if crop else 0.0
    return Answer(
        (
            Part("seeds", say("Seeds, at most"), Estimate.exact(found.seeds, Unit.SEEDS, FROM_LOW_END)),
            Part(
                "fruits",
                say("Whole fruits, at most"),
                Estimate.exact(found.fruits, Unit.FRUITS, FROM_LOW_END),
            ),
        ),
        ShareBar(say("Part of the crop that leaves"), taken, taken, found.seeds / low if low else 0.0),
        cautions=(*found.warnings, FROM_SHEET),
    )


@TOPIC.calculator(
    "most-from-one-mother",
    say("How many fruits may come from one plant?"),
    says=say("Its own share, or an even part of what may leave in all if that is less."),
    formula="fruits = min(⌊share · ripe⌋, ⌊allowed / mothers / seeds per fruit⌋)",
    inputs={
        "share": share(SHARE_ALLOWED, 0, 1, usual=0.1),
        "ripe_fruits": whole(say("Ripe fruits on the plant"), Unit.FRUITS),
        "seeds_per_fruit": amount(say("Good seeds in a fruit"), Unit.SEEDS, 0.001),
        "allowed_seeds": whole(say("Seeds that may leave in all"), Unit.SEEDS),
        "mothers": whole(say("Mothers to collect from"), Unit.MOTHERS, 1),
    },
    example={"ripe_fruits": 40, "seeds_per_fruit": 14, "allowed_seeds": 3600, "mothers": 50},
)
def most_from_one_mother(
    share: float, ripe_fruits: int, seeds_per_fruit: float, allowed_seeds: int, mothers: int
) -> Answer:
    found = crops.most_from_mother(
        share,
        ripe_fruits,
        Estimate.exact(seeds_per_fruit, Unit.SEEDS, FROM_LOW_END),
        allowed_seeds=allowed_seeds,
        mothers=mothers,
    )
    taken = found.fruits / ripe_fruits if ripe_fruits else 0.0
    return Answer(
        (
            Part(
                "fruits",
                say("Fruits of one plant, at most"),
                Estimate.exact(found.fruits, Unit.FRUITS, FROM_LOW_END),
            ),
            Part("seeds", say("Seeds in them"), Estimate.exact(found.seeds, Unit.SEEDS, FROM_LOW_END)),
        ),
        ShareBar(say("Part of this plant’s ripe fruits"), taken, taken, taken, share),
        cautions=(FROM_SHEET,),
    )


@TOPIC.calculator(
    "share-taken",
    say("What part of the crop was taken?"),
    says=say("With its ends, as the crop itself is only an estimate."),
    formula="taken / crop; a crop is at least what came off it",
    inputs={
        "taken": whole(say("Seeds taken"), Unit.SEEDS),
        "crop": whole(say("Seed crop, best guess"), Unit.SEEDS),
        "crop_low": whole(say("Seed crop, low end"), Unit.SEEDS),
        "crop_high": whole(say("Seed crop, high end"), Unit.SEEDS),
    },
    example={"taken": 3000, "crop": 52000, "crop_low": 36000, "crop_high": 75000},
)
def share_taken(taken: int, crop: int, crop_low: int, crop_high: int) -> Answer:
    low, high = min(crop_low, crop), max(crop_high, crop)
    borne = Estimate(crop, Unit.SEEDS, low, high, crops.CROP_LEVEL, FROM_LOW_END)
    found = crops.share_taken(taken, borne)
    return Answer(
        (Part("share", say("Part of the crop taken"), found),),
        ShareBar(say("Part of the crop taken"), found.value, found.low, found.high),
    )
