"""HTML to PDF, tagged and built to PDF/UA-1, kept on disk under the digest of what it shows.

The renderer may read nothing but what stands in the HTML itself: no file, no address on any network.
"""

from __future__ import annotations

import hashlib
import logging
import os
import tempfile
from pathlib import Path
from threading import Lock, Thread
from typing import Any

from flask import render_template
from PIL import ImageFile
from werkzeug.exceptions import ServiceUnavailable

from hub.config import Settings
from hub.web.language import language_tag
from hub.words import say

OFF = say("PDFs are off until the Pango library is installed here. Please print the page itself for now.")
# Two sheets at once take longer than one after the other.
ONE_AT_A_TIME = Lock()
log = logging.getLogger(__name__)


class PdfsAreOff(ServiceUnavailable):
    """The renderer's system libraries are missing on this machine."""

    def __init__(self) -> None:
        super().__init__(OFF)  # type: ignore[arg-type]


def pdf_page(settings: Settings, template: str, **values: Any) -> bytes:
    """A print template as a PDF, from the cache when it shows what it showed before."""
    return pdf_of(render_template(template, language=language_tag(), **values), settings.pdf_cache)


def pdf_of(html: str, cache: Path) -> bytes:
    """The PDF of a page of HTML. Raises PdfsAreOff where the renderer cannot start."""
    renderer = load_renderer()
    digest = hashlib.sha256(f"{renderer.__version__}\0{html}".encode()).hexdigest()
    kept = cache / digest[:2] / f"{digest}.pdf"
    if kept.exists():
        return kept.read_bytes()
    with ONE_AT_A_TIME:
        body = drawn(renderer, html, digest)
    keep(kept, body)
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


def drawn(renderer: Any, html: str, digest: str) -> bytes:
    """Draw one PDF. The same HTML gives the same bytes."""
    from weasyprint.urls import URLFetcher

    closed = URLFetcher(allowed_protocols=["data"], allow_redirects=False)
    document = renderer.HTML(string=html, url_fetcher=closed)
    body: bytes = document.write_pdf(pdf_variant="pdf/ua-1", pdf_identifier=digest[:16].encode())
    return body


def keep(path: Path, body: bytes) -> None:
    """Put a file where others look for it only once it is whole."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, draft = tempfile.mkstemp(dir=path.parent)
    with os.fdopen(handle, "wb") as file:
        file.write(body)
    os.replace(draft, path)


def warm() -> None:
    """Load the renderer in the background when the hub starts, so that the first reader does not wait."""
    Thread(target=warm_quietly, name="pdf-warming", daemon=True).start()


def warm_quietly() -> None:
    try:
        load_renderer()
    except PdfsAreOff:
        return
