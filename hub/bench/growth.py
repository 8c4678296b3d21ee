"""Pages over few submissions and over many: they must cost nearly the same."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from hub.bench.crowd import crowd
from hub.bench.figure import Figure, ratio
from hub.bench.stage import Stage, fetched

PAGES = {"Regional progress": ("coordinator", "/progress"), "Vetting queue": ("curator", "/bench")}
BAR = 1.5


def growth(few: Stage, many: Stage, *, sizes: tuple[int, int], rounds: int) -> Iterator[Figure]:
    """Each page over the larger table against the same page over the smaller one."""
    for stage, size in zip((few, many), sizes, strict=True):
        crowd(stage.house, submissions=size)
    for name, (role, path) in PAGES.items():
        yield ratio(
            name,
            f"{path} with {sizes[1]:,} submissions waiting, against {sizes[0]:,}",
            bar=BAR,
            rounds=rounds,
            many=partial(fetched, many.reader(role), path),
            few=partial(fetched, few.reader(role), path),
        )
