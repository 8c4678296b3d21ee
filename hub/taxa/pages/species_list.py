"""The list of all species that the hub knows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any
from uuid import UUID

from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.policy import may
from hub.rights.right import Right
from hub.taxa import queries
from hub.taxa.models import Difficulty, Ecoregion, Taxon
from hub.taxa.pages.blueprint import pages
from hub.taxa.pages.months import ripening
from hub.taxa.queries.lists import SPECIES_ORDERS
from hub.taxa.queries.lists import species as species_listed
from hub.taxa.rules import CareClass, StorageBehaviour
from hub.taxa.trait_words import DIFFICULTIES, offered, offered_list
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier, Yes
from hub.web.listing import Asked, Filter
from hub.web.render import render
from hub.words import say

CSV_COLUMNS = (
    *("scientific_name", "vernacular", "family", "care_class", "life_form", "fruit_type", "storage"),
    *("storage_evidence", "storage_source", "flowers_from", "ripens_from", "ripens_to", "difficulty"),
    *("suits_school", "native", "seed_mass_mg", "seeds_per_fruit"),
)


@pages.get("/species", needs=Right.SPECIES_READ)
def species(work: Work) -> Response:
    ecoregions = queries.ecoregions(work, work.scope.region_id) if work.scope.region_id else []
    asked = Asked.of(filters({each.id: each for each in ecoregions}), SPECIES_ORDERS)
    statement = species_listed(**asked.values)
    if asked.wants_csv:
        return csv_download("species", CSV_COLUMNS, csv_rows(asked.everything(work, statement)))
    return render(
        "taxa/species_list.html",
        asked=asked,
        page=asked.page(work, statement),
        may_edit=may(work.scope, Right.SPECIES_EDIT),
        cares=offered_list(CareClass),
        storages=offered_list(StorageBehaviour),
        levels=offered(DIFFICULTIES),
        ecoregions=[(str(each.id), f"{each.code} {each.name}") for each in ecoregions],
        columns=columns(asked),
        ripening=ripening,
    )


def filters(ecoregions: dict[UUID, Ecoregion]) -> list[Filter]:
    def place(value: UUID) -> str:
        return ecoregions[value].name if value in ecoregions else "–"

    return [
        Filter("care", say("Care class"), Choice(CareClass), lambda value: value.words),
        Filter("storage", say("Seed storage"), Choice(StorageBehaviour), lambda value: value.words),
        Filter("difficulty", say("How hard"), Choice(Difficulty), DIFFICULTIES.__getitem__),
        Filter("ecoregion", say("Ecoregion"), Identifier(), place),
        Filter("school", say("Suits a school"), Yes(), lambda value: say("yes")),
    ]


def columns(asked: Asked) -> list[dict[str, Any]]:
    return [
        asked.column(say("Species"), up="name", down="name-down"),
        asked.column(say("Family"), up="family"),
        asked.column(say("Care class"), up="care"),
        asked.column(say("Seed storage")),
        asked.column(say("Ripe"), up="ripening"),
    ]


def csv_rows(species: Sequence[Taxon]) -> Iterator[list[Any]]:
    for taxon in species:
        yield [getattr(taxon, name) for name in CSV_COLUMNS]
