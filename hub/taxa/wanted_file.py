"""A wanted list as a file: bytes in, rows and problems out, and the other way round."""

from __future__ import annotations

import csv
import io
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field

from hub.taxa.tables import Table, read_table
from hub.taxa.wanted_columns import CHECKS, Column, plain_heading
from hub.words import Words, say

# Signs with which a spreadsheet program takes a cell for a formula; our files set a ' before them.
FORMULA_SIGNS = tuple("=+-@\t\r\n＝＋－＠")
# Columns that our own downloads add: they are read from the species' record, never from a list.
ALSO_OURS = frozenset({"vernacular", "family", "care class", "groups"})


@dataclass(frozen=True)
class Problem:
    """What is wrong with one cell, or with a whole row when no column is named."""

    row: int  # as a spreadsheet counts them, the heading being 1
    column: Words | str | None
    words: Words

    @property
    def sentence(self) -> Words:
        """The problem with its place, for where no table shows it."""
        if self.column is None:
            return say("Row {row}: {what}", row=self.row, what=self.words)
        return say("Row {row}, {column}: {what}", row=self.row, column=self.column, what=self.words)


@dataclass(frozen=True)
class WantedRow:
    """One row of the list: so many populations of a species, from one place or from anywhere."""

    row: int
    name: str
    populations: int
    ecoregion: str = ""
    district: str = ""
    priority: int | None = None
    note: str = ""


@dataclass
class WantedFile:
    """What a file says: its good rows, what is wrong with the others, and what should be known."""

    rows: list[WantedRow] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    remarks: list[Words] = field(default_factory=list)


def read_wanted(data: bytes) -> WantedFile:
    """Read a list from CSV or XLSX. Raises ``Refused`` when the file as a whole cannot be read."""
    table = read_table(data, (word for column in Column for word in column.headings))
    top = next(at for at, row in enumerate(table.rows) if any(row))
    places, found = read_heading(table.rows[top], top + 1)
    found.remarks += table.remarks
    if found.problems:
        return found
    for at, cells in enumerate(table.rows[top + 1 :], start=top + 1):
        if any(cells):
            read_row(found, table, at, places)
    return found


def read_heading(cells: list[str], row: int) -> tuple[dict[Column, int], WantedFile]:
    """Which column stands where. What is missing or doubled is a problem, what is unknown a remark."""
    by_word = {word: column for column in Column for word in column.headings}
    places: dict[Column, int] = {}
    found = WantedFile()
    for at, cell in enumerate(cells):
        column = by_word.get(plain_heading(cell))
        if column in places:
            found.problems.append(Problem(row, column.words, say("This column is there twice.")))
        elif column:
            places[column] = at
        elif cell and plain_heading(cell) not in ALSO_OURS:
            found.remarks.append(
                say("The column “{name}” is not known here and was left out.", name=cell[:80])
            )
    for column in (Column.NAME, Column.POPULATIONS):
        if column not in places:
            told = say("The first row must name this column: {heading}.", heading=column.heading)
            found.problems.append(Problem(row, column.words, told))
    return places, found


def read_row(found: WantedFile, table: Table, at: int, places: dict[Column, int]) -> None:
    """Add one row to the file's good rows, or what is wrong with it to the problems."""
    cells = table.rows[at]
    texts, problems = {}, []
    for column in Column:
        place = places.get(column, -1)
        text = cells[place] if 0 <= place < len(cells) else ""
        wrong = (
            say("This is a date in the file. Write it as text or number.")
            if (at, place) in table.dates
            else None
        )
        texts[column] = tidied(text)
        wrong = wrong or CHECKS[column](texts[column])
        if wrong:
            problems.append(Problem(at + 1, column.words, wrong))
    found.problems += problems
    if not problems:
        found.rows.append(row_of(at + 1, texts))


def row_of(row: int, texts: dict[Column, str]) -> WantedRow:
    return WantedRow(
        row,
        texts[Column.NAME],
        int(texts[Column.POPULATIONS]),
        texts[Column.ECOREGION],
        texts[Column.DISTRICT],
        int(texts[Column.PRIORITY]) if texts[Column.PRIORITY] else None,
        texts[Column.NOTE],
    )


def tidied(text: str) -> str:
    """A cell in the one form in which texts are kept, without the guard against formulas."""
    text = unguarded(unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n")))
    return text.strip()


def write_rows(rows: Iterable[WantedRow]) -> bytes:
    """The rows as CSV (RFC 4180, UTF-8 behind its mark), which ``read_wanted`` reads back without loss."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(column.heading for column in Column)
    for row in rows:
        cells = (row.name, row.populations, row.ecoregion, row.district, row.priority or "", row.note)
        writer.writerow(guarded(str(cell)) for cell in cells)
    return ("\ufeff" + text.getvalue()).encode()


def guarded(text: str) -> str:
    """A text that no spreadsheet program takes for a formula (OWASP, CSV Injection)."""
    return f"'{text}" if text.lstrip("'").startswith(FORMULA_SIGNS) else text


def unguarded(text: str) -> str:
    """The text before ``guarded``."""
    return text[1:] if text.startswith("'") and text.lstrip("'").startswith(FORMULA_SIGNS) else text
