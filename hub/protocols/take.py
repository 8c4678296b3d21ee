"""How much may be taken: shares, the population's allowance, what is left of it, and the fruit table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor, prod
from typing import Any

from hub.protocols.case import Case
from hub.protocols.crop import crop_of, exact
from hub.protocols.facts import Facts
from hub.protocols.hearing import Hearing
from hub.protocols.sheet import FruitRow
from hub.science.quantity import Estimate
from hub.science.take import whole_share

_ROWS = (1, 2, 3, 4, 5, 10)  # times the number of fruits from which one may be taken


@dataclass(frozen=True)
class Take:
    """The figures of one case. Counts are ``None`` while a fact behind them is unknown."""

    season_share: Fraction
    visit_share: Fraction
    plant_share: Fraction
    crop: Estimate | None
    seeds_per_fruit: Fraction | None
    allowance_seeds: int | None
    left_seeds: int | None
    mothers_goal: int
    mothers_minimum: int
    below: bool = False  # a plant must lose less than its share, not as much

    @property
    def allowance_fruits(self) -> int | None:
        """The allowance in whole fruits, rounded down."""
        return self._in_fruits(self.allowance_seeds)

    @property
    def left_fruits(self) -> int | None:
        """What is left in whole fruits, rounded down."""
        return self._in_fruits(self.left_seeds)

    def _in_fruits(self, seeds: int | None) -> int | None:
        if seeds is None or self.seeds_per_fruit is None:
            return None
        return floor(seeds / self.seeds_per_fruit) if self.seeds_per_fruit else 0

    @property
    def none_below(self) -> int | None:
        """A plant with fewer ripe fruits than this gives none; ``None`` when nothing may be taken."""
        if not self.plant_share:
            return None
        return floor(1 / self.plant_share) + 1 if self.below else ceil(1 / self.plant_share)

    def fruits_from(self, ripe_fruits: int) -> int:
        """Most whole fruits one plant may lose: its share, and no more than its part of what is left."""
        part = self.plant_share * ripe_fruits
        most = max(0, ceil(part) - 1) if self.below else floor(part)
        if self.left_fruits is None:
            return most
        each = self.left_fruits // max(1, self.mothers_goal)
        return min(most, each, self.left_fruits)

    def table(self) -> tuple[FruitRow, ...]:
        """ "If the plant has 40 ripe fruits take at most 4", from the first plant that may give one."""
        if self.none_below is None or self.left_seeds == 0:
            return ()
        return tuple(self._row(self.none_below * times) for times in _ROWS)

    def _row(self, ripe_fruits: int) -> FruitRow:
        fruits = self.fruits_from(ripe_fruits)
        seeds = None if self.seeds_per_fruit is None else floor(fruits * self.seeds_per_fruit)
        return FruitRow(ripe_fruits, fruits, seeds)

    def nothing(self) -> Take:
        """The same case when nothing may be taken at all."""
        none = Fraction(0)
        return replace(
            self,
            season_share=none,
            visit_share=none,
            plant_share=none,
            allowance_seeds=0,
            left_seeds=0,
            mothers_goal=0,
            mothers_minimum=0,
        )


def work_out(case: Case, hearing: Hearing, facts: Facts) -> Take:
    """Combine what the rules gave: the lowest share, times every factor, rounded down."""
    factors = prod((exact(each.gives["season_factor"]) for each in hearing.factors()), start=Fraction(1))
    season = exact(hearing.settle("season_share").value) * factors
    visit = exact(hearing.settle("visit_share").value)
    own = exact(hearing.settle("plant_share").value)
    plant = min(season, visit, own)
    strict = bool(hearing.giving("plant_limit")) and hearing.settle("plant_limit").value == "below"
    crop = crop_of(case)
    allowance = None if crop is None else whole_share(float(season), crop.low)
    per_fruit = case.crop.good_seeds_per_fruit
    take = Take(
        season_share=season,
        visit_share=visit,
        plant_share=plant,
        crop=crop,
        seeds_per_fruit=None if per_fruit is None else exact(per_fruit),
        allowance_seeds=allowance,
        left_seeds=_left(case, hearing, allowance, facts["permit_left_seeds"]),
        mothers_goal=0,
        mothers_minimum=0,
        below=strict and plant == own,
    )
    return _with_mothers(take, case, hearing)


def _left(case: Case, hearing: Hearing, allowance: int | None, permit_left: int | None) -> int | None:
    """What this group may take: of its part, and of what nobody has taken or reserved, within the permit.

    Unknown history leaves it unknown.
    """
    taken, reserved = case.history.taken_seeds, case.history.reserved_seeds
    if allowance is None or taken is None or reserved is None:
        return None
    part = _part(hearing, allowance, exact(case.crop.good_seeds_per_fruit or 0))
    bounds = [allowance - taken - reserved, part - case.history.own_seeds, permit_left]
    return max(0, min(bound for bound in bounds if bound is not None))


def _part(hearing: Hearing, allowance: int, per_fruit: Fraction) -> int:
    """One group's part of the season's allowance: no more than it needs, nor than its fair share.

    It needs the seed goal, and a fruit from each mother; a share never falls below one whole fruit. What is
    no group's part stays with the plants, for groups that come later.
    """
    groups = hearing.giving("groups_sharing")
    if not groups:
        return allowance
    need = max(hearing.settle("seed_goal").value, ceil(hearing.settle("mothers_goal").value * per_fruit))
    fair = max(allowance // int(hearing.settle("groups_sharing").value), ceil(per_fruit))
    return min(allowance, int(need), fair)


def _with_mothers(take: Take, case: Case, hearing: Hearing) -> Take:
    """All plants when there are fewer than the goal, and never more mothers than whole fruits to take."""
    bounds = [n for n in (case.population.fruiting_plants, take.left_fruits) if n is not None]
    goal = min([hearing.settle("mothers_goal").value, *bounds])
    least = min(hearing.settle("mothers_minimum").value, goal)
    return replace(take, mothers_goal=goal, mothers_minimum=least)


def may_take_one(take: Take) -> bool:
    """Whether a whole fruit, from at least one mother, is left to take."""
    return take.left_seeds != 0 and take.left_fruits != 0 and take.mothers_goal > 0


def learnt(take: Take, case: Case) -> Mapping[str, Any]:
    """What the rules of quality and counsel may ask once the take is known."""
    mean = case.crop.ripe_fruits_per_plant
    few = None if mean is None or take.none_below is None else mean < take.none_below
    return {
        "expected_seeds": take.left_seeds,
        "few_fruits": few,
        "allowance_spent": None if take.left_seeds is None else not may_take_one(take),
        "one_in": take.none_below,
    }
