"""A bank’s own changes of rules: the list, a new one beside what the rule says, and the end of one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any
from uuid import UUID

from flask import url_for
from marshmallow import ValidationError
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.protocols import actions, listed, queries, rule_words
from hub.protocols.figures import FIGURES
from hub.protocols.models import RuleOverride
from hub.protocols.pages.blueprint import pages
from hub.protocols.rulebook_reader import Rule, standard_rulebook
from hub.protocols.schemas import OverrideSchema, ReasonSchema
from hub.rights.right import Right
from hub.web.downloads import csv_download
from hub.web.fields import Yes
from hub.web.forms import Form
from hub.web.listing import Asked, Filter
from hub.web.render import done, render
from hub.words import NotFound, Words, say

FILTERS = (Filter("holds", say("In force"), Yes(), lambda yes: say("yes")),)
HEAD = (
    say("Rule"), say("Figure"), say("Was"), say("Is"), say("Species"), say("Population"), say("By"),
    say("Made at (UTC)"), say("Until"), say("Ended at (UTC)"), say("Reason"), say("Evidence"),
)  # fmt: skip
MISSING = say("Please give the new figure.")


@pages.get("/rules/changes", needs=Right.RULE_OVERRIDE)
def overrides(work: Work) -> Response:
    asked = Asked.of(FILTERS, listed.OVERRIDE_ORDERS)
    statement = listed.overrides(work, **asked.values)
    if asked.wants_csv:
        return csv_download("rule-changes", HEAD, rows(asked.everything(work, statement)))
    return render(
        "protocols/overrides.html",
        asked=asked,
        page=asked.page(work, statement),
        today=work.today,
        rule_words=rule_words,
        rules={rule.id: rule for rule in standard_rulebook().rules},
    )


def rows(found: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    for change, taxon, population in found:
        old, new = (rule_words.value(change.figure, each) for each in (change.old_value, change.new_value))
        figure = rule_words.FIGURE_NAMES[change.figure]
        yield (
            change.rule_id, figure, old, new, taxon, population, change.made_by_name, change.made_at,
            change.ends_on, change.ended_at, change.reason, change.evidence,
        )  # fmt: skip


@pages.get("/rules/<string:rule_id>/<string:figure>/change", needs=Right.RULE_OVERRIDE)
def change_rule(work: Work, rule_id: str, figure: str) -> Response:
    return asking(work, changeable(rule_id, figure), figure, Form(OverrideSchema()))


@pages.post("/rules/<string:rule_id>/<string:figure>/change", needs=Right.RULE_OVERRIDE)
def send_change(work: Work, rule_id: str, figure: str) -> Response:
    rule, form = changeable(rule_id, figure), Form.sent(OverrideSchema())
    with form.answering():
        data = form.data
        value = wished(rule, figure, data.pop("value"))
        evidence = data.pop("evidence") or ""
        actions.make_override(work, rule_id=rule_id, figure=figure, value=value, evidence=evidence, **data)
        words = say("The rule is changed for your bank. Sheets that rest on it follow within a minute.")
        return done(words, url_for(".overrides"))
    return asking(work, rule, figure, form)


def changeable(rule_id: str, figure: str) -> Rule:
    """A rule with a figure that can be changed. Raises NotFound."""
    rule = standard_rulebook().rule(rule_id)
    if rule is None or figure not in rule.gives or not rule_words.may_change(rule, figure):
        raise NotFound(rule_id)
    return rule


def wished(rule: Rule, figure: str, typed: Any) -> Any:
    """The new value: a part of one for a percentage, a whole number, or the only choice there is."""
    if not FIGURES[figure].careful:
        return rule.loosen_to[figure]
    if typed is None:
        raise ValidationError({"value": [MISSING]})
    if rule_words.is_share(figure):
        return float(typed) / 100
    return int(typed) if typed == int(typed) else float(typed)


def asking(work: Work, rule: Rule, figure: str, form: Form) -> Response:
    return render(
        "protocols/change_rule.html",
        form=form,
        rule=rule,
        figure=figure,
        name=rule_words.FIGURE_NAMES[figure],
        says=rule_words.value(figure, rule.gives[figure]),
        bound=rule_words.may_loosen(rule, figure),
        by_number=bool(FIGURES[figure].careful),
        unit="%" if rule_words.is_share(figure) else FIGURES[figure].unit,
        rule_words=rule_words,
        species=listed.species_with_populations(work),
        populations=listed.populations_by_name(work),
        today=work.today,
    )


@pages.get("/rules/changes/<uuid:override_id>/end", needs=Right.RULE_OVERRIDE)
def end_override(work: Work, override_id: UUID) -> Response:
    return ending(queries.get_override(work, override_id), Form(ReasonSchema()))


@pages.post("/rules/changes/<uuid:override_id>/end", needs=Right.RULE_OVERRIDE)
def send_end(work: Work, override_id: UUID) -> Response:
    form = Form.sent(ReasonSchema())
    change = queries.get_override(work, override_id)
    with form.answering():
        actions.end_override(work, override_id=override_id, **form.data)
        words = say("The rule of the book holds again. Sheets that rest on it follow within a minute.")
        return done(words, url_for(".overrides"))
    return ending(change, form)


def ending(change: RuleOverride, form: Form) -> Response:
    rule = standard_rulebook().rule(change.rule_id)
    title = Words(rule.title) if rule else Words(change.rule_id)
    return render("protocols/end_override.html", form=form, change=change, title=title, rule_words=rule_words)
