"""One sheet on screen: the same lines as on paper, each of which answers “why?”."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import request
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.protocols import essentials, fact_words, listed, queries, sheet_words
from hub.protocols.differences import differences
from hub.protocols.laid_out import Version, papers, sections, title_of
from hub.protocols.models import IssuedSheet, SheetState
from hub.protocols.pages.blueprint import pages
from hub.protocols.sheet import Sheet
from hub.rights.policy import may
from hub.rights.right import Right
from hub.taxa.queries import get_season
from hub.web.render import render
from hub.words import Words


@pages.get("/sheets/<uuid:sheet_id>", needs=Right.SHEET_READ)
def sheet(work: Work, sheet_id: UUID) -> Response:
    issued = queries.get_sheet(work, sheet_id)
    versions = listed.line_of_sheets(work, issued)
    season_over = get_season(work, issued.season_id).closes_on < work.today
    return render(
        "protocols/sheet.html",
        issued=issued,
        around=listed.around(work, issued),
        versions=versions,
        newest=versions[0],
        season_over=season_over,
        holds=issued.state is SheetState.CURRENT and not season_over,
        changes=since_before(work, issued, versions),
        may_issue=may(work.scope, Right.SHEET_ISSUE),
        may_consent=may(work.scope, Right.RULE_OVERRIDE),
        **on_screen(queries.sheet_of(issued), asked_version()),
    )


def asked_version() -> Version:
    """How the reader wants it; what cannot be read means the full one."""
    typed = request.args.get("version", "")
    return Version(typed) if typed in set(Version) else Version.FULL


def on_screen(sheet: Sheet, version: Version) -> dict[str, Any]:
    """All that the pieces of a sheet are given."""
    plain = version is Version.PLAIN
    return {
        "sheet": sheet,
        "version": version.value,
        "counts": essentials.counts(sheet.headline, plain=plain),
        "ways": essentials.ways(sheet.headline, plain=plain),
        "reckoning": essentials.reckoning(sheet.headline),
        "collects": essentials.is_open(sheet.status),
        "parts": sections(sheet, version),
        "papers": papers(sheet),
        "sources": {source.key: source for source in sheet.sources},
        "words": sheet_words,
        "inputs": fact_words.in_words,
        "title_of": title_of,
    }


def since_before(work: Work, issued: IssuedSheet, versions: list[IssuedSheet]) -> tuple[Words, ...]:
    """What changed against the sheet before this one, if there was one."""
    older = [each for each in versions if each.issued_at < issued.issued_at]
    if not older:
        return ()
    before = queries.get_sheet(work, older[0].id)
    return differences(queries.sheet_of(before), queries.sheet_of(issued))
