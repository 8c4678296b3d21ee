"""Sheets and field forms on paper: the same frozen sheet as a tagged PDF, in three ways of setting."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

from flask import Flask, render_template
from jinja2 import StrictUndefined

from hub.config import resource_folder
from hub.db.work import Work
from hub.protocols import essentials, sheet_words
from hub.protocols.codes import qr
from hub.protocols.field_form import plan
from hub.protocols.imprint import Imprint, imprint_of
from hub.protocols.laid_out import Item, Reason, Version, papers, reasons, sections
from hub.protocols.models import IssuedSheet
from hub.protocols.queries import sheet_of
from hub.protocols.sheet import Section, Sheet, Source, Status
from hub.web import language
from hub.web.limits import allow, minutes, person
from hub.web.pdf import pdf_known, pdf_of
from hub.words import Words

LOOKS = {Version.FULL: "sheet", Version.PLAIN: "sheet plain", Version.LARGE: "sheet large"}
# Letters after the first page beyond which a sheet would run on to a fifth page: it is set a little smaller,
# and then in narrower margins as well.
LONG, LONGER = 17_000, 19_500


def sheet_pdf(work: Work, issued: IssuedSheet, imprint: Imprint, version: Version) -> bytes:
    """The sheet on two to four pages of A4; more in large print."""

    def values() -> dict[str, Any]:
        spare_the_press(work)
        return on_paper(sheet_of(issued), imprint, version)

    shows = ("sheet", issued.digest, imprint, version)
    return pdf_known(work.settings, shows, "protocols/sheet_pdf.html", values)


def form_pdf(work: Work, issued: IssuedSheet, imprint: Imprint) -> bytes:
    """The field form with its tally table, and the tags to cut apart."""

    def values() -> dict[str, Any]:
        spare_the_press(work)
        return form_on_paper(sheet_of(issued), imprint)

    return pdf_known(work.settings, ("form", issued.digest, imprint), "protocols/form_pdf.html", values)


def spare_the_press(work: Work) -> None:
    """Drawing takes a second of the machine: nobody gets too many new ones. Kept ones cost nothing."""
    allow(work, "papers", person(), times=120, within=minutes(10))


def on_paper(sheet: Sheet, imprint: Imprint, version: Version) -> dict[str, Any]:
    """All that the template of a sheet is given."""
    plain = version is Version.PLAIN
    parts, terms = sections(sheet, version), papers(sheet)
    why, sources = reasons(sheet, version)
    longest = letters(sections(sheet, Version.FULL), *reasons(sheet, Version.FULL), terms)
    return {
        "sheet": sheet,
        "imprint": imprint,
        "look": look(sheet, version, longest),
        "version": version.value,
        "qr": qr(imprint.address) if imprint.address else None,
        "counts": essentials.counts(sheet.headline, plain=plain),
        "ways": essentials.ways(sheet.headline, plain=plain),
        "reckoning": essentials.reckoning(sheet.headline),
        "collects": essentials.is_open(sheet.status),
        "to_do": [part for part in parts if part[0] is not Section.CAUTIONS],
        "cautions": next((items for section, items in parts if section is Section.CAUTIONS), []),
        "papers": terms,
        "reasons": why,
        "sources": sources,
        "words": sheet_words,
    }


def look(sheet: Sheet, version: Version, letters: int) -> str:
    """The classes of the page. A sheet in use has room for larger figures: it lists no reasons against it."""
    in_use = sheet.status is Status.READY and version is Version.FULL
    return LOOKS[version] + " long" * (letters > LONG) + " longer" * (letters > LONGER) + " open" * in_use


def letters(
    parts: list[tuple[Section, list[Item]]], why: list[Reason], sources: list[Source], terms: list[Words]
) -> int:
    """How much there is to print after the first page: what to do, the reasons, the sources, the papers."""
    to_do = sum(len(f"{item.title or ''}{item.text}") for _, items in parts for item in items)
    grounds = sum(len(f"{each.title or ''}{each.line.why}") + GROUND for each in why)
    return (
        to_do
        + grounds
        + sum(len(f"{each.author}{each.title}") for each in sources)
        + len("".join(map(str, terms)))
    )


GROUND = 25  # letters of a reason’s ground and its numbers in brackets


def form_on_paper(sheet: Sheet, imprint: Imprint) -> dict[str, Any]:
    """All that the template of a field form is given."""
    return {
        "sheet": sheet,
        "imprint": imprint,
        "look": "sheet form",
        "qr": qr(imprint.address) if imprint.address else None,
        "plan": plan(sheet, imprint.number),
        "collects": essentials.is_open(sheet.status),
        "words": sheet_words,
    }


def drawn_without_a_hub(sheet: Sheet) -> bytes:
    """A sheet of a case alone, for the command line: no number, no QR code, no database."""
    app = Flask("hub", template_folder=str(resource_folder("templates")), static_folder=None)
    app.jinja_env.undefined = StrictUndefined
    language.prepare(app)
    values = on_paper(sheet, imprint_of(sheet.case), Version.FULL)
    with app.app_context(), tempfile.TemporaryDirectory() as nowhere:
        html = render_template("protocols/sheet_pdf.html", language=language.language_tag(), **values)
        return pdf_of(html, Path(nowhere))
