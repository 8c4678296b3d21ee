"""The eight steps of a season. Each looks at what is known and says whether it is done, and what it asks."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from hub.adoptions.rules import AdoptionState
from hub.progress.known import Known, Step, Way
from hub.progress.seed_steps import BANK, US, banked, collect, hand_in, keep
from hub.sites.rules import PermissionState
from hub.words import Words, say, say_n


def adopt(known: Known) -> Step:
    if known.state is AdoptionState.REQUESTED:
        return Step(
            say("Adopt"),
            done=False,
            person=BANK,
            about=say("Your wish is with the bank. It answers by mail."),
            ways=(Way(say("See your wish"), "adoptions.adoption", {"adoption_id": known.adoption_id}),),
        )
    return Step(say("Adopt"), done=True, day=say("{day}", day=known.adopted_on))


def ask_permission(known: Known) -> Step:
    title = say("Ask permission")
    if known.permission_holds:
        until = say("until {day}", day=known.permission_until) if known.permission_until else None
        return Step(title, done=True, day=until, person=say("granted by {owner}", owner=known.owner))
    if known.handed_in:
        was = known.permission is PermissionState.EXPIRED or known.permission is PermissionState.GRANTED
        return Step(title, done=True, about=RAN_OUT if was else NOT_NOTED)
    if known.population_id is None:
        return Step(title, done=False, person=US, about=NO_PLACE, ways=(choose_place(known),))
    about, day, way = PERMISSION_WORDS[known.permission or PermissionState.TO_ASK](known)
    return Step(
        title,
        done=False,
        day=day,
        person=say("{owner}, the owner", owner=known.owner),
        about=about,
        ways=(way,),
    )


RAN_OUT = say("The owner’s permission has run out since.")
NOT_NOTED = say("No permission is noted here that holds. The bank may ask about it.")
NO_PLACE = say("Where will you collect? Choose plants that the bank knows, or open a site of your own.")
Answer = tuple[Words, Words | None, Way]


def choose_place(known: Known) -> Way:
    return Way(say("Choose where"), "adoptions.adoption", {"adoption_id": known.adoption_id})


def to_ask(known: Known) -> Answer:
    way = Way(say("Write the letter"), "sites.letter", {"site_id": known.site_id})
    return say("Write to whoever owns the land. A letter is ready for you to sign."), None, way


def asked(known: Known) -> Answer:
    since = say("asked on {day}", day=known.permission_asked_on) if known.permission_asked_on else None
    way = Way(say("Note the answer"), "sites.site", {"site_id": known.site_id})
    return say("The owner has not answered yet. Note the answer when it comes."), since, way


def not_now(known: Known) -> Answer:
    way = Way(say("See the site"), "sites.site", {"site_id": known.site_id})
    return say("The owner’s permission does not hold now. Nobody collects here until it does."), None, way


PERMISSION_WORDS: Mapping[PermissionState, Callable[[Known], Answer]] = {
    PermissionState.TO_ASK: to_ask,
    PermissionState.ASKED: asked,
    PermissionState.GRANTED: not_now,
    PermissionState.REFUSED: not_now,
    PermissionState.EXPIRED: not_now,
    PermissionState.WITHDRAWN: not_now,
}


def scout(known: Known) -> Step:
    title = say("Scout")
    if known.counted_on is not None or known.handed_in:
        day = say("{day}", day=known.counted_on) if known.counted_on else None
        return Step(title, done=True, day=day, about=plants_words(known.plants) or NOT_COUNTED)
    ways = (Way(say("Count the plants"), "sites.census", {"population_id": known.population_id}),)
    return Step(
        title,
        done=False,
        day=before_ripe(known),
        person=US,
        about=say("Go and see the plants. Count them, and how many bear fruit: the sheet needs it."),
        ways=ways if known.population_id else (choose_place(known),),
    )


NOT_COUNTED = say("No count of this year is noted.")


def before_ripe(known: Known) -> Words | None:
    if known.ripens_on is None:
        return None
    if known.today < known.ripens_on:
        return say("before {day}", day=known.ripens_on)
    return say("now, before you collect")


def plants_words(plants: int | None) -> Words | None:
    return say_n("{n} plant counted.", "{n} plants counted.", n=plants) if plants is not None else None


def watch(known: Known) -> Step:
    """Done once the sheet may be used and fruit can be expected to be ripe."""
    ripe = known.ripens_on is None or known.ripens_on <= known.today
    done = known.written_down or (known.ready and ripe)
    about, way = sheet_words(known)
    return Step(
        say("Watch it ripen"),
        done=done,
        usually=known.ripe,
        person=None if done else US,
        about=None if done else about,
        ways=(way,),
    )


def sheet_words(known: Known) -> tuple[Words, Way]:
    """What to do about the sheet while the fruit ripens."""
    if known.sheet_id is None:
        place = {"adoption_id": known.adoption_id, "population_id": known.population_id}
        way = Way(say("Get the sheet"), "protocols.issue", place, posts=True)
        return say("Get your sheet now: it says how to collect here."), way
    way = Way(say("Read the sheet"), "protocols.sheet", {"sheet_id": known.sheet_id})
    return SHEET_SAYS.get(known.sheet_status, STOPPED), way


STOPPED = say("The sheet says: do not collect here. It gives the reasons.")
SHEET_SAYS = {
    "ready": say("The sheet is ready. Go and look until fruit is ripe; nothing is picked before."),
    "not_yet": say("The sheet is not yet to be used for collecting: it says what is missing."),
    "stop": STOPPED,
}


STEPS: tuple[Callable[[Known], Step], ...] = (
    adopt, ask_permission, scout, watch, collect, keep, hand_in, banked,
)  # fmt: skip
