"""How many mothers, and what their seed holds of the population's diversity."""

from __future__ import annotations

from collections.abc import Sequence

from hub.calculators.calculator import Answer, Part, Topic
from hub.calculators.inputs import counts, share, whole
from hub.calculators.pictures import Bars, Curve, ShareBar, traced_whole
from hub.science import equal_draw as draws
from hub.science import mothers as families
from hub.science import sampling
from hub.science.quantity import Estimate, Evidence, Source, Unit
from hub.science.sampling import FINITE_POPULATION, RAREST, SURE
from hub.science.sources import ALLELES, SEVERAL_ALLELES
from hub.words import Words, say, say_n

TOPIC = Topic(say("Sampling"), say("How many mothers, and what their seed holds of the population."))

FREQUENCY = say("How common the allele is")
RARE_ENOUGH = say("Rare but not lost to chance: 0.05 is usual.")
CHANCE = say("Chance of having the allele")
MOTHERS = say("Mother plants")
SEEDS_BY_MOTHER = say("Seeds of each mother")
SELFED = say("0 for plants that outcross, 1 for plants that only self.")
MOST_DRAWN = 600
EVEN = Source("Equal shares until a line is empty: Aumann & Maschler 1985", Evidence.MEMORY)


@TOPIC.calculator(
    "mothers-needed",
    say("How many mothers must we collect from?"),
    says=say("The fewest mother plants whose seed parents carry an allele with the wanted chance."),
    formula="n = ln(1 − P) / ln(q² + F p q), rounded up; q = 1 − p",
    inputs={
        "frequency": share(FREQUENCY, RAREST, 1, usual=0.05, hint=RARE_ENOUGH),
        "wanted": share(say("Wanted chance"), 0, SURE, usual=0.95),
        "inbreeding": share(say("Inbreeding of the mothers, F"), -1, 1, usual=0, hint=SELFED),
    },
    example={},
)
def mothers_needed(frequency: float, wanted: float, inbreeding: float) -> Answer:
    needed = sampling.mothers_needed(frequency, wanted, inbreeding=inbreeding)

    def chance(mothers: int) -> float:
        return sampling.capture_by_mothers(frequency, mothers, inbreeding=inbreeding).value

    picture = Curve(
        say("Chance of having the allele, by mothers"),
        MOTHERS,
        CHANCE,
        traced_whole(chance, 0, max(2 * needed, 10)),
        (needed, chance(needed)),
    )
    return Answer((Part("mothers", MOTHERS, Estimate.exact(needed, Unit.MOTHERS, ALLELES)),), picture)


@TOPIC.calculator(
    "allele-capture",
    say("How likely do these mothers carry a rare allele?"),
    says=say("The chance that at least one of the mothers carries it. An effective number will do."),
    formula="P = 1 − (q² + F p q)ⁿ; q = 1 − p",
    inputs={
        "mothers": whole(MOTHERS, Unit.MOTHERS, 0, 1_000_000),
        "frequency": share(FREQUENCY, 0, 1, usual=0.05, hint=RARE_ENOUGH),
        "inbreeding": share(say("Inbreeding of the mothers, F"), -1, 1, usual=0, hint=SELFED),
    },
    example={"mothers": 30},
)
def allele_capture(mothers: int, frequency: float, inbreeding: float) -> Answer:
    found = sampling.capture_by_mothers(frequency, mothers, inbreeding=inbreeding)
    picture = Curve(
        say("Chance of having the allele, by mothers"),
        MOTHERS,
        CHANCE,
        traced_whole(
            lambda n: sampling.capture_by_mothers(frequency, n, inbreeding=inbreeding).value,
            0,
            max(2 * mothers, 10),
        ),
        (mothers, found.value),
    )
    return Answer((Part("chance", CHANCE, found),), picture)


