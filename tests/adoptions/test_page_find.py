"""Find a species, and ask for it: what a group sees of the wanted list, and nothing of its neighbours."""

from __future__ import annotations

from collections.abc import Callable
from uuid import UUID, uuid4

import pytest
from sqlalchemy import select

from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState
from hub.groups.rules import AdoptionMode
from hub.taxa.models import Difficulty, Season
from hub.taxa.rules import CareClass, Hazard, StorageBehaviour
from tests.adoptions.scene import adopted, asked, set_bank, wanted_species
from tests.cast import Cast
from tests.support.browser import Browser

Browse = Callable[..., Browser]


@pytest.fixture
def campion(cast: Cast) -> UUID:
    return wanted_species(cast, ripens_from=7, ripens_to=8, suits_school=True)


def promise(cast: Cast, **fields: str) -> dict[str, str]:
    return {"district_id": str(cast.north.id), "promised": "yes", **fields}


def test_it_says_what_a_species_takes(cast: Cast, browse: Browse, campion: UUID) -> None:
    wanted_species(
        cast,
        "Salix herbacea",
        storage=StorageBehaviour.RECALCITRANT,
        care_class=CareClass.RARE,
        difficulty=Difficulty.HARD,
        dioecious=True,
        masting=True,
        two_year_ripening=True,
        hazards=[Hazard.TOXIC],
    )
    page = browse("alice").get("/adopt")
    for words in (
        "Moss campion", "Ripe July to August", "Suits a school", "Easy to know", "No other group has it",
        "dies when it dries", "groups that have collected before", "one group alone", "only the females",
        "two years to ripen", "only in some years", "poisonous if eaten", "Time of ripening not known",
    ):  # fmt: skip
        assert words in page.main
    assert f"/adopt/{campion}" in page.links


def test_it_counts_others_and_names_none(cast: Cast, browse: Browse, campion: UUID) -> None:
    adopted(cast, campion, "charlie")
    page = browse("alice").get("/adopt")
    assert "1 other group has it" in page.main
    assert "As many groups as are needed" in page.main
    assert "Vale School" not in page.html
    own = browse("charlie").get("/adopt")
    assert "No other group has it" in own.main
    assert "Your adoption of Silene acaulis" in own.main


def test_filters_narrow_the_list_and_bad_ones_are_left_out(cast: Cast, browse: Browse, campion: UUID) -> None:
    wanted_species(cast, "Ulmus glabra", ripens_from=11, ripens_to=2, difficulty=Difficulty.HARD)
    adopted(cast, campion, "charlie")
    alice = browse("alice")
    for query, campion_stays, elm_stays in (
        ({"search": "moss"}, True, False),
        ({"month": "7"}, True, False),
        ({"month": "1"}, False, True),
        ({"difficulty": "hard"}, False, True),
        ({"school": "yes"}, True, False),
        ({"free": "yes"}, False, True),
        ({"care": "rare"}, False, False),
        ({"district": str(cast.north.id)}, True, True),
        ({"month": "13"}, True, True),
        ({"district": "nowhere"}, True, True),
    ):
        text = alice.get("/adopt", **query).main
        assert ("Silene acaulis" in text, "Ulmus glabra" in text) == (campion_stays, elm_stays), query
    assert "No plant fits all of that" in alice.get("/adopt", care="rare").main


def test_what_nobody_may_adopt_is_not_offered(cast: Cast, browse: Browse) -> None:
    wanted_species(cast, "Gone plant", care_class=CareClass.GONE)
    wanted_species(cast, "Castanea sativa", native=False)
    assert "The list is still empty" in browse("alice").get("/adopt").main


def test_it_says_when_no_season_is_open(cast: Cast, browse: Browse) -> None:
    with cast.everywhere() as work:
        for season in work.db.scalars(select(Season)):
            season.closes_on = season.closes_on.replace(year=2030)
            season.lapses_on = season.lapses_on.replace(year=2030)
    assert "No season is open" in browse("alice").get("/adopt").main


def test_a_member_and_a_curator_look_and_others_do_not(cast: Cast, browse: Browse, campion: UUID) -> None:
    for name in ("bob", "cora"):
        page = browse(name).get("/adopt")
        assert "Silene acaulis" in page.main
        assert f"/adopt/{campion}" not in page.links
    for name in ("tess", "olga", "stan"):
        browse(name).get("/adopt", status=403)
    assert browse().get("/adopt", status=302).location.startswith("/sign-in")
    browse("alice").post("/adopt", status=405)


