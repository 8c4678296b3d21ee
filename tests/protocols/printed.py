"""Sheets on paper for the tests: very different cases, each drawn once, and how a PDF is read back."""

from __future__ import annotations

import io
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pdfplumber
import pikepdf
from flask import Flask, render_template
from jinja2 import StrictUndefined

from hub.config import resource_folder
from hub.protocols.engine import issue
from hub.protocols.imprint import Imprint, imprint_of
from hub.protocols.laid_out import Version
from hub.protocols.printing import form_on_paper, on_paper
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet import Sheet
from hub.web import language
from hub.web.pdf import pdf_of
from tests.protocols.conftest import DAY, changed

NUMBER = "FLG-2030-S07-K"
ADDRESS = f"http://127.0.0.1:8020/sheets/by-number/{NUMBER}"
CACHE = Path(tempfile.mkdtemp(prefix="hub-pdf-"))

CASES: dict[str, dict[str, Any]] = {
    "rare": {
        "taxon": {"name": "Pulsatilla vernalis", "care_class": "rare", "fruit_type": "achene_plumed",
                  "hazards": ["toxic", "irritant_sap"]},
        "population": {"name": "PUL-VER 01", "plants": 160, "fruiting_plants": 118},
        "sign_off": {"by": "Cora", "on": DAY, "share": 0.05},
    },
    "bulk": {"population": {"name": "CAM-SCH 01"}},
    "acorn": {
        "taxon": {"name": "Quercus robur", "life_form": "tree", "fruit_type": "nut",
                  "storage": "recalcitrant", "masts": True},
        "crop": {"ripe_fruits_per_plant": 900, "good_seeds_per_fruit": 0.8},
    },
    "willow": {"taxon": {"name": "Salix lapponum", "life_form": "shrub", "storage": "short_lived",
                         "fruit_type": "catkin_capsule", "dioecious": True}},
    "orchid": {"taxon": {"name": "Dactylorhiza majalis", "fruit_type": "dust_seed", "care_class": "watch",
                         "trade_controlled": True}},
    "fern": {"taxon": {"name": "Osmunda regalis", "life_form": "fern", "fruit_type": "spore",
                       "green_spores": True}},
    "untested": {"taxon": {"name": "Acer pseudoplatanus", "storage": "unresolved", "fruit_type": "samara",
                           "life_form": "tree"}},
    "home": {"bank": {"home_freezing": True}},
    "stop": {"population": {"plants": 15, "fruiting_plants": 9}, "taxon": {"care_class": "critical"}},
    "not yet": {"permission": {"granted": "unknown"}, "taxon": {"care_class": "rare"}, "crop": "unknown"},
    "salvage": {
        "taxon": {"name": "Gentiana verna", "care_class": "rare"},
        "population": {"severe_threat": True},
        "salvage": {"curator": "Fell Bank", "owner": "The estate", "evidence": "a letter of the planners",
                    "evidence_on": date(2030, 6, 1)},
    },
    "long": {
        "taxon": {"name": "Arnica montana", "care_class": "rare", "fruit_type": "achene_plumed",
                  "hazards": ["toxic", "irritant_sap", "allergen"], "trade_controlled": True},
        "population": {"plants": 900, "fruiting_plants": 600, "site_risks": ["road", "water", "livestock"]},
        "permission": {"granted": True, "until": date(2030, 12, 31), "conditions": ["Shut every gate.",
                       "Stay off the hay until it is cut.", "Tell the farm before you come."]},
        "party": {"pupils": True},
    },
    "school": {"party": {"pupils": True}, "population": {"site_risks": ["road", "water"]}},
}  # fmt: skip


@cache
def sheet_of(name: str) -> Sheet:
    return issue(changed(CASES[name]), standard_rulebook(), on=DAY)


@cache
def imprint(name: str, *, numbered: bool = True) -> Imprint:
    """The frame of an issued sheet."""
    plain = replace(imprint_of(sheet_of(name).case), bank="Fell Bank", group="Fell Group", site="Scar Top")
    return replace(plain, number=NUMBER, address=ADDRESS) if numbered else plain


@cache
def paper() -> Flask:
    app = Flask("hub", template_folder=str(resource_folder("templates")), static_folder=None)
    app.jinja_env.undefined = StrictUndefined
    language.prepare(app)
    return app


@cache
def html_of(name: str, version: Version | None = Version.FULL) -> str:
    """A sheet in one of its versions; without a version its field form."""
    with paper().app_context():
        if version is None:
            values, template = form_on_paper(sheet_of(name), imprint(name)), "protocols/form_pdf.html"
        else:
            values = on_paper(sheet_of(name), imprint(name), version)
            template = "protocols/sheet_pdf.html"
        return render_template(template, language="en-GB", **values)


@cache
def drawn(name: str, version: Version | None = Version.FULL) -> bytes:
    return pdf_of(html_of(name, version), CACHE)


@cache
def pages(body: bytes) -> tuple[str, ...]:
    """The words of each page, with single spaces."""
    with pdfplumber.open(io.BytesIO(body)) as document:
        return tuple(" ".join((page.extract_text() or "").split()) for page in document.pages)


def opened(body: bytes) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(body))


def structure(document: pikepdf.Pdf) -> Iterator[pikepdf.Dictionary]:
    """Every element of the structure tree, in reading order."""
    yield from below(document.Root.StructTreeRoot.get("/K"))


def below(kids: Any) -> Iterator[pikepdf.Dictionary]:
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from below(kid.get("/K"))
