"""A hill site of the Fell Group with its moss campion, as the actions of the hub make them."""

from __future__ import annotations

from datetime import date
from typing import Any

from hub.db.work import Work
from hub.sites.actions import add_population, open_site
from hub.sites.models import Population, Site
from hub.sites.rules import Threat
from hub.taxa.models import Difficulty, Evidence, Standing, StandingKind, Taxon
from hub.taxa.rules import CareClass, FruitType, LegalList, LifeForm, StorageBehaviour
from tests.cast import Cast

TODAY = date(2031, 7, 14)  # of the cast's moment
# What somebody has looked up, so that no sheet has to ask for it.
HARMLESS: dict[str, Any] = {
    "hazards": [],
    "native": True,
    "dioecious": False,
    "clonal": False,
    "two_year_ripening": False,
    "masting": False,
    "international_trade_listed": False,
}
LOOKED_OVER: dict[str, Any] = {"risks": [], "protected_area": False, "own_consent_needed": False}
UNTOUCHED: dict[str, Any] = {"years_collected_before": [], "threat": Threat.NONE}
HERE = {"latitude": 47.8, "longitude": -28.2}


def taxon_of(
    care: CareClass = CareClass.SECURE, name: str = "Silene acaulis (L.) Jacq.", **more: Any
) -> Taxon:
    """A species as the curator would have it."""
    canonical = " ".join(name.split()[:2])
    return Taxon(
        scientific_name=name,
        canonical=canonical,
        search_key=canonical.lower(),
        family="Caryophyllaceae",
        vernacular="Moss campion",
        care_class=care,
        life_form=LifeForm.PERENNIAL_HERB,
        fruit_type=FruitType.DRY_CAPSULE,
        storage=StorageBehaviour.ORTHODOX,
        storage_evidence=Evidence.MEMORY,
        storage_source="",
        ripeness_note="",
        diagnostic_parts="",
        lookalikes="",
        note="",
        difficulty=Difficulty.EASY,
        **HARMLESS | more,
    )


def common(taxon: Taxon) -> list[Standing]:
    """That it is common and on no legal list: as long as nobody has said so, it is handled as if it were."""
    rank = Standing(
        taxon_id=taxon.id, kind=StandingKind.RANK, text="G5", place="world", authority="Test Survey"
    )
    law = Standing(
        taxon_id=taxon.id,
        kind=StandingKind.LISTING,
        text=LegalList.NOT_LISTED.value,
        place="Halverin",
        authority="Test Act",
    )
    return [rank, law]


def stored_taxon(cast: Cast, care: CareClass = CareClass.SECURE, **more: Any) -> Taxon:
    with cast.everywhere() as work:
        taxon = taxon_of(care, **more)
        work.db.add(taxon)
        work.db.flush()
        work.db.add_all(common(taxon))
    return taxon


def a_site(work: Work, cast: Cast, **changes: Any) -> Site:
    """Scar Top, opened by whoever works."""
    usual: dict[str, Any] = {
        "name": "Scar Top",
        "district_id": cast.north.id,
        "radius_m": 300,
        "owner_label": "The estate office",
        "locality": "By the stile.",
        **LOOKED_OVER,
        **HERE,
    }
    return open_site(work, **usual | changes)


def a_population(work: Work, site: Site, taxon: Taxon, **changes: Any) -> Population:
    usual: dict[str, Any] = {"label": "by the wall", "uncertainty_m": 10, **UNTOUCHED, **HERE}
    return add_population(work, site_id=site.id, taxon_id=taxon.id, **usual | changes)


def opened(
    cast: Cast, by: str = "alice", care: CareClass = CareClass.SECURE, **changes: Any
) -> tuple[Site, Population]:
    """A site with one population, stored."""
    taxon = stored_taxon(cast, care)
    with cast.work(by) as work:
        site = a_site(work, cast, **changes)
        population = a_population(work, site, taxon)
    return site, population
