"""The bank's list of groups: its own alone, searched, filtered, sorted, paged and downloaded."""

from __future__ import annotations

import pytest

from hub.groups.models import District, Group, Region
from hub.groups.rules import GroupKind, GroupState
from tests.cast import Cast, group_of, square
from tests.support.browser import Browse

PATH = "/groups"


def add(cast: Cast, count: int) -> None:
    with cast.everywhere() as work:
        for number in range(count):
            name, code = f"Club {number:03}", f"C{number:03}"
            work.db.add(group_of(cast.fell_bank, cast.north, name, code, GroupKind.CLUB, cast.now))


def test_a_curator_sees_the_groups_of_their_own_bank(browse: Browse) -> None:
    window = browse("cora")
    page = window.get(PATH)
    assert "Fell Group" in page.main
    assert "Vale School" in page.main
    assert "Shore Group" not in page.html
    assert len(window.queries) == 3  # the caller, the page of the list, the districts


def test_a_steward_sees_all(browse: Browse) -> None:
    assert "Shore Group" in browse("stan").get(PATH).main


@pytest.mark.parametrize("name", ["alice", "bob", "tess", "olga"])
def test_others_may_not(browse: Browse, name: str) -> None:
    browse(name).get(PATH, 403)


def test_a_visitor_is_asked_to_sign_in(browse: Browse) -> None:
    assert "/sign-in" in browse().get(PATH, 302).location


@pytest.mark.parametrize(
    ("query", "seen", "unseen"),
    [
        ({"search": "fell"}, "Fell Group", "Vale School"),
        ({"search": "100%"}, "No groups here", "Fell Group"),
        ({"kind": "school"}, "Vale School", "Fell Group"),
        ({"state": "asked"}, "No groups here", "Fell Group"),
        ({"state": "nonsense"}, "Vale School", "No groups here"),
    ],
)
def test_it_can_be_narrowed(browse: Browse, query: dict[str, str], seen: str, unseen: str) -> None:
    page = browse("cora").get(PATH, **query)
    assert seen in page.main
    assert unseen not in page.main


def test_it_can_be_narrowed_to_a_district(browse: Browse, cast: Cast) -> None:
    page = browse("cora").get(PATH, district=str(cast.south.id))
    assert "Vale School" in page.main
    assert "Fell Group" not in page.main


def test_it_is_paged_and_does_not_cost_more_when_long(browse: Browse, cast: Cast) -> None:
    add(cast, 60)
    window = browse("cora")
    first = window.get(PATH)
    assert len(window.queries) == 3
    (onward,) = [link for link in first.links if "at=" in link]
    second = window.get(onward)
    assert "Vale School" in second.main
    assert "Club 000" not in second.main
    window.get(PATH, 400, at="torn")


def test_it_can_be_downloaded(browse: Browse, cast: Cast) -> None:
    answer = browse("cora").get(PATH, **{"as": "csv"})
    head, *rows = answer.answer.get_data().decode("utf-8-sig").splitlines()
    assert head == "Group,Code,Kind,State,District,Asked on,Contact"
    assert rows[0] == 'Fell Group,FLG,club,active,Northern Part,2031-07-14,"Leader, Fell Group"'
    assert len(rows) == 2


def test_an_empty_list_says_what_to_do(browse: Browse, cast: Cast) -> None:
    with cast.everywhere() as work:
        work.db.get_one(Group, cast.shore_group.id).state = GroupState.CLOSED
    page = browse("dora").get(PATH, state="active")
    assert "Tell them the address" in page.main


def test_the_filter_offers_the_districts_of_the_own_region_alone(browse: Browse, cast: Cast) -> None:
    with cast.everywhere() as work:
        region = Region(code="OTH", name="Other Vale")
        work.db.add(region)
        work.db.flush()
        work.db.add(District(region_id=region.id, code="far", name="Far Part", geometry=square(47.2, 47.6)))
    assert "Far Part" not in browse("cora").get(PATH).html
    assert "Other Vale: Far Part" in browse("stan").get(PATH).html
    assert "District: Northern Part" in browse("cora").get(PATH, district=cast.north.id).main
