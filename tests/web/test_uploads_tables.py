"""Spreadsheets give plain rows; bombs, macros, locks and damage are refused in a sentence."""

from __future__ import annotations

import io
import zipfile
from contextlib import suppress
from datetime import date

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from werkzeug.datastructures import FileStorage

from hub.web.uploads import table
from hub.words import Refused


def sent(data):
    return FileStorage(io.BytesIO(data), filename="list.xlsx")


def workbook(rows):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    body = io.BytesIO()
    book.save(body)
    return body.getvalue()


def zipped(parts):
    body = io.BytesIO()
    with zipfile.ZipFile(body, "w", zipfile.ZIP_DEFLATED) as made:
        for name, data in parts.items():
            made.writestr(name, data)
    return body.getvalue()


def repacked(data, **changes):
    """A workbook with some of its parts changed."""
    with zipfile.ZipFile(io.BytesIO(data)) as old:
        parts = {name: old.read(name) for name in old.namelist()}
    return zipped(parts | changes)


def refusal_of(data):
    with pytest.raises(Refused) as refused:
        table(sent(data))
    return str(refused.value)


PLAIN = workbook([["name", "seeds", "day"], ["Carex", 12, date(2026, 6, 1)]])


def test_a_workbook_gives_texts_numbers_and_days():
    assert table(sent(PLAIN)) == [["name", "seeds", "day"], ["Carex", 12.0, date(2026, 6, 1)]]


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("start", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_csv_is_read_with_any_of_its_marks(mark, start, end):
    text = end.join([mark.join(["name", "seeds"]), mark.join(['"a ""b"""', "1"]), "", ""])
    assert table(sent(start + text.encode())) == [["name", "seeds"], ['a "b"', "1"]]


def test_a_formula_stays_text():
    assert table(sent(b"name,x\n=1+1,2\n"))[1] == ["=1+1", "2"]


@pytest.mark.parametrize(
    "data", [b"", b"\0\0", b"<html>", b"%PDF-1.7", b"\xff\xfe\x00", b"{}", b"caf\xe9,1\n"]
)
def test_anything_else_is_refused(data):
    assert "CSV in UTF-8" in refusal_of(data)


def test_a_zip_that_is_no_workbook_is_refused():
    assert "CSV in UTF-8" in refusal_of(zipped({"word/document.xml": "<x/>"}))


def test_a_bomb_is_refused_before_it_is_unpacked():
    bomb = repacked(PLAIN, **{"xl/worksheets/sheet9.xml": bytes(70 * 1024 * 1024)})
    assert len(bomb) < 200_000
    assert "more than one should" in refusal_of(bomb)


def test_a_bomb_that_lies_about_its_size_is_refused():
    name = b"xl/worksheets/sheet9.xml"
    bomb = bytearray(repacked(PLAIN, **{name.decode(): bytes(70 * 1024 * 1024)}))
    size = (70 * 1024 * 1024).to_bytes(4, "little")
    assert bomb.count(size) == 2
    assert "damaged" in refusal_of(bytes(bomb).replace(size, (99).to_bytes(4, "little")))


def test_macros_are_refused():
    assert "macros" in refusal_of(repacked(PLAIN, **{"xl/vbaProject.bin": b"x"}))


def test_a_locked_workbook_is_refused():
    """Office keeps a locked workbook in a compound file with this signature (MS-CFB)."""
    assert refusal_of(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600))


def test_a_table_beyond_the_limits_is_refused():
    assert "20000 rows" in refusal_of(b"a\n" * 20_001)
    assert "200 columns" in refusal_of(b"a," * 200 + b"a\n")
    assert "at most 5 MB" in refusal_of(b"a" * (5 * 1024 * 1024 + 1))


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(st.integers(0, len(PLAIN) - 1), st.integers(0, 255)), min_size=1, max_size=6))
def test_damage_is_survived_or_refused(changes):
    body = bytearray(PLAIN)
    for at, value in changes:
        body[at] = value
    with suppress(Refused):
        assert isinstance(table(sent(bytes(body))), list)


@given(st.binary(max_size=300) | st.text(max_size=200).map(str.encode))
def test_no_bytes_break_the_reader(data):
    with suppress(Refused):
        assert isinstance(table(sent(data)), list)
