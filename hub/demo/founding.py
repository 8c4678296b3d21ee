"""The first days: regions, banks, staff, species, wanted lists, and the groups that ask to join."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from functools import partial
from typing import Any
from uuid import UUID

from hub.accounts.actions import open_sealed_account
from hub.db.work import Work
from hub.demo.files import Entry, entries, features, folder, on
from hub.demo.world import Step, World
from hub.groups.actions import ask_to_join, settle_bank
from hub.groups.actions import move as move_group
from hub.groups.crews import add_crew
from hub.groups.land import add_bank, add_district, add_region, draw_region
from hub.groups.models import AdoptionMode, Group, GroupKind, GroupState
from hub.groups.rules import AgeBand
from hub.groups.seats import seat
from hub.rights.scope import BANK_ROLES, GROUP_ROLES, Role
from hub.taxa import actions as taxa
from hub.taxa.models import Difficulty, Evidence, StandingKind
from hub.taxa.rules import FruitType, Hazard, LifeForm, StorageBehaviour
from hub.taxa.standings import StandingGiven
from hub.taxa.wanted_file import read_wanted

BEGINNING = on(date(2028, 1, 10))
RANKED = on(date(2028, 3, 2))
PASSWORD = "paper bags and patience"  # noqa: S105  everybody's in the demo, and printed when it starts
BANK_POLICY = (
    "adoption_mode", "groups_per_species", "adoptions_per_group", "home_freezing", "law_note", "address",
    "email", "zone",
)  # fmt: skip
CHOICES: dict[str, Any] = {
    "life_form": LifeForm,
    "fruit_type": FruitType,
    "storage": StorageBehaviour,
    "storage_evidence": Evidence,
    "difficulty": Difficulty,
}
NOT_TRAITS = frozenset(
    {
        "key",
        "scientific_name",
        "ecoregions",
        "ecoregions_of_corrant",
        "standings",
        "seed_mass_evidence",
        "introduction_found_on",
    }
)


def lay_out(world: World) -> None:
    """Regions, districts, ecoregions and banks."""
    with world.founding(BEGINNING) as work:
        for region in entries("region.toml", "region"):
            made = add_region(work, code=region["code"], name=region["name"])
            world.ids["region"][region["key"]] = made.id
            draw_region(work, region_id=made.id, outline=waters_of(region["key"]))
        for feature in features("districts.geojson"):
            district = add_district(
                work,
                region_id=world.ids["region"][feature["properties"]["region"]],
                code=feature["id"],
                name=feature["properties"]["name"],
                geometry=feature["geometry"],
            )
            world.ids["district"][feature["id"]] = district.id
        for bank in entries("region.toml", "bank"):
            region_id = world.ids["region"][bank["region"]]
            found = add_bank(
                work, region=region_id, **{name: bank[name] for name in ("code", "name", "email", "zone")}
            )
            world.ids["bank"][bank["key"]] = found.id
            world.ids["region of bank"][bank["key"]] = region_id


def waters_of(region: str) -> dict[str, Any]:
    """The rivers and lakes of a region, to find one's way on its map."""
    kinds = {"rivers": "rivers.geojson", "lakes": "lake.geojson"}
    return {
        kind: [each["geometry"] for each in features(name) if each["properties"].get("region") == region]
        for kind, name in kinds.items()
    }


def staff(world: World) -> None:
    """Everybody who works for a bank, a region or the hub."""
    for table in ("bank_seat", "region_seat", "hub_seat"):
        for entry in entries("groups.toml", table):
            take_seat(world, entry, BEGINNING)
    for bank in entries("region.toml", "bank"):
        with world.working(curator_of(bank["key"]), BEGINNING) as work:
            policy = {name: bank[name] for name in BANK_POLICY}
            settle_bank(work, **policy | {"adoption_mode": AdoptionMode(bank["adoption_mode"])})


def take_seat(world: World, entry: Entry, at: datetime, group: Group | None = None) -> None:
    """A new account with its seat."""
    role = Role(entry["role"])
    bank_id = world.ids["bank"][entry["bank"]] if role in BANK_ROLES else None
    region_id = world.ids["region"][entry["region"]] if role is Role.COORDINATOR else None
    if role in GROUP_ROLES and group is not None:
        bank_id, region_id = group.bank_id, group.region_id
    with world.founding(at) as work:
        person = open_sealed_account(work, email=entry["email"], name=entry["name"])
        person.password_hash = world.password_hash
        group_id = group.id if group else None
        taken = seat(work, person=person, role=role, group_id=group_id, bank_id=bank_id, region_id=region_id)
    home = world.ids["region of bank"].get(entry.get("bank", ""))
    world.seat_taken(entry["key"], taken, home)


def curator_of(bank: str) -> str:
    """The key of the seat of a bank's first curator."""
    seats = entries("groups.toml", "bank_seat")
    key: str = next(each["key"] for each in seats if each["bank"] == bank and each["role"] == "curator")
    return key


