"""The steps of a season from picking to the bank: collect, keep, hand in, banked."""

from __future__ import annotations

from hub.progress.known import Known, Step, Way
from hub.taxa.rules import StorageBehaviour
from hub.vetting.rules import SubmissionState
from hub.words import Words, say, say_n

MOIST = frozenset(
    {
        StorageBehaviour.RECALCITRANT,
        StorageBehaviour.UNRESOLVED,
        StorageBehaviour.EXCEPTIONAL,
        StorageBehaviour.UNKNOWN,
    }
)
US, BANK = say("your group"), say("the bank")


def collect(known: Known) -> Step:
    day = say("{day}", day=known.collected_on) if known.collected_on else None
    return Step(
        say("Collect"),
        done=known.written_down,
        day=day,
        usually=known.ripe,
        person=None if known.written_down else US,
        about=None if known.written_down else may_take(known.kept_seeds),
        ways=(
            Way(say("Open the sheet"), "protocols.sheet", {"sheet_id": known.sheet_id}),
            Way(say("We have collected"), "vetting.new_hand_in", {"sheet": known.sheet_id}),
        ),
    )


def may_take(seeds: int) -> Words:
    if not seeds:
        return say("Your group may take nothing more here this season.")
    return say_n("Your group may take at most {n} seed.", "Your group may take at most {n} seeds.", n=seeds)


def keep(known: Known) -> Step:
    """Dry it, or by no means dry it."""
    moist = known.storage in MOIST
    kept = known.handed_in or known.submission is SubmissionState.RETURNED
    return Step(
        say("Keep it moist and cool") if moist else say("Dry it"),
        done=kept,
        person=None if kept else US,
        about=None if kept else in_time(known, KEEP_MOIST if moist else LET_DRY),
        ways=(writing(known),),
    )


KEEP_MOIST = say("Never dry or freeze this seed. Keep it as your sheet says, and write down what you have.")
LET_DRY = say("Let the seed dry in paper or cloth as your sheet says, and write down what you have.")


def in_time(known: Known, words: Words) -> Words:
    """Counsel for seed at home, with how soon it must leave there."""
    if known.span is None:
        return words
    return say(
        "{words} It must be at {bank} within {span} of collecting.",
        words=words,
        bank=known.bank,
        span=known.span,
    )


def writing(known: Known) -> Way:
    if known.submission is SubmissionState.RETURNED:
        return Way(say("See what is asked"), "vetting.submission", {"submission_id": known.submission_id})
    return Way(say("Go on with the hand-in"), "vetting.write", {"submission_id": known.submission_id})


def hand_in(known: Known) -> Step:
    """What was written first, then the seed itself: both must be with the bank."""
    title = say("Hand in")
    if known.submission is SubmissionState.RETURNED:
        return Step(title, done=False, person=US, about=a_question(known), ways=(writing(known),))
    if known.submission is SubmissionState.HANDED_IN and not known.arrived:
        way = Way(
            say("Where and how to bring it"), "vetting.handed_in", {"submission_id": known.submission_id}
        )
        return Step(title, done=False, person=US, about=bring(known), ways=(way,))
    return Step(title, done=known.handed_in, person=None if known.handed_in else US, ways=(writing(known),))


def a_question(known: Known) -> Words:
    question = say("The bank has a question.")
    return question if known.arrived else say("{question} {bring}", question=question, bring=bring(known))


def bring(known: Known) -> Words:
    """What happens to the seed next, and by when."""
    if not known.due or known.span is None:
        return say("Bring the seed to {bank} as your sheet says.", bank=known.bank)
    if known.overdue:
        return say(
            "The seed should have been at {bank} by {due}. Bring it today, or tell the bank where it is.",
            bank=known.bank,
            due=known.due,
        )
    return say(
        "Bring the seed to {bank} by {due}: your sheet gives it {span} from collecting.",
        bank=known.bank,
        due=known.due,
        span=known.span,
    )


def banked(known: Known) -> Step:
    title = say("Banked")
    way = Way(say("See what you handed in"), "vetting.submission", {"submission_id": known.submission_id})
    if not known.accession_number:
        looks = say("The bank looks at what you handed in, and writes to you when it has decided.")
        return Step(title, done=False, person=BANK, about=looks, ways=(way,))
    number = say("Number {number}.", number=known.accession_number)
    about = say("{number} {became}", number=number, became=known.became) if known.became else number
    if known.safe:
        return Step(title, done=True, about=about)
    return Step(title, done=False, person=BANK, about=about, ways=(way,))
