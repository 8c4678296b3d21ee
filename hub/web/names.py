"""Scientific names as they are printed: italic names, upright ranks and hybrid signs (common practice)."""

from __future__ import annotations

from itertools import groupby

from markupsafe import Markup, escape

RANKS = frozenset({"sect.", "subg.", "subsp.", "ssp.", "var.", "subvar.", "f.", "subf."})
HYBRIDS = frozenset({"×", "x", "nothosubsp.", "nothovar."})
DOUBTS = frozenset({"cf.", "aff.", "agg.", "sp.", "spp."})
UPRIGHT = RANKS | HYBRIDS | DOUBTS


def taxon(name: str) -> Markup:
    """A name without its authors, marked as Latin and ready for a page."""
    runs = groupby(name.split(), UPRIGHT.__contains__)
    return Markup(" ").join(marked(" ".join(words), upright) for upright, words in runs)


def marked(text: str, upright: bool) -> Markup:
    return escape(text) if upright else Markup('<i lang="la">{}</i>').format(text)
