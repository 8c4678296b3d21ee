"""What changed between two revisions, thing by thing and mother by mother. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from hub.vetting.collection import Collection, Tally
from hub.vetting.telling import Told, facts, tally_facts
from hub.words import Words, say


@dataclass(frozen=True)
class Difference:
    """One thing that was changed: its name, and how it read before and after (None: nothing was said)."""

    path: str
    label: Words
    before: Told
    after: Told


def differences(before: Collection, after: Collection) -> list[Difference]:
    """Everything in which two revisions differ, in the order of the form; the tallies come last."""
    return [*changed_facts(before, after), *changed_tallies(before.tallies, after.tallies)]


def changed_facts(before: Collection, after: Collection) -> Iterator[Difference]:
    for (path, label, was), (_, _, becomes) in zip(facts(before), facts(after), strict=True):
        if was != becomes:
            yield Difference(path, label, was, becomes)


def changed_tallies(before: Sequence[Tally], after: Sequence[Tally]) -> Iterator[Difference]:
    """Mothers are matched by their flags, in whatever capitals they were written."""
    old, new = ({each.flag.casefold(): each for each in tallies} for tallies in (before, after))
    for flag in [*old, *(flag for flag in new if flag not in old)]:
        yield from changed_mother(flag, old.get(flag), new.get(flag))


def changed_mother(flag: str, was: Tally | None, becomes: Tally | None) -> Iterator[Difference]:
    known = becomes or was
    if known is None:
        return
    nothing = [(path, name, None) for path, name, _ in tally_facts(known)]
    rows = zip(
        tally_facts(was) if was else nothing, tally_facts(becomes) if becomes else nothing, strict=True
    )
    for (path, name, before), (_, _, after) in rows:
        if before != after:
            label = say("Mother {flag}: {what}", flag=known.flag, what=name)
            yield Difference(f"tallies-{flag}-{path}", label, before, after)
