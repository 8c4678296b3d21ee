"""The command: builds a demo, measures everything, prints each figure with its bar."""

from __future__ import annotations

import argparse
import json
import logging
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from hub.bench.figure import Figure
from hub.bench.growth import growth
from hub.bench.science import science
from hub.bench.sheets import printing, rules_alone, still
from hub.bench.stage import built_demo, staged
from hub.bench.starting import second_start


@dataclass(frozen=True)
class Effort:
    """How many submissions, and how often each thing is done."""

    sizes: tuple[int, int]
    rounds: int
    slow_rounds: int


FULL = Effort(sizes=(1_000, 100_000), rounds=40, slow_rounds=9)
TRIAL = Effort(sizes=(20, 40), rounds=1, slow_rounds=1)


def main(arguments: list[str]) -> int:
    """``hub bench [--json] [--trial] [--demo DIR]``; answers 1 when a figure passes its bar."""
    asked = parser().parse_args(arguments)
    logging.disable(logging.WARNING)
    with tempfile.TemporaryDirectory(prefix="hub-bench-") as folder:
        figures = []
        for figure in measured(asked.demo, Path(folder), TRIAL if asked.trial else FULL):
            figures.append(figure)
            if not asked.json:
                print(figure, flush=True)
    if asked.json:
        print(json.dumps([each.as_json() for each in figures], indent=2, ensure_ascii=False))
    return 0 if all(each.holds for each in figures) else 1


def parser() -> argparse.ArgumentParser:
    options = argparse.ArgumentParser(prog="hub bench", description=__doc__)
    options.add_argument("--json", action="store_true", help="print the figures as JSON")
    options.add_argument("--trial", action="store_true", help="small tables, one round: proves nothing")
    options.add_argument("--demo", type=Path, help="copy a demo that is built already")
    return options


def measured(demo: Path | None, folder: Path, effort: Effort) -> Iterator[Figure]:
    """Every figure, one after the other."""
    built = demo or built_demo(folder / "built")
    with staged(built, folder / "few") as few, staged(built, folder / "many") as many:
        few.app.register_blueprint(still)
        yield rules_alone(few, rounds=effort.rounds)
        yield from printing(few, first_rounds=effort.slow_rounds, rounds=effort.rounds)
        yield from growth(few, many, sizes=effort.sizes, rounds=effort.rounds)
    yield from science(rounds=effort.rounds)
    yield second_start(few.folder, rounds=effort.slow_rounds)
