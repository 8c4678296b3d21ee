"""Files that leave the hub: spreadsheets that run nothing, PDFs, and names that break no header."""

from __future__ import annotations

import csv
import io
import re
import unicodedata
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any
from urllib.parse import quote

from flask import make_response, request
from werkzeug.wrappers import Response

from hub.web.language import said
from hub.words import Words

Row = Sequence[Any]

# A spreadsheet program takes a cell that begins so for a formula (OWASP, CSV Injection).
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
WORKBOOK = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
# Spreadsheet programs read UTF-8 for sure only behind this mark; our own readers skip it.
BYTE_ORDER_MARK = "\ufeff"


def csv_download(name: str, head: Sequence[Words | str], rows: Iterable[Row]) -> Response:
    """A list as CSV (RFC 4180): a heading, CRLF, UTF-8."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow([said(each) for each in head])
    writer.writerows([harmless(plain(cell)) for cell in row] for row in rows)
    body = (BYTE_ORDER_MARK + text.getvalue()).encode()
    return download(body, f"{name}.csv", "text/csv; charset=utf-8; header=present")


def xlsx_download(name: str, sheets: dict[str, tuple[Sequence[Words | str], Iterable[Row]]]) -> Response:
    """Lists as one workbook: a sheet for each, its heading and its rows. Texts stay texts, never formulas."""
    import xlsxwriter

    body = io.BytesIO()
    with xlsxwriter.Workbook(body, WORKBOOK) as book:
        bold, day = book.add_format({"bold": True}), book.add_format({"num_format": "yyyy-mm-dd"})
        for title, (head, rows) in sheets.items():
            sheet = book.add_worksheet(re.sub(r"[\[\]:*?/\\]", " ", title)[:31])
            sheet.freeze_panes(1, 0)
            sheet.write_row(0, 0, [said(each) for each in head], bold)
            for at, row in enumerate(rows, start=1):
                for column, cell in enumerate(row):
                    write_cell(sheet, at, column, cell, day)
    return download(body.getvalue(), f"{name}.xlsx", SPREADSHEET)


def write_cell(sheet: Any, row: int, column: int, cell: Any, day: Any) -> None:
    """Numbers and days as such, everything else as text."""
    if isinstance(cell, int | float | Decimal) and not isinstance(cell, bool):
        sheet.write_number(row, column, cell)
    elif isinstance(cell, date) and not isinstance(cell, datetime):
        sheet.write_datetime(row, column, cell, day)
    else:
        sheet.write_string(row, column, str(plain(cell)))


def pdf_download(name: str, body: bytes, *, inline: bool = True) -> Response:
    """A PDF, shown by the browser unless ``inline`` is False."""
    return download(body, f"{name}.pdf", "application/pdf", inline=inline)


def download(body: bytes, name: str, kind: str, *, inline: bool = False) -> Response:
    """Bytes under a name. A reader that has these very bytes already is told so (304)."""
    answer = make_response(body)
    answer.headers["Content-Type"] = kind
    answer.headers["Content-Disposition"] = disposition(name, inline=inline)
    if not inline:
        answer.headers["Content-Security-Policy"] = "default-src 'none'; sandbox"
    answer.add_etag()
    return answer.make_conditional(request)


def disposition(name: str, *, inline: bool = False) -> str:
    """The header that names a file (RFC 6266): plain letters for old readers, the full name for the rest."""
    safe = re.sub(r"[^\w.() -]+", "-", unicodedata.normalize("NFC", name)).strip(" .-")[:120] or "file"
    ascii_name = unicodedata.normalize("NFKD", safe).encode("ascii", "ignore").decode().strip() or "file"
    kind = "inline" if inline else "attachment"
    if ascii_name == safe:
        return f'{kind}; filename="{safe}"'
    return f"{kind}; filename=\"{ascii_name}\"; filename*=UTF-8''{quote(safe, safe='')}"


def plain(cell: Any) -> Any:
    """One value as a machine reads it: ISO days, UTC instants, a point in decimals, nothing for nothing."""
    match cell:
        case None:
            return ""
        case bool():
            return "yes" if cell else "no"
        case Words():
            return said(cell)
        case datetime():
            return cell.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
        case date():
            return cell.isoformat()
        case Decimal():
            return f"{cell:f}"
        case _:
            return cell


def harmless(cell: Any) -> Any:
    """A text that a spreadsheet program cannot take for a formula. Numbers are left as they are."""
    if isinstance(cell, str) and cell.lstrip(" ").startswith(FORMULA_STARTS) and not is_number(cell):
        return f"'{cell}"
    return cell


def is_number(cell: str) -> bool:
    """‘-0.5’ is a number that happens to begin like a formula."""
    return re.fullmatch(r"-?\d+(\.\d+)?", cell, re.ASCII) is not None
