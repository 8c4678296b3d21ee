"""Sheets on paper. The bar is PDF/UA-1 (ISO 14289-1) as far as a program without its own checker can look."""

from __future__ import annotations

import io
import re
from functools import cache
from itertools import pairwise

import pdfplumber
import pikepdf
import pytest
import zxingcpp

from hub.protocols.laid_out import Version
from hub.protocols.printing import drawn_without_a_hub
from hub.web.pdf import pdf_of
from tests.protocols.printed import (
    ADDRESS,
    CASES,
    NUMBER,
    below,
    drawn,
    html_of,
    opened,
    pages,
    sheet_of,
    structure,
)

EVERY = sorted(CASES)
VERSIONS = [Version.FULL, Version.PLAIN, Version.LARGE, None]
LOOKED_AT = [("rare", version) for version in VERSIONS] + [("stop", Version.FULL), ("bulk", None)]
PICTURE_DPI = 150


@pytest.fixture(params=LOOKED_AT, ids=lambda pair: f"{pair[0]} {pair[1] or 'form'}")
def document(request):
    with opened(drawn(*request.param)) as document:
        yield document


def test_its_catalogue_says_what_it_is(document):
    assert document.Root.MarkInfo.Marked
    assert str(document.Root.Lang) == "en-GB"
    assert document.Root.ViewerPreferences.DisplayDocTitle
    assert NUMBER in str(document.docinfo.Title)
    with document.open_metadata() as metadata:
        assert metadata["pdfuaid:part"] == "1"
        assert NUMBER in metadata["dc:title"]
    assert not document.is_encrypted


def test_headings_go_down_one_step_at_a_time(document):
    levels = [int(str(each.S)[2:]) for each in structure(document) if re.fullmatch(r"/H\d", str(each.S))]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_every_figure_has_words_in_its_place(document):
    figures = [each for each in structure(document) if str(each.S) == "/Figure"]
    assert figures
    assert all(str(each.get("/Alt", "")).strip() for each in figures)


def test_tables_have_headings(document):
    tables = [each for each in structure(document) if str(each.S) == "/Table"]
    for table in tables:
        assert {str(each.S) for each in _inside(table)} >= {"/TR", "/TH"}


def _inside(element):
    return list(below(element.get("/K")))


def test_every_page_follows_the_structure_and_every_font_is_inside(document):
    for page in document.pages:
        assert str(page.Tabs) == "/S"
        for font in page.Resources.get("/Font", {}).values():
            assert "/ToUnicode" in font
            (descendant,) = font.DescendantFonts
            assert {"/FontFile2", "/FontFile3"} & set(descendant.FontDescriptor.keys())


def test_every_mark_leads_back_to_the_structure(document):
    """Each marked piece of a page stands in the parent tree (Matterhorn Protocol 1.1, checkpoint 1)."""
    entries = document.Root.StructTreeRoot.ParentTree.Nums
    parents = {int(entries[at]): entries[at + 1] for at in range(0, len(entries), 2)}
    for page in document.pages:
        content = b"".join(_streams(page))
        marked = {int(each) for each in re.findall(rb"/MCID (\d+)", content)}
        assert marked
        assert max(marked) < len(parents[int(page.StructParents)])


def _streams(page):
    contents = page.Contents
    several = contents if isinstance(contents, pikepdf.Array) else [contents]
    return [each.read_bytes() for each in several]


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("version", [Version.FULL, Version.PLAIN])
def test_it_takes_two_to_four_pages(name, version):
    assert 2 <= len(pages(drawn(name, version))) <= 4


FEWEST_LINES = 10  # on a last page; fewer look like a slip


@pytest.mark.parametrize(
    ("name", "version"), [("rare", Version.LARGE), ("long", Version.LARGE), ("long", Version.PLAIN)]
)
def test_no_page_ends_a_sheet_with_a_few_lines_alone(name, version):
    with pdfplumber.open(io.BytesIO(drawn(name, version))) as document:
        assert len(document.pages[-1].extract_text_lines()) >= FEWEST_LINES


@pytest.mark.parametrize("name", ["rare", "long"])
def test_large_print_keeps_each_essential_number_with_its_words(name):
    """No block of figures is cut by the end of a page."""
    left = sheet_of(name).headline.left_seeds.value
    (page,) = [text for text in pages(drawn(name, Version.LARGE)) if "Mother plants to aim at" in text]
    assert "Your group in all, at" in page
    assert f"or {left:,} good seeds" in page


def test_the_same_sheet_gives_the_same_bytes(tmp_path):
    assert pdf_of(html_of("rare"), tmp_path) == drawn("rare")


def test_its_code_opens_the_sheet():
    (code,) = codes_on(drawn("rare"), page=1)
    assert code == ADDRESS


def test_every_tag_has_its_code_twice_one_to_tie_and_one_to_put_inside():
    body = drawn("rare", None)
    at = next(n for n, text in enumerate(pages(body), start=1) if "Tags to cut apart" in text)
    codes = codes_on(body, page=at)
    assert codes.count(f"{NUMBER}/M1") == 2
    assert len(set(codes)) == len(codes) / 2 > 5


def codes_on(body: bytes, *, page: int) -> list[str]:
    """What a telephone reads off one page, drawn as a printer would."""
    with pdfplumber.open(io.BytesIO(body)) as document:
        picture = document.pages[page - 1].to_image(resolution=PICTURE_DPI).original
    return [each.text for each in zxingcpp.read_barcodes(picture)]


def test_a_sheet_that_was_never_issued_has_no_code():
    assert "Trial, not issued" in pages(unissued())[0]
    assert codes_on(unissued(), page=1) == []


@cache
def unissued() -> bytes:
    return drawn_without_a_hub(sheet_of("bulk"))
