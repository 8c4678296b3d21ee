"""Spreadsheets: rows of plain values from CSV or XLSX, with no macros, no bombs and nothing guessed."""

from __future__ import annotations

import csv
import io
import lzma
import zipfile
import zlib
from typing import Any

from werkzeug.datastructures import FileStorage

from hub.words import Refused, say

LARGEST = 5 * 1024 * 1024  # bytes as sent
UNPACKED = 60 * 1024 * 1024  # bytes of all parts of a workbook together
PARTS = 500
MOST_ROWS = 20_000
MOST_COLUMNS = 200
NOT_A_TABLE = say("Please send a spreadsheet as XLSX, or as CSV in UTF-8.")
TOO_LARGE = say("This spreadsheet is too large: at most {most} MB.", most=LARGEST // 1024 // 1024)
TOO_MUCH_INSIDE = say("This spreadsheet holds more than one should. Please save it anew and try again.")
MACROS = say("This spreadsheet holds macros. Please save it as a plain XLSX workbook.")
DAMAGED = say("This spreadsheet is damaged or locked. Please save it anew and try again.")
TOO_MANY = say("This table is too large: at most {rows} rows of {n} columns.", rows=MOST_ROWS, n=MOST_COLUMNS)
# What damaged and locked zip files make their reader raise.
UNPACKER_FAILS = (
    zipfile.BadZipFile, zlib.error, lzma.LZMAError, RuntimeError, NotImplementedError,
    OSError, ValueError, EOFError, IndexError,
)  # fmt: skip
Row = list[Any]


def table(upload: FileStorage) -> list[Row]:
    """The rows of a CSV file (texts) or of a workbook's first sheet (texts, numbers, days), or Refused."""
    data = upload.stream.read(LARGEST + 1)
    if len(data) > LARGEST:
        raise Refused(TOO_LARGE)
    rows = from_workbook(data) if data.startswith(b"PK\x03\x04") else from_text(data)
    if len(rows) > MOST_ROWS or any(len(row) > MOST_COLUMNS for row in rows):
        raise Refused(TOO_MANY)
    return rows


def from_text(data: bytes) -> list[Row]:
    """CSV with whichever of comma, semicolon and tab its heading holds most of."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Refused(NOT_A_TABLE) from None
    if not text.strip() or "\0" in text or text.lstrip().startswith(("<", "%PDF", "{")):
        raise Refused(NOT_A_TABLE)
    heading = text.lstrip().splitlines()[0]
    mark = max(",;\t", key=heading.count)
    try:
        lines = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
        return [row for row in lines if any(row)]
    except csv.Error:
        raise Refused(DAMAGED) from None


def from_workbook(data: bytes) -> list[Row]:
    from python_calamine import CalamineError, CalamineWorkbook

    check_parts(data)
    try:
        sheet = CalamineWorkbook.from_filelike(io.BytesIO(data)).get_sheet_by_index(0)
        too_many = sheet.height > MOST_ROWS or sheet.width > MOST_COLUMNS
        rows = [] if too_many else sheet.to_python(skip_empty_area=False)
    except (CalamineError, OSError, ValueError, IndexError):
        raise Refused(DAMAGED) from None
    if too_many:
        raise Refused(TOO_MANY)
    return [row for row in rows if any(cell != "" for cell in row)]


def check_parts(data: bytes) -> None:
    """Look into the zip before anything unpacks it: sizes are summed first, then proved true."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as parts:
            listed = parts.infolist()
            if len(listed) > PARTS or sum(part.file_size for part in listed) > UNPACKED:
                raise Refused(TOO_MUCH_INSIDE)
            names = {part.filename for part in listed}
            if parts.testzip() is not None:
                raise Refused(DAMAGED)
    except UNPACKER_FAILS:
        raise Refused(DAMAGED) from None
    if any(name.lower().endswith("vbaproject.bin") for name in names):
        raise Refused(MACROS)
    if "xl/workbook.xml" not in names:
        raise Refused(NOT_A_TABLE)
