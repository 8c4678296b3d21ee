"""A spreadsheet or CSV file as rows of plain text, whatever its encoding and separator."""

from __future__ import annotations

import csv
import io
import lzma
import re
import zipfile
import zlib
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from typing import Any

from hub.words import Refused, Words, say

MOST_ROWS = 20_000
MOST_COLUMNS = 60
MOST_UNPACKED = 60_000_000  # bytes inside a workbook; a list of 20,000 rows needs a tenth of it
SEPARATORS = (",", ";", "\t", "|")
ZIP, OLD_OFFICE = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"
CELL = re.compile(rb'<(?:\w+:)?c\b[^>]*?\br="([A-Z]{1,3})([0-9]{1,7})"')
SHEETS = re.compile(r"xl/worksheets/[^/]+\.xml")

# What damaged and locked zip files make their reader raise.
UNPACKING_FAILS = (
    zipfile.BadZipFile, zlib.error, lzma.LZMAError, NotImplementedError, RuntimeError, LookupError,
    EOFError, OSError, ValueError,
)  # fmt: skip

UNREADABLE = say("This file cannot be read as a spreadsheet. Save it again as .xlsx or as CSV.")
TOO_LONG = say("The list has more than {n} rows. Please split it.", n=MOST_ROWS)
TOO_WIDE = say("The list has more than {n} columns.", n=MOST_COLUMNS)


@dataclass
class Table:
    """Rows of text as they lie in the file, the cells that held dates, and how the file was read."""

    rows: list[list[str]]
    dates: set[tuple[int, int]] = field(default_factory=set)  # row and column, both from 0
    remarks: list[Words] = field(default_factory=list)


def read_table(data: bytes, known_heading: Iterable[str] = ()) -> Table:
    """The rows of a CSV or XLSX file. Raises ``Refused`` for what is neither, or is too large.

    ``known_heading`` are words expected in the first row; they tell the separator.
    """
    if data.startswith(OLD_OFFICE):
        raise Refused(
            say("This is an older or a locked spreadsheet. Save it as .xlsx without a password, or as CSV.")
        )
    table = read_workbook(data) if data.startswith(ZIP) else read_text(data, known_heading)
    if len(table.rows) > MOST_ROWS:
        raise Refused(TOO_LONG)
    if any(len(row) > MOST_COLUMNS for row in table.rows):
        raise Refused(TOO_WIDE)
    if not any(cell for row in table.rows for cell in row):
        raise Refused(say("This file is empty."))
    return table


def read_text(data: bytes, known_heading: Iterable[str]) -> Table:
    """The rows of a CSV file."""
    text, remarks = decoded(data)
    first = next((line for line in text.splitlines() if line.strip()), "")
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator_of(first, known_heading)))
    except csv.Error:
        raise Refused(UNREADABLE) from None
    return Table([[cell.strip() for cell in row] for row in rows], remarks=remarks)


def decoded(data: bytes) -> tuple[str, list[Words]]:
    """The text of a file: UTF-8, UTF-16 behind its mark, or else Western European."""
    encoding = "utf-16" if data.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8-sig"
    try:
        return without_nothing(data.decode(encoding)), []
    except UnicodeDecodeError:
        pass
    try:
        text = without_nothing(data.decode("cp1252"))
    except UnicodeDecodeError:
        raise Refused(UNREADABLE) from None
    told = say(
        "The file is not UTF-8 and was read as Western European text. Look at accents and signs below."
    )
    return text, [told]


def without_nothing(text: str) -> str:
    """The text, if it is text at all: a NUL stands in no list."""
    if "\0" in text:
        raise Refused(UNREADABLE)
    return text


def separator_of(first_line: str, known_heading: Iterable[str]) -> str:
    """The sign between cells: the one that cuts the most known words out of the first line."""
    known = set(known_heading)

    def score(separator: str) -> tuple[int, int]:
        cells = [cell.strip(' "').casefold().replace("_", " ") for cell in first_line.split(separator)]
        return sum(cell in known for cell in cells), len(cells)

    return max(SEPARATORS, key=score)


def read_workbook(data: bytes) -> Table:
    """The rows of the first sheet of a workbook; formulas count by the value they last had."""
    check_workbook(data)
    from python_calamine import CalamineWorkbook

    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(data))
        sheet = book.get_sheet_by_index(0)
        top, left = sheet.start or (0, 0)
        cells = sheet.to_python()
    except (KeyboardInterrupt, SystemExit):
        raise
    except BaseException:  # the reader is native code, and its panics are no ordinary exceptions
        raise Refused(UNREADABLE) from None
    remarks = []
    if len(book.sheet_names) > 1:
        remarks.append(
            say("The workbook has several sheets. Only the first was read: {name}.", name=sheet.name)
        )
    blank: list[list[str]] = [[] for _ in range(top)]
    rows = blank + [[""] * left + [as_text(cell) for cell in row] for row in cells]
    dates = {
        (top + at, left + column)
        for at, row in enumerate(cells)
        for column, cell in enumerate(row)
        if isinstance(cell, date | datetime | time | timedelta)
    }
    return Table(rows, dates, remarks)


def check_workbook(data: bytes) -> None:
    """Refuse what would unpack to something huge: by its bytes, or by one cell set far away."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as pack:
            parts = {part.filename: part.file_size for part in pack.infolist()}
            if sum(parts.values()) > MOST_UNPACKED:
                raise Refused(say("This workbook is too large once it is unpacked."))
            if "xl/workbook.xml" not in parts or pack.testzip() is not None:  # which proves the sizes true
                raise Refused(UNREADABLE)
            for part in filter(SHEETS.fullmatch, parts):
                check_extent(pack.read(part))
    except UNPACKING_FAILS:
        raise Refused(UNREADABLE) from None


def check_extent(sheet: bytes) -> None:
    for letters, number in CELL.findall(sheet):
        if int(number) > MOST_ROWS:
            raise Refused(TOO_LONG)
        if len(letters) > 2:
            raise Refused(TOO_WIDE)


def as_text(cell: Any) -> str:
    """A cell as somebody would have typed it: whole numbers without a point, yes and no in words."""
    match cell:
        case bool():
            return "yes" if cell else "no"
        case float() if cell.is_integer() and abs(cell) < 1e15:
            return str(int(cell))
        case _:
            return str(cell).strip()
