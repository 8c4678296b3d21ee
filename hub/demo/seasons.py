"""Three seasons: adoptions, sheets, what was handed in, and what the bank made of it, each on its day."""

from __future__ import annotations

from datetime import time, timedelta
from functools import cache, partial
from typing import Any
from uuid import UUID

from hub.accessions import actions as accessions
from hub.accessions.queries import lots_of
from hub.accessions.rules import AccessionState
from hub.adoptions import actions as adoptions
from hub.db.work import Work
from hub.demo.files import Entry, entries, on, rows, years
from hub.demo.founding import curator_of, season_of
from hub.demo.pictures import photograph
from hub.demo.world import Step, World
from hub.protocols import actions as protocols
from hub.vetting import actions as vetting
from hub.vetting import queries as submissions
from hub.vetting.collection import Collection
from hub.vetting.models import PhotographKind
from hub.vetting.rules import FindingState, Severity
from hub.vetting.schemas import CollectionSchema

CAME_WELL = "Bags whole and dry; no mould."
GIVEN_UP = {"released": adoptions.release, "suspended": adoptions.suspend}


def steps() -> list[Step]:
    """Everything that happens in the seasons."""
    found: list[Step] = []
    for year in years():
        name = f"seasons/{year}.toml"
        for adoption in entries(name, "adoption"):
            found += adopt(adoption, year)
        found += [
            Step(on(sheet["issued_on"], 17), partial(issue_sheet, entry=sheet))
            for sheet in entries(name, "sheet")
        ]
        for submission in entries(name, "submission"):
            found += hand_in(submission, year)
    changes = entries("rule_changes.toml", "change")
    return found + [Step(on(each["made_on"]), partial(change_rule, entry=each)) for each in changes]


@cache
def groups() -> dict[str, Entry]:
    return {group["key"]: group for group in entries("groups.toml", "group")}


def lead_of(group: str) -> str:
    """The key of the seat of a group's first lead."""
    return next(each["key"] for each in groups()[group]["seats"] if each["role"] == "lead")


def bank_of(group: str) -> str:
    return str(groups()[group]["bank"])


def adopt(entry: Entry, year: int) -> list[Step]:
    """The group asks, the bank answers; later the group may let go, or the bank step in."""
    found = [Step(on(entry["requested_on"]), lambda world: ask(world, entry, year))]
    if "decided_on" in entry:
        found.append(Step(on(entry["decided_on"], 10), lambda world: decide(world, entry)))
    if entry["state"] in GIVEN_UP:
        found.append(Step(on(entry["state_since"], 12), lambda world: give_up(world, entry)))
    if entry["state"] == "lapsed":
        found.append(Step(on(entry["state_since"], 12), lambda world: let_lapse(world, entry)))
    return found


def ask(world: World, entry: Entry, year: int) -> None:
    with world.working(lead_of(entry["group"]), on(entry["requested_on"])) as work:
        asked = adoptions.ask(
            work,
            season_id=season_of(world, bank_of(entry["group"]), year),
            taxon_id=world.ids["taxon"][entry["taxon"]],
            district_id=world.ids["district"][entry["district"]],
            wish=entry.get("wish", ""),
        )
        world.ids["adoption"][entry["key"]] = asked.id
        world.ids["adopter"][entry["key"]] = asked.group_id


def decide(world: World, entry: Entry) -> None:
    """Declined with a reason, or accepted with a population to collect from."""
    adoption_id = world.ids["adoption"][entry["key"]]
    seat = entry.get("decided_by", curator_of(bank_of(entry["group"])))
    seat = seat if seat in world.scopes else curator_of(bank_of(entry["group"]))
    with world.working(seat, on(entry["decided_on"], 10)) as work:
        if entry["state"] == "declined":
            adoptions.decline(work, adoption_id=adoption_id, reason=entry["reason"])
            return
        if bank_of(entry["group"]) == "hvsb":
            adoptions.accept(work, adoption_id=adoption_id)
        if "population" in entry and entry["state"] != "lapsed":
            population_id = world.ids["population"][entry["population"]]
            adoptions.hold_population(work, adoption_id=adoption_id, population_id=population_id)


