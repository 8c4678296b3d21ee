"""What was handed in agrees with itself and with its site, save where it is meant to be wrong."""

from __future__ import annotations

from collections import Counter
from datetime import date, datetime, time
from typing import Any

import pytest

from hub.sites.rules import runs_on
from hub.vetting.checks import CHECKS
from hub.vetting.models import PhotographKind
from hub.vetting.rules import Severity, SubmissionState
from hub.vetting.schemas import CollectionSchema
from tests.demo.reading import DEMO, inside_site, intends, keyed, populations, rows, season, tallies, toml

NOW = datetime.combine(toml("region.toml")["today"], time(8))
PLAUSIBLE_GAP = 1.15  # a mean of plants may differ this much from the plants collected from
SHORT_LIVED_FORMS = {"annual", "biennial", "monocarpic_perennial"}
TALLY_FIELDS = ("flag", "ripe_fruits", "fruits_taken", "seeds")
SUBMISSIONS = list(season("submission").values())

every_submission = pytest.mark.parametrize("submission", SUBMISSIONS, ids=lambda each: each["key"])


def taxon_of(submission: dict[str, Any]) -> dict[str, Any]:
    name = populations()[submission["population"]]["taxon"]
    return next(taxon for taxon in toml("taxa.toml")["taxon"] if taxon["scientific_name"] == name)


def share_allowed(submission: dict[str, Any]) -> float:
    """The season's share for this population by HANDBOOK §12.1, or as the curator signed."""
    sheet = season("sheet")[submission["sheet"]]
    if "salvage" in sheet:
        return 1.0
    if "sign_off" in sheet:
        return float(sheet["sign_off"]["share"])
    population = populations()[submission["population"]]
    taxon = taxon_of(submission)
    few = int(population["fruiting_plants"]) < 50
    return 0.05 if few or taxon["life_form"] in SHORT_LIVED_FORMS else 0.10


def crop(population: dict[str, str]) -> float:
    """Ripe fruits of the whole population in a season."""
    return int(population["fruiting_plants"]) * float(population["ripe_fruits_per_plant"])


def taken(submission: dict[str, Any]) -> tuple[int, int]:
    """Whole fruits taken, and plants that they came from."""
    mothers = tallies().get(submission["key"], [])
    if mothers:
        return sum(int(row["fruits_taken"]) for row in mothers), len(mothers)
    bulk = submission["collection"]["bulk"]
    return bulk["fruits_taken"], bulk["plants"]


def site_of(submission: dict[str, Any]) -> dict[str, Any]:
    return keyed("sites.toml", "site")[populations()[submission["population"]]["site"]]


@every_submission
def test_the_form_accepts_it(submission: dict[str, Any]) -> None:
    mothers = [{name: row[name] for name in TALLY_FIELDS} for row in tallies().get(submission["key"], [])]
    typed = {
        name: str(value) if isinstance(value, date) else value
        for name, value in submission["collection"].items()
    }
    loaded = CollectionSchema().load(typed | ({"tallies": mothers} if mothers else {}))
    assert loaded.mothers == taken(submission)[1]


@every_submission
def test_rare_plants_have_a_curators_consent(submission: dict[str, Any]) -> None:
    state_rank = taxon_of(submission)["standings"][2]["text"]
    assert ("sign_off" in season("sheet")[submission["sheet"]]) is state_rank.startswith(("S1", "S2"))


@every_submission
def test_it_belongs_to_one_adoption_sheet_and_population(submission: dict[str, Any]) -> None:
    sheet = season("sheet")[submission["sheet"]]
    adoption = season("adoption")[submission["adoption"]]
    assert sheet["adoption"] == adoption["key"]
    assert sheet["population"] == adoption["population"] == submission["population"]
    assert adoption["decided_on"] <= sheet["issued_on"] < submission["collection"]["collected_on"]


@every_submission
def test_its_times_follow_each_other(submission: dict[str, Any]) -> None:
    given = submission["collection"]
    days = [given[day] for day in ("first_ripe_on", "collected_on", "reached_bank_on") if day in given]
    assert days == sorted(days)
    assert given["started_at"] < given["finished_at"]
    assert all(
        photograph["taken_at"].date() == given["collected_on"] for photograph in submission["photographs"]
    )
    if "handed_in_at" in submission:
        handed_in = submission["handed_in_at"].replace(tzinfo=None)
        finished = datetime.combine(given["collected_on"], time.fromisoformat(given["finished_at"]))
        assert finished <= handed_in <= NOW
    else:
        assert submission["state"] == SubmissionState.DRAFT


@every_submission
def test_it_was_collected_when_fruit_is_ripe(submission: dict[str, Any]) -> None:
    taxon = taxon_of(submission)
    ripe = taxon["ripens_from"] <= submission["collection"]["collected_on"].month <= taxon["ripens_to"]
    assert ripe is not intends(submission, "date_plausible")


@every_submission
def test_it_was_decided_after_it_came_in(submission: dict[str, Any]) -> None:
    decision = submission.get("decision")
    if decision is None:
        return
    assert submission["handed_in_at"].date() <= decision["on"] <= NOW.date()
    if decision["outcome"] == "approved":
        adoption = season("adoption")[submission["adoption"]]
        assert (adoption["state"], adoption["state_since"]) == ("fulfilled", decision["on"])


@every_submission
def test_it_was_collected_inside_the_site(submission: dict[str, Any]) -> None:
    collection = submission["collection"]
    inside = inside_site(site_of(submission), collection["latitude"], collection["longitude"])
    assert inside is not intends(submission, "position_in_site")


