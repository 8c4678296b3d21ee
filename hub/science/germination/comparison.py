"""Whether groups (lots, treatments, years) germinate differently, beyond what replicates differ anyway."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from hub.science.germination.heterogeneity import Heterogeneity, heterogeneity
from hub.science.germination.sources import SCATTER
from hub.science.proportions import LARGEST_TEST, Trial, wilson_share
from hub.science.quantity import Estimate, Unit, checked_level, within
from hub.words import say

MOST_GROUPS = 50


@dataclass(frozen=True)
class GroupComparison:
    """The good share of each group, and the chance of groups so far apart if they were alike.

    ``scatter`` is how many times the variance of pure luck the replicates within groups show, and at
    least 1; the intervals are widened by it.
    """

    shares: tuple[Estimate, ...]
    scatter: float
    chance: Estimate


def compare_groups(groups: Sequence[Sequence[Trial]], *, level: float = 0.95) -> GroupComparison:
    """Compare two or more groups of one or more replicates each.

    Replicates that scatter by luck alone leave the chi-square test of the groups, or its deals where
    few seeds are expected; where they scatter more, their scatter is the yardstick.
    """
    checked_level(level)
    within(len(groups), say("The number of groups"), Unit.GROUPS, 2, MOST_GROUPS)
    scatter, freedom = scatter_within(groups)
    whole = [pooled(group) for group in groups]
    between = heterogeneity(whole)
    chance = between.chance if scatter == 1 else _beside_scatter(between, scatter, freedom)
    return GroupComparison(tuple(_share(trial, scatter, level) for trial in whole), scatter, chance)


def scatter_within(groups: Sequence[Sequence[Trial]]) -> tuple[float, int]:
    """How many times the variance of luck replicates within groups show (at least 1); degrees of freedom."""
    spread = [_checked(group) for group in groups]
    freedom = sum(each.degrees_of_freedom for each in spread if each)
    chi_square = math.fsum(each.chi_square for each in spread if each)
    return (max(chi_square / freedom, 1.0) if freedom else 1.0), freedom


def pooled(group: Sequence[Trial]) -> Trial:
    """The replicates of a group as one trial."""
    return Trial(sum(trial.good for trial in group), sum(trial.tested for trial in group))


def _checked(group: Sequence[Trial]) -> Heterogeneity | None:
    """How the replicates of a group differ; None for a single one, which cannot tell."""
    within(len(group), say("The replicates of a group"), Unit.VALUES, 1, 200)
    for good, tested in group:
        within(tested, say("The seeds in a replicate"), Unit.SEEDS, 1, LARGEST_TEST)
        within(good, say("The good seeds"), Unit.SEEDS, 0, tested)
    return heterogeneity(group) if len(group) > 1 else None


def _beside_scatter(between: Heterogeneity, scatter: float, freedom: int) -> Estimate:
    from scipy.special import fdtrc

    ratio = between.dispersion / scatter
    return Estimate.exact(float(fdtrc(between.degrees_of_freedom, freedom, ratio)), Unit.SHARE, SCATTER)


def _share(trial: Trial, scatter: float, level: float) -> Estimate:
    found, wider = wilson_share(trial, level=level), math.sqrt(scatter)
    low = max(found.value - wider * (found.value - found.low), 0.0)
    high = min(found.value + wider * (found.high - found.value), 1.0)
    return replace(found, low=low, high=high)
