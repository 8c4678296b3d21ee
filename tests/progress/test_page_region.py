"""The region's progress: what everybody signed in sees, what it costs, and which adoptions are stalled."""

from __future__ import annotations

import csv
import io
from datetime import timedelta
from uuid import UUID

import pytest
from sqlalchemy import select

from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState, Stage
from hub.groups.models import Region
from hub.taxa.models import Ecoregion, Need, Wanted
from hub.taxa.rules import CareClass
from tests.adoptions.scene import asked, wanted_species
from tests.cast import Cast
from tests.progress.board import count, plant, want
from tests.support.browser import Browse
from tests.support.html import words_in

PATH = "/progress"
SVG = "{http://www.w3.org/2000/svg}"
QUERIES = 9
CONTACTS = ('"Leader, Shore Group",shg@cast.example', '"Leader, Fell Group",flg@cast.example')
EVERYBODY = ("alice", "bob", "charlie", "cora", "tess", "dora", "olga", "stan")


@pytest.fixture
def season(cast: Cast) -> dict[str, UUID]:
    """Campion wanted twice in the north and banked once there; elm wanted anywhere, adopted in the south."""
    campion, elm = plant(cast, "Silene acaulis", care_class=CareClass.RARE), plant(cast, "Ulmus glabra")
    want(cast, campion, (2, cast.north.id))
    want(cast, elm, (1, None), far=True)
    count(cast, campion, cast.north.id, Stage.BANKED, 1)
    count(cast, elm, cast.south.id, Stage.HANDED_IN, 1, far=True)
    return {"campion": campion, "elm": elm}


@pytest.mark.parametrize("name", EVERYBODY)
def test_everybody_signed_in_sees_the_whole_region(
    browse: Browse, season: dict[str, UUID], name: str
) -> None:
    text = browse(name).get(PATH).main
    for words in (
        "Progress 2031", "Needed 3 populations", "of 2 species", "Taken on 2 adoptions", "Banked 1 adoption",
        "Nobody has taken on 1 population", "1/1", "0/1", "Silene acaulis", "1: Northern Part",
    ):  # fmt: skip
        assert words in text, words
    assert not [group for group in ("Fell Group", "Vale School", "Shore Group") if group in text]


def test_the_map_is_read_out_and_told_again_in_a_table(browse: Browse, season: dict[str, UUID]) -> None:
    page = browse("olga").get(PATH)
    (drawing,) = [
        each for figure in page.all("figure") for each in figure.iter(f"{SVG}svg") if each.get("role")
    ]
    title = next(drawing.iter(f"{SVG}title")).text or ""
    assert "Northern Part, 1 of 1 adoptions banked" in title
    assert "Southern Part, 0 of 1 adoptions banked" in title
    told = [[words_in(cell) for cell in row] for row in page.all("tr")]
    assert ["Southern Part", "1", "1"] in [row[:3] for row in told]


@pytest.mark.parametrize(
    ("query", "campion", "elm"),
    [
        ({"search": "ulm"}, False, True), ({"care": "rare"}, True, False),
        ({"stage": "handed in"}, False, True),
        ({"gaps": "yes"}, True, False), ({"district": "north"}, True, True), ({"year": "2031"}, True, True),
        ({"district": "south", "stage": "banked"}, False, False), ({"care": "nonsense"}, True, True),
        ({"year": "soon"}, True, True), ({"district": "nowhere"}, True, True),
    ],
)  # fmt: skip
def test_each_filter_narrows_it(
    cast: Cast, browse: Browse, season: dict[str, UUID], query: dict[str, str], campion: bool, elm: bool
) -> None:
    places = {"north": str(cast.north.id), "south": str(cast.south.id)}
    query = {name: places.get(value, value) for name, value in query.items()}
    page = browse("olga").get(PATH, **query)
    table = page.main.partition("Species by species")[2]
    assert ("Silene acaulis" in table, "Ulmus glabra" in table) == (campion, elm)
    assert campion or elm or "No species is like that" in table


def test_the_file_has_a_row_for_each_species_and_district(browse: Browse, season: dict[str, UUID]) -> None:
    rows = list(csv.DictReader(io.StringIO(browse("bob").get(PATH, **{"as": "csv"}).html)))
    names = (
        "Species", "Care class", "District", "Ecoregion", "Needed (populations)", "Missing (populations)",
        "handed in (adoptions)", "banked (adoptions)",
    )  # fmt: skip
    assert [[row[name] for name in names] for row in rows] == [
        ["Silene acaulis", "rare", "Northern Part", "any", "2", "1", "0", "1"],
        ["Ulmus glabra", "secure", "Southern Part", "", "0", "0", "1", "0"],
        ["Ulmus glabra", "secure", "anywhere in the region", "any", "1", "0", "0", "0"],
    ]