@TOPIC.calculator(
    "small-population-capture",
    say("How likely do some plants of a small population carry a rare allele?"),
    says=say("As above, where the plants are so few that each one taken changes what is left."),
    formula="P = 1 − C(2M − k, 2n) / C(2M, 2n); k = 2 M p, rounded",
    inputs={
        "mothers": whole(MOTHERS, Unit.MOTHERS, 0, FINITE_POPULATION),
        "population": whole(say("Plants in the population"), Unit.PLANTS, 1, FINITE_POPULATION),
        "frequency": share(FREQUENCY, 0, 1, usual=0.05, hint=RARE_ENOUGH),
    },
    example={"mothers": 20, "population": 60},
)
def small_population_capture(mothers: int, population: int, frequency: float) -> Answer:
    found = sampling.capture_in_small_population(frequency, mothers, population)
    picture = Curve(
        say("Chance of having the allele, by mothers"),
        MOTHERS,
        CHANCE,
        traced_whole(
            lambda n: sampling.capture_in_small_population(frequency, n, population).value, 0, population
        ),
        (mothers, found.value),
    )
    return Answer((Part("chance", CHANCE, found),), picture)


@TOPIC.calculator(
    "gametes-for-all-alleles",
    say("How large a sample holds every allele of many genes?"),
    says=say("Independent gametes that hold all alleles of all genes together with one wanted chance."),
    formula="n = [ln(1 − P^(1/L)) − ln(k − 1)] / ln(1 − p), rounded up",
    inputs={
        "frequency": share(say("How common each rare allele is"), RAREST, 0.5, usual=0.05),
        "alleles": whole(say("Alleles of a gene"), Unit.ALLELES, 2, 1000, usual=2),
        "loci": whole(say("Genes"), Unit.LOCI, 1, 1_000_000),
        "wanted": share(say("Wanted chance of holding all"), RAREST, SURE, usual=0.90),
    },
    example={"loci": 10},
)
def gametes_for_all_alleles(frequency: float, alleles: int, loci: int, wanted: float) -> Answer:
    needed = sampling.gametes_for_all(frequency, alleles=alleles, loci=loci, wanted=wanted)
    part = Part("gametes", say("Gametes"), Estimate.exact(needed, Unit.GAMETES, SEVERAL_ALLELES))
    plants = say("An outcrossing plant gives two gametes, a selfed one hardly more than one.")
    return Answer((part,), verdict=plants)


@TOPIC.calculator(
    "seed-family-capture",
    say("How likely do these seeds hold a rare allele?"),
    says=say("Counts what the mothers carry and what their fathers’ pollen brings."),
    formula="P = 1 − Π [P(Aa) (s/4 + (1 − s) q/2)^m + P(aa) (s + (1 − s) q)^m]",
    inputs={
        "seeds_by_mother": counts(SEEDS_BY_MOTHER, Unit.SEEDS),
        "frequency": share(FREQUENCY, 0, 1, usual=0.05, hint=RARE_ENOUGH),
        "selfing": share(say("Share of selfed seed"), usual=0),
        "inbreeding": share(say("Inbreeding of the mothers, F"), 0, 1, usual=0, hint=SELFED),
    },
    example={"seeds_by_mother": [20, 20, 20, 20, 20]},
)
def seed_family_capture(
    seeds_by_mother: Sequence[int], frequency: float, selfing: float, inbreeding: float
) -> Answer:
    found = families.capture_by_families(frequency, seeds_by_mother, selfing=selfing, inbreeding=inbreeding)
    return Answer((Part("chance", CHANCE, found),), ShareBar(CHANCE, found.value, found.low, found.high))


@TOPIC.calculator(
    "effective-mothers",
    say("For how many mothers does this collection really stand?"),
    says=say("Unequal shares waste mothers: ten of which one gave most of the seed stand for few."),
    formula="N = 1 / Σ cᵢ²; cᵢ the share of mother i",
    inputs={"seeds_by_mother": counts(SEEDS_BY_MOTHER, Unit.SEEDS)},
    example={"seeds_by_mother": [500, 200, 100, 100, 50, 20, 10, 10, 5, 5]},
)
def effective_mothers(seeds_by_mother: Sequence[int]) -> Answer:
    found = families.effective_mothers(seeds_by_mother)
    gave = sum(1 for seeds in seeds_by_mother if seeds)
    picture = shares_of_mothers(seeds_by_mother)
    note = say_n("{n} mother gave seed.", "{n} mothers gave seed.", n=gave)
    return Answer((Part("mothers", say("Effective number of mothers"), found),), picture, note)


