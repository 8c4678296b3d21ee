"""The region's progress for everybody signed in: a map, stages by species and district, gaps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any
from uuid import UUID

from flask import request
from sqlalchemy import Select
from werkzeug.wrappers import Response

from hub.adoptions.rules import STAGES, Stage
from hub.db.keyset import in_order
from hub.db.work import Work
from hub.progress import queries
from hub.progress.pages.blueprint import pages
from hub.progress.queries import Board, Cell, RegionYear
from hub.progress.region_map import region_map
from hub.progress.rules import KEYS, LAST_STAGES
from hub.rights.policy import may
from hub.rights.right import Right
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier, Whole, Yes
from hub.web.listing import Asked, Filter
from hub.web.paging import page_of
from hub.web.render import render
from hub.words import Words, say, say_n

ANYWHERE, ANY = say("anywhere in the region"), say("any")
HEAD = (
    say("Year"), say("Species"), say("Care class"), say("District"), say("Ecoregion"),
    say("Needed (populations)"),
    *(Words("{stage} (adoptions)", {"stage": stage.words}) for stage in STAGES), say("Missing (populations)"),
)  # fmt: skip


def filters(year: RegionYear) -> list[Filter]:
    """What the list can be narrowed by."""
    return [
        Filter("year", say("Year"), Whole(1900, 2200)),
        Filter("district", say("District"), Identifier(), lambda key: year.names.get(key, "–")),
        Filter("care", say("Care class"), Choice(CareClass), lambda care: care.words),
        Filter("stage", say("Stage"), Choice(Stage), lambda stage: stage.words),
        Filter("gaps", say("Gaps only"), Yes(), lambda _: say("yes")),
    ]


@pages.get("/progress", needs=Right.PROGRESS_READ)
def region(work: Work) -> Response:
    year = own_year(work)
    if year is None:
        return render("progress/no_season.html")
    asked = Asked.of(filters(year), dict.fromkeys(queries.ORDER_NAMES, ()))
    given = {name: value for name, value in asked.values.items() if name != "year"}
    board = Board.of(year, given.pop("district"))
    lines = board.lines(**given)
    if asked.wants_csv:
        rows = work.db.execute(in_order(lines, board.orders[asked.order])).all()
        return csv_download(f"progress-{year.year}", HEAD, csv_rows(work, year, rows, asked))
    return shown(work, year, asked, board, lines)


def shown(work: Work, year: RegionYear, asked: Asked, board: Board, lines: Select[Any]) -> Response:
    page = page_of(work, lines, board.orders[asked.order], at=asked.at)
    return render(
        "progress/region.html",
        year=year,
        asked=asked,
        page=page,
        totals=board.totals(work, lines),
        short=shortages(work, year, page.items),
        may_steer=may(work.scope, Right.PROGRESS_STEER),
        **drawn(work, year, asked.values),
        **offered(year),
    )


def own_year(work: Work) -> RegionYear | None:
    """The reader's region in the year asked for; a reader of no region sees the first."""
    own = [each for each in queries.regions(work) if work.scope.region_id in (None, each.id)]
    return queries.year_of(work, own[0], request.args.get("year", type=int)) if own else None


def drawn(work: Work, year: RegionYear, values: Mapping[str, Any]) -> dict[str, Any]:
    """The map and the table beside it, narrowed by species and care class alone."""
    counts = queries.by_district(work, year, search=values["search"], care=values["care"])
    return {
        "counts": counts,
        "map": region_map(year.districts, year.region.outline, counts, values["district"]),
    }


def offered(year: RegionYear) -> dict[str, Any]:
    """What the filters offer, and the stages that head the columns."""
    return {
        "stages": list(zip(KEYS, STAGES, strict=True)),
        "years": [(each, str(each)) for each in year.years],
        "districts": [(each.id, each.name) for each in year.districts],
        "cares": [(care, care.words) for care in CareClass],
        "offered_stages": [(stage, stage.words) for stage in STAGES],
        "ends": LAST_STAGES,
    }


def shortages(work: Work, year: RegionYear, rows: list[Any]) -> dict[UUID, list[tuple[int, Words | str]]]:
    """Where populations of each species are missing: how many, and from where."""
    found = queries.cells(work, year, [row.Taxon.id for row in rows])
    return {
        taxon_id: [(n, origin(year, cell, place)) for place, n in cell.missing.items()]
        for taxon_id, cell in found.items()
    }


def origin(year: RegionYear, cell: Cell, place: UUID | None) -> Words | str:
    """From where seed is needed: a district, an ecoregion of it or of the region, or anywhere."""
    district, ecoregions = year.names.get(place, "–") if place else "", cell.ecoregions(place)
    if not ecoregions:
        return district or ANYWHERE
    names, n = ", ".join(ecoregions), len(ecoregions)
    if district:
        return say_n(
            "{district}, ecoregion {names}",
            "{district}, ecoregions {names}",
            n=n,
            district=district,
            names=names,
        )
    return say_n("ecoregion {names}", "ecoregions {names}", n=n, names=names)


def csv_rows(work: Work, year: RegionYear, rows: Any, asked: Asked) -> Iterator[tuple[object, ...]]:
    """A row for each species and each district that it is needed from or held in."""
    found = queries.cells(work, year, [row.Taxon.id for row in rows])
    wanted = asked.values["district"]
    for row in rows:
        cell = found[row.Taxon.id]
        for place in [*year.names, None]:
            here = wanted in (None, place) or place is None
            if here and (place in cell.needed or place in cell.adoptions):
                yield cell_row(year, row.Taxon, place, cell)


def cell_row(year: RegionYear, taxon: Taxon, place: UUID | None, cell: Cell) -> tuple[object, ...]:
    counts = cell.adoptions.get(place, {}) if place else {}
    ecoregions = ", ".join(cell.ecoregions(place))
    anywhere = ANY if ecoregions else ANYWHERE
    return (
        year.year,
        taxon.canonical,
        taxon.care_class.words,
        year.names[place] if place else anywhere,
        ecoregions or (ANY if place in cell.needed else ""),
        cell.needed.get(place, 0),
        *(counts.get(stage, 0) for stage in STAGES),
        cell.missing.get(place, 0),
    )