def test_a_gap_names_the_ecoregion_that_the_need_names(cast: Cast, browse: Browse) -> None:
    with cast.everywhere() as work:
        woods = Ecoregion(region_id=cast.region.id, scheme="TST", code="T.2", name="Woods", geometry={})
        work.db.add(woods)
    wanted = {
        "Arnica montana": [(1, None, cast.meadows.id)],
        "Dryas octopetala": [(1, None, cast.meadows.id), (2, None, woods.id)],
        "Gentiana verna": [(1, None, cast.meadows.id), (1, None, None)],
        "Trollius europaeus": [(1, cast.north.id, woods.id)],
        "Ulmus glabra": [(1, cast.north.id, woods.id), (1, cast.north.id, None)],
    }
    for name, needs in wanted.items():
        want_from(cast, plant(cast, name), *needs)
    text = browse("olga").get(PATH).main
    for words in (
        "1: ecoregion Meadows", "3: ecoregions Meadows, Woods", "2: anywhere in the region",
        "1: Northern Part, ecoregion Woods", "2: Northern Part",
    ):  # fmt: skip
        assert words in text, words
    rows = csv.DictReader(io.StringIO(browse("olga").get(PATH, **{"as": "csv"}).html))
    assert [(row["District"], row["Ecoregion"]) for row in rows] == [
        ("any", "Meadows"), ("any", "Meadows, Woods"), ("anywhere in the region", "any"),
        ("Northern Part", "Woods"), ("Northern Part", "any"),
    ]  # fmt: skip


def want_from(cast: Cast, taxon: UUID, *needs: tuple[int, UUID | None, UUID | None]) -> None:
    """Put a species on the list, with so many populations from each district and ecoregion."""
    want(cast, taxon)
    with cast.everywhere() as work:
        line = work.db.scalars(select(Wanted).where(Wanted.taxon_id == taxon)).one()
        work.db.add_all(
            Need(wanted_id=line.id, populations=n, district_id=district, ecoregion_id=ecoregion)
            for n, district, ecoregion in needs
        )


@pytest.mark.parametrize("order", ["name", "name-down", "missing", "needed", "banked"])
def test_it_sorts(browse: Browse, season: dict[str, UUID], order: str) -> None:
    rows = browse("olga").get(PATH, sort=order, **{"as": "csv"}).html.splitlines()[1:]
    assert ("Ulmus" in rows[0]) == (order == "name-down")


def test_it_costs_the_same_for_five_hundred_adoptions_as_for_ten(cast: Cast, browse: Browse) -> None:
    taxa = [plant(cast, f"Genus species{chr(97 + at // 26)}{chr(97 + at % 26)}") for at in range(70)]
    for taxon in taxa[:10]:
        count(cast, taxon, cast.north.id, Stage.ADOPTED, 1)
    olga = browse("olga")
    olga.get(PATH)
    assert len(olga.queries) == QUERIES
    for taxon in taxa:
        count(cast, taxon, cast.south.id, Stage.READY, 7)
    page = olga.get(PATH)
    assert len(olga.queries) == QUERIES
    assert "Taken on 500 adoptions" in page.main
    (after,) = {link for link in page.links if "at=" in link}
    assert "Genus speciescr" in olga.get(after).main


def test_before_any_season_it_says_so(cast: Cast, browse: Browse) -> None:
    with cast.everywhere() as work:
        for season in (cast.season, cast.far_season):
            work.db.delete(season)
    assert "No season yet" in browse("olga").get(PATH).main


def test_waters_are_drawn_and_junk_is_not(cast: Cast, browse: Browse, season: dict[str, UUID]) -> None:
    river = {"type": "LineString", "coordinates": [[-28.5, 47.3], [-28.0, 47.9]]}
    lake = {"type": "Polygon", "coordinates": [[[-28.2, 47.5], [-28.1, 47.5], [-28.1, 47.6], [-28.2, 47.5]]]}
    features = [
        {"type": "Feature", "geometry": each}
        for each in (river, lake, None, {"type": "Point", "coordinates": [0, 0]})
    ]
    with cast.everywhere() as work:
        work.db.get_one(Region, cast.region.id).outline = {"type": "FeatureCollection", "features": features}
    kinds = [each.get("class") for each in browse("olga").get(PATH).all(f"{SVG}path")]
    assert (kinds.count("river"), kinds.count("lake")) == (1, 1)


