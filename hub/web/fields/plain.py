"""What all our fields share: sentences as ``Words``, and an empty box that means nothing was said."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import marshmallow
from marshmallow import ValidationError, validate

from hub.words import Words, say

MISSING = say("Please fill this in.")


class Plain:
    """Mixed in before a marshmallow field. A field that is not required reads an empty box as its default.

    The default is None unless ``load_default`` says otherwise.
    """

    default_error_messages: dict[str, Any] = {
        "required": MISSING,
        "null": MISSING,
        "validator_failed": say("This cannot be used."),
    }
    trims = True

    def __init__(self, *inner: Any, **options: Any) -> None:
        if not options.get("required"):
            options.setdefault("load_default", None)
        super().__init__(*inner, **options)

    def make_error(self, key: str, **values: Any) -> ValidationError:
        """A refusal in ``Words``. It travels in a list, the one form that marshmallow passes on untouched."""
        sentence: Words = self.error_messages[key]  # type: ignore[attr-defined]
        return refusal(replace(sentence, values={**sentence.values, **values}))


class Schema(marshmallow.Schema):
    """A schema with sentences of ours. A name that it does not know is refused, never dropped in silence."""

    error_messages: dict[str, Any] = {
        "unknown": say("This is not asked for here."),
        "type": say("This must be a set of named values."),
    }


def refusal(sentence: Words) -> ValidationError:
    """A validation error that carries a sentence and not a string; for validators and schema checks too."""
    return ValidationError([sentence])


class Within(validate.Range):
    """marshmallow's range, which the API's document understands, with a sentence of ours."""

    def __init__(self, low: Any, high: Any, sentence: Words) -> None:
        super().__init__(min=low, max=high)
        self.sentence = sentence

    def __call__(self, value: Any) -> Any:
        if value is not None and not self.min <= value <= self.max:
            raise refusal(self.sentence)
        return value


class Length(validate.Length):
    """marshmallow's length, for texts and lists, with sentences of ours for too short and too long."""

    def __init__(self, *, least: int, most: int, short: Words, long: Words) -> None:
        super().__init__(min=least, max=most)
        self.least, self.most = least, most
        self.short = short
        self.long = long

    def __call__(self, value: Any) -> Any:
        if value and len(value) > self.most:
            raise refusal(replace(self.long, values={**self.long.values, "has": len(value)}))
        if value is not None and value != "" and len(value) < self.least:
            raise refusal(self.short)
        return value
