"""The calculators on screen. They only answer, so what is asked stands in the address, to be kept or sent."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any
from uuid import UUID

from flask import request, url_for
from werkzeug.routing import BuildError
from werkzeug.wrappers import Response

from hub.calculators.answers import rounded
from hub.calculators.calculator import Answer, Calculator, Topic
from hub.calculators.catalogue import CALCULATORS, TOPICS
from hub.calculators.inputs import boxes
from hub.db.work import Work
from hub.rights.right import Right
from hub.science.quantity import Evidence
from hub.web.forms import Form
from hub.web.guard import Pages
from hub.web.language import said
from hub.web.render import render
from hub.words import NotFound, say

pages = Pages("calculators", __name__)

EVIDENCE = {
    Evidence.MEMORY: say("from memory, not looked up"),
    Evidence.ALGEBRA: say("follows by calculation"),
    Evidence.OWN: say("our own default"),
}

USE_FOR = "use_for"
"""The id of the thing that a figure is to be used for; the page that asked sends it along."""


@pages.get("/calculators", needs=Right.CALCULATE)
def every(work: Work) -> Response:
    """All calculators, or those whose words hold what was looked for."""
    search = request.args.get("search", "").strip()
    found = list(matching(search))
    return render(
        "calculators/every.html",
        search=search,
        topics=found,
        count=sum(len(calculators) for _, calculators in found),
    )


def matching(search: str) -> Iterator[tuple[Topic, list[Calculator]]]:
    """Each topic with those of its calculators that hold every word."""
    words = search.casefold().split()
    for topic in TOPICS:
        held = [each for each in topic.calculators if all(word in text_of(each) for word in words)]
        if held:
            yield topic, held


def text_of(calculator: Calculator) -> str:
    told = (calculator.topic, calculator.asks, calculator.says)
    return " ".join((calculator.name, *map(said, told))).casefold()


@pages.get("/calculators/<name>", needs=Right.CALCULATE)
def calculator(work: Work, name: str) -> Response:
    """One calculator: with its example to begin with, then with what was asked."""
    found = CALCULATORS.get(name)
    if found is None:
        raise NotFound(name)
    form, answer = answered(found)
    return render(
        "calculators/show.html",
        calculator=found,
        boxes=list(boxes(form.schema)),
        form=form,
        answer=answer,
        is_example=not asked(),
        use_for=wanted(),
        uses=list(uses(found, answer)) if answer else [],
        rounded=rounded,
        evidence=EVIDENCE,
    )


def asked() -> bool:
    """Whether anything but the way back was sent."""
    return bool(request.args.keys() - {USE_FOR})


def wanted() -> str:
    """The id of what the figures are for, as it was sent."""
    return request.args.get(USE_FOR, "")


def answered(found: Calculator) -> tuple[Form, Answer | None]:
    """The form and, unless something typed was refused, its answer."""
    schema = found.schema()
    if not asked():
        return Form(schema, found.example), found.answer(found.read(found.example))
    form = Form.asked(schema, frozenset({USE_FOR}))
    answer = None
    with form.answering():
        answer = found.answer(form.data)
    return form, answer


def written(value: float | date) -> str:
    """A figure as another page’s box takes it: whole where it is a count, else to three digits."""
    return value.isoformat() if isinstance(value, date) else f"{rounded(value):f}".rstrip("0").rstrip(".")


def uses(found: Calculator, answer: Answer) -> Iterator[tuple[Any, str]]:
    """Where the answer can be carried to: words, and the address with the figures in it."""
    figures = {part.name: part.figure.value for part in answer.parts}
    for use in found.uses:
        try:
            filled: dict[str, Any] = {box: written(figures[part]) for box, part in use.boxes.items()}
            filled[use.key] = UUID(wanted())
            yield use.says, url_for(use.endpoint, **filled)
        except (ValueError, BuildError):
            continue