def test_visitors_sign_in_and_nobody_posts(browse: Browse) -> None:
    for path in (PATH, f"{PATH}/stalled"):
        assert browse().get(path, status=302).location.startswith("/sign-in")
        browse("olga").post(path, status=405)


def test_only_those_who_steer_are_led_to_what_is_stalled(browse: Browse, season: dict[str, UUID]) -> None:
    for name in EVERYBODY:
        steers = name in ("cora", "dora", "olga")
        browser = browse(name)
        assert (f"{PATH}/stalled" in browser.get(PATH).links) == steers
        browser.get(f"{PATH}/stalled", status=200 if steers else 403)


def idle(
    cast: Cast, taxon: UUID, name: str, days: int, state: AdoptionState = AdoptionState.REQUESTED
) -> None:
    """One of the cast asked for a species, and nothing has happened for so many days."""
    adoption = asked(cast, taxon, name)
    with cast.everywhere() as work:
        stored = work.db.get_one(Adoption, adoption.id)
        stored.state, stored.moved_at = state, cast.now - timedelta(days=days)


def test_what_is_stalled_is_told_to_whom_it_concerns(cast: Cast, browse: Browse) -> None:
    taxon = wanted_species(cast)
    idle(cast, taxon, "alice", 14)
    idle(cast, taxon, "charlie", 13)
    idle(cast, taxon, "eve", 40)
    seen = {name: browse(name).get(f"{PATH}/stalled").main for name in ("olga", "cora", "dora")}
    assert {name: ("Fell Group" in text, "Shore Group" in text) for name, text in seen.items()} == {
        "olga": (True, True), "cora": (True, False), "dora": (False, True),
    }  # fmt: skip
    assert not any("Vale School" in text for text in seen.values())
    assert "mailto:shg@cast.example" in browse("olga").get(f"{PATH}/stalled").links
    rows = browse("olga").get(f"{PATH}/stalled", **{"as": "csv"}).html.splitlines()[1:]
    assert rows == [
        f"Silene acaulis,Shore Group,Northern Part,asked for,2031-06-04,40,the bank,{CONTACTS[0]}",
        f"Silene acaulis,Fell Group,Northern Part,asked for,2031-06-30,14,the bank,{CONTACTS[1]}",
    ]


def test_a_coordinator_of_another_region_sees_none_of_it(cast: Cast, browse: Browse) -> None:
    idle(cast, wanted_species(cast), "alice", 99)
    with cast.everywhere() as work:
        other = Region(code="OTH", name="Other Vale")
        work.db.add(other)
        work.db.flush()
        seat = work.db.merge(cast.seats["olga"])
        seat.region_id = other.id
    assert "Nothing is stalled" in browse("olga").get(f"{PATH}/stalled").main


def test_what_was_paused_is_not_stalled(cast: Cast, browse: Browse) -> None:
    idle(cast, wanted_species(cast), "alice", 99, AdoptionState.SUSPENDED)
    assert "Nothing is stalled" in browse("olga").get(f"{PATH}/stalled").main


@pytest.mark.parametrize(
    ("query", "count"),
    [
        ({}, 2), ({"search": "shore"}, 1), ({"search": "silene"}, 2), ({"search": "elm"}, 0),
        ({"stage": "asked for"}, 2), ({"stage": "asked"}, 2), ({"stage": "ready"}, 0), ({"year": "2030"}, 0),
        ({"sort": "group"}, 2), ({"sort": "stage-down"}, 2), ({"sort": "species"}, 2),
        ({"sort": "shortest"}, 2),
    ],
)  # fmt: skip
def test_the_stalled_can_be_narrowed_and_sorted(
    cast: Cast, browse: Browse, query: dict[str, str], count: int
) -> None:
    taxon = wanted_species(cast)
    idle(cast, taxon, "alice", 20)
    idle(cast, taxon, "eve", 40)
    olga = browse("olga")
    rows = olga.get(f"{PATH}/stalled", **query, **{"as": "csv"}).html.splitlines()[1:]
    assert len(rows) == count
    olga.get(f"{PATH}/stalled", **query)
    assert len(olga.queries) == 3
