"""A page of HTML becomes a tagged PDF that can be read back, and reads nothing on its own."""

from __future__ import annotations

import io
import sys

import pdfplumber
import pikepdf
import pytest
from PIL import ImageFile

from hub.web import pdf

HTML = """<!doctype html><html lang="en-GB"><head><title>Sheet {n}</title></head>
<body><h1>Collect from {n} mothers</h1><p>Keep each apart.</p></body></html>"""


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    return tmp_path_factory.mktemp("pdf")


def test_the_words_can_be_read_back(cache):
    body = pdf.pdf_of(HTML.format(n=50), cache)
    with pdfplumber.open(io.BytesIO(body)) as document:
        assert "Collect from 50 mothers" in document.pages[0].extract_text()


def test_it_is_tagged_for_screen_readers(cache):
    """What PDF/UA-1 (ISO 14289-1) asks of a catalogue: marked, a language, a title shown, a structure."""
    with pikepdf.open(io.BytesIO(pdf.pdf_of(HTML.format(n=50), cache))) as document:
        assert document.Root.MarkInfo.Marked
        assert str(document.Root.Lang) == "en-GB"
        assert document.Root.ViewerPreferences.DisplayDocTitle
        assert "/StructTreeRoot" in document.Root


def test_the_same_page_is_drawn_once_and_another_anew(tmp_path):
    first = pdf.pdf_of(HTML.format(n=1), tmp_path)
    (kept,) = tmp_path.rglob("*.pdf")
    kept.write_bytes(b"from the cache")
    assert pdf.pdf_of(HTML.format(n=1), tmp_path) == b"from the cache"
    assert pdf.pdf_of(HTML.format(n=2), tmp_path) != first
    assert not [path for path in tmp_path.rglob("*") if path.is_file() and path.suffix != ".pdf"]


@pytest.mark.parametrize(
    "reach",
    [
        '<link rel=attachment href="file://{path}">',
        '<img src="file://{path}" alt="x">',
        '<link rel=stylesheet href="file://{path}">',
        '<object data="file://{path}">x</object>',
        "<img alt='x' src=\"data:image/svg+xml,<svg xmlns='http://www.w3.org/2000/svg'"
        " xmlns:xlink='http://www.w3.org/1999/xlink'><image xlink:href='file://{path}'/></svg>\">",
    ],
)
def test_no_file_of_the_machine_gets_in(tmp_path, reach):
    secret = tmp_path / "secret.txt"
    secret.write_text("body { content: 'the secret words' }")
    body = pdf.pdf_of(f"<html><body>page {reach.format(path=secret)}</body></html>", tmp_path / "cache")
    with pikepdf.open(io.BytesIO(body)) as document:
        assert not document.attachments
        streams = [each.read_bytes() for each in document.objects if isinstance(each, pikepdf.Stream)]
    assert not any(b"the secret words" in stream for stream in streams)


def test_a_print_template_becomes_a_pdf_in_the_readers_language(app, house):
    with app.test_request_context():
        body = pdf.pdf_page(house.settings, "print/base_pdf.html", number="HVSB-1")
    with pikepdf.open(io.BytesIO(body)) as document:
        assert str(document.Root.Lang) == "en-GB"
    assert list(house.settings.pdf_cache.rglob("*.pdf"))


def test_what_shows_the_same_is_found_without_working_it_out(app, house):
    asked = []

    def values():
        asked.append("values")
        return {"number": "HVSB-1"}

    def known(*shows):
        with app.test_request_context():
            return pdf.pdf_known(house.settings, shows, "print/base_pdf.html", values)

    first = known("one")
    assert known("one") == first
    assert asked == ["values"]
    assert known("two") == first
    assert len(asked) == 2


def test_a_note_whose_pdf_is_gone_is_written_anew(app, house):
    with app.test_request_context():
        asked = house.settings, (1,), "print/base_pdf.html", lambda: {"number": "1"}
        first = pdf.pdf_known(*asked)
        for kept in house.settings.pdf_cache.rglob("*.pdf"):
            kept.unlink()
        assert pdf.pdf_known(*asked) == first


def test_the_renderer_does_not_make_uploads_accept_pictures_that_are_cut_short():
    ImageFile.LOAD_TRUNCATED_IMAGES = True
    pdf.load_renderer()
    assert not ImageFile.LOAD_TRUNCATED_IMAGES


def test_without_its_libraries_it_says_so(monkeypatch, tmp_path, client, pages):
    class Missing:
        def find_spec(self, name, path=None, target=None):
            if name == "weasyprint":
                raise OSError("cannot load library 'libpango'")

    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Missing(), *sys.meta_path])
    with pytest.raises(pdf.PdfsAreOff) as off:
        pdf.pdf_of(HTML.format(n=3), tmp_path)
    assert off.value.code == 503
    assert "PDFs are off" in str(off.value.description)
