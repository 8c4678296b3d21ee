"""A club or school asks to join: open to every visitor."""

from __future__ import annotations

from typing import Any

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups import actions, queries, schemas
from hub.groups.pages.blueprint import pages
from hub.groups.rules import INVITATION_LASTS
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.limits import limited, minutes, sender
from hub.web.render import done, render
from hub.words import say

WHY = "a visitor asks a bank to take a group in"


@pages.get("/join", needs=Right.PUBLIC_READ)
def join(work: Work) -> Response:
    return render("groups/join.html", form=Form(schemas.JoinSchema()), **places(work))


@pages.post("/join", needs=Right.PUBLIC_READ, because=WHY)
@limited("join", times=5, within=minutes(60), by=sender)
def send_join(work: Work) -> Response:
    form = Form.sent(schemas.JoinSchema())
    with form.answering():
        actions.ask_to_join(work, **form.data)
        words = say("Thank you. The bank looks at it and answers by mail to the address that you gave.")
        return done(words, url_for(".asked"))
    return render("groups/join.html", form=form, **places(work))


@pages.get("/join/asked", needs=Right.PUBLIC_READ)
def asked(work: Work) -> Response:
    """What happens now, for a group that has asked."""
    return render("groups/asked.html", days=INVITATION_LASTS.days)


def places(work: Work) -> dict[str, Any]:
    """The districts and banks to choose from."""
    districts = [(place.id, f"{place.name} ({place.region})") for place in queries.districts(work)]
    return {"districts": districts, "banks": [(bank.id, bank.name) for bank in queries.banks(work)]}
