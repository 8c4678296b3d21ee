"""Whether enough mothers gave seed, evenly enough to stand for their population."""

from __future__ import annotations

from hub.protocols.case import Case
from hub.protocols.facts import facts_of
from hub.protocols.sheet import Sheet
from hub.protocols.stored import restored
from hub.science.mothers import effective_mothers as effective_number
from hub.science.sampling import capture_by_mothers
from hub.vetting.checks.answers import Answers, limit_of, note, percent, query, stop
from hub.vetting.checks.grounds import OWN, by_sheet
from hub.vetting.collection import Collection, Handling
from hub.vetting.evidence import Evidence
from hub.words import say, say_n

EVEN_SHARE = 0.5
"""Below this many effective mothers to one real mother, a few plants gave most of the seed."""

FEWEST_PLANTS = 20
"""With fewer plants in fruit the sheets stop too."""

UNCOMMON = 0.05
"""The frequency of the gene variant that collections are usually planned for."""


def mothers(evidence: Evidence) -> Answers:
    """As many as the sheet asks for, or all that bore fruit that day where they were fewer."""
    given, line = evidence.collection, evidence.sheet.sheet.headline.mothers_goal
    goal = limit_of(line.value)
    if goal is None:
        return
    bearing = goal if given.plants_fruiting is None else min(goal, given.plants_fruiting)
    if given.mothers < bearing:
        words = say_n(
            "Seed came from {n} mother; the sheet asks for {goal}.",
            "Seed came from {n} mothers; the sheet asks for {goal}.",
            n=given.mothers,
            goal=bearing,
        )
        yield query(
            "mothers", words, by_sheet(evidence, line), {"mothers": given.mothers, "goal_mothers": bearing}
        )


def few_plants(evidence: Evidence) -> Answers:
    """So small a population is left alone unless a curator has looked at it, or it is to be lost."""
    fruiting = evidence.collection.plants_fruiting
    if fruiting is None or fruiting >= FEWEST_PLANTS or consented(evidence.sheet.sheet):
        return
    words = say_n(
        "Only {n} plant was in fruit that day; below {least} a curator must have consented first.",
        "Only {n} plants were in fruit that day; below {least} a curator must have consented first.",
        n=fruiting,
        least=FEWEST_PLANTS,
    )
    known = {"fruiting_plants": fruiting, "fewest_plants": FEWEST_PLANTS}
    yield stop("few_plants", words, OWN, known)


def consented(sheet: Sheet) -> bool:
    """Whether a curator’s consent, or an approved salvage, held on the day of the sheet."""
    facts = facts_of(restored(Case, sheet.case), sheet.on)
    return facts["sign_off"] is True or facts["salvage"] == "approved"


def effective_mothers(evidence: Evidence) -> Answers:
    """Many mothers count for few when a handful gave nearly all the seed."""
    given = evidence.collection
    if given.handling is Handling.BULK or not given.mothers:
        return
    estimate = effective_number(amounts(given))
    if estimate.value < EVEN_SHARE * given.mothers:
        words = say(
            "The shares of the {mothers} mothers are so uneven that they count for {effective} even ones.",
            mothers=given.mothers,
            effective=round(estimate.value, 1),
        )
        source = say("{formula}; the limit is our own default", formula=estimate.source.citation)
        known = {
            "mothers": given.mothers,
            "effective_mothers": round(estimate.value, 2),
            "even_share": EVEN_SHARE,
        }
        yield query("effective_mothers", words, source, known)


def amounts(given: Collection) -> list[int]:
    """What each mother gave: seeds where every row has them, else fruits."""
    rows = [tally for tally in given.tallies if tally.fruits_taken or tally.seeds]
    counted = [tally.seeds for tally in rows if tally.seeds is not None]
    return counted if len(counted) == len(rows) else [tally.fruits_taken for tally in rows]


def allele_capture(evidence: Evidence) -> Answers:
    """How likely the mothers carry a gene variant of frequency 5 %, between fully selfed and outcrossed."""
    given = evidence.collection
    by_mother = given.handling is Handling.BY_MOTHER
    number = effective_number(amounts(given)).value if by_mother else float(given.mothers)
    selfed = capture_by_mothers(UNCOMMON, number, inbreeding=1.0)
    outcrossed = capture_by_mothers(UNCOMMON, number)
    words = say(
        "A gene variant that makes up {frequency} of all copies is among these mothers with a probability of "
        "{low} (if the plants fertilise themselves) to {high} (if they never do).",
        frequency=percent(UNCOMMON),
        low=percent(selfed.value),
        high=percent(outcrossed.value),
    )
    known = {
        "mothers": given.mothers,
        "effective_mothers": round(number, 2),
        "allele_frequency_share": UNCOMMON,
    }
    known |= {"capture_low_share": round(selfed.value, 4), "capture_high_share": round(outcrossed.value, 4)}
    source = say(
        "{formula}. It takes the mothers for a random sample of a large population, and counts uneven "
        "shares as fewer mothers",
        formula=outcrossed.source.citation,
    )
    yield note("allele_capture", words, source, known)
