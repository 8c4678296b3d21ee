"""Accession numbers as people type and scan them: any case, any separators, the check character or not."""

from __future__ import annotations

import re

from hub.db.numbering import bare, is_whole

LOT_MARK = "/"  # between an accession's number and a lot's label
WHOLE_NUMBER = re.compile(r"[A-Z]\w*\d{8,}\w")


def lot_number(number: str, label: str) -> str:
    """What is written and coded on a lot's label: ``HVSB-2031-0042-7/03``."""
    return f"{number}{LOT_MARK}{label}"


def signs(typed: str) -> str:
    """The letters and digits of a number, without the lot behind it."""
    return bare(typed.partition(LOT_MARK)[0])


def without_check(typed: str) -> str | None:
    """The number before a check character that does not fit it: a slip of the pen still finds the seed."""
    given = signs(typed)
    return given[:-1] if WHOLE_NUMBER.fullmatch(given) and not is_whole(given) else None
