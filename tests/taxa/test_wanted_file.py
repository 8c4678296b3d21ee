"""A list as a file: read in many guises, refused cell by cell, written so that it reads back the same."""

from __future__ import annotations

import io
import zipfile
from contextlib import suppress
from datetime import date

import openpyxl
import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from hub.taxa.tables import MOST_ROWS, read_table
from hub.taxa.wanted_columns import Column
from hub.taxa.wanted_file import FORMULA_SIGNS, WantedRow, read_wanted, write_rows
from hub.web.downloads import FORMULA_STARTS
from hub.words import Refused

HEAD = "scientific_name,populations,ecoregion,district,priority,note"
PLAIN = f"{HEAD}\r\nArnica montana L.,2,T.1,north,1,Größe ‘first’\r\n"
READ = [WantedRow(2, "Arnica montana L.", 2, "T.1", "north", 1, "Größe ‘first’")]


def workbook(*rows, **sheets):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    for name in sheets:
        book.create_sheet(name)
    body = io.BytesIO()
    book.save(body)
    return body.getvalue()


def refusal_of(data):
    with pytest.raises(Refused) as refused:
        read_wanted(data)
    return str(refused.value)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_any_usual_encoding_and_separator_is_read(encoding, separator, end):
    found = read_wanted(PLAIN.replace(",", separator).replace("\r\n", end).encode(encoding))
    assert (found.rows, found.problems) == (READ, [])
    assert bool(found.remarks) is (encoding == "cp1252")


def test_the_heading_tells_the_separator_where_cells_hold_others():
    found = read_wanted(b"species;how many;note\nArnica montana;2;a, b, c, d, e\n")
    assert found.rows[0].note == "a, b, c, d, e"


@pytest.mark.parametrize("column", list(Column))
def test_every_heading_that_is_told_is_known(column):
    for heading in column.headings:
        head = {**{each: each.heading for each in Column}, column: heading.upper().replace(" ", "_")}
        found = read_wanted(f"{','.join(head.values())}\nArnica montana L.,2,T.1,north,1,x\n".encode())
        assert (found.problems, found.remarks) == ([], []), heading


def test_headings_mean_one_column_each():
    words = [word for column in Column for word in column.headings]
    assert len(words) == len(set(words))


def test_a_workbook_is_read_by_its_values():
    body = io.BytesIO()
    book = xlsxwriter.Workbook(body)
    sheet = book.add_worksheet()
    sheet.write_row(0, 0, HEAD.split(","))
    sheet.write_row(1, 0, ["Arnica montana L."])
    sheet.write_formula(1, 1, "=1+1", value=2)
    sheet.write_row(1, 2, ["T.1", "north", 1.0, "Größe ‘first’"])
    book.close()
    assert read_wanted(body.getvalue()).rows == READ


def test_rows_keep_the_numbers_that_the_spreadsheet_shows():
    blank = [None] * 6
    data = workbook(blank, HEAD.split(","), blank, ["Arnica montana L.", "two"])
    (problem,) = read_wanted(data).problems
    assert problem.row == 4
    (problem,) = read_wanted(f"\n{HEAD}\n\nArnica montana L.,two\n".encode()).problems
    assert problem.row == 4


def test_a_date_is_never_guessed_into_something_else():
    (problem,) = read_wanted(workbook(HEAD.split(","), ["Arnica montana L.", date(2031, 2, 1)])).problems
    assert "This is a date" in str(problem.sentence)
    assert str(problem.sentence).startswith("Row 2, populations:")


def test_only_the_first_sheet_is_read_and_that_is_said():
    found = read_wanted(workbook(HEAD.split(","), ["Arnica montana L.", 2], More=[]))
    assert "several sheets" in str(found.remarks[0])


def test_unknown_columns_are_named_and_our_own_are_not():
    found = read_wanted(b"species,needed,colour,family,care_class\nArnica montana,2,red,Asteraceae,rare\n")
    assert [str(remark) for remark in found.remarks] == [
        "The column “colour” is not known here and was left out."
    ]
    assert found.rows == [WantedRow(2, "Arnica montana", 2)]


