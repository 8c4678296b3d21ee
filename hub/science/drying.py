"""Moisture and drying weights. Moisture is in per cent of fresh weight unless a name says otherwise."""

from __future__ import annotations

import math

from hub.science.quantity import MOST, Estimate, Unit, checked_level, normal_deviate, within
from hub.science.sources import FRESH_BASIS, TARGET_WEIGHT
from hub.words import say

WETTEST = 95.0
"""The wettest seed reckoned with, in per cent of fresh weight."""

LIGHTEST = 1e-6
"""A microgram, in grams."""


def moisture_from_oven(
    container_g: float, before_g: float, after_g: float, *, balance_step_g: float = 0.0, level: float = 0.95
) -> Estimate:
    """Moisture of a sample weighed in its container before and after the oven.

    100 (before - after) / (before - container); the interval is that of the three roundings to
    ``balance_step_g``, the last digit of the balance. It says nothing about how one sample
    differs from the next.
    """
    empty = within(container_g, say("The weight of the container"), Unit.GRAMS, 0, MOST)
    full = within(before_g, say("The weight before drying"), Unit.GRAMS, empty + LIGHTEST, MOST + empty)
    dry = within(after_g, say("The weight after drying"), Unit.GRAMS, empty, full)
    step = within(balance_step_g, say("The step of the balance"), Unit.GRAMS, 0, full - empty)
    fresh = full - empty
    wet = (full - dry) / fresh
    rounding = step / math.sqrt(12)
    error = normal_deviate(checked_level(level)) * rounding * math.sqrt((1 - wet) ** 2 + 1 + wet**2) / fresh
    low, high = max(wet - error, 0.0), min(wet + error, 1.0)
    return Estimate(100 * wet, Unit.PERCENT, 100 * low, 100 * high, level, FRESH_BASIS)


def moisture_in_two_stages(first_percent: float, second_percent: float) -> Estimate:
    """Moisture of seed pre-dried (first loss) before the oven (second loss of what was left)."""
    first, second = _moisture(first_percent), _moisture(second_percent)
    return Estimate.exact(first + second - first * second / 100, Unit.PERCENT, FRESH_BASIS)


def target_weight(weight_g: float, moisture_percent: float, wanted_percent: float) -> Estimate:
    """What seed of this weight and moisture weighs, in g, once dried to the wanted moisture.

    The dry matter stays: W (100 - moisture) / (100 - wanted).
    """
    weight = within(weight_g, say("The weight"), Unit.GRAMS, LIGHTEST, MOST)
    moisture = _moisture(moisture_percent)
    wanted = within(wanted_percent, say("The wanted moisture"), Unit.PERCENT, 0, moisture)
    return Estimate.exact(weight * (100 - moisture) / (100 - wanted), Unit.GRAMS, TARGET_WEIGHT)


def moisture_after_drying(moisture_percent: float, weight_g: float, weight_now_g: float) -> Estimate:
    """Moisture now of seed that had a known moisture at a known weight; ``target_weight`` undone."""
    dry_share = (100 - _moisture(moisture_percent)) / 100
    weight = within(weight_g, say("The first weight"), Unit.GRAMS, LIGHTEST, MOST)
    bone_dry = (math.floor(weight * dry_share / LIGHTEST) - 1) * LIGHTEST
    now = within(weight_now_g, say("The weight now"), Unit.GRAMS, max(bone_dry, LIGHTEST), weight)
    return Estimate.exact(max(100 - 100 * dry_share * weight / now, 0.0), Unit.PERCENT, TARGET_WEIGHT)


def dry_basis_from_fresh(moisture_percent: float) -> float:
    """Moisture in per cent of dry weight, from per cent of fresh weight (0 to 95)."""
    wet = _moisture(moisture_percent)
    return 100 * wet / (100 - wet)


def fresh_basis_from_dry(moisture_percent: float) -> float:
    """Moisture in per cent of fresh weight, from per cent of dry weight (0 to 1900)."""
    dry = within(moisture_percent, say("The moisture on dry weight"), Unit.PERCENT, 0, 1900)
    return 100 * dry / (100 + dry)


def _moisture(percent: float) -> float:
    return within(percent, say("The moisture"), Unit.PERCENT, 0, WETTEST)
