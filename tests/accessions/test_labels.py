"""Labels and the letter on paper: a label to each lot, inside its place, with a code that reads back."""

from __future__ import annotations

import io
from typing import Any
from uuid import uuid4

import pdfplumber
import pikepdf
import pytest
import zxingcpp
from PIL import Image

from hub.accessions.labels import GRIDS, Grid, Label, Layout, sheets
from hub.accessions.models import Accession
from hub.groups.models import Group
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass
from hub.vetting.collection import Tally
from tests.accessions.scene import approved, banked, lots, waiting
from tests.cast import Cast
from tests.support.browser import Browse
from tests.vetting.scene import collection

POINTS = 72 / 25.4  # to a millimetre


@pytest.fixture
def accession(cast: Cast) -> Accession:
    return banked(cast)


def pdf(
    browse: Browse, accession: Accession, name: str = "tess", what: str = "labels", **query: Any
) -> bytes:
    page = browse(name).get(f"/accessions/{accession.id}/{what}.pdf", **query)
    assert page.answer.mimetype == "application/pdf"
    return bytes(page.answer.data)


def text_of(body: bytes) -> str:
    with pdfplumber.open(io.BytesIO(body)) as document:
        return "\n".join(page.extract_text() for page in document.pages)


def pictures(body: bytes, dpi: int = 300) -> list[Image.Image]:
    """Each page, drawn as a printer would."""
    with pdfplumber.open(io.BytesIO(body)) as document:
        return [page.to_image(resolution=dpi).original for page in document.pages]


def test_a_label_says_all_that_a_container_needs(browse: Browse, accession: Accession) -> None:
    text = text_of(pdf(browse, accession))
    for words in (
        "FELL BANK", "Silene acaulis", "Collected 12 July 2031", "Mother A1", "Mother A3", "Fell Group",
        "about 40 seeds (estimate)", "about 120 seeds (estimate)", accession.number, "Lot 01", "Lot 03",
    ):  # fmt: skip
        assert words in text, words


@pytest.mark.parametrize("layout", Layout)
def test_every_code_reads_back_as_its_lot(browse: Browse, accession: Accession, layout: Layout) -> None:
    """Read by a barcode library that shares nothing with the one that wrote it (ISO/IEC 18004)."""
    found = [
        code.text for image in pictures(pdf(browse, accession, layout=layout.value))
        for code in zxingcpp.read_barcodes(image)
    ]  # fmt: skip
    assert sorted(found) == [f"{accession.number}/{label}" for label in ("01", "02", "03")]


