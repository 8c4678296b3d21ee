"""The facts of a case by name, as the rules ask for them, with those that follow from others."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from datetime import date
from enum import StrEnum
from types import NoneType
from typing import Any, get_args, get_type_hints

from hub.protocols.case import (
    BankFacts,
    Case,
    CropFacts,
    HistoryFacts,
    PartyFacts,
    PermitFacts,
    PopulationFacts,
    TaxonFacts,
)
from hub.sites.rules import Paper

Facts = Mapping[str, Any]
Kind = type | frozenset[str]  # bool, float, str, or a closed list of words

_PARTS = (TaxonFacts, PopulationFacts, CropFacts, HistoryFacts, BankFacts, PartyFacts)

DERIVED: dict[str, Kind] = {
    "genus": str,
    "permission": frozenset({"granted", "not granted", "refused", "not begun", "expired"}),
    "permit": frozenset({"not needed", "valid", "absent", "expired", "used up"}),
    "permit_left_seeds": float,
    "missing_papers": frozenset(Paper),
    "other_year": bool,
    "sign_off": bool,
    "sign_off_share": float,
    "salvage": frozenset({"approved", "incomplete", "no"}),
    "kept_at_home": bool,
    "collected_last_year": bool,
    "years_running": float,
    "years_in_nine": float,
}

# What the engine itself finds out on the way; a rule that names one waits until it is known.
LEARNT: tuple[dict[str, Kind], ...] = (
    {"route": frozenset({"dry", "fast", "moist", "untested", "spores"})},
    {"resting": bool, "handling": frozenset({"by_mother", "bulk"})},
    {
        "expected_seeds": float,
        "few_fruits": bool,
        "allowance_spent": bool,
        "one_in": float,
    },
)


def kinds() -> dict[str, Kind]:
    """What each fact may be, so that a rule which asks nonsense is refused when it is read."""
    asked = {name: _kind(hint) for part in _PARTS for name, hint in get_type_hints(part).items()}
    return asked | DERIVED | {name: kind for learnt in LEARNT for name, kind in learnt.items()}


def _kind(hint: Any) -> Kind:
    """Unwrap "or unknown" and "several of" down to the plain kind."""
    for inner in get_args(hint):
        if inner not in (NoneType, Ellipsis):
            return _kind(inner)
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return frozenset(hint) - {"unknown"}
    return float if hint is int else hint


def facts_of(case: Case, on: date) -> dict[str, Any]:
    """Every fact of the case on one day; ``None`` where nobody knows."""
    parts = (case.taxon, case.population, case.crop, case.history, case.bank, case.party)
    found = {each.name: _plain(getattr(part, each.name)) for part in parts for each in fields(part)}
    if found["plants"] is None:
        found["plants"] = found["fruiting_plants"]  # at least these
    return found | _papers(case, on) | _consent(case, on) | _history(case, on)


def _plain(value: Any) -> Any:
    return None if value == "unknown" else value


def season_of(case: Case, on: date) -> int:
    """The collecting year that the sheet speaks of."""
    return case.season if case.season is not None else on.year


def _papers(case: Case, on: date) -> dict[str, Any]:
    caps = [max(0, each.cap_seeds - each.used_seeds) for each in case.permits if each.cap_seeds is not None]
    return {
        "genus": case.taxon.name.split(" ")[0] or None,
        "permission": _permission(case, on),
        "permit": _permit(case, on),
        "permit_left_seeds": min(caps, default=None),
        "missing_papers": case.missing_papers,
        "other_year": season_of(case, on) != on.year,
    }


def _permission(case: Case, on: date) -> str:
    permission = case.permission
    if permission.granted is None:
        return "not granted"
    if not permission.granted:
        return "refused"
    return _in_time(permission.since, permission.until, on) or "granted"


def _in_time(since: date | None, until: date | None, on: date) -> str | None:
    """What is wrong with a paper's dates, if anything is."""
    if since is not None and on < since:
        return "not begun"
    return "expired" if until is not None and on > until else None


def _permit(case: Case, on: date) -> str | None:
    """The worst of all permits, for every one of them must hold; a listed plant always needs one."""
    if not case.permits and not case.taxon.listed:
        if case.permit_needed is None or (case.taxon.listed is None and not case.permit_needed):
            return None
        return "absent" if case.permit_needed else "not needed"
    states = {_permit_state(each, on) for each in case.permits} or {"absent"}
    return next(state for state in ("absent", "expired", "used up", "valid") if state in states)


def _permit_state(permit: PermitFacts, on: date) -> str:
    wrong = _in_time(permit.since, permit.until, on)
    if wrong == "not begun" or not permit.number:
        return "absent"
    spent = permit.cap_seeds is not None and permit.used_seeds >= permit.cap_seeds
    return wrong or ("used up" if spent else "valid")


def _consent(case: Case, on: date) -> dict[str, Any]:
    signed = case.sign_off
    dated = signed and signed.on and signed.on <= on and signed.on.year == season_of(case, on)
    holds = bool(signed and signed.by and dated)
    return {
        "sign_off": holds,
        "sign_off_share": signed.share if holds and signed else None,
        "salvage": _salvage(case, on),
        "kept_at_home": kept_at_home(case),
    }


def kept_at_home(case: Case) -> bool:
    """Whether this group may dry and freeze at home: gel and freezers are nothing for children."""
    return case.bank.home_freezing and case.taxon.storage_confirmed and case.party.pupils is False


def _salvage(case: Case, on: date) -> str:
    """Both approvals, dated evidence, and the permit where one is needed; an imminent loss waives no law."""
    asked = case.salvage
    if asked is None:
        return "no"
    dated = asked.evidence_on is not None and asked.evidence_on <= on
    whole = bool(asked.curator and asked.owner and asked.evidence) and dated
    lawful = _permit(case, on) in {"not needed", "valid"} and not case.missing_papers
    return "approved" if whole and lawful else "incomplete"


def _history(case: Case, on: date) -> dict[str, Any]:
    years = case.history.years_collected
    if years is None:
        return {"collected_last_year": None, "years_running": None, "years_in_nine": None}
    season, collected = season_of(case, on), frozenset(years)
    running = next(n for n in range(len(collected) + 1) if season - n - 1 not in collected)
    recent = {year for year in collected if season - 9 <= year < season}
    return {
        "collected_last_year": running > 0,
        "years_running": running,
        "years_in_nine": len(recent),
    }
