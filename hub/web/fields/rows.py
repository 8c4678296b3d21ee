"""Lists: several values under one name, and rows of a table in a form."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields, missing

from hub.web.fields.plain import Length, Plain, refusal
from hub.words import Words, say, say_n

NOT_A_LIST = say("This must be a list.")
NONE_GIVEN = say("Please give at least one.")
NONE_AND_SOME = say("This says both “none” and some. Please leave one of the two out.")


class Several(Plain, fields.List):
    """A list of values of one kind; empty ones are left out by the form."""

    default_error_messages = {"invalid": NOT_A_LIST, "required": NONE_GIVEN}

    def __init__(self, inner: fields.Field[Any], *, least: int = 0, most: int = 100, **options: Any) -> None:
        if not least:
            options.setdefault("load_default", list)
        # Nothing is no member of a list, and nothing stands in for one.
        inner.required, inner.allow_none, inner.load_default = True, False, missing
        super().__init__(inner, required=bool(least), **options)
        self.validators.append(row_count(least, most))


class SomeOrNone(Several):
    """A list where silence and “none” differ: left out it loads as None, ``none`` alone as an empty list.

    A program sends null and an empty list for the two.
    """

    NONE = "none"

    def __init__(self, inner: fields.Field[Any], **options: Any) -> None:
        super().__init__(inner, load_default=None, **options)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if isinstance(value, list) and self.NONE in value:
            if len(value) > 1:
                raise refusal(NONE_AND_SOME)
            return []
        return super()._deserialize(value, attr, data, **kwargs)


class Rows(Plain, fields.Nested):
    """A list of rows, each with the fields of one schema; sent by a form as ``name-0-field``."""

    default_error_messages = {"type": NOT_A_LIST, "invalid": NOT_A_LIST, "required": NONE_GIVEN}

    def __init__(self, row: type[Schema], *, least: int = 0, most: int = 500, **options: Any) -> None:
        if not least:
            options.setdefault("load_default", list)
        super().__init__(row, many=True, required=bool(least), **options)
        self.validators.append(row_count(least, most))


def row_count(least: int, most: int) -> Length:
    return Length(least=least, most=most, short=too_few(least), long=too_many(most))


def too_few(least: int) -> Words:
    return say_n("Please give at least {n} entry.", "Please give at least {n} entries.", n=least)


def too_many(most: int) -> Words:
    return say("These are too many: at most {most} entries, and there are {has}.", most=most)
