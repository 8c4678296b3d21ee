"""Whether there is good seed in the fruit, as the cut test shows it."""

from __future__ import annotations

from hub.protocols.sheet import Section, Sheet
from hub.science.proportions import Trial, exact_share
from hub.vetting.checks.answers import Answers, note, percent, query, stop
from hub.vetting.checks.grounds import HOLLOW, OWN, SAMPLING, SMALL
from hub.vetting.evidence import Evidence
from hub.words import say, say_n

HALF = 0.5
"""Below this filled share a collection is hardly worth what it costs the plants."""

GOOD = 0.7
"""Below this filled share a curator should know."""

FEW_SEEDS = 100


def cut_test_made(evidence: Evidence) -> Answers:
    """As many seeds were cut as the sheet asks; none where it says that each one counts."""
    asked, test = seeds_to_cut(evidence.sheet.sheet), evidence.collection.cut_test
    if test is None and asked != 0:
        yield query(
            "cut_test_made",
            say("No seed was cut to see whether it is filled."),
            SAMPLING,
            {"asked_seeds": asked},
        )
    elif test is not None and asked is not None and test.cut < asked:
        words = say_n(
            "{n} seed was cut; the sheet asks for {asked}.",
            "{n} seeds were cut; the sheet asks for {asked}.",
            n=test.cut,
            asked=asked,
        )
        yield query("cut_test_made", words, OWN, {"cut_seeds": test.cut, "asked_seeds": asked})


def seeds_to_cut(sheet: Sheet) -> int | None:
    """What the sheet says under its cut test; nothing where it names no number."""
    lines = sheet.sections.get(Section.QUALITY, ())
    sizes = [line.value for line in lines if line.topic == "cut_test" and isinstance(line.value, int)]
    return sizes[0] if sizes else None


def filled_share(evidence: Evidence) -> Answers:
    """The share of filled seed, with the interval in which the whole lot’s lies with 95 % confidence."""
    test = evidence.collection.cut_test
    if test is None or not test.cut:
        return
    share = exact_share(Trial(min(test.filled, test.cut), test.cut))
    if share.value < GOOD:
        words = say(
            "{filled} of {cut} cut seeds were filled: of all the seed {low} to {high}, with 95% confidence.",
            filled=test.filled,
            cut=test.cut,
            low=percent(share.low),
            high=percent(share.high),
        )
        known = {"filled_seeds": test.filled, "cut_seeds": test.cut, "damaged_seeds": test.damaged}
        ends = {"filled_share": share.value, "low_share": share.low, "high_share": share.high}
        shares = {name: round(end, 4) for name, end in ends.items()}
        answer, ground = (stop, HOLLOW) if share.value < HALF else (query, OWN)
        source = say("{ground}. {interval}", ground=ground, interval=share.source.citation)
        yield answer("filled_share", words, source, {**shares, **known})


def small_lot(evidence: Evidence) -> Answers:
    """So few seeds are each too dear for a test that uses them up."""
    seeds = evidence.collection.total_seeds
    if seeds < FEW_SEEDS:
        words = say_n(
            "A lot of {n} seed: use none up in tests.", "A lot of {n} seeds: use none up in tests.", n=seeds
        )
        yield note("small_lot", words, SMALL, {"total_seeds": seeds, "few_seeds": FEW_SEEDS})
