"""The reader's language: which one, and how it writes sentences, numbers, days and shares.

English texts are their own message ids, so English needs no catalogue. Further languages are folders of
``hub/messages``. Outside a request (letters, commands) everything is British English and UTC.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from babel import Locale
from babel.dates import format_date, format_datetime, format_skeleton, format_time
from babel.numbers import format_decimal, format_percent, format_scientific
from flask import Flask, current_app, has_app_context, has_request_context, request
from flask_babel import Babel, get_locale, get_translations
from jinja2 import pass_context

from hub.config import PACKAGE
from hub.web.caller import caller
from hub.web.names import taxon
from hub.words import Words

HOME = Locale("en", "GB")
NOTHING = "–"
ENDLESS = 10**15
# A year is a name, not an amount: it takes no thousands mark.
YEARS = frozenset({"year", "season"})
Number = int | float | Decimal


def prepare(app: Flask) -> None:
    """Give an app its languages and the filters that its templates use."""
    app.config.setdefault("BABEL_TRANSLATION_DIRECTORIES", str(PACKAGE / "messages"))
    babel = Babel(app, default_locale=str(HOME), locale_selector=chosen)
    with app.app_context():
        app.extensions["funicle-languages"] = sorted(str(each) for each in babel.list_translations())
    app.jinja_env.filters |= {
        "said": said,
        "in_language": in_language,
        "day": day,
        "moment": moment,
        "weekday_moment": weekday_moment,
        "number": number,
        "share": share,
        "taxon": taxon,
    }
    app.jinja_env.finalize = shown
    spoken: dict[str, Any] = app.jinja_env.globals
    spoken |= {name: counting(spoken[name]) for name in ("gettext", "ngettext")}  # ``_`` goes through gettext


def chosen() -> str | None:
    """The hub's language that the browser likes best."""
    if not has_request_context():
        return None
    tags = {name.replace("_", "-"): name for name in current_app.extensions["funicle-languages"]}
    best = request.accept_languages.best_match(tags)
    return tags[best] if best else None


def locale() -> Locale:
    """The reader's locale, British English where nobody reads."""
    return (get_locale() if has_app_context() else None) or HOME


def language_tag() -> str:
    """What ``<html lang>`` says."""
    return str(locale()).replace("_", "-")


def zone() -> ZoneInfo:
    """The time zone on screen: that of the bank that serves whoever reads."""
    return ZoneInfo(caller().zone) if has_request_context() else ZoneInfo("UTC")


def said(words: Words | str) -> str:
    """A sentence in the reader's language, with its values written as that language writes them."""
    if not isinstance(words, Words):
        return str(words)
    values = {name: written(value, name) for name, value in words.values.items()}
    return translated(words).format(**values)


def translated(words: Words) -> str:
    if not has_app_context():
        return words.text if words.plural is None or words.values.get("n") == 1 else words.plural
    catalogue = get_translations()
    if words.plural is None:
        return str(catalogue.ugettext(words.text))
    return str(catalogue.ungettext(words.text, words.plural, words.values["n"]))


def in_language(reason: str) -> str:
    """A stored reason: the hub’s own ones are in the catalogues, what somebody typed is in none and stays."""
    return translated(Words(reason))


def shown(value: Any) -> Any:
    """What a template prints for a value: sentences translated, everything else as it is."""
    return said(value) if isinstance(value, Words) else value


WRITERS: tuple[tuple[Any, Callable[[Any], str]], ...] = (
    (Words, lambda value: said(value)),
    (bool, str),
    (datetime, lambda value: moment(value)),
    (date, lambda value: day(value)),
    (time, lambda value: format_time(value, "short", locale=locale())),
    (Number, lambda value: number(value)),
)


def written(value: Any, name: str = "") -> str:
    """One value inside a sentence."""
    if name in YEARS:
        return str(value)
    for kind, write in WRITERS:
        if isinstance(value, kind):
            return write(value)
    return str(value)


def day(value: date | None) -> str:
    """A day such as ‘4 June 2026’. An instant falls on its day in the bank's zone."""
    if value is None:
        return NOTHING
    if isinstance(value, datetime):
        value = value.astimezone(zone()).date()
    return format_date(value, "long", locale=locale())


def moment(value: datetime | None) -> str:
    """An instant such as ‘4 Jun 2026, 16:05’, in the bank's zone."""
    if value is None:
        return NOTHING
    day_part = format_date(value.astimezone(zone()).date(), "medium", locale=locale())
    return f"{day_part}, {clock(value)}"


def weekday_moment(value: datetime | None) -> str:
    """A moment to be kept, such as ‘Thu, 4 Jun 2026, 16:05’, in the bank's zone."""
    if value is None:
        return NOTHING
    day_part = format_skeleton("yMMMEd", value.astimezone(zone()), locale=locale())
    return f"{day_part}, {clock(value)}"


def clock(value: datetime) -> str:
    """The time of day. Whoever belongs to a bank lives by its clock; to all others the zone is named."""
    at_home = has_request_context() and caller().scope.bank_id is not None
    return str(format_datetime(value, "HH:mm" if at_home else "HH:mm z", tzinfo=zone(), locale=locale()))


class Count(int):
    """A whole number inside a template's sentence: ``%(num)s`` writes it with the marks of the language."""

    def __str__(self) -> str:
        return number(int(self))


def counting(translate: Callable[..., Any]) -> Callable[..., Any]:
    """Let a template's ``_`` or ``ngettext`` write the whole numbers in its sentences as the reader does."""

    @pass_context
    def sentence(context: Any, *texts: Any, **values: Any) -> Any:
        if len(texts) > 1:
            values.setdefault("num", texts[-1])
        told = {name: counted(value, name) for name, value in values.items()}
        return translate(context, *texts, **told)

    return sentence


def counted(value: Any, name: str) -> Any:
    """A whole number made ready for a sentence; years and everything else stay as they are."""
    whole = isinstance(value, int) and not isinstance(value, bool) and name not in YEARS
    return Count(value) if whole else value


def number(value: Number | None, places: int | None = None) -> str:
    """A number with the marks of the reader's language; ``places`` fixes the digits after the point.

    Without ``places`` a whole number or a Decimal keeps all its digits, and a float its first six that count.
    Beyond ``ENDLESS`` it is written with a power of ten.
    """
    if value is None:
        return NOTHING
    size: Any = abs(value)
    if ENDLESS <= size < math.inf:
        return format_scientific(float(f"{value:.6g}"), locale=locale())
    if places is not None:
        return format_decimal(value, digits(places), locale=locale())
    exact = Decimal(f"{value:.6g}") if isinstance(value, float) else value
    return format_decimal(exact, locale=locale(), decimal_quantization=False)


def share(value: Number | None, places: int = 0) -> str:
    """A part of one as a percentage: 0.237 becomes ‘24%’, or ‘23.7%’ with one place."""
    if value is None:
        return NOTHING
    return format_percent(value, f"{digits(places)}%" if places else None, locale=locale())


def digits(places: int) -> str:
    """Babel's pattern for groups of thousands and so many digits after the point."""
    return "#,##0." + "0" * places if places else "#,##0"
