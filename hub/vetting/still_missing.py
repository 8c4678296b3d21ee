"""What a collection could still say for itself before it is handed in. Pure; none of it blocks.

The list follows the minimum collection data that seed-bank field forms ask for: place, people, population,
readiness, quality, voucher and photographs.
"""

from __future__ import annotations

from collections.abc import Collection as AnyOf
from collections.abc import Iterator

from hub.vetting.collection import AfterCare, Collection, Container, DrynessProof, Handling
from hub.vetting.rules import PhotographKind
from hub.words import Words, say

WANTED_PICTURES = {
    PhotographKind.PLANT: say("a photograph of the whole plant"),
    PhotographKind.DIAGNOSTIC: say("a photograph of the parts that tell the species apart"),
    PhotographKind.FRUIT: say("a photograph of the fruit or seed"),
    PhotographKind.HABITAT: say("a photograph of the habitat"),
}
DRIED = frozenset({AfterCare.AIR_DRIED, AfterCare.GEL_DRIED})


def still_missing(
    collection: Collection, pictures: AnyOf[PhotographKind], *, specimen: bool = True, cut: bool = True
) -> list[Words]:
    """Everything that a curator would ask for and that is not there, the proof of identity first.

    Without ``specimen``, or without ``cut``, none is asked for: the sheet forbids it.
    """
    return [*proof(collection, pictures, specimen), *counts(collection, cut), *afterwards(collection)]


def proof(collection: Collection, pictures: AnyOf[PhotographKind], specimen: bool) -> Iterator[Words]:
    yield from (words for kind, words in WANTED_PICTURES.items() if kind not in pictures)
    if specimen and collection.voucher is None and PhotographKind.VOUCHER not in pictures:
        yield say("a pressed specimen")
    if not collection.identified_by:
        yield say("who identified the plants")


def counts(collection: Collection, cut: bool) -> Iterator[Words]:
    asked = {
        say("how many plants were seen that day"): collection.plants_seen,
        say("how many of them were in fruit"): collection.plants_fruiting,
        say("when the first ripe fruit was seen"): collection.first_ripe_on,
        say("how many fruits were taken"): collection.fruits_taken,
        say("at what time collecting ended"): collection.finished_at,
    }
    yield from (words for words, value in asked.items() if value is None)
    if cut and collection.cut_test is None:
        yield say("a cut test")
    uncounted = any(tally.ripe_fruits is None for tally in collection.tallies)
    if collection.handling is Handling.BY_MOTHER and uncounted:
        yield say("how many ripe fruits each mother had before any was taken")


def afterwards(collection: Collection) -> Iterator[Words]:
    dried = collection.after_care in DRIED
    if dried and collection.drying_days is None:
        yield say("for how long the seed was dried")
    if dried and collection.dryness is DrynessProof.NONE:
        yield say("what showed that the seed was dry")
    if collection.frozen and collection.frozen_on is None:
        yield say("on which day the seed was frozen")
    vague = Container.OTHER is collection.container or collection.after_care is AfterCare.OTHER
    if vague and not collection.notes:
        yield say("in the notes, what was used or done with the seed instead")
