"""Files that leave the hub are what they say, run nothing, and carry names that break no header."""

from __future__ import annotations

import csv
import io
import re
from datetime import UTC, date, datetime
from decimal import Decimal

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from werkzeug.http import parse_options_header

from hub.web.downloads import csv_download, disposition, download, harmless, xlsx_download
from hub.words import say

# The starts named by OWASP's page on CSV injection.
OWASP_STARTS = ["=", "+", "-", "@", "\t", "\r", "\n"]


def read_csv(answer):
    return list(csv.reader(io.StringIO(answer.get_data().decode("utf-8-sig"), newline="")))


def test_a_list_comes_back_as_it_went_out(app):
    rows = [
        ("Carex, flacca", 12, Decimal("0.50"), date(2026, 6, 1), None),
        ('with "quotes"\nand lines', -3, 1, "", True),
    ]
    with app.test_request_context():
        answer = csv_download("list", [say("Name"), "n", "mass", "day", "yes"], rows)
    assert read_csv(answer) == [
        ["Name", "n", "mass", "day", "yes"],
        ["Carex, flacca", "12", "0.50", "2026-06-01", ""],
        ['with "quotes"\nand lines', "-3", "1", "", "yes"],
    ]
    assert answer.mimetype == "text/csv"
    assert b"\r\n" in answer.get_data()


def test_an_instant_is_written_in_utc(app):
    with app.test_request_context():
        answer = csv_download("list", ["at"], [(datetime(2026, 6, 1, 12, tzinfo=UTC),)])
    assert read_csv(answer)[1] == ["2026-06-01T12:00:00Z"]


@pytest.mark.parametrize("start", OWASP_STARTS)
@pytest.mark.parametrize("before", ["", " "])
def test_no_text_can_begin_a_formula(start, before):
    assert harmless(f"{before}{start}cmd|' /C calc'!A0").startswith("'")


@pytest.mark.parametrize("number", [-5, -0.5, "-5", "-0.25", Decimal("-1")])
def test_negative_numbers_stay_numbers(number):
    assert harmless(number) == number


@given(st.text(max_size=40))
def test_what_is_guarded_is_still_there(text):
    assert harmless(text) in (text, f"'{text}")


def test_a_workbook_holds_numbers_days_and_texts_and_no_formula(app):
    rows = [(1.5, date(2026, 6, 1), "=1+1", "http://example.org")]
    with app.test_request_context():
        answer = xlsx_download("book", {"Lots [2026]": (["mass", "day", "text", "link"], rows)})
    sheet = openpyxl.load_workbook(io.BytesIO(answer.get_data())).active
    cells = sheet[2]
    assert [cell.data_type for cell in cells] == ["n", "d", "s", "s"]
    assert cells[1].value.date() == date(2026, 6, 1)
    assert cells[2].value == "=1+1"


@given(st.text(max_size=200))
def test_no_name_breaks_its_header(name):
    header = disposition(name)
    assert re.fullmatch(r"[\x20-\x7e]+", header)
    kind, options = parse_options_header(header)
    assert kind == "attachment"
    assert "/" not in options["filename"]
    assert "\\" not in options["filename"]


def test_a_name_in_another_script_arrives_whole():
    _, options = parse_options_header(disposition("Blåbär 2026.csv"))
    assert options["filename"] == "Blåbär 2026.csv"


def test_a_reader_that_has_the_file_gets_it_no_second_time(app):
    with app.test_request_context():
        first = download(b"body", "x.txt", "text/plain")
    with app.test_request_context(headers={"If-None-Match": first.headers["ETag"]}):
        assert download(b"body", "x.txt", "text/plain").status_code == 304
        assert download(b"other", "x.txt", "text/plain").status_code == 200


def test_a_download_runs_nothing(app):
    with app.test_request_context():
        answer = download(b"<script>", "x.html", "text/html")
    assert "sandbox" in answer.headers["Content-Security-Policy"]
    assert answer.headers["Content-Disposition"].startswith("attachment")