def test_a_member_is_told_who_can_ask(cast: Cast, browse: Browse, campion: UUID) -> None:
    words = "Only a lead of your group can ask for a species"
    assert words in browse("bob").get("/adopt").main
    for name in ("alice", "cora"):
        assert words not in browse(name).get("/adopt").main


def test_a_rare_species_with_enough_groups_says_so_and_leads_to_others(cast: Cast, browse: Browse) -> None:
    rare = wanted_species(cast, "Salix herbacea", care_class=CareClass.RARE)
    adopted(cast, rare, "charlie")
    page = browse("alice").get(f"/adopt/{rare}")
    assert "each of its populations belongs to one group alone" in page.main
    assert "/adopt?free=yes" in page.links


def test_the_list_is_a_spreadsheet_too(cast: Cast, browse: Browse, campion: UUID) -> None:
    adopted(cast, campion, "charlie")
    lines = browse("alice").get("/adopt", **{"as": "csv"}).html.splitlines()
    assert lines[1] == "Silene acaulis,Moss campion,secure,Easy,yes,7,8,1,1"


def test_it_asks_the_store_as_often_for_forty_species_as_for_one(
    cast: Cast, browse: Browse, campion: UUID
) -> None:
    alice = browse("alice")
    alice.get("/adopt")
    few = len(alice.queries)
    for n in range(40):
        wanted_species(cast, f"Species number{chr(97 + n % 26)}{chr(97 + n // 26)}")
    alice.get("/adopt")
    assert len(alice.queries) == few == 9


def test_a_lead_asks_and_is_told_what_happens_next(cast: Cast, browse: Browse, campion: UUID) -> None:
    alice = browse("alice")
    page = alice.get(f"/adopt/{campion}")
    assert page.typed("district_id") == str(cast.north.id)
    answer = alice.fill(f"/adopt/{campion}", **promise(cast, wish="We live beside it."))
    shown = alice.follow(answer)
    assert "The bank answers by mail" in shown.text
    assert "We live beside it." in shown.main
    with cast.everywhere() as work:
        assert work.db.scalars(select(Adoption)).one().state is AdoptionState.REQUESTED
    assert "has asked for it" in alice.get(f"/adopt/{campion}").main


def test_an_automatic_bank_sends_the_group_to_its_season(cast: Cast, browse: Browse, campion: UUID) -> None:
    set_bank(cast, adoption_mode=AdoptionMode.AUTOMATIC)
    assert browse("alice").fill(f"/adopt/{campion}", **promise(cast)).location == "/our-season"


def test_what_is_wrong_stands_beside_the_box_and_the_wish_is_kept(
    cast: Cast, browse: Browse, campion: UUID
) -> None:
    alice, path = browse("alice"), f"/adopt/{campion}"
    page = alice.post(path, {"wish": "Near school.", "district_id": str(uuid4())}, status=422)
    assert page.beside("promised") == "Problem: Please tick this to go on."
    assert page.typed("wish") == "Near school."
    page = alice.post(path, promise(cast, district_id=str(uuid4())), status=422)
    assert "districts of your region" in page.beside("district_id")
    page = alice.post(path, promise(cast, wish="x" * 501), status=422)
    assert "too long" in page.beside("wish")
    with cast.everywhere() as work:
        assert work.db.scalars(select(Adoption)).all() == []


def test_a_full_species_is_refused_in_words(cast: Cast, browse: Browse, campion: UUID) -> None:
    set_bank(cast, groups_per_species=1)
    asked(cast, campion, "charlie")
    alice = browse("alice")
    assert "Only 1 group may have" in alice.get(f"/adopt/{campion}").main
    assert alice.post(f"/adopt/{campion}", promise(cast), status=422).problems[0].startswith("Only 1 group")


def test_only_a_lead_asks_for_what_is_wanted(cast: Cast, browse: Browse, campion: UUID) -> None:
    for name in ("bob", "cora", "tess", "olga", "stan"):
        browse(name).get(f"/adopt/{campion}", status=403)
    alice = browse("alice")
    alice.get(f"/adopt/{uuid4()}", status=404)
    alice.post(f"/adopt/{uuid4()}", promise(cast), status=404)
    assert browse().get(f"/adopt/{campion}", status=302).location.startswith("/sign-in")
