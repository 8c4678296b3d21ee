"""How many groups have taken up a wanted species: asked for here, counted by a feature above that registers.

Adoptions know species; species may not know adoptions. So the list of what is still needed asks whoever has
registered, and takes every need as open when nobody has.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from sqlalchemy import ColumnElement, literal

Count = Callable[[Any, Any], ColumnElement[int]]
_counts: list[Count] = []


def counts_claims(count: Count) -> Count:
    """Register the count: a scalar subquery for a season's and a species' id, never empty."""
    _counts[:] = [count]
    return count


def claims(season_id: Any, taxon_id: Any) -> ColumnElement[int]:
    """How many groups hold a species in a season, as a column of a statement."""
    return _counts[0](season_id, taxon_id) if _counts else literal(0)
