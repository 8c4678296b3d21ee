"""Whether the seed was kept alive from the plant to the bank."""

from __future__ import annotations

from datetime import datetime, time, timedelta

from hub.taxa.rules import StorageBehaviour
from hub.vetting.checks.answers import Answers, limit_of, note, query, stop
from hub.vetting.checks.grounds import FRESH, OWN, TRADE, by_sheet
from hub.vetting.collection import AfterCare, Collection, Container, DrynessProof
from hub.vetting.evidence import Evidence
from hub.vetting.urgency import DRIED, LIVING_ROUTES, deadline_of
from hub.words import say, say_n

BREATHING = frozenset(
    {Container.PAPER_BAG, Container.VENTED_BOX, Container.COVERED_TRAY, Container.MESH_SACK, Container.PACKET}
)
"""What lets air through; everything else holds damp in."""

CLOSED_DAYS, DAYS_TO_DRYING = 1, 3
"""Longest that seed may wait for drying in a closed container, and in a breathing one."""

GEL_DAYS = 7
DRY_RH_PCT, TOO_DRY_RH_PCT = 30.0, 10.0
MAY_DIE = frozenset(StorageBehaviour) - {
    StorageBehaviour.ORTHODOX,
    StorageBehaviour.ORTHODOX_HARD,
    StorageBehaviour.SHORT_LIVED,
}
"""Seed that drying or frost kills, or may kill for all that anybody knows."""

DRIED_AT_THE_BANK = frozenset({"fast", "spores"})
"""Dust-fine or cottony seed and spores are dried, whatever their storage behaviour is called."""
MEASURED = frozenset({DrynessProof.CARD, DrynessProof.HYGROMETER})


def container(evidence: Evidence) -> Answers:
    """What the sheet asks for, or another that breathes as well."""
    line, used = evidence.sheet.sheet.headline.container, evidence.collection.container
    if line.value is None or used == line.value or {used, line.value} <= BREATHING:
        return
    words = say("The seed was carried in: {used}. The sheet says: {asked}", used=used.words, asked=line.text)
    known = {"used": used, "asked": line.value}
    dries_out = line.value == Container.MOIST_BAG and used in BREATHING  # and drying is what kills this seed
    yield (stop if dries_out else query)("container", words, by_sheet(evidence, line), known)


def hours_to_drying(evidence: Evidence) -> Answers:
    """Damp seed ages and moulds from the first hour, in a closed container fastest."""
    given = evidence.collection
    began = given.drying_from or given.frozen_on or given.reached_bank_on
    if evidence.sheet.sheet.headline.drying.value == "never" or began is None:
        return
    days, closed = (began - given.collected_on).days, given.container not in BREATHING
    if days > (CLOSED_DAYS if closed else DAYS_TO_DRYING):
        words = say_n(
            "{n} day passed before the seed began to dry. It was carried in: {used}.",
            "{n} days passed before the seed began to dry. It was carried in: {used}.",
            n=days,
            used=given.container.words,
        )
        source = say("{published}; the days are our own default", published=FRESH)
        known = {"days_before_drying": days, "longest_days": CLOSED_DAYS if closed else DAYS_TO_DRYING}
        answer = stop if closed and days > DAYS_TO_DRYING else query
        yield answer("hours_to_drying", words, source, {"container": given.container, **known})


def hours_to_bank(evidence: Evidence) -> Answers:
    """The sheet’s hours from the plant to the bank; seed that dies on the way makes it a stop."""
    line = evidence.sheet.sheet.headline.hours_to_bank
    limit, hours = limit_of(line.value), _hours(evidence)
    if limit is None:
        return
    source = by_sheet(evidence, line)
    deadline = deadline_of(evidence.sheet.sheet, evidence.collection, evidence.zone)
    if hours is not None and hours > limit:
        words = say(
            "The seed reached the bank after {hours} hours; the sheet says {limit}.", hours=hours, limit=limit
        )
        answer = stop if _living(evidence) else query
        yield answer("hours_to_bank", words, source, {"hours_to_bank": hours, "limit_hours": limit})
    elif hours is None and deadline is not None and evidence.handed_in_at > deadline:
        words = say("By now the seed should be at the bank; please say when it got there.")
        yield query("hours_to_bank", words, source, {"limit_hours": limit})


