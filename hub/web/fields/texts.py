"""Texts: trimmed, in one Unicode form, free of characters that no keyboard writes and no store keeps."""

from __future__ import annotations

import unicodedata
from typing import Any

from marshmallow import fields, validate

from hub.web.fields.plain import Length, Plain, refusal
from hub.words import Words, say, say_n

NOT_TEXT = say("This must be text.")
HIDDEN = say("This holds a hidden character that cannot be kept. Please type it again.")
ONE_LINE = say("Please write this on one line.")
LINE_MARKS = frozenset("\n\t")
LONGEST_EMAIL = 254  # RFC 5321 §4.5.3.1.3 leaves this much of its path of 256 for the address.


class Text(Plain, fields.String):
    """One line of text, at most ``most`` characters long."""

    default_error_messages = {"invalid": NOT_TEXT, "invalid_utf8": NOT_TEXT}
    lines = False

    def __init__(self, most: int = 200, *, least: int = 1, **options: Any) -> None:
        super().__init__(**options)
        least = least if self.required or least > 1 else 0
        self.validators.append(Length(least=least, most=most, short=too_short(least), long=too_long(most)))

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if not isinstance(value, str):
            raise self.make_error("invalid")
        text = clean(value, lines=self.lines)
        if text:
            return text
        if self.required:
            raise self.make_error("required")
        return self.load_default


class LongText(Text):
    """Text of several lines, with line breaks kept."""

    lines = True

    def __init__(self, most: int = 5000, **options: Any) -> None:
        super().__init__(most, **options)


class Email(Text):
    """An e-mail address, looked at for its shape alone."""

    WRONG = say("This does not look like an e-mail address. One looks like name@example.org.")

    BEYOND_ASCII = say("The part before the @ has a letter that most mail servers do not take.")

    def __init__(self, **options: Any) -> None:
        super().__init__(LONGEST_EMAIL, **options)
        self.validators.append(AddressShape())


class AddressShape(validate.Email):
    """marshmallow's check of an address, with our sentence."""

    def __call__(self, value: str | None) -> str | None:  # type: ignore[override]
        if value and not value.partition("@")[0].isascii():
            raise refusal(Email.BEYOND_ASCII)
        try:
            return super().__call__(value) if value and len(value) <= LONGEST_EMAIL else value
        except validate.ValidationError:
            raise refusal(Email.WRONG) from None


class Password(Plain, fields.String):
    """A password, taken exactly as typed: never trimmed, never shown again, at most ``most`` characters."""

    default_error_messages = {"invalid": NOT_TEXT, "invalid_utf8": NOT_TEXT}
    trims = False

    def __init__(self, most: int = 256, *, least: int = 1, **options: Any) -> None:
        super().__init__(load_only=True, **options)
        self.validators.append(Length(least=least, most=most, short=too_short(least), long=too_long(most)))

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if not isinstance(value, str) or has_surrogate(value):
            raise self.make_error("invalid")
        if not value and self.required:
            raise self.make_error("required")
        return value


def clean(value: str, *, lines: bool) -> str:
    """The text as it is kept: composed (NFC), trimmed, one kind of line break, nothing hidden."""
    text = unicodedata.normalize("NFC", value.replace("\r\n", "\n").replace("\r", "\n")).strip()
    marks = {mark for mark in text if unicodedata.category(mark) in ("Cc", "Cs")}
    if marks - LINE_MARKS:
        raise refusal(HIDDEN)
    if marks and not lines:
        raise refusal(ONE_LINE)
    return text


def has_surrogate(value: str) -> bool:
    """Half of a character pair: JSON can spell it, no encoding can store it."""
    return any("\ud800" <= mark <= "\udfff" for mark in value)


def too_long(most: int) -> Words:
    return say("This is too long: at most {most} characters, and it has {has}.", most=most)


def too_short(least: int) -> Words:
    return say_n("This needs at least {n} character.", "This needs at least {n} characters.", n=least)