@pytest.mark.parametrize(
    ("cells", "column", "says"),
    [
        (",2,,,,", "scientific name", "missing"),
        ("Arnica montana,,,,,", "populations", "how many"),
        ("Arnica montana,two,,,,", "populations", "“two”"),
        ("Arnica montana,1.5,,,,", "populations", "“1.5”"),
        ("Arnica montana,-1,,,,", "populations", "whole number"),
        ("Arnica montana,٣,,,,", "populations", "whole number"),
        ("Arnica montana,0,,,,", "populations", "1 to 99"),
        ("Arnica montana,100,,,,", "populations", "1 to 99"),
        ("Arnica montana,2,,,high,", "priority", "Priority is 1"),
        (f"Arnica montana,2,{'x' * 201},,,", "ecoregion", "too long"),
        (f"Arnica montana,2,,,,{'x' * 5001}", "note", "too long"),
        ("Arnica montana,2,,,,a\x07b", "note", "hidden character"),
    ],
)
def test_each_wrong_cell_is_named_by_row_and_column(cells, column, says):
    found = read_wanted(f"{HEAD}\nSilene acaulis,1,,,,\n{cells}\n".encode())
    (problem,) = found.problems
    assert (problem.row, str(problem.column)) == (3, column)
    assert says in str(problem.words)
    assert len(found.rows) == 1


def test_columns_that_are_missing_or_doubled_are_problems():
    found = read_wanted(b"name,colour\nArnica,red\n")
    assert [str(problem.column) for problem in found.problems] == ["populations"]
    found = read_wanted(b"name,species,needed\nArnica,red,2\n")
    assert "twice" in str(found.problems[0].words)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "empty"),
        (b"\n\n,,,\n", "empty"),
        (b"\x81\x8d\x90", "cannot be read"),
        (b"a\0b", "cannot be read"),
        (b"\xd0\xcf\x11\xe0 old", "older or a locked"),
        (b"PK\x03\x04 torn", "cannot be read"),
        (f"{HEAD}\n".encode() + b"Arnica montana,1\n" * MOST_ROWS, "more than 20000 rows"),
        (",".join("x" * 61).encode(), "columns"),
        (f"{HEAD}\n{'x' * 200_000},1\n".encode(), "cannot be read"),
    ],
)
def test_a_file_that_is_no_list_is_refused(data, says):
    assert says in refusal_of(data)


def repacked(**parts):
    body = io.BytesIO()
    with zipfile.ZipFile(body, "w", zipfile.ZIP_DEFLATED) as pack:
        for name, data in parts.items():
            pack.writestr(name.replace("__", "/").replace("_", "."), data)
    return body.getvalue()


@pytest.mark.parametrize(
    ("parts", "says"),
    [
        ({"readme_txt": b"hello"}, "cannot be read"),
        ({"xl__workbook_xml": b"<no/>"}, "cannot be read"),
        ({"xl__workbook_xml": b" " * 61_000_000}, "too large once it is unpacked"),
        ({"xl__workbook_xml": b"<w/>", "xl__worksheets__s_xml": b'<c r="A1048576">'}, "rows"),
        ({"xl__workbook_xml": b"<w/>", "xl__worksheets__s_xml": b'<c s="1" r="XFD1">'}, "columns"),
    ],
)
def test_bombs_and_strangers_are_refused(parts, says):
    assert says in refusal_of(repacked(**parts))


GOOD = workbook(HEAD.split(","), ["Arnica montana L.", 2, "T.1", "north", 1, "note"])


@given(st.integers(0, len(GOOD) - 1), st.integers(0, 255), st.booleans())
def test_no_damage_to_a_workbook_breaks_the_reader(at, byte, cut):
    damaged = GOOD[:at] if cut else GOOD[:at] + bytes([byte]) + GOOD[at + 1 :]
    with suppress(Refused):
        read_table(damaged)


@given(st.binary(max_size=300))
def test_no_bytes_break_the_reader(data):
    with suppress(Refused):
        read_wanted(data)


def test_the_guard_covers_all_that_downloads_guard_against():
    assert set(FORMULA_STARTS) <= set(FORMULA_SIGNS)


TEXT = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), max_size=30)
SIGNS = st.text("=+-@'\t ab,;\"|\n", max_size=8)
CELL = (
    (TEXT | SIGNS)
    .map(str.strip)
    .filter(lambda text: text == __import__("unicodedata").normalize("NFC", text))
)
ROWS = st.builds(
    WantedRow,
    row=st.just(0),
    name=CELL.filter(bool),
    populations=st.integers(1, 99),
    ecoregion=CELL,
    district=CELL,
    priority=st.sampled_from([None, 1, 2, 3]),
    note=CELL,
)


@given(st.lists(ROWS, max_size=8))
def test_what_is_written_reads_back_the_same(rows):
    found = read_wanted(write_rows(rows))
    assert found.problems == []
    told = [(row.name, row.populations, row.ecoregion, row.district, row.priority, row.note) for row in rows]
    assert told == [
        (row.name, row.populations, row.ecoregion, row.district, row.priority, row.note) for row in found.rows
    ]


@given(st.lists(ROWS, max_size=5))
def test_no_written_cell_begins_a_formula(rows):
    table = read_table(write_rows(rows))
    assert not any(cell.startswith(FORMULA_SIGNS) for row in table.rows for cell in row)