def _hours(evidence: Evidence) -> float | None:
    """Hours on the way: what was written down, or what the dates leave at the least, whichever is longer."""
    given, known = evidence.collection, [evidence.collection.hours_to_bank]
    if given.reached_bank_on is not None:
        ended = datetime.combine(given.collected_on, given.finished_at or time.max)
        way = datetime.combine(given.reached_bank_on, time.min) - ended
        known.append(max(way // timedelta(hours=1), 0))
    return max((hours for hours in known if hours is not None), default=None)


def _living(evidence: Evidence) -> bool:
    return evidence.sheet.sheet.route in LIVING_ROUTES


def alive_in_transit(evidence: Evidence) -> Answers:
    """Nothing is wrong: seed that cannot wait is on its way, so look at it first."""
    if _living(evidence) and _hours(evidence) is None:
        line = evidence.sheet.sheet.headline.hours_to_bank
        words = say("This seed lives only a short time and is on its way: expect it, and look at it first.")
        yield note("alive_in_transit", words, by_sheet(evidence, line), {"limit_hours": line.value})


def dried_long_enough(evidence: Evidence) -> Answers:
    """Over silica gel a week is the least; air-dried seed is finished by the bank."""
    given = evidence.collection
    if given.after_care is not AfterCare.GEL_DRIED or (given.drying_days or 0) >= GEL_DAYS:
        return
    words = say("It was not said for how many days the seed lay over silica gel.")
    if given.drying_days is not None:
        words = say(
            "The seed lay {days} days over silica gel; {least} is the least.",
            days=given.drying_days,
            least=GEL_DAYS,
        )
    yield query("dried_long_enough", words, TRADE, {"drying_days": given.drying_days, "least_days": GEL_DAYS})


def dryness_shown(evidence: Evidence) -> Answers:
    """Seed dried to be kept must be shown dry, and not too dry."""
    given = evidence.collection
    humidity = given.dryness_rh_pct
    finished = given.after_care is AfterCare.GEL_DRIED or given.frozen
    known = {
        "dryness": given.dryness,
        "humidity_pct": humidity,
        "dry_pct": DRY_RH_PCT,
        "too_dry_pct": TOO_DRY_RH_PCT,
    }
    if finished and not _shown_dry(given):
        words = say(
            "Neither card, hygrometer nor weight shows that the seed was dry: {most}% or below.",
            most=DRY_RH_PCT,
        )
        yield query("dryness_shown", words, OWN, known)
    elif given.dryness in MEASURED and humidity is not None and humidity < TOO_DRY_RH_PCT:
        words = say(
            "At {humidity}% the seed is too dry: below {least}% it is harmed.",
            humidity=humidity,
            least=TOO_DRY_RH_PCT,
        )
        yield query("dryness_shown", words, OWN, known)


def _shown_dry(given: Collection) -> bool:
    if given.dryness in MEASURED:
        return given.dryness_rh_pct is not None and given.dryness_rh_pct <= DRY_RH_PCT
    # In the air of a room the weight comes to rest while the seed is still far too damp to freeze.
    return given.dryness is DrynessProof.WEIGHT and given.after_care is AfterCare.GEL_DRIED


def frozen_undried(evidence: Evidence) -> Answers:
    """Water in seed turns to ice and kills it."""
    given = evidence.collection
    if given.frozen and not (given.after_care in DRIED and _shown_dry(given)):
        words = say("The seed was frozen, and nothing shows that it was dry before.")
        known = {
            "after_care": given.after_care,
            "dryness": given.dryness,
            "humidity_pct": given.dryness_rh_pct,
        }
        yield stop("frozen_undried", words, FRESH, {"frozen_on": given.frozen_on, **known})


def frozen_as_asked(evidence: Evidence) -> Answers:
    """Only a sheet that says so sends seed into a household freezer; some seed dies in any."""
    line = evidence.sheet.sheet.headline.freezing
    if not evidence.collection.frozen:
        return
    known = {"asked": line.value, "storage": evidence.taxon.storage}
    if line.value == "never" or _may_die(evidence):
        words = say("The seed was frozen; this seed: {storage}.", storage=evidence.taxon.storage.words)
        yield stop("frozen_as_asked", words, by_sheet(evidence, line), known)
    elif line.value != "home":
        words = say("The seed was frozen; the sheet leaves freezing to the bank.")
        yield query("frozen_as_asked", words, by_sheet(evidence, line), known)


def never_dried(evidence: Evidence) -> Answers:
    """Neither by the sheet nor by what is known today may this seed be dried."""
    given, line = evidence.collection, evidence.sheet.sheet.headline.drying
    forbidden = line.value == "never" or _may_die(evidence)
    if forbidden and (given.after_care in DRIED or given.drying_from or given.drying_days):
        words = say("The seed was dried; this seed: {storage}.", storage=evidence.taxon.storage.words)
        known = {
            "after_care": given.after_care,
            "drying_days": given.drying_days,
            "storage": evidence.taxon.storage,
        }
        yield stop("never_dried", words, by_sheet(evidence, line), known)


def _may_die(evidence: Evidence) -> bool:
    """By what is known today, though the sheet may have been drawn up when more was believed."""
    return evidence.taxon.storage in MAY_DIE and evidence.sheet.sheet.route not in DRIED_AT_THE_BANK
