"""A finding: what one check says of one collection, with the figures it used and where they come from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from hub.vetting.rules import Severity
from hub.words import Words


@dataclass(frozen=True)
class Finding:
    """One thing that a curator should know, or must settle before approving.

    ``words`` may be shown to the group when the curator shares the finding, so they name nothing of another
    group; ``figures`` (plain JSON values by name, with their unit in the name) and ``source`` stay with the
    bank. ``about`` names the mother or the photograph it is about, where it is about one.
    """

    check: str
    severity: Severity
    words: Words
    figures: Mapping[str, Any] = field(default_factory=dict)
    source: Words | str = ""
    about: str = ""
