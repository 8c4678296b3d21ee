"""A draft: every box of a form with exactly what was typed into it, whatever that is. Pure.

It is kept as one ASCII text inside a JSON document, because no database stores every character that a
browser can send, and nothing typed may be lost or refused while it is only a draft.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

Typed = list[tuple[str, str]]


def kept(typed: Iterable[tuple[str, str]]) -> dict[str, Any]:
    """The document of a draft."""
    return {"typed": json.dumps([[name, text] for name, text in typed])}


def typed_in(draft: Mapping[str, Any]) -> Typed:
    """What was typed, in its order; nothing before anybody typed."""
    return [(name, text) for name, text in json.loads(draft.get("typed", "[]"))]
