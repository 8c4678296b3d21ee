"""Labels for the containers of an accession: one to a lot, on sheets of a fixed grid or one by one.

The sizes of the sheets are common ones of office stationery (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from hub.accessions import queries
from hub.accessions.models import Accession
from hub.accessions.numbers import lot_number
from hub.db.work import Work
from hub.groups.models import Bank
from hub.groups.queries import get_group
from hub.protocols.codes import qr
from hub.taxa.closed_lists import Worded
from hub.taxa.queries import get as get_taxon
from hub.taxa.rules import CareClass
from hub.words import say


class Layout(Worded):
    """How labels lie on paper."""

    A4_24 = "24", say("A4 sheet with 24 labels, 70 × 37 mm each")
    A4_21 = "21", say("A4 sheet with 21 labels, 63.5 × 38.1 mm each")
    SINGLE = "single", say("one label to a page, 70 × 37 mm, for a label printer")


@dataclass(frozen=True)
class Grid:
    """A sheet of labels; all lengths in millimetres."""

    across: int
    down: int
    width: float
    height: float
    top: float = 0
    left: float = 0
    gap: float = 0
    page: str = "210mm 297mm"

    @property
    def places(self) -> int:
        return self.across * self.down


GRIDS = {
    Layout.A4_24: Grid(3, 8, 70, 37, top=0.5),
    Layout.A4_21: Grid(3, 7, 63.5, 38.1, top=15.15, left=7.25, gap=2.5),
    Layout.SINGLE: Grid(1, 1, 70, 37, page="70mm 37mm"),
}


@dataclass(frozen=True)
class Label:
    """What stands on one label. ``district`` is empty for every taxon above secure."""

    bank: str
    number: str
    lot: str
    taxon: str
    collected_on: date
    mother: str
    group: str
    seeds: int
    estimated: bool
    district: str
    code: str


def labels_of(work: Work, accession: Accession, *, lot: UUID | None = None, copies: int = 1) -> list[Label]:
    """The labels of all lots of an accession by label, or of one of them; copies lie side by side."""
    taxon = get_taxon(work, accession.taxon_id)
    secure = taxon.care_class is CareClass.SECURE
    district = (queries.district_of(work, accession) or "") if secure else ""
    estimated = queries.estimated_lots(work, accession.id)
    bank, group = work.db.get_one(Bank, accession.bank_id), get_group(work, accession.group_id)
    return [
        Label(
            bank=bank.name,
            number=accession.number,
            lot=each.label,
            taxon=taxon.canonical,
            collected_on=accession.collected_on,
            mother=each.mother,
            group=group.name,
            seeds=each.balance_seeds,
            estimated=each.id in estimated,
            district=district,
            code=qr(lot_number(accession.number, each.label)),
        )
        for each in queries.lots_of(work, accession.id)
        for _ in range(copies)
        if lot in (None, each.id)
    ]


def sheets(labels: Sequence[Label], grid: Grid, used: int = 0) -> Iterator[list[list[Label | None]]]:
    """Sheets as rows of places, those used up before left empty. ``used`` counts from the top left."""
    places: list[Label | None] = [*[None] * (used % grid.places), *labels]
    places += [None] * (-len(places) % grid.places)
    rows = [places[at : at + grid.across] for at in range(0, len(places), grid.across)]
    for at in range(0, len(rows), grid.down):
        yield rows[at : at + grid.down]