@TOPIC.calculator(
    "effective-size",
    say("How many unrelated plants do these seed families stand for?"),
    says=say("The variance effective size of the bulk of these families."),
    formula="Ne = 1 / 2Θ; Θ = Σ [nᵢ/2 + nᵢ(nᵢ − 1)(1 + r)/8] / N²",
    inputs={
        "seeds_by_mother": counts(SEEDS_BY_MOTHER, Unit.SEEDS),
        "correlated_paternity": share(
            say("Chance that two seeds of a mother share their father"),
            usual=0,
            hint=say("0 for endless fathers, 0.2 for five, 1 for a single one."),
        ),
    },
    example={"seeds_by_mother": [10] * 20},
)
def effective_size(seeds_by_mother: Sequence[int], correlated_paternity: float) -> Answer:
    found = families.effective_size(seeds_by_mother, correlated_paternity=correlated_paternity)
    return Answer(
        (Part("plants", say("Effective size of the bulk"), found),), shares_of_mothers(seeds_by_mother)
    )


@TOPIC.calculator(
    "pollen-donors",
    say("How many fathers stand behind these seeds?"),
    says=say("The mean number of different fathers among the seeds of one mother."),
    formula="E = D [1 − (1 − 1/D)^m]",
    inputs={
        "seeds": whole(say("Seeds"), Unit.SEEDS, 0, 1_000_000),
        "donors": whole(say("Fathers that could have been"), Unit.DONORS, 1, 1_000_000),
    },
    example={"seeds": 20, "donors": 10},
)
def pollen_donors(seeds: int, donors: int) -> Answer:
    found = families.expected_donors(seeds, donors)
    picture = Curve(
        say("Different fathers, by seeds"),
        say("Seeds"),
        say("Fathers"),
        traced_whole(lambda n: families.expected_donors(n, donors).value, 0, max(2 * seeds, 10)),
        (seeds, found.value),
    )
    return Answer((Part("donors", say("Different fathers"), found),), picture)


@TOPIC.calculator(
    "mothers-in-a-draw",
    say("How many mothers will a random draw from the bulk hold?"),
    says=say("The mean number of mothers with at least one seed in the draw."),
    formula="E = Σ [1 − C(N − nᵢ, n) / C(N, n)]",
    inputs={
        "seeds_by_mother": counts(SEEDS_BY_MOTHER, Unit.SEEDS, 0, families.SAMPLED_SEEDS),
        "drawn": whole(say("Seeds drawn"), Unit.SEEDS, 0, families.SAMPLED_SEEDS),
    },
    example={"seeds_by_mother": [40, 25, 15, 10, 5, 3, 1, 1], "drawn": 20},
)
def mothers_in_a_draw(seeds_by_mother: Sequence[int], drawn: int) -> Answer:
    found = families.expected_mothers_in(seeds_by_mother, drawn)
    picture = Curve(
        say("Mothers in the draw, by seeds drawn"),
        say("Seeds drawn"),
        MOTHERS,
        traced_whole(
            lambda n: families.expected_mothers_in(seeds_by_mother, n).value,
            0,
            min(sum(seeds_by_mother), max(MOST_DRAWN, drawn)),
        ),
        (drawn, found.value),
    )
    return Answer((Part("mothers", say("Mothers in the draw"), found),), picture)


@TOPIC.calculator(
    "equal-draw",
    say("How many seeds to draw from each mother’s line?"),
    says=say("Each line gives the same until it is empty: so the draw stands for the most mothers."),
    formula="xᵢ = min(aᵢ, τ), Σ xᵢ = N",
    inputs={
        "available": counts(say("Seeds left of each line"), Unit.SEEDS),
        "wanted": whole(say("Seeds wanted in all"), Unit.SEEDS),
    },
    example={"available": [10, 20, 30, 40], "wanted": 60},
)
def equal_draw(available: Sequence[int], wanted: int) -> Answer:
    drawn = draws.equal_draw(available, wanted)
    parts = tuple(
        Part(f"line_{at}", line(at), Estimate.exact(seeds, Unit.SEEDS, EVEN))
        for at, seeds in enumerate(drawn, 1)
    )
    return Answer(parts, shares_of_mothers(drawn, say("Seeds drawn from each line")))


def shares_of_mothers(seeds: Sequence[int], title: Words = SEEDS_BY_MOTHER) -> Bars:
    rows = tuple(
        (line(at), float(each), say_n("{n} seed", "{n} seeds", n=each)) for at, each in enumerate(seeds, 1)
    )
    return Bars(title, MOTHERS, say("Seeds"), rows)


def line(number: int) -> Words:
    return say("Line {number}", number=number)
