"""A few species of the tests, entered as a curator enters them."""

from __future__ import annotations

from typing import Any

from hub.taxa import actions
from hub.taxa.models import Taxon
from tests.cast import Cast

CAMPION = "Silene acaulis (L.) Jacq."
ARNICA = "Arnica montana L."
WILLOW = "Salix ×capreola J.Kern. ex Andersson"
VETCH = "Oxytropis campestris var. halverina"
NAMES = (CAMPION, ARNICA, WILLOW, VETCH)


def plant(cast: Cast, *names: str, **traits: Any) -> list[Taxon]:
    """Add these species, or all of the garden, as Cora of the Fell Bank."""
    with cast.work("cora") as work:
        return [actions.add(work, scientific_name=name, **traits) for name in names or NAMES]


def list_of(cast: Cast, *names: str, needs: list[actions.NeedGiven] | None = None) -> list[Taxon]:
    """Plant these species and put each on the Fell Bank's list."""
    planted = plant(cast, *names)
    with cast.work("cora") as work:
        for taxon in planted:
            wanted = needs or [actions.NeedGiven(2)]
            actions.want(work, season_id=cast.season.id, taxon_id=taxon.id, needs=wanted)
    return planted
