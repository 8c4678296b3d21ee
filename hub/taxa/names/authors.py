"""Authors' names behind a plant's name, in one spelling."""

from __future__ import annotations

import re
from collections.abc import Iterable

# What stands behind ``in`` tells where a name was published; it is no part of the authorship.
_PLACE_OF_PUBLICATION = re.compile(r",? in [^()]*")
_JOINED = re.compile(r" (?:and|et) ")
_FILIUS_AFTER_DOT = re.compile(r"(?<=\.)\s*(?:f\.|fil\.|filius(?!\w))")
_FILIUS_AFTER_WORD = re.compile(r" (?:fil\.|filius(?!\w))")


def authorship(words: Iterable[str]) -> str:
    """The authorship in the usual form: ``Hook.f.``, ``&`` between authors, ``ex`` kept, ``in`` dropped."""
    text = _PLACE_OF_PUBLICATION.sub("", " ".join(words))
    text = _JOINED.sub(" & ", text).replace(" ex. ", " ex ")
    text = _FILIUS_AFTER_WORD.sub(" f.", _FILIUS_AFTER_DOT.sub("f.", text))
    return text.strip(" ,")
