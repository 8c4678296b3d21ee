"""States of a permission and of a salvage, the papers a collection needs, and whether they hold on a day."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import date, timedelta

from hub.taxa.closed_lists import Worded
from hub.words import Words, say


class PermissionState(Worded):
    """Where the owner's permission stands."""

    TO_ASK = "to ask", say("to ask")
    ASKED = "asked", say("asked")
    GRANTED = "granted", say("granted")
    REFUSED = "refused", say("refused")
    EXPIRED = "expired", say("expired")
    WITHDRAWN = "withdrawn", say("withdrawn")


PERMISSION_MOVES: dict[PermissionState, frozenset[PermissionState]] = {
    PermissionState.TO_ASK: frozenset({PermissionState.ASKED}),
    PermissionState.ASKED: frozenset({PermissionState.GRANTED, PermissionState.REFUSED}),
    PermissionState.GRANTED: frozenset({PermissionState.EXPIRED, PermissionState.WITHDRAWN}),
    PermissionState.REFUSED: frozenset(),
    PermissionState.EXPIRED: frozenset(),
    PermissionState.WITHDRAWN: frozenset(),
}

# Once given, a permission held from its first day to its last, whatever has become of it since.
ONCE_GRANTED = frozenset({PermissionState.GRANTED, PermissionState.EXPIRED, PermissionState.WITHDRAWN})


class Trend(Worded):
    """How a population has been doing."""

    RISING = "rising", say("rising")
    STABLE = "stable", say("stable")
    FALLING = "falling", say("falling")
    UNKNOWN = "unknown", say("not known")


class Threat(Worded):
    """What endangers a population."""

    NONE = "none", say("none known")
    SLIGHT = "slight", say("slight")
    SEVERE = "severe", say("severe")
    IMMINENT_LOSS = "imminent loss", say("about to be lost")
    UNKNOWN = "unknown", say("not known")


class Origin(Worded):
    """Where the plants came from."""

    WILD = "wild", say("wild: they came by themselves")
    SOWN = "sown or planted", say("sown or planted")
    UNKNOWN = "unknown", say("not known")


class CensusMethod(Worded):
    """How plants were counted."""

    COUNTED = "counted one by one", say("counted one by one")
    PLOTS = "plots", say("counted in plots, then scaled up")
    WALKED = "walked estimate", say("estimated on a walk")


class Risk(Worded):
    """What makes a site dangerous to people."""

    ROAD = "road", say("road or railway")
    WATER = "water", say("deep or fast water")
    CLIFF = "cliff", say("cliff or steep drop")
    LIVESTOCK = "livestock", say("livestock")
    HUNTING = "hunting", say("hunting or shooting")
    MILITARY_LAND = "military_land", say("military land")


class SalvageState(Worded):
    """Where the case for a doomed population stands: it needs the owner's and the curator's approval."""

    ASKED = "asked", say("asked")
    APPROVED = "approved", say("approved")
    REFUSED = "refused", say("refused")


SALVAGE_MOVES: dict[SalvageState, frozenset[SalvageState]] = {
    SalvageState.ASKED: frozenset({SalvageState.APPROVED, SalvageState.REFUSED}),
    SalvageState.APPROVED: frozenset({SalvageState.REFUSED}),  # the danger has passed, or was none
    SalvageState.REFUSED: frozenset(),
}


SALVAGE_LASTS = timedelta(days=548)  # eighteen months, for a case that names no day


class Decision(Worded):
    """What a curator says to a salvage."""

    APPROVE = "approve", say("approve")
    REFUSE = "refuse", say("refuse")


class Paper(Worded):
    """A paper without which nobody may collect."""

    PERMISSION = "permission", say("the owner’s permission")
    TAXON_PERMIT = "taxon permit", say("a permit for this species, which is on a legal list")
    AREA_PERMIT = "area permit", say("a permit for this land, which is protected")
    OWN_CONSENT = "own consent", say("the consent of the community whose land this is")


def may_become(state: PermissionState, wanted: PermissionState) -> bool:
    """Whether a permission may move from one state to another."""
    return wanted in PERMISSION_MOVES[state]


def runs_on(day: date, first: date | None, last: date | None) -> bool:
    """Whether a paper with these dates (both inclusive, either open) holds on this day."""
    return (first is None or first <= day) and (last is None or day <= last)


def holds_on(day: date, first: date | None, last: date | None, ended_on: date | None) -> bool:
    """Whether a paper holds on this day: from the day on which it was ended it holds no more."""
    return runs_on(day, first, last) and (ended_on is None or day < ended_on)


def is_a_no(
    day: date, state: PermissionState, *, answered_on: date | None, withdrawn_on: date | None
) -> bool:
    """Whether an answer is the owner's refusal by this day; one without a day counts from the beginning."""
    said = {PermissionState.REFUSED: answered_on, PermissionState.WITHDRAWN: withdrawn_on}
    if state not in said:
        return False
    since = said[state]
    return since is None or since <= day


def salvage_holds(day: date, *, loss_expected_on: date | None, asked_on: date) -> bool:
    """Whether an approved case still lifts the limits: until the plants should be lost.

    A case that names no such day holds for eighteen months after it was asked. Our own default.
    """
    return day <= (loss_expected_on or asked_on + SALVAGE_LASTS)


def salvage_state(*, evidence: bool, owner: bool, curator: bool | None) -> SalvageState:
    """Dated evidence, the owner's word and the curator's: any order, all three. A curator's no settles it."""
    if curator is False:
        return SalvageState.REFUSED
    return SalvageState.APPROVED if evidence and owner and curator else SalvageState.ASKED


def salvage_lacks(*, evidence: bool, owner: bool, curator: bool | None) -> list[Words]:
    """What a case still waits for, in plain words."""
    asked = {
        say("dated evidence that the plants will be lost"): evidence,
        say("the owner’s agreement"): owner,
        say("a curator’s approval"): bool(curator),
    }
    return [words for words, given in asked.items() if not given]


def papers_needed(*, taxon_listed: bool, protected_area: bool, own_consent: bool) -> list[Paper]:
    """Every paper that collecting this taxon on this land needs. Local law may ask for more."""
    asked = {
        Paper.PERMISSION: True,
        Paper.TAXON_PERMIT: taxon_listed,
        Paper.AREA_PERMIT: protected_area,
        Paper.OWN_CONSENT: own_consent,
    }
    return [paper for paper, needed in asked.items() if needed]


def papers_missing(
    needed: Iterable[Paper], *, permission: bool, taxon_permits: int, site_authorities: Collection[str]
) -> list[Paper]:
    """Those of the needed papers that nobody holds.

    Protected land and a community's consent are two authorities: one of them cannot speak for the other.
    """
    needed = list(needed)
    own_word_at = 1 + (Paper.AREA_PERMIT in needed)
    held = {
        Paper.PERMISSION: permission,
        Paper.TAXON_PERMIT: taxon_permits > 0,
        Paper.AREA_PERMIT: len(site_authorities) > 0,
        Paper.OWN_CONSENT: len(site_authorities) >= own_word_at,
    }
    return [paper for paper in needed if not held[paper]]
