"""How long a session, a link and a key live; and which passwords are guessed first."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from datetime import datetime, timedelta

from hub.accounts.guessed_first import RUNS, SWAPS, WORDS
from hub.rights.scope import Role
from hub.words import Words, say

RESET_LASTS = timedelta(minutes=30)
# A page view moves a session's clock at most this often: nobody notices, and reading stays reading.
SEEN_STEP = timedelta(minutes=5)

# Under these names failures in a row are counted.
SIGN_IN_TRIES, CODE_TRIES = "sign-in in a row", "code in a row"
# NIST SP 800-63B-4 §3.2.2: at most 100 failures in a row on one account, with waits that grow before that.
# Where the waits begin and how they grow is our own.
MOST_FAILURES = 100
FREE_FAILURES = 20
FIRST_WAIT, LONGEST_WAIT = timedelta(minutes=1), timedelta(hours=1)
# Seats that see what must stay secret, or decide for others.
GUARDED_ROLES = frozenset({Role.CURATOR, Role.TECHNICIAN, Role.COORDINATOR, Role.STEWARD})

# NIST SP 800-63B-4 §3.1.1.2: at least 15 characters where the password stands alone, at least 64 allowed,
# no rules of composition, no forced change, and a list of passwords that are refused.
SHORTEST = 15
LONGEST = 256
FEWEST_LEFT = 6  # our own default: so many different signs must remain beside what is guessed first
SHORTEST_RUN, LONGEST_RUN = 4, max(map(len, RUNS))

TOO_SHORT = say(
    "A password needs at least {n} characters. Several words that make a picture are easy to keep.",
    n=SHORTEST,
)
TOO_LONG = say("A password may have at most {n} characters.", n=LONGEST)
GUESSED_FIRST = say(
    "This password is among those that are guessed first: words everybody uses, names from this hub or of "
    "yours, or signs in a row. Please choose another; a few unlikely words together will do."
)


def is_live(
    *, now: datetime, seen_at: datetime, ends_at: datetime, ended_at: datetime | None, idle: timedelta
) -> bool:
    """Whether a session still counts: not ended, not too old, not left alone for too long."""
    return ended_at is None and now < ends_at and now < seen_at + idle


def wait_after(failures: int) -> timedelta:
    """How long nobody may try after so many failures: at first not at all, then twice as long each time."""
    if failures < FREE_FAILURES:
        return timedelta(0)
    doublings = min(failures - FREE_FAILURES, 10)  # 1,024 minutes, well beyond the longest wait
    return min(FIRST_WAIT * (1 << doublings), LONGEST_WAIT)


def opens_without(factor: str, role: Role) -> bool:
    """Whether a seat can be worked in by password alone, as the hub's setting has it."""
    return factor != "required" or role not in GUARDED_ROLES


def weakness(password: str, own_words: Iterable[str]) -> Words | None:
    """Why a password cannot be taken, or None. ``own_words`` are names from the hub and of the person."""
    composed = unicodedata.normalize("NFC", password)
    if len(composed) < SHORTEST:
        return TOO_SHORT
    if len(composed) > LONGEST:
        return TOO_LONG
    return GUESSED_FIRST if is_guessed_first(composed, own_words) else None


def is_guessed_first(password: str, own_words: Iterable[str]) -> bool:
    """Whether little is left of a password once what guessers try first is taken out."""
    plain = folded(password)
    names = [name for text in own_words for name in words_of(text)]
    return any(
        repeats(reading) or len(set(remainder(reading, names))) < FEWEST_LEFT
        for reading in (plain, folded(password.translate(SWAPS)))
    )


def folded(text: str) -> str:
    """Letters and digits alone, in small letters."""
    return "".join(sign for sign in unicodedata.normalize("NFKC", text).casefold() if sign.isalnum())


def words_of(text: str) -> list[str]:
    """The words of a name or an address that are long enough to count."""
    split = "".join(sign if sign.isalnum() else " " for sign in text)
    return [word for word in map(folded, split.split()) if len(word) > 2]


def repeats(text: str) -> bool:
    """Whether a text is one short piece said again and again."""
    piece = (text + text).find(text, 1) if text else 0
    return piece < min(SHORTEST, len(text))


def remainder(text: str, names: Iterable[str]) -> str:
    """What is left without common words, the given names, and runs such as ``6789`` or ``lkjh``."""
    for word in sorted({*WORDS, *names}, key=len, reverse=True):
        text = text.replace(word, " ")
    return "".join(sign for part in text.split() for sign in without_runs(part))


def without_runs(text: str) -> str:
    """A text without pieces of the alphabet, of the digits or of a keyboard's rows, either way round."""
    for length in range(min(len(text), LONGEST_RUN), SHORTEST_RUN - 1, -1):
        for start in range(len(text) - length + 1):
            piece = text[start : start + length]
            if any(piece in run for run in RUNS):
                return without_runs(text[:start]) + without_runs(text[start + length :])
    return text
