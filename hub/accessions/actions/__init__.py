"""Verbs of accessions: approve, enter, place, move."""

from hub.accessions.actions.approving import approve
from hub.accessions.actions.keeping import enter, move
from hub.accessions.actions.placing import place_lot, place_lots

__all__ = ["approve", "enter", "move", "place_lot", "place_lots"]
