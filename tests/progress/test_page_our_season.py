"""A group's season page: what to do next, the path of each species, and nothing of a neighbour's."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime
from typing import Any
from uuid import UUID

import pytest
from sqlalchemy import select

from hub.adoptions.actions import fulfil, hold_population, suspend
from hub.adoptions.models import Adoption
from hub.protocols.models import IssuedSheet
from hub.sites.models import Census, Population, TakeAccount
from hub.sites.rules import CensusMethod
from hub.taxa.models import Season
from hub.vetting.models import Submission
from hub.vetting.rules import SubmissionState
from tests.adoptions.scene import adopted, asked, patch, wanted_species
from tests.cast import Cast
from tests.support.browser import Browser

Browse = Callable[..., Browser]
PATH = "/our-season"
SAYS = {"headline": {"hours_to_bank": {"value": 168}}}  # as much of a sheet as this page reads
DUE = datetime(2031, 7, 19, 12, 15, tzinfo=UTC)


@pytest.fixture
def campion(cast: Cast) -> UUID:
    return wanted_species(cast, ripens_from=7, ripens_to=8)


def placed(
    cast: Cast, taxon_id: UUID, code: str = "SIL-ACA 01", *, name: str = "alice", granted: bool = True
) -> Adoption:
    """An adoption at a population."""
    adoption = adopted(cast, taxon_id, name)
    with cast.work("cora") as work:
        population_id = patch(cast, taxon_id, code, granted=granted)
        hold_population(work, adoption_id=adoption.id, population_id=population_id)
    return adoption


def counted(cast: Cast) -> None:
    """Somebody counted every population."""
    with cast.everywhere() as work:
        for population in work.db.scalars(select(Population)):
            work.db.add(
                Census(
                    bank_id=population.bank_id, site_id=population.site_id, population_id=population.id,
                    counted_on=date(2031, 6, 1), method=CensusMethod.COUNTED, plants=240,
                    note="", noted_at=cast.now,
                )
            )  # fmt: skip


def sheeted(cast: Cast, adoption: Adoption, status: str = "ready") -> IssuedSheet:
    """A sheet for the adoption's population, with what the ledger keeps free for it."""
    with cast.everywhere() as work:
        population = work.db.scalars(select(Population).where(Population.taxon_id == adoption.taxon_id)).one()
        sheet = IssuedSheet(
            group_id=adoption.group_id, bank_id=adoption.bank_id, number=f"FLG-2031-{status}", status=status,
            adoption_id=adoption.id, population_id=population.id, taxon_id=adoption.taxon_id,
            season_id=adoption.season_id, reserved_seeds=400, case={}, body=SAYS, rulebook="0", digest="0",
            issued_at=cast.now, reason="",
        )  # fmt: skip
        account = TakeAccount(
            bank_id=population.bank_id, site_id=population.site_id, population_id=population.id, year=2031,
            allowance_seeds=1200, reserved_seeds=400, taken_seeds=300,
        )  # fmt: skip
        work.db.add_all([sheet, account])
    return sheet


def written(cast: Cast, sheet: IssuedSheet, state: SubmissionState, **more: Any) -> None:
    with cast.everywhere() as work:
        work.db.add(
            Submission(
                group_id=sheet.group_id, bank_id=sheet.bank_id, number=f"FLG-2031-{state}", sheet_id=sheet.id,
                adoption_id=sheet.adoption_id, population_id=sheet.population_id, taxon_id=sheet.taxon_id,
                state=state, sent_key=state, begun_at=cast.now, **more,
            )
        )  # fmt: skip


def test_an_empty_season_says_how_to_begin(cast: Cast, browse: Browse) -> None:
    page = browse("alice").get(PATH)
    assert "Nothing adopted yet" in page.main
    assert "/adopt" in page.links


def test_it_says_when_no_season_is_open(cast: Cast, browse: Browse) -> None:
    with cast.everywhere() as work:
        for season in work.db.scalars(select(Season)):
            season.closes_on = season.lapses_on = date(2030, 9, 1)
    assert "No season is open" in browse("alice").get(PATH).main


