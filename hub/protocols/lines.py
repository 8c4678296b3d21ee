"""Writes what the rules said as lines of a sheet, each with its rule, evidence and inputs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from math import ceil
from typing import Any

from hub.protocols.crop import exact
from hub.protocols.facts import Facts
from hub.protocols.figures import FIGURES
from hub.protocols.hearing import Hearing, Settled, Spoken, named
from hub.protocols.rulebook_reader import Rulebook, base_name, names_in
from hub.protocols.sheet import Ask, Evidence, Line, Section, Source, Status
from hub.protocols.sheet_words import span
from hub.protocols.stored import stored
from hub.words import Words

# When nothing may be collected, only these parts of a sheet are of use to anybody.
_WHEN_STOPPED = frozenset({Section.CAUTIONS, Section.PAPERWORK})
# Some facts follow from others; the person is asked for the one behind.
_ASKED_AS = dict.fromkeys(("years_in_nine", "years_running", "collected_last_year"), "years_collected")


def percent(part: Any) -> str:
    """A share as people write it: 10, 2.5, 0.5."""
    return f"{float(part) * 100:.10g}"


def worded(text: str, spoken: Spoken, facts: Facts) -> Words:
    """A rule's sentence with the figures and facts it names."""
    known: Mapping[str, Any] = {**facts, **spoken.gives}
    return Words(text, {name: _value(name, known) for name in names_in(text)})


def _value(name: str, known: Mapping[str, Any]) -> Any:
    if name.endswith("_percent"):
        return percent(known[base_name(name)])
    if name.endswith("_one_in"):
        return ceil(1 / exact(known[base_name(name)])) if known[base_name(name)] else 0
    if name.endswith("_span"):
        return span(known[base_name(name)])
    return known[name]


def rule_line(spoken: Spoken, facts: Facts) -> Line:
    """The line that one rule writes."""
    rule = spoken.rule
    figure = next(iter(spoken.gives), "")
    return Line(
        topic=rule.topic,
        text=worded(rule.says, spoken, facts),
        plain=worded(rule.plain, spoken, facts),
        why=worded(rule.why, spoken, facts),
        rules=(rule.id,),
        evidence=rule.evidence,
        sources=rule.source or rule.see,
        inputs=stored(spoken.inputs),
        value=spoken.gives.get(figure),
        unit=FIGURES[figure].unit if figure else "",
    )


def figure_line(
    topic: str, value: Any, text: Words, plain: Words, settled: Settled, *, also: Iterable[Spoken] = ()
) -> Line:
    """A line for a figure that several rules settled; the most careful one gives the reason."""
    winner = settled.winner
    heard = (*settled.spoken, *also)
    inputs = {name: fact for each in reversed(heard) for name, fact in each.inputs.items()}
    return Line(
        topic=topic,
        text=text,
        plain=plain,
        why=Words(winner.rule.why),
        rules=tuple(dict.fromkeys(named(heard))),
        evidence=winner.rule.evidence,
        sources=winner.rule.source or winner.rule.see,
        inputs=stored(inputs),
        value=value,
        unit=FIGURES[topic].unit if topic in FIGURES else "",
    )


def reasons(hearing: Hearing, facts: Facts) -> tuple[Line, ...]:
    """Why the sheet is not ready: full stops first."""
    ordered = sorted(
        hearing.giving("verdict"), key=lambda each: FIGURES["verdict"].rank(each.gives["verdict"])
    )
    return tuple(rule_line(each, facts) for each in ordered)


def sections(hearing: Hearing, facts: Facts, status: Status) -> dict[Section, tuple[Line, ...]]:
    """Every rule that spoke and was not outvoted, in the part of the sheet where it belongs."""
    outvoted = _outvoted(hearing)
    written: dict[Section, tuple[Line, ...]] = {}
    for section in Section:
        if status is Status.STOP and section not in _WHEN_STOPPED:
            continue
        spoken = [each for each in hearing.spoken if each.rule.section is section and _is_line(each)]
        said = [rule_line(each, facts) for each in spoken if each.rule.id not in outvoted]
        written[section] = _said_once(said)
    return written


def _said_once(lines: Iterable[Line]) -> tuple[Line, ...]:
    """Rules that say the same thing share one line, which rests on the best ground among them."""
    said: dict[Words, list[Line]] = {}
    for line in lines:
        said.setdefault(line.text, []).append(line)
    return tuple(_joined(same) if len(same) > 1 else same[0] for same in said.values())


def _joined(same: list[Line]) -> Line:
    best, *others = sorted(same, key=lambda line: list(Evidence).index(line.evidence))
    inputs = {name: fact for line in (*others, best) for name, fact in (line.inputs or {}).items()}
    rules = tuple(rule for line in (best, *others) for rule in line.rules)
    return replace(best, rules=rules, inputs=inputs)


def considered(hearing: Hearing, facts: Facts) -> tuple[Line, ...]:
    """Rules that spoke, but gave way to more careful ones."""
    outvoted = _outvoted(hearing)
    return tuple(rule_line(each, facts) for each in hearing.spoken if each.rule.id in outvoted)


def _is_line(spoken: Spoken) -> bool:
    """Verdicts are reasons, and how many mothers is a headline that depends on more than one rule."""
    return not spoken.gives.keys() & {"verdict", "mothers_goal", "mothers_minimum"}


def _outvoted(hearing: Hearing) -> set[str]:
    """Rules none of whose figures stand."""
    given = {name for each in hearing.spoken for name in each.gives} - _without_line(hearing)
    heard = {name: hearing.settle(name) for name in given}
    standing = {
        each.rule.id
        for name, settled in heard.items()
        for each in settled.spoken
        if each.gives[name] == settled.value
    }
    factors = set(named(hearing.factors()))
    speaking = {each.rule.id for each in hearing.spoken if each.gives and _is_line(each)}
    return speaking - standing - factors


def _without_line(hearing: Hearing) -> set[str]:
    """Figures that stand but would mislead in a line of their own, since another lowers them further."""
    hidden = {"verdict", "season_factor"}
    if hearing.factors():
        hidden.add("season_share")
    if hearing.factors() or hearing.settle("season_share").value < hearing.settle("plant_share").value:
        hidden.add("plant_share")
    return hidden


def asks(hearing: Hearing, rulebook: Rulebook) -> tuple[Ask, ...]:
    """What to ask, the facts first without which nobody may collect."""
    blocking = {_asked_as(fact) for each in hearing.giving("verdict") for fact in each.unknown}
    missing = {_asked_as(fact) for fact in hearing.unanswered}
    found = [rulebook.questions[fact] for fact in rulebook.questions if fact in missing]
    listed = [Ask(each.fact, Words(each.says), Words(each.plain), each.fact in blocking) for each in found]
    return tuple(sorted(listed, key=lambda each: not each.needed))


def _asked_as(fact: str) -> str:
    return _ASKED_AS.get(fact, fact)


def cited(hearing: Hearing, rulebook: Rulebook) -> tuple[Source, ...]:
    """The publications behind the lines, in the rulebook's order."""
    keys = {key for each in hearing.spoken for key in (*each.rule.source, *each.rule.see)}
    return tuple(source for key, source in rulebook.sources.items() if key in keys)
