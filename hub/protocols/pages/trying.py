"""Try the rules: change the facts of a case and read the sheet that follows. Nothing is kept."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import request
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.protocols import queries
from hub.protocols.case import Case
from hub.protocols.engine import issue
from hub.protocols.laid_out import Version
from hub.protocols.pages.blueprint import pages
from hub.protocols.pages.sheet import on_screen
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.schemas import read_case
from hub.protocols.sheet import Sheet
from hub.protocols.trying import ANSWERS, BLANK, BOXES, LEGENDS, TrySchema, case_from, filled
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.render import render


@pages.get("/rules/try", needs=Right.RULE_OVERRIDE)
def try_rules(work: Work) -> Response:
    base = base_case(work)
    return trying(Form(TrySchema(), filled(base)), issue(base, standard_rulebook(), on=work.today))


@pages.post("/rules/try", needs=Right.RULE_OVERRIDE)
def send_try(work: Work) -> Response:
    form, base = Form.sent(TrySchema()), base_case(work)
    with form.answering():
        case = case_from(base, form.data, work.today)
        return trying(form, issue(case, standard_rulebook(), on=work.today))
    return trying(form, None)


def base_case(work: Work) -> Case:
    """The case of the sheet that the address names, or an empty one."""
    try:
        sheet_id = UUID(request.args.get("sheet", ""))
    except ValueError:
        return BLANK
    return read_case(queries.get_sheet(work, sheet_id).case)


def trying(form: Form, sheet: Sheet | None) -> Response:
    shown: dict[str, Any] = on_screen(sheet, Version.FULL) if sheet else {}
    return render(
        "protocols/try.html",
        form=form,
        boxes=BOXES,
        legends=LEGENDS,
        answers=ANSWERS,
        from_sheet=request.args.get("sheet", ""),
        tried=sheet is not None,
        **shown,
    )
