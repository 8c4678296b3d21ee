"""One population with sheets of two groups of the same bank, as a stage for the ledger."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from hub.adoptions.models import Adoption
from hub.collecting.actions import allow
from hub.db.work import Work
from hub.groups.models import Group
from hub.protocols.models import IssuedSheet
from hub.sites.models import Population, Site, SiteGrant
from hub.taxa.models import Difficulty, Evidence, Taxon
from hub.taxa.rules import CareClass, FruitType, LifeForm, StorageBehaviour
from tests.cast import Cast
from tests.sites.scene import HARMLESS, LOOKED_OVER, UNTOUCHED

YEAR = 2031
ALLOWANCE = 1000


@dataclass
class Scene:
    """The population's id and each group's sheet."""

    population_id: UUID
    sheets: dict[str, IssuedSheet]


def set_scene(cast: Cast) -> Scene:
    """Store a taxon, a site shared by both groups, a population and a sheet for each group."""
    with cast.everywhere() as work:
        taxon = campion()
        site = field_site(cast)
        work.db.add_all([taxon, site])
        work.db.flush()
        population = patch(site, taxon)
        work.db.add(population)
        work.db.flush()
        sheets = {
            name: sheet_for(work, cast, group, site, population, number)
            for number, (name, group) in enumerate(
                {"alice": cast.fell_group, "charlie": cast.vale_school}.items()
            )
        }
    with cast.work("cora") as work:
        allow(work, population_id=population.id, year=YEAR, seeds=ALLOWANCE)
    return Scene(population.id, sheets)


def campion() -> Taxon:
    return Taxon(
        scientific_name="Silene acaulis (L.) Jacq.",
        canonical="Silene acaulis",
        search_key="silene acaulis",
        family="Caryophyllaceae",
        vernacular="Moss campion",
        care_class=CareClass.SECURE,
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
        **HARMLESS,
    )


def field_site(cast: Cast) -> Site:
    return Site(
        bank_id=cast.fell_bank.id,
        district_id=cast.north.id,
        name="Scar Top",
        locality="",
        owner_label="The estate",
        latitude=47.8,
        longitude=-28.2,
        radius_m=300,
        risk_note="",
        **LOOKED_OVER,
    )


def patch(site: Site, taxon: Taxon) -> Population:
    return Population(
        bank_id=site.bank_id,
        site_id=site.id,
        taxon_id=taxon.id,
        code="SIL-ACA 01",
        label="by the wall",
        latitude=47.8,
        longitude=-28.2,
        uncertainty_m=10,
        threat_note="",
        **UNTOUCHED,
    )


def sheet_for(
    work: Work, cast: Cast, group: Group, site: Site, population: Population, number: int
) -> IssuedSheet:
    work.db.add(SiteGrant(group_id=group.id, bank_id=group.bank_id, site_id=site.id, since=cast.now))
    adoption = Adoption(
        group_id=group.id,
        bank_id=group.bank_id,
        season_id=cast.season.id,
        taxon_id=population.taxon_id,
        region_id=cast.region.id,
        district_id=cast.north.id,
        wish="",
        reason="",
        asked_at=cast.now,
        moved_at=cast.now,
    )
    work.db.add(adoption)
    work.db.flush()
    sheet = IssuedSheet(
        group_id=group.id,
        bank_id=group.bank_id,
        number=f"TST-{number}",
        adoption_id=adoption.id,
        population_id=population.id,
        taxon_id=population.taxon_id,
        season_id=cast.season.id,
        status="ready",
        case={},
        body={},
        rulebook="0",
        digest="0",
        issued_at=cast.now,
        reason="",
    )
    work.db.add(sheet)
    work.db.flush()
    return sheet