def give_up(world: World, entry: Entry) -> None:
    released = entry["state"] == "released"
    seat = lead_of(entry["group"]) if released else curator_of(bank_of(entry["group"]))
    with world.working(seat, on(entry["state_since"], 12)) as work:
        verb = GIVEN_UP[entry["state"]]
        verb(work, adoption_id=world.ids["adoption"][entry["key"]], reason=entry.get("reason", ""))


def let_lapse(world: World, entry: Entry) -> None:
    with world.founding(on(entry["state_since"], 12)) as work:
        adoptions.lapse_due(work)


def issue_sheet(world: World, entry: Entry) -> None:
    """The curator consents where the rules ask for it; then the sheet is issued."""
    adoption_id = world.ids["adoption"][entry["adoption"]]
    population_id = world.ids["population"][entry["population"]]
    if "sign_off" in entry:
        consent = entry["sign_off"]
        with world.working(consent["by"], on(consent["on"])) as work:
            protocols.sign_off(
                work,
                adoption_id=adoption_id,
                population_id=population_id,
                share=consent["share"],
                reason=consent["reason"],
            )
    by = entry["issued_by"]
    seat = by if by in world.scopes else lead_of(by)
    with world.working(seat, on(entry["issued_on"], 17)) as work:
        issued = protocols.issue(work, adoption_id=adoption_id, population_id=population_id)
        world.ids["sheet"][entry["key"]] = issued.id


def change_rule(world: World, entry: Entry) -> None:
    with world.working("curator", on(entry["made_on"])) as work:
        protocols.make_override(
            work,
            rule_id=entry["rule"],
            taxon_id=world.ids["taxon"][entry["taxon"]],
            **{name: entry[name] for name in ("figure", "value", "reason", "evidence", "ends_on")},
        )


def hand_in(entry: Entry, year: int) -> list[Step]:
    """A draft, photographs, the hand-in, returns and the decision."""
    if entry["state"] in ("draft", "withdrawn"):
        return unfinished(entry, year)
    at = on(entry["handed_in_at"])
    found = [Step(at, lambda world: first_hand_in(world, entry, year))]
    for event in entry.get("history", ()):
        found.append(Step(on(event["on"], 15), partial(follow_up, entry=entry, event=event, year=year)))
    if "decision" in entry:
        found.append(Step(on(entry["decision"]["on"], 14), lambda world: verdict(world, entry)))
    if entry.get("accession", {}).get("state") in ("stored", "living"):
        found.append(Step(on(entry["accession"]["since"]), lambda world: put_away(world, entry)))
    return found


def unfinished(entry: Entry, year: int) -> list[Step]:
    """Drafts that wait, and one that was given up."""
    begun = on(entry.get("begun_at") or entry["handed_in_at"])
    found = [Step(begun, lambda world: write_draft(world, entry, year))]
    if entry["state"] == "withdrawn":
        found.append(Step(on(entry["withdrawn_on"], 20), lambda world: withdraw(world, entry)))
    return found


def group_of(world: World, entry: Entry) -> str:
    """The group that handed in, by its key."""
    adopter = world.ids["adopter"][entry["adoption"]]
    return next(key for key, group_id in world.ids["group"].items() if group_id == adopter)


def begin(world: World, work: Any, entry: Entry) -> UUID:
    """A submission with its photographs."""
    begun = vetting.begin(work, sheet_id=world.ids["sheet"][entry["sheet"]], sent_key=entry["key"])
    world.ids["submission"][entry["key"]] = begun.id
    for number, picture in enumerate(entry.get("photographs", ())):
        vetting.add_photograph(
            work,
            submission_id=begun.id,
            kind=PhotographKind(picture["kind"]),
            upload=photograph(picture, f"{entry['key']}-{number}"),
        )
    return begun.id


def write_draft(world: World, entry: Entry, year: int) -> None:
    at = on(entry.get("begun_at") or entry["handed_in_at"])
    with world.working(lead_of(group_of(world, entry)), at) as work:
        submission_id = begin(world, work, entry)
        vetting.save_draft(work, submission_id=submission_id, draft=typed(entry))


def typed(entry: Entry) -> list[tuple[str, str]]:
    """The plain boxes of a form as somebody had filled them when they stopped."""
    boxes = entry.get("collection", {})
    return [(name, str(value)) for name, value in boxes.items() if not isinstance(value, dict | list | bool)]


