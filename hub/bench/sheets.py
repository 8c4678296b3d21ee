"""Protocol sheets: the rules alone, a PDF drawn for the first time, and the same PDF asked for again."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from time import thread_time
from typing import Any
from uuid import UUID

from flask import current_app, render_template, send_file
from flask.testing import FlaskClient
from sqlalchemy import select
from werkzeug.wrappers import Response

from hub.accounts.models import Person
from hub.bench.figure import Figure, ratio, side_by_side
from hub.bench.stage import EVERYONE, Stage, address, fetched
from hub.db.work import Work
from hub.groups.models import Seat
from hub.protocols import queries
from hub.protocols.engine import issue
from hub.protocols.framed import imprint_for
from hub.protocols.laid_out import Version
from hub.protocols.models import IssuedSheet, SheetState
from hub.protocols.printing import on_paper
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.schemas import read_case
from hub.protocols.sheet import Status
from hub.rights.right import Right
from hub.web.guard import Pages
from hub.web.language import language_tag

RULES_BAR, FIRST_BAR, AGAIN_BAR = 5.0, 1.2, 2.0
READER, FILE = "group lead", "BENCH_FILE"

# The same hub sends a file to the same signed-in reader: what is left is what the sheet's own page costs.
still = Pages("bench", __name__)


@still.get("/bench-file", needs=Right.SHEET_READ)
def plain_file(work: Work) -> Response:
    return send_file(current_app.config[FILE])


def rules_alone(stage: Stage, *, rounds: int) -> Figure:
    """The rules over every case that the demo's sheets were issued for, per sheet.

    They wait for nothing, so the processor's own time says it all, however busy the machine is.
    """
    with stage.house.work(EVERYONE, reads_only=True) as work:
        stored = work.db.scalars(select(IssuedSheet.case)).all()
    cases, rulebook, day = [read_case(case) for case in stored], standard_rulebook(), stage.house.now().date()
    acts = {"all": lambda: [issue(case, rulebook, on=day) for case in cases]}
    each = [spent / len(cases) for spent in side_by_side(rounds, acts, thread_time)["all"]]
    how = f"of processor time per sheet, over {len(cases)} cases of the demo"
    return Figure.over("Rules alone", each, "ms", RULES_BAR, how)


def printing(stage: Stage, *, first_rounds: int, rounds: int) -> Iterator[Figure]:
    """One sheet's PDF as a member of its group asks for it, drawn and kept."""
    reader, sheet_id = stage.reader(READER), own_sheet(stage)
    path, cache = f"/sheets/{sheet_id}/sheet.pdf", stage.house.settings.pdf_cache
    yield ratio(
        "Sheet as PDF, first time",
        f"{path.replace(str(sheet_id), '…')} with an empty cache, against WeasyPrint alone on the same HTML",
        bar=FIRST_BAR,
        rounds=first_rounds,
        first=partial(drawn_anew, reader, path, cache),
        renderer=partial(alone(), html_of(stage, sheet_id)),
    )
    stage.app.config[FILE] = kept(stage.folder, fetched(reader, path))
    yield ratio(
        "Sheet as PDF, unchanged again",
        "the kept PDF, against a file of its size sent to the same reader",
        bar=AGAIN_BAR,
        rounds=rounds,
        again=partial(fetched, reader, path),
        file=partial(fetched, reader, "/bench-file"),
    )


def own_sheet(stage: Stage) -> UUID:
    """A current sheet of the reader's group that is ready to use."""
    reader = (
        select(Seat.group_id).join(Person, Person.id == Seat.person_id).where(Person.email == address(READER))
    )
    ready = (IssuedSheet.state == SheetState.CURRENT, IssuedSheet.status == Status.READY.value)
    found = select(IssuedSheet.id).where(*ready, IssuedSheet.group_id.in_(reader))
    with stage.house.work(EVERYONE, reads_only=True) as work:
        return work.db.scalars(found.order_by(IssuedSheet.number.desc()).limit(1)).one()


def html_of(stage: Stage, sheet_id: UUID) -> str:
    """The very HTML that the page hands to the renderer."""
    with stage.app.test_request_context(), stage.house.work(EVERYONE, reads_only=True) as work:
        issued = queries.get_sheet(work, sheet_id)
        values = on_paper(queries.sheet_of(issued), imprint_for(work, issued), Version.FULL)
        return render_template("protocols/sheet_pdf.html", language=language_tag(), **values)


def alone() -> Any:
    """WeasyPrint by itself, with fonts that it found before."""
    import weasyprint
    from weasyprint.text.fonts import FontConfiguration

    fonts = FontConfiguration()
    return lambda html: weasyprint.HTML(string=html).write_pdf(pdf_variant="pdf/ua-1", font_config=fonts)


def drawn_anew(reader: FlaskClient, path: str, cache: Path) -> bytes:
    """The PDF with nothing kept."""
    shutil.rmtree(cache, ignore_errors=True)
    return fetched(reader, path)


def kept(folder: Path, body: bytes) -> Path:
    """The same bytes as a plain file."""
    path = folder / "bench.pdf"
    path.write_bytes(body)
    return path
