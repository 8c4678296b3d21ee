"""Sites, owners' answers, populations, counts, permits and the doomed populations, each on its day."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial
from typing import Any

from hub.demo.files import Entry, entries, measure, on, rows, whole, years_in, yes_no
from hub.demo.founding import curator_of
from hub.demo.pictures import signed_letter
from hub.demo.world import Step, World
from hub.sites import actions as sites
from hub.sites import queries
from hub.sites.rules import CensusMethod, Origin, Threat, Trend

OPENED = on(date(2028, 3, 3))
ANSWERED = frozenset({"granted", "withdrawn", "expired"})
BANK_OF_REGION = {"halverin-vale": "hvsb", "corrant-isles": "ciss"}


def bank_of(site: Entry) -> str:
    return BANK_OF_REGION[site["region"]]


def steps() -> list[Step]:
    """Everything that happens on the land."""
    found = [Step(OPENED, open_sites)]
    for site in entries("sites.toml", "site"):
        found += owner_answers(site)
    found += [Step(on(row["census_on"]), partial(add_population, row=row)) for row in known()]
    found += [Step(on(row["on"], 16), partial(count_again, row=row)) for row in later_counts()]
    found += [
        Step(on(permit["issued_on"]), partial(give_permit, permit=permit))
        for permit in entries("permits.toml", "permit")
    ]
    for case in entries("salvage.toml", "salvage"):
        found += salvage(case)
    return found


def known() -> list[Entry]:
    return rows("populations.csv")


def later_counts() -> list[Entry]:
    return rows("censuses.csv")


def open_sites(world: World) -> None:
    for site in entries("sites.toml", "site"):
        world.ids["bank of site"][site["key"]] = world.ids["bank"][bank_of(site)]
        with world.working(curator_of(bank_of(site)), OPENED) as work:
            opened = sites.open_site(
                work,
                district_id=world.ids["district"][site["district"]],
                ecoregion_id=world.ids["ecoregion"].get(site["ecoregion"]),
                outline=outline_of(site),
                owner_label=site["owner"],
                **{name: site[name] for name in SITE_FIELDS},
            )
            world.ids["site"][site["key"]] = opened.id


SITE_FIELDS = (
    "name", "latitude", "longitude", "radius_m", "habitat", "locality", "risks", "protected_area",
    "own_consent_needed",
)  # fmt: skip


def outline_of(site: Entry) -> dict[str, Any] | None:
    return {"type": "Polygon", "coordinates": [site["polygon"]]} if "polygon" in site else None


def owner_answers(site: Entry) -> list[Step]:
    """The owner is asked and answers; what was granted may end or be withdrawn."""
    asked = site["permission"]
    if asked["state"] == "to ask":
        return []
    found = [Step(on(asked["asked_on"]), lambda world: ask_owner(world, site))]
    if asked["state"] in ANSWERED:
        found.append(Step(on(asked["answered_on"]), lambda world: owner_grants(world, site)))
    if asked["state"] == "refused":
        found.append(Step(on(asked["answered_on"]), lambda world: owner_refuses(world, site)))
    if asked["state"] == "withdrawn":
        found.append(Step(on(asked["withdrawn_on"]), lambda world: owner_withdraws(world, site)))
    if asked["state"] == "expired":
        found.append(Step(on(asked["ends_on"]) + timedelta(days=1), lambda world: papers_expire(world, site)))
    return found


def ask_owner(world: World, site: Entry) -> None:
    """The bank asks, or the group that means to collect there."""
    day, by = site["permission"]["asked_on"], site["permission"].get("asked_by")
    curator = curator_of(bank_of(site))
    site_id = world.ids["site"][site["key"]]
    if by in world.ids["group"]:
        with world.working(curator, on(day, 8)) as work:
            sites.share_site(work, site_id=site_id, group_id=world.ids["group"][by])
        curator = f"{by}-lead"
    with world.working(curator, on(day)) as work:
        sites.ask_permission(work, site_id=site_id, on=day)


def owner_grants(world: World, site: Entry) -> None:
    answer = site["permission"]
    with world.working(curator_of(bank_of(site)), on(answer["answered_on"])) as work:
        permission = queries.newest_permission(work, world.ids["site"][site["key"]])
        letter = signed_letter(site["owner"], answer["answered_on"]) if answer.get("signed_letter") else b""
        sites.grant_permission(
            work,
            permission_id=permission.id if permission else site["key"],
            signed_file=work.files.keep(letter, kind="permissions", ending="webp") if letter else "",
            conditions=answer.get("conditions", ""),
            **{name: answer[name] for name in ("answered_on", "starts_on", "ends_on")},
        )


def owner_refuses(world: World, site: Entry) -> None:
    answer = site["permission"]
    with world.working(curator_of(bank_of(site)), on(answer["answered_on"])) as work:
        permission = queries.newest_permission(work, world.ids["site"][site["key"]])
        if permission is not None:
            sites.refuse_permission(
                work,
                permission_id=permission.id,
                answered_on=answer["answered_on"],
                reason=answer.get("remark", ""),
            )


def owner_withdraws(world: World, site: Entry) -> None:
    answer = site["permission"]
    with world.working(curator_of(bank_of(site)), on(answer["withdrawn_on"])) as work:
        permission = queries.newest_permission(work, world.ids["site"][site["key"]])
        if permission is not None:
            sites.withdraw_permission(work, permission_id=permission.id, reason=answer.get("remark", ""))


def papers_expire(world: World, site: Entry) -> None:
    with world.founding(on(site["permission"]["ends_on"]) + timedelta(days=1)) as work:
        sites.expire_due(work)


def add_population(world: World, row: Entry) -> None:
    """A population with its first count; who confirmed the species is the bank."""
    day = on(row["census_on"])
    bank = "ciss" if world.ids["bank of site"][row["site"]] == world.ids["bank"]["ciss"] else "hvsb"
    with world.working(curator_of(bank), day) as work:
        population = sites.add_population(
            work,
            site_id=world.ids["site"][row["site"]],
            taxon_id=world.ids["taxon"][row["taxon"]],
            code=row["code"],
            label=row["label"],
            latitude=float(row["latitude"]),
            longitude=float(row["longitude"]),
            uncertainty_m=float(row["uncertainty_m"]),
            origin=Origin(row["origin"]),
            trend=Trend(row["trend"]),
            threat=Threat(row["threat"]),
            threat_note=row["threat_note"],
            years_collected_before=years_in(row["years_collected_before"]),
        )
        world.ids["population"][row["key"]] = population.id
        world.ids["bank of population"][row["key"]] = population.bank_id
        if row["identity_verified"] == "yes":
            sites.verify_identity(work, population_id=population.id, how="Seen by a curator on the day.")
        count(work, world, row["key"], row, day_name="census_on", method=row["census_method"])


def count(work: Any, world: World, key: str, row: Entry, *, day_name: str, method: str) -> None:
    sites.record_census(
        work,
        population_id=world.ids["population"][key],
        counted_on=date.fromisoformat(row[day_name]),
        method=CensusMethod(method),
        plants=int(row["plants"]),
        fruiting_plants=whole(row["fruiting_plants"]),
        fruits_per_plant=measure(row["ripe_fruits_per_plant"]),
        seeds_per_fruit=measure(row["good_seeds_per_fruit"]),
        plants_counted=whole(row["plants_counted"]),
        poor_year=yes_no(row["poor_year"]),
    )


def count_again(world: World, row: Entry) -> None:
    """A later count, entered by the bank for whoever counted."""
    bank = (
        "ciss" if world.ids["bank of population"][row["population"]] == world.ids["bank"]["ciss"] else "hvsb"
    )
    with world.working(curator_of(bank), on(row["on"], 16)) as work:
        count(work, world, row["population"], row, day_name="on", method=row["method"])


def give_permit(world: World, permit: Entry) -> None:
    with world.working(curator_of(permit["bank"]), on(permit["issued_on"])) as work:
        sites.record_permit(
            work,
            taxon_id=world.ids["taxon"][permit["taxon"]],
            site_id=world.ids["site"][permit["site"]],
            cap_seeds=permit.get("cap_seeds"),
            **{name: permit[name] for name in ("authority", "number", "starts_on", "ends_on", "conditions")},
        )


def salvage(case: Entry) -> list[Step]:
    """The case is brought; the owner agrees and the curator decides, as far as it has come."""

    def bring(world: World) -> None:
        with world.working("curator", on(case["evidence_on"])) as work:
            brought = sites.ask_salvage(
                work,
                population_id=world.ids["population"][case["population"]],
                **{name: case[name] for name in ("evidence", "evidence_on", "loss_expected_on")},
            )
            world.ids["salvage"][case["key"]] = brought.id

    def agree(world: World) -> None:
        with world.working("curator", on(case["owner_agreed_on"])) as work:
            sites.agree_salvage(
                work, salvage_id=world.ids["salvage"][case["key"]], on=case["owner_agreed_on"]
            )

    def decide(world: World) -> None:
        with world.working("curator", on(case["decided_on"])) as work:
            sites.decide_salvage(
                work, salvage_id=world.ids["salvage"][case["key"]], approve=True, reason=case["reason"]
            )

    does = {"evidence_on": bring, "owner_agreed_on": agree, "decided_on": decide}
    return [Step(on(case[day]), step) for day, step in does.items() if day in case]
