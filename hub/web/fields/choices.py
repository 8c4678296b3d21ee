"""Fields that pick: one of a few, yes or no, one thing by its id, one file."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from typing import Any
from uuid import UUID

from marshmallow import fields
from werkzeug.datastructures import FileStorage

from hub.web.fields.plain import Plain, refusal
from hub.web.uploads.scan import scanned
from hub.words import Refused, say

PICK_ONE = say("Please choose one of those offered.")


class Choice(Plain, fields.Enum):
    """One member of an enum, by its value."""

    default_error_messages = {"unknown": PICK_ONE, "required": say("Please choose one.")}

    def __init__(self, kind: type[StrEnum], **options: Any) -> None:
        super().__init__(enum=kind, by_value=True, **options)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> StrEnum:
        try:
            found: StrEnum = self.enum(value)
        except ValueError:
            raise self.make_error("unknown") from None
        return found


class Yes(Plain, fields.Boolean):
    """A tick box: absent means no. With ``must``, only a tick will do."""

    default_error_messages = {
        "invalid": say("Please answer yes or no."),
        "must": say("Please tick this to go on."),
    }

    def __init__(self, *, must: bool = False, **options: Any) -> None:
        super().__init__(load_default=False, **options)
        self.must = must

    def deserialize(self, value: Any, attr: str | None = None, data: Any = None, **kwargs: Any) -> Any:
        answer = super().deserialize(value, attr, data, **kwargs)
        if self.must and answer is not True:
            raise self.make_error("must")
        return answer


class YesNo(Plain, fields.Boolean):
    """Yes, no, or nothing said: an empty box, or null, loads as None."""

    default_error_messages = {"invalid": say("Please answer yes, no, or not known.")}


class Identifier(Plain, fields.UUID):
    """The id of one thing."""

    default_error_messages = {"invalid_uuid": PICK_ONE, "invalid": PICK_ONE}

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> UUID:
        try:
            return value if isinstance(value, UUID) else UUID(value.strip())
        except (AttributeError, ValueError):
            raise self.make_error("invalid_uuid") from None


class Upload(Plain, fields.Raw):
    """A file that came with the form, read by one of ``hub.web.uploads``: loads as what that reader gives."""

    default_error_messages = {
        "required": say("Please choose a file."),
        "invalid": say("Please choose a file."),
    }

    def __init__(self, reader: Callable[[FileStorage], Any], **options: Any) -> None:
        super().__init__(load_only=True, metadata={"type": "string", "format": "binary"}, **options)
        self.reader = reader

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if not isinstance(value, FileStorage):
            raise self.make_error("invalid")
        try:
            return self.reader(scanned(value))
        except Refused as refused:
            raise refusal(refused.words) from None
