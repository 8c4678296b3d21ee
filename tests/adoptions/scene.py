"""A species on the wanted list, a population of it and an adoption, as stages for these tests."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from hub.adoptions.actions import ask
from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState
from hub.db.work import Work
from hub.groups.models import Bank
from hub.groups.rules import AdoptionMode
from hub.sites.models import Permission, Population, Site, SiteGrant
from hub.taxa.models import Difficulty, Evidence, Need, Season, Taxon, Wanted
from hub.taxa.rules import CareClass, FruitType, LifeForm, StorageBehaviour
from tests.cast import Cast
from tests.sites.scene import HARMLESS, LOOKED_OVER, UNTOUCHED

CAMPION = "Silene acaulis"


def species(name: str = CAMPION, **traits: Any) -> Taxon:
    given = {
        "scientific_name": f"{name} (L.) Auct.",
        "canonical": name,
        "search_key": name.lower(),
        "family": "Caryophyllaceae",
        "vernacular": "Moss campion" if name == CAMPION else "",
        "care_class": CareClass.SECURE,
        "life_form": LifeForm.PERENNIAL_HERB,
        "fruit_type": FruitType.DRY_CAPSULE,
        "storage": StorageBehaviour.ORTHODOX,
        "storage_evidence": Evidence.MEMORY,
        "difficulty": Difficulty.EASY,
        "storage_source": "",
        "ripeness_note": "",
        "diagnostic_parts": "",
        "lookalikes": "",
        "note": "",
        **HARMLESS,
    }
    return Taxon(**(given | traits))


def want(
    work: Work, season: Season, taxon: Taxon, *, district: UUID | None = None, priority: int = 2
) -> None:
    """Put a stored species on a season's list, one population of it needed."""
    line = Wanted(season_id=season.id, taxon_id=taxon.id, priority=priority, note="")
    work.db.add(line)
    work.db.flush()
    work.db.add(Need(wanted_id=line.id, populations=1, district_id=district))
    work.db.flush()


def wanted_species(cast: Cast, name: str = CAMPION, **traits: Any) -> UUID:
    """Store a species and put it on the list of both banks' seasons."""
    with cast.everywhere() as work:
        taxon = species(name, **traits)
        work.db.add(taxon)
        work.db.flush()
        for season in (cast.season, cast.far_season):
            want(work, season, taxon)
    return taxon.id


def patch(cast: Cast, taxon_id: UUID, code: str = "SIL-ACA 01", *, granted: bool = False) -> UUID:
    """Store a site of the Fell Bank with one population; nobody is let in yet."""
    with cast.everywhere() as work:
        site = Site(
            bank_id=cast.fell_bank.id, district_id=cast.north.id, name=f"Scar {code}", locality="",
            owner_label="The estate", latitude=47.8, longitude=-28.2, radius_m=300, risk_note="",
            **LOOKED_OVER,
        )  # fmt: skip
        work.db.add(site)
        work.db.flush()
        population = Population(
            bank_id=site.bank_id, site_id=site.id, taxon_id=taxon_id, code=code, label="by the wall",
            latitude=47.8, longitude=-28.2, uncertainty_m=10, threat_note="", **UNTOUCHED,
        )  # fmt: skip
        state = {"state": "granted", "starts_on": cast.season.opens_on} if granted else {}
        permission = Permission(
            bank_id=site.bank_id, site_id=site.id, noted_at=work.now, conditions="", **state
        )
        work.db.add_all([population, permission])
        work.db.flush()
        return population.id


def let_in(cast: Cast, population_id: UUID, name: str) -> None:
    """Let the group of one of the cast in on the site of a population."""
    with cast.everywhere() as work:
        population = work.db.get_one(Population, population_id)
        seat = cast.seats[name]
        work.db.add(
            SiteGrant(
                group_id=seat.group_id, bank_id=seat.bank_id, site_id=population.site_id, since=cast.now
            )
        )


def set_bank(cast: Cast, **settings: Any) -> None:
    """Set the ways of the Fell Bank."""
    with cast.everywhere() as work:
        bank = work.db.get_one(Bank, cast.fell_bank.id)
        for name, value in settings.items():
            setattr(bank, name, value)


def asked(cast: Cast, taxon_id: UUID, name: str = "alice", wish: str = "") -> Adoption:
    """One of the cast asks for a species in the northern district."""
    season = cast.far_season if name == "eve" else cast.season
    with cast.work(name) as work:
        return ask(work, season_id=season.id, taxon_id=taxon_id, district_id=cast.north.id, wish=wish)


def adopted(cast: Cast, taxon_id: UUID, name: str = "alice") -> Adoption:
    """One of the cast holds a species, the bank having said yes at once."""
    set_bank(cast, adoption_mode=AdoptionMode.AUTOMATIC)
    return asked(cast, taxon_id, name)


def stands(cast: Cast, adoption: Adoption) -> Adoption:
    """The adoption as the store has it now."""
    with cast.everywhere() as work:
        return work.db.get_one(Adoption, adoption.id)


def put(cast: Cast, adoption: Adoption, state: AdoptionState) -> None:
    """Set a state without any of its consequences, for walking the table of moves."""
    with cast.everywhere() as work:
        work.db.get_one(Adoption, adoption.id).state = state