@pytest.mark.parametrize("layout", Layout)
def test_each_label_keeps_inside_its_place(cast: Cast, browse: Browse, layout: Layout) -> None:
    """A full sheet and one more, with the longest words there can be: nothing spills into a neighbour."""
    grid = GRIDS[layout]
    tallies = tuple(
        Tally(f"the {n} mother with a very long flag indeed, written by a poet", 30, 2, 40) for n in range(25)
    )
    made = approved(cast, waiting(cast, tallies=tallies, total_seeds=1000))
    with cast.everywhere() as work:
        work.db.get_one(Group, made.group_id).name = "The Society of Friends of the Wild Plants " * 4
        work.db.get_one(Taxon, made.taxon_id).canonical = "Pseudohandelia umbelliferoides subsp. longissima"
    with pdfplumber.open(io.BytesIO(pdf(browse, made, layout=layout.value))) as document:
        assert len(document.pages) == -(-25 // grid.places)
        for number, page in enumerate(document.pages):
            wide, high = (float(side.removesuffix("mm")) for side in grid.page.split())
            assert (page.width, page.height) == pytest.approx((wide * POINTS, high * POINTS), abs=0.1)
            words = page.extract_words()
            assert sum(word["text"] == "Lot" for word in words) == min(grid.places, 25 - number * grid.places)
            assert not [word["text"] for word in words if not inside_one_place(word, grid)]


def inside_one_place(word: dict[str, Any], grid: Grid) -> bool:
    """A word lies in one place of the grid, 3 mm clear of its edges."""
    left, right = ((word[side] / POINTS - grid.left) % (grid.width + grid.gap) for side in ("x0", "x1"))
    top, bottom = ((word[side] / POINTS - grid.top) % grid.height for side in ("top", "bottom"))
    return 3 <= left < right <= grid.width - 3 and 3 <= top < bottom <= grid.height - 3


def test_used_places_stay_empty() -> None:
    grid = GRIDS[Layout.A4_21]
    label = Label("", "", "01", "", collection().collected_on, "", "", 1, True, "", "")
    (sheet,) = sheets([label] * 2, grid, used=4)
    assert [bool(place) for row in sheet for place in row][:7] == [False] * 4 + [True] * 2 + [False]
    assert {len(row) for row in sheet} == {3}


def test_one_lot_alone_can_be_printed(cast: Cast, browse: Browse, accession: Accession) -> None:
    second = lots(cast, accession)[1]
    text = text_of(pdf(browse, accession, layout="single", lot=str(second.id)))
    assert "Lot 02" in text
    assert "Lot 01" not in text


@pytest.mark.parametrize("care", CareClass)
def test_no_place_is_named_for_any_plant_above_secure(
    cast: Cast, browse: Browse, accession: Accession, care: CareClass
) -> None:
    with cast.everywhere() as work:
        work.db.get_one(Taxon, accession.taxon_id).care_class = care
    text = text_of(pdf(browse, accession))
    assert ("Northern Part" in text) == (care is CareClass.SECURE)
    for place in ("Scar Top", "by the wall", "47.8", "28.2"):
        assert place not in text


def test_the_letter_thanks_and_names_no_place(browse: Browse, cast: Cast) -> None:
    accession = approved(cast, waiting(cast), remark="Beautifully kept apart.")
    for name in ("alice", "cora"):
        text = text_of(pdf(browse, accession, name, "thanks"))
        for words in (
            "Thank you, Fell Group", accession.number, "Silene acaulis", "6 people of Fell Group", "240",
            "Beautifully kept apart.", "Fell Bank",
        ):  # fmt: skip
            assert words in text, words
        for place in ("Scar Top", "Northern Part", "SIL-ACA", "47.8", "Freezer", "Lot 0"):
            assert place not in text


@pytest.mark.parametrize("what", ["labels", "thanks"])
def test_both_are_tagged_and_say_their_language(browse: Browse, accession: Accession, what: str) -> None:
    """ISO 14289-1 (PDF/UA-1): marked, with a language, a title and a structure; every picture has a text."""
    with pikepdf.open(io.BytesIO(pdf(browse, accession, what=what))) as document:
        assert document.Root.MarkInfo.Marked
        assert str(document.Root.Lang) == "en-GB"
        figures = [
            each for each in document.objects
            if isinstance(each, pikepdf.Dictionary) and each.get("/S") == "/Figure"
        ]  # fmt: skip
        assert all(figure.get("/Alt") for figure in figures)
        assert len(figures) == (3 if what == "labels" else 0)


def test_the_page_offers_sheets_and_lots(browse: Browse, accession: Accession) -> None:
    tess = browse("tess")
    page = tess.get(f"/accessions/{accession.id}/labels")
    for words in ("24 labels", "21 labels", "one label to a page", "All lots", "03"):
        assert words in page.main
    assert len(tess.queries) == 4


@pytest.mark.parametrize(
    ("query", "status"),
    [
        ({"layout": "99"}, 400), ({"used": "24"}, 400), ({"used": "-1"}, 400), ({"lot": "first"}, 400),
        ({"surprise": "1"}, 400), ({"lot": str(uuid4())}, 404), ({"layout": "", "used": "", "lot": ""}, 200),
    ],
)  # fmt: skip
def test_what_the_address_may_say(
    browse: Browse, accession: Accession, query: dict[str, str], status: int
) -> None:
    browse("tess").get(f"/accessions/{accession.id}/labels.pdf", status=status, **query)


def test_who_may_not_print(browse: Browse, accession: Accession) -> None:
    for name, status in (("alice", 403), ("charlie", 403), ("olga", 403), ("stan", 403), ("dora", 404)):
        for path in ("labels", "labels.pdf"):
            browse(name).get(f"/accessions/{accession.id}/{path}", status=status)
    browse("tess").get(f"/accessions/{uuid4()}/labels", status=404)
    browse("tess").post(f"/accessions/{accession.id}/labels", status=405)
