"""The seed a population bears this year and what may leave it, always counted from the low end."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from hub.science.quantity import MOST, Estimate, Unit, normal_deviate, within
from hub.science.sources import PRODUCT, TAKEN_SHARE
from hub.words import Words, say

CROP_LEVEL = 0.90
"""A two-sided interval at this level has its low end as the one-sided 95 % bound."""

LARGEST_CROP = 10**15
"""No population bears more seeds; a larger product is taken for a slip."""

ROUGH = 0.5
"""Coefficient of variation from which an estimate is called rough (our own default)."""


@dataclass(frozen=True)
class Allowance:
    """Seeds, and the whole fruits that hold them, which may be taken; both rounded down."""

    seeds: int
    fruits: int
    warnings: tuple[Words, ...] = ()


def seed_crop(factors: Sequence[Estimate], *, level: float = CROP_LEVEL) -> Estimate:
    """Seeds borne: plants x share fruiting x fruits per plant x good seeds per fruit x share ripe.

    Takes one to eight independent estimates in any order and leaves out what does not apply.
    The interval takes each for lognormal: its variance is Goodman’s exact one, and its low end
    stays above 0 and below that of the first-order formula, which simulation shows to be too bold.
    """
    within(len(factors), say("The number of factors"), Unit.VALUES, 1, 8)
    for factor in factors:
        within(factor.value, say("A factor of the seed crop"), Unit.VALUES, 0, MOST)
    deviate = normal_deviate(level)
    value = within(math.prod(f.value for f in factors), say("The seed crop"), Unit.SEEDS, 0, LARGEST_CROP)
    if value < 1:
        return _hardly_any(value, factors, level)
    log_variance = math.fsum(math.log1p((f.standard_error / f.value) ** 2) for f in factors)
    spread = deviate * math.sqrt(log_variance)
    low = min(value * math.exp(-log_variance / 2 - spread), value)
    high = max(value * math.exp(-log_variance / 2 + spread), value)
    return Estimate(value, Unit.SEEDS, low, high, level, PRODUCT, _warnings(factors, log_variance))


def _hardly_any(value: float, factors: Sequence[Estimate], level: float) -> Estimate:
    """No crop to speak of: nothing can be promised, and at most what all the high ends would give."""
    high = min(math.prod(max(factor.high, factor.value) for factor in factors), LARGEST_CROP)
    return Estimate(value, Unit.SEEDS, 0.0, high, level, PRODUCT, _warnings(factors, 0.0))


def _warnings(factors: Sequence[Estimate], log_variance: float) -> tuple[Words, ...]:
    """What each factor warned of, once, and whether their product is rough."""
    inherited = dict.fromkeys(warning for factor in factors for warning in factor.warnings)
    if math.expm1(log_variance) > ROUGH**2:
        inherited[say("This estimate is rough; count more plants to make it surer.")] = None
    return tuple(inherited)


def whole_share(share: float, amount: float) -> int:
    """The whole things in a share (0 to 1) of an amount, rounded down.

    The share is read as the decimal it is written as, so that 0.29 of 100 is 29 and not 28.
    """
    within(share, say("The share"), Unit.SHARE, 0, 1)
    within(amount, say("The amount"), Unit.VALUES, 0, LARGEST_CROP)
    return math.floor(Fraction(str(share)) * Fraction(amount))


def one_in(share: float) -> int:
    """The share (0.001 to 1) as “one in every so many”, rounded up so that it never allows more."""
    within(share, say("The share"), Unit.SHARE, 0.001, 1)
    return math.ceil(1 / Fraction(str(share)))


def allowance(share: float, crop: Estimate, seeds_per_fruit: Estimate) -> Allowance:
    """What a share (0 to 1) of a crop allows, reckoned from the low end of the crop’s interval."""
    seeds = whole_share(share, crop.low)
    fruits = _fruits_holding(seeds, seeds_per_fruit)
    nothing = say("The share comes to less than one whole fruit: take nothing.")
    return Allowance(seeds, fruits, crop.warnings if fruits else (*crop.warnings, nothing))


def most_from_mother(
    share: float, ripe_fruits: int, seeds_per_fruit: Estimate, *, allowed_seeds: int, mothers: int
) -> Allowance:
    """The most from one mother: its own share (0 to 1), or an even part of the allowance if less.

    Whole fruits, and the seeds that they hold at the mean number of good seeds in a fruit.
    """
    within(ripe_fruits, say("The ripe fruits of a mother"), Unit.FRUITS, 0, MOST)
    within(allowed_seeds, say("The allowance"), Unit.SEEDS, 0, LARGEST_CROP)
    within(mothers, say("The number of mothers"), Unit.MOTHERS, 1, MOST)
    even_part = _fruits_holding(Fraction(allowed_seeds, mothers), seeds_per_fruit)
    fruits = min(whole_share(share, ripe_fruits), even_part)
    return Allowance(math.floor(fruits * Fraction(seeds_per_fruit.value)), fruits)


def _fruits_holding(seeds: int | Fraction, seeds_per_fruit: Estimate) -> int:
    per_fruit = within(seeds_per_fruit.value, say("The good seeds in a fruit"), Unit.SEEDS, 0.001, MOST)
    return math.floor(seeds / Fraction(per_fruit))


def share_taken(taken: int, crop: Estimate) -> Estimate:
    """The share of a crop that was taken, 0 to 1; a crop is at least what came off it."""
    within(taken, say("The seeds taken"), Unit.SEEDS, 0, LARGEST_CROP)
    value, low, high = (
        taken / max(taken, seeds) if taken else 0.0 for seeds in (crop.value, crop.high, crop.low)
    )
    return Estimate(value, Unit.SHARE, low, high, crop.level, TAKEN_SHARE, crop.warnings)
