"""A curator answers one request or many: the page asks first, because groups are written to at once."""

from __future__ import annotations

from uuid import UUID

from flask import redirect, request, url_for
from marshmallow import Schema
from werkzeug.wrappers import Response

from hub.adoptions import actions, queries
from hub.adoptions.pages.blueprint import pages
from hub.adoptions.schemas import AcceptSchema, Answer, DeclineSchema
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.render import done, notice, render
from hub.words import NotFound, Words, say, say_n

SCHEMAS: dict[Answer, type[Schema]] = {Answer.ACCEPT: AcceptSchema, Answer.DECLINE: DeclineSchema}


@pages.get("/adoptions/<any(accept, decline):answer>", needs=Right.ADOPTION_DECIDE)
def decide(work: Work, answer: str) -> Response:
    """``?ids=…&ids=…``: the requests that were ticked on the list, or the one that is looked at."""
    typed = request.args.getlist("ids")
    if not typed:
        notice(say("Tick at least one request first."), "problem")
        return redirect(url_for(".requests", state="requested"))
    return shown(work, Answer(answer), Form(SCHEMAS[Answer(answer)](), {"ids": typed}), typed)


@pages.post("/adoptions/<any(accept, decline):answer>", needs=Right.ADOPTION_DECIDE)
def send_decision(work: Work, answer: str) -> Response:
    verb = Answer(answer)
    form = Form.sent(SCHEMAS[verb]())
    with form.answering():
        ids, reason = form.data["ids"], form.data["reason"]
        act = actions.accept_many if verb is Answer.ACCEPT else actions.decline_many
        decided = act(work, adoption_ids=ids, reason=reason)
        return done(told(verb, len(decided)), url_for(".requests", state="requested"))
    return shown(work, verb, form, form.values("ids"))


def told(answer: Answer, n: int) -> Words:
    if answer is Answer.ACCEPT:
        return say_n(
            "{n} request accepted; the group is told.", "{n} requests accepted; the groups are told.", n=n
        )
    return say_n(
        "{n} request declined; the group is told.", "{n} requests declined; the groups are told.", n=n
    )


def shown(work: Work, answer: Answer, form: Form, typed: list[str]) -> Response:
    rows = queries.some(work, ids_in(typed))
    return render("adoptions/decide.html", form=form, answer=answer, rows=rows)


def ids_in(typed: list[str]) -> list[UUID]:
    """The ids in an address. Raises NotFound for what is none."""
    try:
        return [UUID(each) for each in typed]
    except ValueError:
        raise NotFound("adoptions") from None
