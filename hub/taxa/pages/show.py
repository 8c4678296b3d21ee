"""One species: for those who work with it, and for visitors."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.policy import may
from hub.rights.right import Right
from hub.taxa import queries
from hub.taxa.models import Taxon
from hub.taxa.pages import months
from hub.taxa.pages.blueprint import pages
from hub.taxa.pages.region_map import region_map
from hub.taxa.rules import Hazard
from hub.taxa.standings import reading_of
from hub.taxa.trait_words import DIFFICULTIES, EVIDENCE, KINDS, SENSITIVITIES
from hub.web.render import render


@pages.get("/species/<uuid:taxon_id>", needs=Right.SPECIES_READ)
def show(work: Work, taxon_id: UUID) -> Response:
    taxon = queries.get(work, taxon_id)
    standings = queries.standings(work, taxon_id)
    ecoregions = queries.ecoregions_of(work, taxon_id)
    return render(
        "taxa/show.html",
        taxon=taxon,
        standings=standings,
        because=reading_of((each.kind, each.text) for each in standings).because,
        kinds=KINDS,
        evidence=EVIDENCE,
        sensitivities=SENSITIVITIES,
        ecoregions=ecoregions,
        map=region_map(work, work.scope.region_id, [each.id for each in ecoregions]),
        lists=queries.lists_with(work, taxon_id),
        may_edit=may(work.scope, Right.SPECIES_EDIT),
        **year_and_hazards(taxon),
    )


@pages.get("/plants/<uuid:taxon_id>", needs=Right.PUBLIC_READ)
def plant(work: Work, taxon_id: UUID) -> Response:
    """A species for visitors: what it is and when it is ripe, with cautions; where it grows is not told."""
    taxon = queries.get(work, taxon_id)
    return render(
        "taxa/plant.html", taxon=taxon, lists=queries.lists_with(work, taxon_id), **year_and_hazards(taxon)
    )


def year_and_hazards(taxon: Taxon) -> dict[str, Any]:
    """What both pages show of a species."""
    return {
        "months": months.strip(taxon),
        "flowering": months.flowering(taxon),
        "ripening": months.ripening(taxon),
        "hazards": [Hazard(each).words for each in taxon.hazards or ()],
        "difficulty": DIFFICULTIES[taxon.difficulty],
    }