def test_a_wish_waits_for_the_bank(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = asked(cast, campion)
    page = browse("alice").get(PATH)
    assert "Your wish is with the bank" in page.main
    assert f"/adoptions/{adoption.id}" in page.links


def test_without_a_place_it_asks_for_one(cast: Cast, browse: Browse, campion: UUID) -> None:
    adopted(cast, campion)
    assert "Where will you collect?" in browse("alice").get(PATH).main


def test_it_leads_to_the_owner_then_to_the_plants(cast: Cast, browse: Browse, campion: UUID) -> None:
    placed(cast, campion, granted=False)
    page = browse("alice").get(PATH)
    assert "The estate, the owner" in page.main
    assert any(link.startswith("/sites/") and link.endswith("/letter") for link in page.links)


def test_it_shows_sheet_allowance_and_what_to_do(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = placed(cast, campion)
    counted(cast)
    sheeted(cast, adoption)
    text = browse("alice").get(PATH).main
    for words in (
        "Ready to use", "FLG-2031-ready", "at most 400 seeds", "300 of 1,200 seeds", "usually July to August",
        "400 seeds are kept for your group", "500 seeds are not spoken for", "240 plants counted",
        "SIL-ACA 01",
    ):  # fmt: skip
        assert words in text


@pytest.mark.parametrize(
    ("state", "says"),
    [
        (SubmissionState.DRAFT, "Let the seed dry"),
        (SubmissionState.RETURNED, "The bank has a question"),
        (SubmissionState.HANDED_IN, "Bring the seed to Fell Bank"),
        (SubmissionState.DECLINED, "at most 400 seeds"),
    ],
)
def test_a_hand_in_carries_the_path_on(
    cast: Cast, browse: Browse, campion: UUID, state: SubmissionState, says: str
) -> None:
    adoption = placed(cast, campion)
    counted(cast)
    written(cast, sheeted(cast, adoption), state)
    assert says in browse("alice").get(PATH).main


def test_what_is_handed_in_says_by_when_the_seed_must_follow(
    cast: Cast, browse: Browse, campion: UUID
) -> None:
    adoption = placed(cast, campion)
    counted(cast)
    sheet = sheeted(cast, adoption)
    written(cast, sheet, SubmissionState.HANDED_IN, deadline_at=DUE)
    page = browse("alice").get(PATH)
    assert "Bring the seed to Fell Bank by Sat, 19 Jul 2031, 12:15" in page.main
    assert ": your sheet gives it 7 days from collecting." in page.main
    assert any(link.endswith("/handed-in") for link in page.links)


def test_seed_that_has_arrived_waits_for_the_bank(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = placed(cast, campion)
    written(cast, sheeted(cast, adoption), SubmissionState.HANDED_IN, deadline_at=DUE, arrived_at=cast.now)
    text = browse("alice").get(PATH).main
    assert "The bank looks at what you handed in" in text
    assert "Bring the seed" not in text


def test_every_collection_of_an_adoption_is_shown(cast: Cast, browse: Browse, campion: UUID) -> None:
    """A draft beside a collection handed in: each with its number and its own next step."""
    adoption = placed(cast, campion)
    counted(cast)
    sheet = sheeted(cast, adoption)
    written(cast, sheet, SubmissionState.HANDED_IN, deadline_at=DUE)
    written(cast, sheet, SubmissionState.DRAFT)
    page = browse("alice").get(PATH)
    todo = page.main.split("Hand-ins")[0]
    for words in (
        "FLG-2031-draft",
        "Let the seed dry",
        "FLG-2031-handed in",
        "Bring the seed to Fell Bank by",
    ):
        assert words in todo
    assert page.main.split("Hand-ins")[1].count("FLG-2031-") >= 2


def test_every_population_of_an_adoption_is_shown(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = placed(cast, campion)
    with cast.work("cora") as work:
        second = patch(cast, campion, "SIL-ACA 02", granted=False)
        hold_population(work, adoption_id=adoption.id, population_id=second)
    text = browse("alice").get(PATH).main
    assert "SIL-ACA 01" in text
    assert "SIL-ACA 02" in text


def test_a_fulfilled_adoption_keeps_no_seed_and_asks_for_nothing(
    cast: Cast, browse: Browse, campion: UUID
) -> None:
    adoption = placed(cast, campion)
    counted(cast)
    sheeted(cast, adoption)
    with cast.work("cora") as work:
        fulfil(work, adoption_id=adoption.id, reason="Enough was banked.")
    text = browse("alice").get(PATH).main
    assert "This adoption is fulfilled." in text
    assert "Not needed" in text
    for words in ("kept for your group.", "not spoken for", "What to do next", "seeds are taken"):
        assert words not in text


def test_what_is_picked_comes_before_what_is_green(cast: Cast, browse: Browse, campion: UUID) -> None:
    adopted(cast, wanted_species(cast, "Ulmus glabra"))
    adoption = placed(cast, campion)
    counted(cast)
    written(cast, sheeted(cast, adoption), SubmissionState.DRAFT)
    text = browse("alice").get(PATH).main
    assert text.index("Let the seed dry") < text.index("Where will you collect?")


def test_a_pause_is_said_and_leaves_nothing_to_do(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = placed(cast, campion)
    with cast.work("cora") as work:
        suspend(work, adoption_id=adoption.id, reason="A dry year.")
    text = browse("alice").get(PATH).main
    assert "collect nothing until it goes on. A dry year." in text
    assert "What to do next" not in text


def test_a_neighbour_s_work_stays_unseen(cast: Cast, browse: Browse, campion: UUID) -> None:
    placed(cast, campion, name="charlie")
    text = browse("alice").get(PATH).html
    assert "Nothing adopted yet" in text
    assert "SIL-ACA 01" not in text
    assert "Vale School" not in text


def test_the_sheet_is_asked_for_by_the_lead_alone(cast: Cast, browse: Browse, campion: UUID) -> None:
    adoption = placed(cast, campion)
    counted(cast)
    to_issue = [at for at in browse("alice").get(PATH).actions if at.startswith(f"/adoptions/{adoption.id}/")]
    assert to_issue
    assert all(at.endswith("/sheet") for at in to_issue)
    assert not any(at in to_issue for at in browse("bob").get(PATH).actions)


def test_members_see_it_and_the_bank_has_other_pages(cast: Cast, browse: Browse, campion: UUID) -> None:
    adopted(cast, campion)
    assert "Silene acaulis" in browse("bob").get(PATH).main
    for name in ("cora", "tess", "olga", "stan"):
        browse(name).get(PATH, status=403)
    assert browse().get(PATH, status=302).location.startswith("/sign-in")
    browse("alice").post(PATH, status=405)


def test_it_asks_the_store_as_often_for_four_species_as_for_one(cast: Cast, browse: Browse) -> None:
    alice = browse("alice")
    counts = []
    for n, name in enumerate(("Silene acaulis", "Ulmus glabra", "Salix herbacea", "Arnica montana")):
        placed(cast, wanted_species(cast, name), f"POP {n}")
        alice.get(PATH)
        counts.append(len(alice.queries))
    assert counts == [9, 9, 9, 9]