def species(world: World) -> None:
    """Ecoregions, and every species with its traits, ranks and lists."""
    with world.founding(BEGINNING) as work:
        for feature in features("ecoregions.geojson"):
            made = taxa.add_ecoregion(
                work,
                region_id=world.ids["region"][feature["properties"]["region"]],
                scheme=feature["properties"].get("scheme", "Halverin ecoregions (invented)"),
                code=feature["id"],
                name=feature["properties"]["name"],
                geometry=feature["geometry"],
            )
            world.ids["ecoregion"][feature["id"]] = made.id
    with world.working("curator", RANKED) as work:
        for entry in entries("taxa.toml", "taxon"):
            taxon = taxa.add(work, scientific_name=entry["scientific_name"], **traits_of(entry))
            world.ids["taxon"][entry["scientific_name"]] = taxon.id
            grows_in(world, work, taxon.id, entry["ecoregions"])
            taxa.set_standings(
                work, taxon_id=taxon.id, standings=[standing_of(each) for each in entry["standings"]]
            )
    with world.working("corrant-curator", RANKED) as work:
        for entry in entries("taxa.toml", "taxon"):
            if "ecoregions_of_corrant" in entry:
                taxon_id = world.ids["taxon"][entry["scientific_name"]]
                grows_in(world, work, taxon_id, entry["ecoregions_of_corrant"])


def grows_in(world: World, work: Work, taxon_id: UUID, codes: list[str]) -> None:
    """A bank says in which ecoregions of its region a species grows."""
    ids = [world.ids["ecoregion"][code] for code in codes]
    taxa.set_ecoregions(work, taxon_id=taxon_id, ecoregion_ids=ids)


def traits_of(entry: Entry) -> dict[str, Any]:
    """A species' traits as its form would send them."""
    traits = {name: value for name, value in entry.items() if name not in NOT_TRAITS}
    if "introduction_found_on" in entry:
        traits["native"] = True  # as everybody thought until that day
    traits |= {name: kind(traits[name]) for name, kind in CHOICES.items() if name in traits}
    if "hazards" in entry:
        traits["hazards"] = tuple(Hazard(each) for each in entry["hazards"])
    return traits


def corrections() -> list[Step]:
    """A species that turns out to have been brought here by people."""
    found = [entry for entry in entries("taxa.toml", "taxon") if "introduction_found_on" in entry]
    return [Step(on(entry["introduction_found_on"]), partial(correct, entry=entry)) for entry in found]


def correct(world: World, entry: Entry) -> None:
    with world.working("curator", on(entry["introduction_found_on"])) as work:
        taxa.change(work, taxon_id=world.ids["taxon"][entry["scientific_name"]], native=entry["native"])


def standing_of(entry: Entry) -> StandingGiven:
    return StandingGiven(**{**entry, "kind": StandingKind(entry["kind"])})


def groups(world: World) -> list[Step]:
    """Each group asks, is let in by its bank, and takes its seats; one still waits."""
    steps = []
    for entry in entries("groups.toml", "group"):
        steps.append(Step(on(entry["asked_on"]), partial(join, entry=entry)))
        if entry["state"] == "active":
            steps.append(Step(on(entry["approved_on"]), partial(let_in, entry=entry)))
    return steps


def join(world: World, entry: Entry) -> None:
    with world.founding(on(entry["asked_on"])) as work:
        group = ask_to_join(
            work,
            name=entry["name"],
            kind=GroupKind(entry["kind"]),
            district=world.ids["district"][entry["district"]],
            bank=world.ids["bank"][entry["bank"]],
            about=entry["about"],
            contact_name=entry["contact_name"],
            contact_email=entry["contact_email"],
        )
        group.experienced = entry["experienced"]
        world.ids["group"][entry["key"]] = group.id


def let_in(world: World, entry: Entry) -> None:
    """The bank says yes; everybody takes a seat, and the teachers name their crews."""
    at = on(entry["approved_on"], hour=11)
    with world.working(curator_of(entry["bank"]), at) as work:
        group = move_group(work, world.ids["group"][entry["key"]], GroupState.ACTIVE)
    for each in entry["seats"]:
        take_seat(world, each, at, group)
    for crew in entry.get("crews", ()):
        with world.working(crew["teacher"], at) as work:
            add_crew(work, nickname=crew["nickname"], headcount=12, age_band=AgeBand.MIXED)


def seasons(world: World) -> list[Step]:
    """Each bank opens its seasons a month ahead and takes in its wanted list."""
    return [
        Step(on(entry["opens_on"]) - timedelta(days=30), partial(open_season, entry=entry))
        for entry in entries("region.toml", "season")
    ]


def open_season(world: World, entry: Entry) -> None:
    at = on(entry["opens_on"]) - timedelta(days=30)
    days = {name: entry[name] for name in ("year", "opens_on", "closes_on", "lapses_on")}
    with world.working(curator_of(entry["bank"]), at) as work:
        season = taxa.open_season(work, **days)
        world.ids["season"][f"{entry['bank']} {entry['year']}"] = season.id
        taxa.import_wanted(work, season_id=season.id, rows=read_wanted(wanted_list(entry)).rows)


def wanted_list(entry: Entry) -> bytes:
    """The file of a bank's wanted list for a year."""
    bank = "" if entry["bank"] == "hvsb" else "corrant_"
    return (folder() / f"wanted_{bank}{entry['year']}.csv").read_bytes()


def season_of(world: World, bank: str, year: int) -> UUID:
    return world.ids["season"][f"{bank} {year}"]
