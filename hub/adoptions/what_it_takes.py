"""What a species asks of the people who collect it, in plain words read from its traits."""

from __future__ import annotations

from collections.abc import Iterator

from hub.taxa.models import Difficulty, Taxon
from hub.taxa.rules import CareClass, Hazard, StorageBehaviour
from hub.words import Words, say

DIFFICULTY: dict[Difficulty, Words] = {
    Difficulty.EASY: say("Easy"),
    Difficulty.MEDIUM: say("Some practice"),
    Difficulty.HARD: say("Hard"),
}
SKILL: dict[Difficulty, Words] = {
    Difficulty.EASY: say("Easy to know and to gather."),
    Difficulty.MEDIUM: say("Takes some practice, or somebody who has done it before."),
    Difficulty.HARD: say("Hard: for groups that have collected before."),
}
CARE: dict[CareClass, Words] = {
    CareClass.RARE: say(
        "Rare: one group alone looks after each population, and keeps each mother’s seed apart."
    ),
    CareClass.UNKNOWN: say(
        "Nobody has judged how rare it is, so treat it as rare: one group to a population."
    ),
    CareClass.CRITICAL: say("Very rare: the bank itself says who may collect, where, and how little."),
}
DIES_DRY = say("Its seed dies when it dries. It goes to the bank moist and cool, within a day or two.")
HANDS_OVER = say("Its seed does not live long. It goes to the bank soon after collecting.")
DRIES = say("Its seed bears drying, so there is time.")
STORAGE: dict[StorageBehaviour, Words] = {
    StorageBehaviour.ORTHODOX: DRIES,
    StorageBehaviour.ORTHODOX_HARD: DRIES,
    StorageBehaviour.SHORT_LIVED: HANDS_OVER,
    StorageBehaviour.INTERMEDIATE: HANDS_OVER,
    StorageBehaviour.RECALCITRANT: DIES_DRY,
    StorageBehaviour.UNRESOLVED: DIES_DRY,
    StorageBehaviour.EXCEPTIONAL: DIES_DRY,
    StorageBehaviour.UNKNOWN: DIES_DRY,
}


def what_it_takes(taxon: Taxon) -> list[Words]:
    """A few sentences, the most telling first."""
    return [SKILL[taxon.difficulty], STORAGE[taxon.storage], *rarity(taxon), *habits(taxon), *dangers(taxon)]


def rarity(taxon: Taxon) -> Iterator[Words]:
    if taxon.care_class in CARE:
        yield CARE[taxon.care_class]


def habits(taxon: Taxon) -> Iterator[Words]:
    if taxon.dioecious:
        yield say("Male and female flowers grow on separate plants: only the females bear seed.")
    if taxon.two_year_ripening:
        yield say("Its fruit takes two years to ripen: look for last year’s.")
    if taxon.masting:
        yield say("It bears well only in some years.")


def dangers(taxon: Taxon) -> Iterator[Words]:
    if taxon.hazards is None:
        yield say("Nobody has said whether it can hurt you: wear gloves, and taste nothing.")
    for hazard in taxon.hazards or ():
        yield say("Take care: {hazard}.", hazard=Hazard(hazard).words)
