"""The stages of a year by species, with the populations needed and those still missing.

All of it comes from the wanted list and the running counts; ``missing`` is what ``rules.missing`` reckons.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import (
    ColumnElement,
    Integer,
    Select,
    Subquery,
    and_,
    case,
    cast,
    func,
    or_,
    select,
)

from hub.adoptions.models import StageCount
from hub.adoptions.rules import STAGES, Stage
from hub.db.work import Work
from hub.progress.queries.years import RegionYear
from hub.progress.rules import KEYS, key
from hub.taxa.models import Need, Taxon, Wanted
from hub.taxa.queries import matching
from hub.taxa.rules import CareClass

NUMBERS = ("needed", "missing", "adoptions", *KEYS)
ORDER_NAMES = ("name", "name-down", "missing", "needed", "banked")


@dataclass(frozen=True)
class Board:
    """One row to a species that is wanted or held in a year: its id and ``NUMBERS``, none of them empty."""

    rows: Subquery

    @classmethod
    def of(cls, year: RegionYear, district: UUID | None = None) -> Board:
        """With a district, adoptions are those there, and needs those that name it or no district at all."""
        here = counted(year, district).subquery("here")
        asked = needs(year, district, counted(year).subquery("everywhere"))
        given = {"needed": asked.c.needed, "missing": asked.c.missing}
        found = (
            select(Taxon.id.label("taxon_id"))
            .add_columns(*(whole(given.get(name, here.c.get(name))).label(name) for name in NUMBERS))
            .outerjoin(asked, asked.c.taxon_id == Taxon.id)
            .outerjoin(here, here.c.taxon_id == Taxon.id)
            .where(or_(asked.c.taxon_id.is_not(None), here.c.taxon_id.is_not(None)))
        )
        return cls(found.subquery("board"))

    def lines(
        self,
        *,
        search: str | None = None,
        care: CareClass | None = None,
        stage: Stage | None = None,
        gaps: bool = False,
    ) -> Select[Any]:
        """The rows that meet every condition given, each with its taxon."""
        numbers = self.rows.c
        conditions: list[tuple[Any, Any]] = [
            (search, matching(search or "")),
            (care, Taxon.care_class == care),
            (stage, numbers[key(stage)] > 0 if stage else None),
            (gaps, numbers.missing > 0),
        ]
        found: Select[Any] = select(Taxon, *(numbers[name] for name in NUMBERS))
        found = found.select_from(Taxon).join(self.rows, numbers.taxon_id == Taxon.id)
        return found.where(*(condition for asked, condition in conditions if asked))

    @property
    def orders(self) -> dict[str, Sequence[Any]]:
        """The ways to sort the lines, under ``ORDER_NAMES``."""
        by_name = (Taxon.canonical, Taxon.id)
        most = {name: (self.rows.c[name].desc(), *by_name) for name in ("missing", "needed", "banked")}
        return {"name": by_name, "name-down": (Taxon.canonical.desc(), Taxon.id), **most}

    def totals(self, work: Work, lines: Select[Any]) -> Any:
        """The sums over some lines: species, species banked, and every one of ``NUMBERS``."""
        rows = lines.with_only_columns(*self.rows.c).subquery()
        banked = whole(func.sum(case((rows.c.banked > 0, 1), else_=0))).label("species_banked")
        sums = [whole(func.sum(rows.c[name])).label(name) for name in NUMBERS]
        return work.db.execute(select(func.count().label("species"), banked, *sums).select_from(rows)).one()


def counted(year: RegionYear, district: UUID | None = None) -> Any:
    """Adoptions by species: at each stage, and together."""
    sums = [
        func.sum(case((StageCount.stage == stage, StageCount.adoptions), else_=0)).label(key(stage))
        for stage in STAGES
    ]
    total = func.sum(StageCount.adoptions).label("adoptions")
    found = select(StageCount.taxon_id, total, *sums).where(
        StageCount.season_id.in_(year.season_ids), StageCount.adoptions > 0
    )
    if district is not None:
        found = found.where(StageCount.district_id == district)
    return found.group_by(StageCount.taxon_id)


def needs(year: RegionYear, district: UUID | None, everywhere: Subquery) -> Subquery:
    """Populations needed and missing by species. A line of the list without a need wants one, anywhere."""
    asked, held = needed_by_place(year), held_by_place(year)
    joined = and_(held.c.taxon_id == asked.c.taxon_id, held.c.district_id == asked.c.district_id)
    named, found = asked.c.district_id.is_not(None), func.coalesce(held.c.adoptions, 0)
    here = or_(~named, asked.c.district_id == district) if district else named | ~named
    short = func.sum(case((and_(named, here), above_nothing(asked.c.populations - found)), else_=0))
    covered = func.sum(case((named, lesser(asked.c.populations, found)), else_=0))
    anywhere = func.sum(case((~named, asked.c.populations), else_=0))
    left = anywhere - (func.coalesce(func.max(everywhere.c.adoptions), 0) - covered)
    return (
        select(
            asked.c.taxon_id,
            func.sum(case((here, asked.c.populations), else_=0)).label("needed"),
            (short + above_nothing(left)).label("missing"),
        )
        .outerjoin(held, joined)
        .outerjoin(everywhere, everywhere.c.taxon_id == asked.c.taxon_id)
        .group_by(asked.c.taxon_id)
        .having(func.sum(case((here, 1), else_=0)) > 0)
        .subquery("asked")
    )


def needed_by_place(year: RegionYear) -> Subquery:
    """Populations needed by species and district; without a district, from anywhere."""
    populations = func.sum(func.coalesce(Need.populations, 1)).label("populations")
    return (
        select(Wanted.taxon_id, Need.district_id, populations)
        .outerjoin(Need, Need.wanted_id == Wanted.id)
        .where(Wanted.season_id.in_(year.season_ids))
        .group_by(Wanted.taxon_id, Need.district_id)
        .subquery("needed")
    )


def held_by_place(year: RegionYear) -> Subquery:
    """Adoptions by species and district."""
    return (
        select(StageCount.taxon_id, StageCount.district_id, func.sum(StageCount.adoptions).label("adoptions"))
        .where(StageCount.season_id.in_(year.season_ids))
        .group_by(StageCount.taxon_id, StageCount.district_id)
        .subquery("held")
    )


def whole(number: Any) -> ColumnElement[int]:
    """A whole number, nothing being 0; PostgreSQL makes decimals of sums of sums."""
    return cast(func.coalesce(number, 0), Integer)


def above_nothing(number: ColumnElement[Any]) -> ColumnElement[Any]:
    return case((number > 0, number), else_=0)


def lesser(one: ColumnElement[Any], other: ColumnElement[Any]) -> ColumnElement[Any]:
    return case((one < other, one), else_=other)
