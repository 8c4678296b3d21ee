"""What visitors see: what the hub is for, and how far the region has got. No group, no locality."""

from __future__ import annotations

from flask import request
from werkzeug.wrappers import Response

from hub.adoptions.rules import STAGES, Stage
from hub.db.work import Work
from hub.groups.models import Region
from hub.progress import queries
from hub.progress.pages.blueprint import pages
from hub.progress.queries import Board, RegionYear
from hub.progress.region_map import region_map
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
    """The region that the address names, else all, of which the first with a season will be shown."""
    wanted = request.args.get("region", "")
    return [region for region in every if region.code == wanted] or every


def asked_year() -> int | None:
    return request.args.get("year", type=int)


def shown(work: Work, every: list[Region], year: RegionYear) -> Response:
    board = Board.of(year)
    counts = queries.by_district(work, year)
    banked = queries.banked_species(work, year)
    return render(
        "progress/public.html",
        year=year,
        regions=[region for region in every if region.id != year.region.id],
        totals=board.totals(work, board.lines()),
        map=region_map(year.districts, year.region.outline, counts),
        counts=counts,
        stages_bars=bars(counts),
        handed_in=Stage.HANDED_IN,
        last=Stage.BANKED,
        banked=banked[:SHOWN],
        more=len(banked) - SHOWN,
    )


def bars(counts: queries.Counts) -> list[tuple[Words, int, Words]]:
    """Adoptions at each stage in the whole region, as a chart wants them."""
    sums = [(stage, sum(here.get(stage, 0) for here in counts.values())) for stage in STAGES]
    return [(stage.words, n, say_n("{n} adoption", "{n} adoptions", n=n)) for stage, n in sums]
