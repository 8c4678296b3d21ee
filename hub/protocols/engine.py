"""From a case to a sheet: hear the rules, work out the take, write down every line with its reason.

Pure and deterministic: the same case, rulebook, overrides and day always give the same sheet.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from hub.protocols.case import Case
from hub.protocols.facts import facts_of, season_of
from hub.protocols.headline import headline
from hub.protocols.hearing import Hearing, named
from hub.protocols.lines import asks, cited, considered, reasons, sections
from hub.protocols.overrides import Override, apply_overrides
from hub.protocols.rulebook_reader import Rulebook
from hub.protocols.sheet import Sheet, Status
from hub.protocols.stored import stored
from hub.protocols.take import Take, learnt, work_out


def issue(case: Case, rulebook: Rulebook, overrides: Iterable[Override] = (), *, on: date) -> Sheet:
    """The sheet for a case on one day.

    Raises ``Refused`` when the rulebook holds no rules for that day.
    """
    rules, printed = apply_overrides(overrides, rulebook, on)
    hearing = Hearing(rules)
    facts = facts_of(case, on)
    take = _hear_all(case, hearing, facts)
    status = _status(hearing)
    if status is Status.STOP:
        take = take.nothing()
    return Sheet(
        status=status,
        on=on,
        season=season_of(case, on),
        reasons=reasons(hearing, facts),
        headline=headline(take, hearing, facts),
        sections=sections(hearing, facts, status),
        considered=considered(hearing, facts),
        asks=asks(hearing, rulebook),
        overrides=printed,
        sources=cited(hearing, rulebook),
        route=facts["route"],
        case=stored(case),
        heard=tuple(named(hearing.spoken)),
        rulebook=rulebook.digest,
    )


def _hear_all(case: Case, hearing: Hearing, facts: dict[str, Any]) -> Take:
    """Each stage teaches the facts that the next one asks about."""
    hearing.hear(0, facts)
    facts["route"] = hearing.settle("route").value
    hearing.hear(1, facts)
    facts |= {"handling": hearing.settle("handling").value, "resting": _resting(hearing, facts)}
    hearing.hear(2, facts)
    take = work_out(case, hearing, facts)
    facts |= learnt(take, case)
    hearing.hear(3, facts)
    return take


def _resting(hearing: Hearing, facts: dict[str, Any]) -> bool | None:
    """Whether the population must be left alone this season; unknown when its history is."""
    counts = {"seasons_in_ten": facts["years_in_nine"], "seasons_running": facts["years_running"]}
    if None in counts.values():
        return None
    limits = {name: hearing.settle(name).value for name in counts if hearing.giving(name)}
    return any(counts[name] >= limit for name, limit in limits.items())


def _status(hearing: Hearing) -> Status:
    if hearing.stopped:
        return Status.STOP
    waits = any(each.gives["verdict"] == "not_yet" for each in hearing.giving("verdict"))
    return Status.NOT_YET if waits else Status.READY
