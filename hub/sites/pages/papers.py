"""Signed papers: kept under a key of the hub's own, handed out only as downloads that run nothing."""

from __future__ import annotations

from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.web.downloads import download
from hub.web.uploads import Document

KINDS = {"pdf": "application/pdf", "jpg": "image/jpeg", "png": "image/png", "webp": "image/webp"}


def keep_paper(work: Work, paper: Document | None, kind: str) -> str:
    """Store a paper that was sent; gives its key, or nothing where none was sent."""
    return work.files.keep(paper.body, kind=kind, ending=paper.ending) if paper else ""


def paper_download(work: Work, key: str, name: str) -> Response:
    """A stored paper under a name that says what it is. Raises NotFound when it is gone."""
    ending = key.rpartition(".")[2]
    kind = KINDS.get(ending, "application/octet-stream")
    return download(work.files.read(key), f"{name}.{ending}", kind)
