"""What visitors see: what the hub is for, and how far the region has got. No group, no locality."""

from __future__ import annotations

from typing import Any

from flask import request
from werkzeug.wrappers import Response

from hub.adoptions.rules import STAGES
from hub.db.work import Work
from hub.groups.models import Region
from hub.progress import queries
from hub.progress.pages.blueprint import pages
from hub.progress.queries import Board, RegionYear
from hub.progress.region_map import region_map
from hub.progress.rules import LAST_STAGES, key
from hub.rights.right import Right
from hub.web.render import render
from hub.words import Words, say_n

SHOWN = 24  # names of banked species


@pages.get("/progress-public", needs=Right.PUBLIC_READ)
def public(work: Work) -> Response:
    every = queries.regions(work)
    years = [(region, queries.year_of(work, region, asked_year())) for region in chosen(every)]
    region, year = next(((region, year) for region, year in years if year), (None, None))
    if region is None or year is None:
        return render("progress/public.html", year=None, regions=[])
    return shown(work, every, year)


def chosen(every: list[Region]) -> list[Region]:
    """The region that the address names by code or id, else all: the first with a season will be shown."""
    wanted = request.args.get("region", "")
    return [region for region in every if wanted in (region.code, str(region.id))] or every


def asked_year() -> int | None:
    return request.args.get("year", type=int)


def shown(work: Work, every: list[Region], year: RegionYear) -> Response:
    board = Board.of(year)
    counts = queries.by_district(work, year)
    banked = queries.banked_species(work, year)
    totals = board.totals(work, board.lines())
    return render(
        "progress/public.html",
        year=year,
        regions=every,
        totals=totals,
        map=region_map(year.districts, year.region.outline, counts),
        counts=counts,
        untold=totals.adoptions - sum(sum(here.values()) for here in counts.values()),
        stages_bars=bars(totals),
        ends=LAST_STAGES,
        banked=banked[:SHOWN],
        more=len(banked) - SHOWN,
    )


def bars(totals: Any) -> list[tuple[Words, int, Words]]:
    """Adoptions at each stage in the whole region, as a chart wants them."""
    sums = [(stage, getattr(totals, key(stage))) for stage in STAGES]
    return [(stage.words, n, say_n("{n} adoption", "{n} adoptions", n=n)) for stage, n in sums]
