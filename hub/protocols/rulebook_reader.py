"""Reads the rulebook: TOML files that a botanist can read, checked before any rule may speak."""

from __future__ import annotations

import hashlib
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from hub.protocols.conditions import BadCondition, Condition, conditions
from hub.protocols.facts import LEARNT, Kind, kinds
from hub.protocols.figures import FIGURES
from hub.protocols.sheet import Evidence, Section, Source

RULEBOOK = Path(__file__).parent / "rulebook"
_TEXTS = ("title", "says", "plain", "why")
_KEYS = frozenset(
    {*_TEXTS, "id", "topic", "section", "when", "gives", "lifts", "loosen_to"}
    | {"evidence", "source", "see", "since", "until"}
)


class BadRulebook(ValueError):
    """A rulebook that cannot be trusted, with the rule at fault."""


@dataclass(frozen=True)
class Rule:
    """One rule as its file says it.

    ``gives`` are figures; a word there that is the name of a fact stands for that fact.
    ``source`` are publications the figure was read in; ``see`` those that only point its way.
    ``loosen_to`` is as far as a curator may go; a figure not named there can only be tightened.
    """

    id: str
    title: str
    topic: str
    section: Section
    when: tuple[Condition, ...]
    says: str
    plain: str
    why: str
    evidence: Evidence
    since: date
    until: date | None = None
    gives: Mapping[str, Any] = field(default_factory=dict)
    lifts: tuple[str, ...] = ()
    loosen_to: Mapping[str, Any] = field(default_factory=dict)
    source: tuple[str, ...] = ()
    see: tuple[str, ...] = ()
    stage: int = 0  # how much the engine must have learnt before this rule can be asked

    def holds_on(self, day: date) -> bool:
        """Whether the rule is in force."""
        return self.since <= day and (self.until is None or day <= self.until)


@dataclass(frozen=True)
class Question:
    """What to ask a person when a fact is unknown."""

    fact: str
    says: str
    plain: str


@dataclass(frozen=True)
class Rulebook:
    """All rules, questions and publications, and the digest that names this very state of them."""

    rules: tuple[Rule, ...]
    questions: Mapping[str, Question]
    sources: Mapping[str, Source]
    digest: str

    def rule(self, rule_id: str) -> Rule | None:
        """The rule of this id."""
        return next((rule for rule in self.rules if rule.id == rule_id), None)


@cache
def standard_rulebook() -> Rulebook:
    """The rulebook that comes with the hub, read once."""
    return read_rulebook(RULEBOOK)


def read_rulebook(folder: Path) -> Rulebook:
    """Read and check every file in the folder. Raises ``BadRulebook`` naming the rule at fault."""
    texts = {path.stem: path.read_text("utf-8") for path in sorted(folder.glob("*.toml"))}
    tables = {stem: tomllib.loads(text) for stem, text in texts.items()}
    sources = {key: Source(key, **row) for key, row in tables.pop("sources").items()}
    questions = {fact: Question(fact, **row) for fact, row in tables.pop("questions").items()}
    known = kinds()
    rules = tuple(_rule(row, table, known) for table in tables.values() for row in table["rule"])
    _check_together(rules, questions, sources, known)
    return Rulebook(rules, questions, sources, hashlib.sha256("\0".join(texts.values()).encode()).hexdigest())


def _rule(row: dict[str, Any], table: Mapping[str, Any], known: Mapping[str, Kind]) -> Rule:
    """One rule; ``topic``, ``section`` and ``since`` may stand once at the top of its file."""
    whole = {key: table[key] for key in ("topic", "section", "since") if key in table} | row
    try:
        _check_keys(whole)
        when = conditions(whole.get("when", {}), known)
        rule = Rule(
            **{key: whole[key] for key in ("id", "topic", "since", *_TEXTS)},
            section=Section(whole["section"]),
            when=when,
            evidence=Evidence(whole["evidence"]),
            until=whole.get("until"),
            gives=whole.get("gives", {}),
            loosen_to=whole.get("loosen_to", {}),
            lifts=tuple(whole.get("lifts", ())),
            source=tuple(whole.get("source", ())),
            see=tuple(whole.get("see", ())),
            stage=max((_stage(each.fact) for each in when), default=0),
        )
        _check_rule(rule, known)
    except (KeyError, ValueError) as wrong:
        raise BadRulebook(f"rule “{row.get('id', '?')}”: {wrong}") from wrong
    return rule


def _stage(fact: str) -> int:
    return next((stage for stage, learnt in enumerate(LEARNT, start=1) if fact in learnt), 0)


def _check_keys(whole: Mapping[str, Any]) -> None:
    if strange := whole.keys() - _KEYS:
        raise BadCondition(f"it does not know “{', '.join(sorted(strange))}”")


def _check_rule(rule: Rule, known: Mapping[str, Kind]) -> None:
    """A citation is only for what was read there; every figure and name in braces must exist."""
    cites = rule.evidence in (Evidence.PUBLISHED, Evidence.SECONDARY)
    if cites != bool(rule.source):
        raise ValueError("published figures need a source, and only they may have one; use “see” for others")
    for name, value in [*rule.gives.items(), *rule.loosen_to.items()]:
        if not FIGURES[name].allows(value) and known.get(value) is not float:
            raise ValueError(f"“{value}” is no value of {name}")
    certain = {each.fact for each in rule.when if not each.unknown_fits} | rule.gives.keys()
    for name in names_in(rule.says + rule.plain):
        if base_name(name) not in certain:
            raise ValueError(f"the text speaks of “{name}”, which the rule neither asks nor gives")


def names_in(text: str) -> list[str]:
    """The names in braces."""
    return re.findall(r"\{(\w+)\}", text)


def base_name(name: str) -> str:
    """The share behind a percentage or a "one in so many", the hours behind a span."""
    return name.removesuffix("_percent").removesuffix("_one_in").removesuffix("_span")


def _check_together(
    rules: tuple[Rule, ...],
    questions: Mapping[str, Question],
    sources: Mapping[str, Source],
    known: Mapping[str, Kind],
) -> None:
    ids = [rule.id for rule in rules]
    if len(set(ids)) < len(ids):
        raise BadRulebook("two rules share an id: " + ", ".join(sorted({i for i in ids if ids.count(i) > 1})))
    cited = {key for rule in rules for key in (*rule.source, *rule.see)}
    if missing := cited - sources.keys():
        raise BadRulebook("no such source: " + ", ".join(sorted(missing)))
    if strange := questions.keys() - known.keys():
        raise BadRulebook("a question asks for no fact: " + ", ".join(sorted(strange)))
