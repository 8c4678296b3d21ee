"""No function of the science lets NaN or infinity in or out, and none answers bad input with a fault."""

import math

import pytest

from hub.science import counts, drying, equal_draw, mothers, outliers, population, proportions, sampling, take
from hub.science.distance import Position
from hub.science.quantity import Estimate, Evidence, OutOfRange, Source, Unit
from hub.science.tolerances import compare_replicates

GRAINS = counts.Weighing((1.0, 1.01, 0.99, 1.0))
HALF = proportions.Trial(5, 10)
CROP = Estimate(1000, Unit.SEEDS, 800, 1200, 0.9, Source("a test", Evidence.OWN))

QUESTIONS = {
    "selfing": sampling.inbreeding_from_selfing,
    "frequency of gametes": lambda bad: sampling.capture_by_gametes(bad, 10),
    "gametes": lambda bad: sampling.capture_by_gametes(0.05, bad),
    "frequency of mothers": lambda bad: sampling.capture_by_mothers(bad, 10),
    "mothers": lambda bad: sampling.capture_by_mothers(0.05, bad),
    "inbreeding": lambda bad: sampling.capture_by_mothers(0.05, 10, inbreeding=bad),
    "population": lambda bad: sampling.capture_in_small_population(0.05, 10, bad),
    "wanted gametes": lambda bad: sampling.gametes_needed(0.05, bad),
    "wanted mothers": lambda bad: sampling.mothers_needed(bad, 0.95),
    "loci": lambda bad: sampling.gametes_for_all(0.05, alleles=2, loci=bad, wanted=0.9),
    "alleles": lambda bad: sampling.gametes_for_all(0.05, alleles=bad, loci=2, wanted=0.9),
    "wanted of all": lambda bad: sampling.gametes_for_all(0.05, alleles=2, loci=2, wanted=bad),
    "frequencies": lambda bad: sampling.capture_of_all([0.05, bad], 10),
    "gametes for all": lambda bad: sampling.expected_alleles([0.05], bad),
    "seeds of mothers": lambda bad: mothers.effective_mothers([5, bad]),
    "paternity": lambda bad: mothers.effective_size([5], correlated_paternity=bad),
    "selfed seed": lambda bad: mothers.capture_by_families(0.05, [5], selfing=bad),
    "inbred mothers": lambda bad: mothers.capture_by_families(0.05, [5], inbreeding=bad),
    "donors": lambda bad: mothers.expected_donors(5, bad),
    "drawn": lambda bad: mothers.expected_mothers_in([5], bad),
    "line": lambda bad: equal_draw.equal_draw([bad], 1),
    "wanted seeds": lambda bad: equal_draw.equal_draw([5], bad),
    "plot": lambda bad: population.population_from_plots([5, bad], plot_area_m2=1, total_area_m2=9),
    "plot area": lambda bad: population.population_from_plots([5, 5], plot_area_m2=bad, total_area_m2=9),
    "whole area": lambda bad: population.population_from_plots([5, 5], plot_area_m2=1, total_area_m2=bad),
    "plot level": lambda bad: population.population_from_plots(
        [5, 5], plot_area_m2=1, total_area_m2=9, level=bad
    ),
    "walk": lambda bad: population.population_from_walk(bad, error_share=0.1),
    "walking error": lambda bad: population.population_from_walk(10, error_share=bad),
    "sample": lambda bad: population.sample_mean([1, bad], Unit.FRUITS),
    "share": lambda bad: take.whole_share(bad, 10),
    "amount": lambda bad: take.whole_share(0.1, bad),
    "one in": take.one_in,
    "crop level": lambda bad: take.seed_crop([CROP], level=bad),
    "allowed share": lambda bad: take.allowance(bad, CROP, CROP),
    "fruits": lambda bad: take.most_from_mother(0.1, bad, CROP, allowed_seeds=9, mothers=9),
    "allowed": lambda bad: take.most_from_mother(0.1, 9, CROP, allowed_seeds=bad, mothers=9),
    "mothers to share": lambda bad: take.most_from_mother(0.1, 9, CROP, allowed_seeds=9, mothers=bad),
    "taken": lambda bad: take.share_taken(bad, CROP),
    "replicate": lambda bad: counts.Weighing((1.0, bad)),
    "balance": lambda bad: counts.Weighing((1.0, 1.0), balance_step_g=bad),
    "lot weight": lambda bad: counts.seeds_by_weight(GRAINS, bad),
    "purity": lambda bad: counts.seeds_by_weight(GRAINS, 10, purity=bad),
    "count": counts.counted_seeds,
    "weight level": lambda bad: counts.thousand_seed_weight(GRAINS, level=bad),
    "good": lambda bad: proportions.exact_share(proportions.Trial(bad, 10)),
    "tested": lambda bad: proportions.wilson_share(proportions.Trial(1, bad)),
    "trial level": lambda bad: proportions.exact_share(HALF, level=bad),
    "bound level": lambda bad: proportions.bad_share_not_ruled_out(HALF, level=bad),
    "to prove": lambda bad: proportions.seeds_to_prove(bad),
    "bad": lambda bad: proportions.seeds_to_prove(0.9, bad=bad),
    "half-width": lambda bad: proportions.seeds_to_estimate(0.5, bad),
    "viable level": lambda bad: proportions.viable_seeds(CROP, HALF, HALF, level=bad),
    "per cent": lambda bad: compare_replicates([90, bad]),
    "oven": lambda bad: drying.moisture_from_oven(1, 2, bad),
    "container": lambda bad: drying.moisture_from_oven(bad, 2, 2),
    "step": lambda bad: drying.moisture_from_oven(1, 2, 2, balance_step_g=bad),
    "stages": lambda bad: drying.moisture_in_two_stages(5, bad),
    "weight": lambda bad: drying.target_weight(bad, 12, 5),
    "moisture": lambda bad: drying.target_weight(10, bad, 5),
    "wanted moisture": lambda bad: drying.target_weight(10, 12, bad),
    "weight now": lambda bad: drying.moisture_after_drying(12, 10, bad),
    "past": lambda bad: outliers.compare_with_past(5, [1, bad]),
    "latitude": lambda bad: Position(latitude=bad, longitude=0),
}


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, -(10**400), 10**400], ids=str)
@pytest.mark.parametrize("question", QUESTIONS.values(), ids=QUESTIONS)
def test_what_is_no_number_of_this_world_is_refused_in_words(question, bad):
    with pytest.raises(OutOfRange) as refused:
        question(bad)
    assert str(refused.value.words).endswith(".")
