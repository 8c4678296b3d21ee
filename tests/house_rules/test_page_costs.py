"""What each page asks of the store is known, and no page asks more when there is more.

A season is played, every page is opened by everybody who may, and each row is then given copies beside it
and below it. A page with no figure here, or with another one, fails.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
import time_machine
from flask import Flask

from hub.taxa.queries import find
from hub.web.caller import HOUSE
from tests.cast import Cast
from tests.house_rules.belongings import Belongings, gather_belongings
from tests.house_rules.forms_found import SEATS, filled_in
from tests.support.browser import Browser, asked
from tests.support.databases import SqliteTemplate
from tests.support.growing import COPIES, Growth

ROOT = Path(__file__).resolve().parents[2]

# Statements to the store for one page, by whoever asks for most; finding out who asks is one of them.
COSTS = {
    "accessions.accession": 11,
    "accessions.ask_approve": 6,
    "accessions.ask_move": 6,
    "accessions.book": 6,
    "accessions.labels": 4,
    "accessions.labels_pdf": 9,
    "accessions.lot": 6,
    "accessions.made": 5,
    "accessions.ours": 5,
    "accessions.places": 4,
    "accessions.thanks_pdf": 9,
    "accounts.account": 5,
    "accounts.ask_reset": 1,
    "accounts.keys": 2,
    "accounts.password": 1,
    "accounts.second_step": 3,
    "accounts.sign_in": 0,
    "adoptions.adoption": 10,
    "adoptions.ask": 11,
    "adoptions.ask_let_go": 4,
    "adoptions.ask_move": 4,
    "adoptions.ask_release": 4,
    "adoptions.find": 9,
    "adoptions.requests": 6,
    "api.offers": 1,
    "groups.about_group": 2,
    "groups.ask_end_officer": 3,
    "groups.ask_end_seat": 3,
    "groups.ask_end_staff": 3,
    "groups.ask_leave": 2,
    "groups.asked": 1,
    "groups.audit_log": 2,
    "groups.bank": 4,
    "groups.bank_settings": 2,
    "groups.close_account": 1,
    "groups.crew": 2,
    "groups.group": 6,
    "groups.groups": 3,
    "groups.hub": 6,
    "groups.hub_condition": 4,
    "groups.hub_letters": 2,
    "groups.invite": 2,
    "groups.invite_lead": 2,
    "groups.invite_officer": 2,
    "groups.invite_staff": 1,
    "groups.join": 3,
    "groups.new_bank": 2,
    "groups.new_crew": 2,
    "groups.new_district": 2,
    "groups.new_region": 1,
    "groups.our_group": 6,
    "groups.sign_in_of": 6,
    "calculators.every": 1,
    "progress.our_season": 9,
    "progress.public": 7,
    "progress.region": 9,
    "progress.stalled": 3,
    "protocols.consent": 25,
    "protocols.end_override": 2,
    "protocols.form_on_paper": 3,
    "protocols.overrides": 2,
    "protocols.rules": 1,
    "protocols.sheet": 5,
    "protocols.sheet_on_paper": 3,
    "protocols.sheets": 5,
    "protocols.take_back": 2,
    "protocols.try_rules": 1,
    "protocols.withdraw": 3,
    "sites.add_population": 3,
    "sites.agree_salvage": 3,
    "sites.census": 4,
    "sites.change_population": 3,
    "sites.change_site": 3,
    "sites.decide_salvage": 3,
    "sites.end_permit": 2,
    "sites.grant": 3,
    "sites.keep_signed": 3,
    "sites.letter": 7,
    "sites.letter_pdf": 6,
    "sites.open_site": 2,
    "sites.permits": 2,
    "sites.population": 11,
    "sites.record_permit": 3,
    "sites.refuse": 3,
    "sites.retire_population": 2,
    "sites.salvage": 2,
    "sites.site": 8,
    "sites.sites": 4,
    "sites.verify_identity": 3,
    "sites.withdraw": 3,
    "taxa.add_line": 5,
    "taxa.ask_remove_line": 4,
    "taxa.edit_ecoregions": 6,
    "taxa.edit_line": 8,
    "taxa.edit_season": 2,
    "taxa.edit_species": 2,
    "taxa.edit_standings": 3,
    "taxa.empty_list": 6,
    "taxa.import_list": 3,
    "taxa.new_season": 1,
    "taxa.new_species": 1,
    "taxa.plant": 3,
    "taxa.seasons": 3,
    "taxa.show": 6,
    "taxa.species": 3,
    "taxa.wanted": 6,
    "taxa.whole_list": 9,
    "vetting.ask_arrival": 3,
    "vetting.ask_to_decline": 3,
    "vetting.ask_to_return": 5,
    "vetting.ask_withdraw": 2,
    "vetting.bench": 6,
    "vetting.consents": 4,
    "vetting.findings": 2,
    "vetting.hand_ins": 3,
    "vetting.handed_in": 6,
    "vetting.new_hand_in": 4,
    "vetting.on_bench": 15,
    "vetting.photograph": 2,
    "vetting.photographs": 4,
    "vetting.small_photograph": 2,
    "vetting.submission": 9,
    "vetting.write": 10,
}
# These need more than a key to be opened: a link by mail, an upload, a draft, a change just made, an import.
# Each is opened by the tests of the file named here.
OPENED_ELSEWHERE = {
    "accounts.code": "accounts/test_page_code.py",
    "accounts.new_password": "accounts/test_page_reset.py",
    "accounts.set_up": "accounts/test_page_second_step.py",
    "adoptions.decide": "adoptions/test_page_adoptions.py",
    "calculators.calculator": "calculators/test_pages.py",
    "front.start": "accounts/test_page_sign_in.py",
    "groups.invitation": "groups/test_page_invitation.py",
    "protocols.by_number": "protocols/test_page_sheets.py",
    "protocols.change_rule": "protocols/test_page_rules.py",
    "sites.evidence": "sites/test_page_salvage.py",
    "sites.signed": "sites/test_page_permission.py",
    "taxa.look_at_undo": "taxa/test_page_import.py",
    "vetting.review": "vetting/test_page_review.py",
}
LEFT_ALONE = ("/api/", "/static/", "/health")  # programs, and files


@dataclass(frozen=True)
class Cost:
    """What one request came to."""

    status: int
    statements: int


Costs = dict[tuple[str, str, str | None], Cost]  # by endpoint, address and seat


@pytest.fixture
def database_url(sqlite_template: SqliteTemplate) -> str:
    """One kind of database: what is asked of it does not depend on which it is."""
    return sqlite_template.copy()


@pytest.fixture
def played(app: Flask, cast: Cast) -> Iterator[Belongings]:
    with time_machine.travel(cast.now, tick=True):
        yield gather_belongings(cast)


def pages(app: Flask, played: Belongings) -> dict[str, list[str]]:
    """The addresses of every page, by endpoint, with keys of the played season in them."""
    cast = played.cast
    with cast.everywhere() as work:
        taxon = find(work, "Silene acaulis")
    assert taxon
    places = {"district_id": cast.north.id, "region_id": cast.region.id, "season_id": cast.season.id}
    draft = {"submission_id": played.ids["draft_id"]}
    own = {"vetting.write": draft, "vetting.review": draft}
    own["groups.ask_end_staff"] = {"seat_id": cast.seats["tess"].id}
    ids = played.ids | places | {"taxon_id": taxon.id}
    return {
        rule.endpoint: list(filled_in(app, rule, ids | own.get(rule.endpoint, {})))
        for rule in app.url_map.iter_rules()
        if "GET" in (rule.methods or ()) and not rule.rule.startswith(LEFT_ALONE)
    }


def opened(app: Flask, cast: Cast, found: dict[str, list[str]]) -> Costs:
    """Every page in every seat. A paper is opened twice, for the first time may have to make it."""
    costs: Costs = {}
    for seat in SEATS:
        client = Browser(app, cast, seat).client
        for endpoint, paths in found.items():
            for path in paths:
                if path.endswith(".pdf"):
                    client.get(path)
                with asked(app.extensions[HOUSE].engine) as statements:
                    status = client.get(path).status_code
                costs[endpoint, path, seat] = Cost(status, len(statements))
    return costs


def most(costs: Costs) -> dict[str, int]:
    """The dearest answer of each endpoint that opened."""
    found: dict[str, int] = {}
    for (endpoint, _, _), cost in costs.items():
        if cost.status == 200:
            found[endpoint] = max(found.get(endpoint, 0), cost.statements)
    return found


def test_each_page_costs_what_is_said_here_however_much_there_is(app: Flask, played: Belongings) -> None:
    found = pages(app, played)
    few = opened(app, played.cast, found)
    assert most(few) == COSTS
    assert found.keys() - COSTS.keys() == OPENED_ELSEWHERE.keys()
    with played.cast.everywhere() as work:
        grown = Growth(work).grow()
    for table in ("adoption", "sheet", "submission", "finding", "accession", "lot", "census", "permit"):
        assert grown[table] >= COPIES, f"{table} has hardly grown: {grown}"
    many = opened(app, played.cast, found)
    assert {key: (cost, many[key]) for key, cost in few.items() if cost != many[key]} == {}


@pytest.mark.parametrize("name", sorted(set(OPENED_ELSEWHERE.values())))
def test_what_is_opened_elsewhere_is(name: str) -> None:
    assert (ROOT / "tests" / name).is_file()