def withdraw(world: World, entry: Entry) -> None:
    with world.working(lead_of(group_of(world, entry)), on(entry["withdrawn_on"], 20)) as work:
        vetting.withdraw(work, submission_id=world.ids["submission"][entry["key"]])


def first_hand_in(world: World, entry: Entry, year: int) -> None:
    with world.working(lead_of(group_of(world, entry)), on(entry["handed_in_at"])) as work:
        submission_id = begin(world, work, entry)
        data = collection(entry, year, before_return=True)
        vetting.hand_in(work, submission_id=submission_id, data=data)


def collection(entry: Entry, year: int, *, before_return: bool = False) -> Collection:
    """What the form would send, read by the form's own schema."""
    data = {name: plain(value) for name, value in entry["collection"].items()}
    tallies = [row for row in rows(f"seasons/{year}_tallies.csv") if row["submission"] == entry["key"]]
    if tallies:
        names = ("flag", "ripe_fruits", "fruits_taken", "seeds")
        data["tallies"] = [{name: row[name] for name in names if row[name]} for row in tallies]
    if before_return:
        for name, value in entry.get("before_return", {}).items():
            data[name] = value or None
    read: Collection = CollectionSchema().load(
        {name: value for name, value in data.items() if value is not None}
    )
    return read


def plain(value: Any) -> Any:
    """A value as JSON has it: days as text."""
    return value.isoformat() if hasattr(value, "isoformat") else value


def follow_up(world: World, entry: Entry, event: Entry, year: int) -> None:
    """A return by the bank, or the group's answer to it."""
    submission_id = world.ids["submission"][entry["key"]]
    at = on(event["on"], 15)
    group = group_of(world, entry)
    if event["did"] == "returned":
        with world.working(curator_of(bank_of(group)), at) as work:
            vetting.send_back(work, submission_id=submission_id, remarks=event["remark"])
    else:
        with world.working(lead_of(group), at) as work:
            vetting.hand_in(work, submission_id=submission_id, data=collection(entry, year))


def verdict(world: World, entry: Entry) -> None:
    """Approved, with what stood in the way overruled by name, or declined."""
    decision, submission_id = entry["decision"], world.ids["submission"][entry["key"]]
    with world.working(decision["by"], on(decision["on"], 14)) as work:
        if decision["outcome"] == "declined":
            vetting.decline(work, submission_id=submission_id, reason=decision["remark"])
            return
        settle_stops(work, submission_id)
        came = entry["collection"].get("reached_bank_on", work.today)
        vetting.seed_arrived(work, submission_id=submission_id, day=came, at=time(9), note=CAME_WELL)
        made = accessions.approve(work, submission_id=submission_id, remark=decision["remark"])
        world.ids["accession"][entry["key"]] = made.id


def settle_stops(work: Any, submission_id: UUID) -> None:
    """A curator of the demo overrules what the checks still forbid, and says so."""
    submission = submissions.get(work, submission_id)
    standing = [
        finding.id
        for finding in submissions.findings(work, submission)
        if finding.severity is Severity.STOP and finding.state is FindingState.OPEN
    ]
    if standing:
        reason = "Asked the group by telephone; the collection is sound."
        vetting.settle(work, finding_ids=standing, state=FindingState.OVERRULED, reason=reason)


def put_away(world: World, entry: Entry) -> None:
    """Dried and put in its place, or sown."""
    since, state = on(entry["accession"]["since"]), AccessionState(entry["accession"]["state"])
    accession_id = world.ids["accession"][entry["key"]]
    with world.working("technician", since + timedelta(hours=1)) as work:
        if state is AccessionState.STORED:
            accessions.place_lots(work, accession_id=accession_id, lots=in_drawers(work, accession_id))
        accessions.move(work, accession_id=accession_id, wanted=state)


def in_drawers(work: Work, accession_id: UUID) -> list[dict[str, Any]]:
    """Twenty lots to a drawer of the freezer."""
    return [
        {"lot_id": lot.id, "container": "foil bag", "place": f"Freezer 1, drawer {at // 20 + 1}"}
        for at, lot in enumerate(lots_of(work, accession_id))
    ]
