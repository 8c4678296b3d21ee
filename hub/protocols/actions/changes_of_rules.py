"""Change one figure of one rule for a bank, within what the rule allows, and end such a change."""

from __future__ import annotations

from datetime import date
from typing import Any
from uuid import UUID

from hub.accounts.queries import get_person
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.protocols import queries
from hub.protocols.models import RuleOverride
from hub.protocols.overrides import Override, refusal
from hub.protocols.rulebook_reader import standard_rulebook
from hub.sites import queries as sites
from hub.taxa import queries as taxa
from hub.words import Refused, say


def make_override(
    work: Work,
    *,
    rule_id: str,
    figure: str,
    value: Any,
    reason: str,
    evidence: str,
    ends_on: date,
    taxon_id: UUID | None = None,
    population_id: UUID | None = None,
) -> RuleOverride:
    """Change one figure of one rule for this bank. Refuses what no curator may do."""
    check_where(work, taxon_id, population_id)
    by = get_person(work).name
    rulebook = standard_rulebook()
    wish = Override(rule_id, figure, value, by, work.today, reason, ends_on, evidence)
    refused = refusal(wish, rulebook, work.today)
    rule = rulebook.rule(rule_id)
    if refused is not None or rule is None:
        raise Refused(refused or say("There is no such rule."), field="value")
    change = RuleOverride(
        bank_id=work.scope.own_bank_id,
        rule_id=rule_id,
        figure=figure,
        taxon_id=taxon_id,
        population_id=population_id,
        old_value=rule.gives[figure],
        new_value=value,
        reason=reason,
        evidence=evidence,
        made_by=work.scope.person_id,
        made_by_name=by,
        made_at=work.now,
        ends_on=ends_on,
    )
    work.db.add(change)
    record(work, Event.OVERRIDE_MADE, change, after={"rule": rule_id, figure: value}, reason=reason)
    return change


def check_where(work: Work, taxon_id: UUID | None, population_id: UUID | None) -> None:
    """A change for one population must not name another species. Raises NotFound, Refused."""
    if taxon_id is not None:
        taxa.get(work, taxon_id)
    if population_id is not None:
        population = sites.get_population(work, population_id)
        if taxon_id not in (None, population.taxon_id):
            words = say("This population is of another species.")
            raise Refused(words, field="population_id")


def end_override(work: Work, *, override_id: UUID, reason: str) -> None:
    """Go back to the rulebook's own figure before the change runs out by itself."""
    change = queries.get_override(work, override_id)
    if change.ended_at is not None or change.ends_on < work.today:
        raise Refused(say("This change of a rule is no longer in force."))
    change.ended_at = work.now
    record(work, Event.OVERRIDE_ENDED, change, before={change.figure: change.new_value}, reason=reason)
