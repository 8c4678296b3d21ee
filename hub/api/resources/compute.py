"""The calculators: pure answers, one operation each. Nothing is stored, and nothing of the hub is read."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from marshmallow import fields

from hub.api.blueprint import api
from hub.calculators.answers import as_json
from hub.calculators.calculator import Calculator
from hub.calculators.catalogue import CALCULATORS
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.fields import Schema, refusal
from hub.words import Refused, say


class IntervalShown(Schema):
    """The ends between which the truth lies as surely as ``level`` says."""

    low = fields.Raw(required=True, metadata={"type": ["number", "string"]})
    high = fields.Raw(required=True, metadata={"type": ["number", "string"]})
    level = fields.Float(required=True)


class FigureShown(Schema):
    """A number or, for a day, its date; an interval where it is an estimate."""

    value = fields.Raw(metadata={"type": ["number", "string"]})
    unit = fields.String()
    interval = fields.Nested(IntervalShown)


class AnswerShown(FigureShown):
    """One figure, or several by name in ``values``."""

    values = fields.Dict(keys=fields.String(), values=fields.Nested(FigureShown))
    verdict = fields.String()
    source = fields.String(required=True)
    warnings = fields.List(fields.String(), required=True)

    def get_attribute(self, obj: Any, attr: str, default: Any) -> Any:
        """A member of the answer: a mapping has a method ``values`` of its own."""
        return obj.get(attr, default)


class CalculatorShown(Schema):
    """What a calculator answers, and where."""

    name = fields.String(required=True)
    topic = fields.String(required=True)
    question = fields.String(required=True)
    about = fields.String(required=True)
    formula = fields.String(required=True)


@api.shows(
    "/compute",
    needs=Right.CALCULATE,
    summary=say("The calculators"),
    gives=CalculatorShown(),
    many=True,
    name="calculators",
)
def calculators(work: Work) -> list[dict[str, str]]:
    return [
        {
            "name": each.name,
            "topic": str(each.topic),
            "question": str(each.asks),
            "about": str(each.says),
            "formula": each.formula,
        }
        for each in CALCULATORS.values()
    ]


def declare(calculator: Calculator) -> None:
    """The operation of one calculator, which takes its inputs and gives its answer."""

    @api.operation(
        "POST",
        f"/compute/{calculator.name}",
        needs=Right.CALCULATE,
        summary=calculator.asks,
        takes=calculator.schema(),
        gives=AnswerShown(),
        example=dict(calculator.example),
        name=f"compute_{calculator.name.replace('-', '_')}",
    )
    def compute(work: Work, sent: Mapping[str, Any]) -> dict[str, Any]:
        try:
            return as_json(calculator.answer(sent))
        except Refused as refused:
            raise refusal(refused.words) from None  # the inputs are wrong, and not the moment


for each in CALCULATORS.values():
    declare(each)