@every_submission
def test_the_owner_allowed_it(submission: dict[str, Any]) -> None:
    permission = site_of(submission)["permission"]
    last = permission.get("withdrawn_on", permission["ends_on"])
    allowed = runs_on(submission["collection"]["collected_on"], permission["starts_on"], last)
    assert allowed is not intends(submission, "permission_on_the_day")


@every_submission
def test_listed_plants_and_protected_land_have_a_permit(submission: dict[str, Any]) -> None:
    population, site = populations()[submission["population"]], site_of(submission)
    listed = any(standing.get("permit_needed") for standing in taxon_of(submission)["standings"])
    held = [
        permit
        for permit in toml("permits.toml")["permit"]
        if permit["taxon"] == population["taxon"] and permit["site"] == site["key"]
        if runs_on(submission["collection"]["collected_on"], permit["starts_on"], permit["ends_on"])
    ]
    assert held or not (listed or site["protected_area"])
    assert all(submission["collection"]["total_seeds"] <= permit.get("cap_seeds", 10**9) for permit in held)


@every_submission
def test_no_more_was_taken_than_the_share(submission: dict[str, Any]) -> None:
    population = populations()[submission["population"]]
    fruits, plants = taken(submission)
    within = fruits <= share_allowed(submission) * crop(population)
    assert within is not intends(submission, "share_of_population")
    assert plants <= int(population["fruiting_plants"])
    mean_share = fruits / plants / float(population["ripe_fruits_per_plant"])
    assert (mean_share <= share_allowed(submission) * PLAUSIBLE_GAP) is not intends(
        submission, "share_of_plant"
    )


@every_submission
def test_mothers_are_tallied_when_they_should_be(submission: dict[str, Any]) -> None:
    mothers = tallies().get(submission["key"], [])
    assert bool(mothers) is (submission["collection"]["handling"] == "by_mother")
    if not mothers:
        return
    assert len({row["flag"] for row in mothers}) == len(mothers)
    total = sum(int(row["seeds"]) for row in mothers)
    assert (total == submission["collection"]["total_seeds"]) is not intends(submission, "tally_sum")
    for row in mothers:
        allowed = int(share_allowed(submission) * int(row["ripe_fruits"]))
        assert 1 <= int(row["fruits_taken"]) <= allowed, row["flag"]


@every_submission
def test_enough_mothers_were_visited(submission: dict[str, Any]) -> None:
    """HANDBOOK §12.2: fifty mothers, or all of them where fewer bear fruit."""
    goal = min(50, int(populations()[submission["population"]]["fruiting_plants"]))
    assert (taken(submission)[1] >= goal) is not intends(submission, "mothers")


@every_submission
def test_the_cut_test_found_filled_seed(submission: dict[str, Any]) -> None:
    cut = submission["collection"]["cut_test"]
    assert (cut["filled"] >= cut["cut"] / 2) is not intends(submission, "filled_share")


@every_submission
def test_its_words_are_words_of_the_hub(submission: dict[str, Any]) -> None:
    assert SubmissionState(submission["state"])
    assert all(PhotographKind(each["kind"]) for each in submission["photographs"])
    assert all(Severity(each.split(":")[0]) for each in submission["intended_findings"])
    assert (submission["collection"]["container"] == "plastic_bag") is intends(submission, "container")


def test_every_intended_finding_is_one_that_a_check_can_make() -> None:
    intended = {found.split(":")[1] for each in SUBMISSIONS for found in each["intended_findings"]}
    assert intended <= {check.id for check in CHECKS}


def test_every_intended_finding_is_explained() -> None:
    told = (DEMO / "README.md").read_text(encoding="utf-8")
    for submission in SUBMISSIONS:
        for found in submission["intended_findings"]:
            assert f"`{found.split(':')[1]}`" in told


def test_this_season_has_every_severity_and_work_in_every_state() -> None:
    waiting = [each for each in SUBMISSIONS if each["collection"]["collected_on"].year == 2031]
    found = {found.split(":")[0] for each in waiting for found in each["intended_findings"]}
    assert found == set(Severity)
    assert {each["state"] for each in waiting} == set(SubmissionState) - {SubmissionState.WITHDRAWN}
    assert sum(each["state"] == SubmissionState.HANDED_IN for each in waiting) == 12
    assert {each["accession"]["state"] for each in waiting if "accession" in each} == {"processing"}


def test_nobody_is_named_and_addresses_cannot_exist() -> None:
    groups = toml("groups.toml")
    people = [seat for group in groups["group"] for seat in group["seats"]]
    people += groups["bank_seat"] + groups["region_seat"] + groups["hub_seat"]
    assert all(person["email"].endswith(".example") for person in people)
    assert len({person["email"] for person in people}) == len(people)
    for group in groups["group"]:
        assert all(set(crew) == {"nickname", "teacher"} for crew in group.get("crews", []))
        assert group["kind"] == "school" or "crews" not in group


def test_the_list_with_mistakes_has_two_right_rows_and_one_given_twice() -> None:
    given = rows("import_examples/wanted_with_mistakes.csv")
    taxa = {taxon["scientific_name"] for taxon in toml("taxa.toml")["taxon"]}
    notes = Counter(row["note"] for row in given)
    assert notes["Right, but given twice"] == 2
    assert sum("right" in row["note"].lower() for row in given) == 3
    assert any(row["scientific_name"] not in taxa for row in given)
