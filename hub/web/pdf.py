"""HTML to PDF, tagged and built to PDF/UA-1, kept on disk under the digest of what it shows.

The renderer may read nothing but what stands in the HTML itself: no file, no address on any network.
"""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from threading import Lock, Thread
from typing import Any

from flask import render_template
from PIL import ImageFile
from werkzeug.exceptions import ServiceUnavailable

from hub.config import PACKAGE, Settings, resource_folder
from hub.web.language import language_tag
from hub.web.pdf_keeping import found, keep
from hub.words import say

OFF = say("PDFs are off until the Pango library is installed here. Please print the page itself for now.")
# Two sheets at once take longer than one after the other.
ONE_AT_A_TIME = Lock()
log = logging.getLogger(__name__)
SOURCES = frozenset({".py", ".toml", ".html", ".css", ".svg", ".mo"})
Values = Callable[[], dict[str, Any]]


class PdfsAreOff(ServiceUnavailable):
    """The renderer's system libraries are missing on this machine."""

    def __init__(self) -> None:
        super().__init__(OFF)  # type: ignore[arg-type]


def pdf_page(settings: Settings, template: str, **values: Any) -> bytes:
    """A print template as a PDF, from the cache when it shows what it showed before."""
    return pdf_of(render_template(template, language=language_tag(), **values), settings.pdf_cache)


def pdf_known(settings: Settings, shows: tuple[object, ...], template: str, values: Values) -> bytes:
    """The same for a template whose ``values`` all follow from ``shows``.

    Nothing is worked out to find such a PDF again: a note under the digest of ``shows``, of the language and
    of this edition of the hub says which page of HTML it was.
    """
    known = digest_of(edition(), language_tag(), *shows)
    note = settings.pdf_cache / "known" / known[:2] / known
    digest = found(note)
    kept = found(place_of(settings.pdf_cache, digest.decode())) if digest else None
    if kept is not None:
        return kept
    html = render_template(template, language=language_tag(), **values())
    body = pdf_of(html, settings.pdf_cache)
    keep(note, digest_of(load_renderer().__version__, html).encode())
    return body


def digest_of(*parts: object) -> str:
    """A digest that differs whenever a part does."""
    return hashlib.sha256("\0".join(map(str, parts)).encode()).hexdigest()


def place_of(cache: Path, digest: str) -> Path:
    """Where the PDF of a page of HTML is kept."""
    return cache / digest[:2] / f"{digest}.pdf"


@lru_cache(maxsize=1)
def edition() -> str:
    """What this hub would print differently from another edition: its sources, words and templates."""
    sources = hashlib.sha256()
    for folder in (PACKAGE, resource_folder("templates")):
        for path in sorted(folder.rglob("*")):
            if path.suffix in SOURCES:
                sources.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes())
    return sources.hexdigest()


def pdf_of(html: str, cache: Path) -> bytes:
    """The PDF of a page of HTML. Raises PdfsAreOff where the renderer cannot start."""
    renderer = load_renderer()
    digest = digest_of(renderer.__version__, html)
    place = place_of(cache, digest)
    kept = found(place)
    if kept is not None:
        return kept
    with ONE_AT_A_TIME:
        body = drawn(renderer, html, digest)
    keep(place, body)
    return body


def load_renderer() -> Any:
    """Its import loads system libraries and takes about a second, so it waits until a PDF is wanted."""
    try:
        import weasyprint
    except OSError as missing:
        log.warning("PDFs are off: %s", missing)
        raise PdfsAreOff from missing
    # The renderer makes the whole process accept pictures that are cut short; uploads must not.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    return weasyprint


@lru_cache(maxsize=1)
def fonts() -> Any:
    """The fonts of this machine, looked up once. Only one drawing at a time may use them."""
    from weasyprint.text.fonts import FontConfiguration

    return FontConfiguration()


def drawn(renderer: Any, html: str, digest: str) -> bytes:
    """Draw one PDF. The same HTML gives the same bytes."""
    from weasyprint.urls import URLFetcher

    closed = URLFetcher(allowed_protocols=["data"], allow_redirects=False)
    document = renderer.HTML(string=html, url_fetcher=closed)
    identifier = digest[:16].encode()
    body: bytes = document.write_pdf(pdf_variant="pdf/ua-1", pdf_identifier=identifier, font_config=fonts())
    return body


def warm() -> None:
    """Load the renderer in the background when the hub starts, so that the first reader does not wait."""
    Thread(target=warm_quietly, name="pdf-warming", daemon=True).start()


def warm_quietly() -> None:
    try:
        load_renderer()
    except PdfsAreOff:
        return
