"""Tags, pages of lists and their links: what is read, what is changed, and what has changed meanwhile."""

from __future__ import annotations

import re
from typing import Any
from uuid import UUID

import pytest

from hub.audit.queries import history_of
from hub.audit.rules import Event
from hub.taxa.rules import CareClass
from tests.api.conftest import Programs
from tests.api.program import Program
from tests.cast import Cast
from tests.sites.scene import a_site, opened

LINK = re.compile(r'<([^>]+)>; rel="(\w+)"')


@pytest.fixture
def sites(cast: Cast) -> list[UUID]:
    with cast.work("alice") as work:
        return [a_site(work, cast, name=f"Scar {at}").id for at in range(7)]


def links(program: Program, address: str) -> dict[str, str]:
    found = LINK.findall(program.send("GET", address, 200).headers["Link"])
    return {rel: where for where, rel in found}


def test_a_list_goes_on_by_its_links(program: Programs, sites: list[UUID]) -> None:
    lead, names, address = program("alice"), [], "/sites?limit=3&sort=name"
    while address:
        names.append([site["name"] for site in lead.get(address)["items"]])
        last, address = address, links(lead, address).get("next", "")
    assert names == [["Scar 0", "Scar 1", "Scar 2"], ["Scar 3", "Scar 4", "Scar 5"], ["Scar 6"]]
    back = links(lead, last)
    assert [site["name"] for site in lead.get(back["prev"])["items"]] == names[1]
    assert [site["name"] for site in lead.get(back["first"])["items"]] == names[0]
    assert lead.get(back["self"])["next"] is None


def test_a_list_is_searched_filtered_and_turned_round(
    program: Programs, cast: Cast, sites: list[UUID]
) -> None:
    lead = program("alice")
    assert [each["name"] for each in lead.get("/sites", search="scar 4")["items"]] == ["Scar 4"]
    assert lead.get("/sites", district=str(cast.south.id))["items"] == []
    assert lead.get("/sites", sort="name-down", limit=1)["items"][0]["name"] == "Scar 6"
    assert len(lead.get("/sites", state="to ask", limit="200")["items"]) == 7


def test_a_reader_who_has_it_already_gets_nothing_again(program: Programs, sites: list[UUID]) -> None:
    lead, path = program("alice"), f"/sites/{sites[0]}"
    for address in (path, "/sites", "/me", f"{path}/permissions"):
        tag = lead.send("GET", address, 200).headers["ETag"]
        again = lead.send("GET", address, 304, headers={"If-None-Match": tag})
        assert (again.data, again.headers["ETag"]) == (b"", tag)
    lead.change("PATCH", path, {"habitat": "scree"})
    assert lead.send("GET", path, 200, headers={"If-None-Match": tag})


def test_a_change_is_of_what_was_read(program: Programs, sites: list[UUID]) -> None:
    lead, path = program("alice"), f"/sites/{sites[0]}"
    tag = lead.send("GET", path).headers["ETag"]
    lead.send("PATCH", path, 428, json={"habitat": "scree"})
    for stale in ('"of another"', f"W/{tag}"):  # a weak tag is no proof of having read (RFC 9110 §13.1.1)
        lead.send("PATCH", path, 412, json={"habitat": "scree"}, headers={"If-Match": stale})
    changed = lead.send("PATCH", path, 200, json={"habitat": "scree"}, headers={"If-Match": tag})
    assert changed.json["habitat"] == "scree"
    assert lead.send("GET", path).headers["ETag"] == changed.headers["ETag"]
    late = lead.send("PATCH", path, 412, json={"habitat": "turf"}, headers={"If-Match": tag})
    assert "Read it again" in late.get_json(force=True)["detail"]
    assert lead.get(path)["habitat"] == "scree"


def test_a_merge_patch_changes_what_it_names(program: Programs, sites: list[UUID]) -> None:
    """RFC 7396."""
    lead, path = program("alice"), f"/sites/{sites[0]}"
    before = lead.send("GET", path)
    headers = {"If-Match": before.headers["ETag"], "Content-Type": "application/merge-patch+json"}
    after = lead.send("PATCH", path, 200, data=b'{"risks": ["cliff"]}', headers=headers).json
    assert after == before.json | {"risks": ["cliff"]}


def test_exact_places_are_in_no_list_and_their_reading_is_noted(program: Programs, cast: Cast) -> None:
    site, population = opened(cast, care=CareClass.CRITICAL)
    lead = program("alice")
    for address in ("/sites", "/populations", f"/sites/{site.id}/permissions"):
        assert "47.8" not in lead.send("GET", address).get_data(as_text=True)
    for kind, thing in (("site", site), ("population", population)):
        shown: Any = lead.get(f"/{kind}s/{thing.id}")
        assert (shown["latitude"], shown["public_place"]["withheld"]) == (47.8, True)
        assert shown["public_place"]["latitude"] is None
        with cast.everywhere() as work:
            events = [entry.event for entry in history_of(work, thing_kind=kind, thing_id=str(thing.id))]
        assert events[-1] == Event.LOCALITY_READ
