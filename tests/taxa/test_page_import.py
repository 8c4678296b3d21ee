"""Taking in a list on pages: looked at first, then exactly that, and taken back the same way."""

from __future__ import annotations

import io
from itertools import product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass
from hub.taxa.traits import UNTOLD
from hub.taxa.wanted_file import read_wanted, write_rows
from hub.taxa.wanted_planning import listed_rows
from tests.support.html import form_at
from tests.taxa.garden import ARNICA, CAMPION, list_of, plant

HEAD = "scientific_name,populations,ecoregion,district,priority,note\n"
GOOD = f"{HEAD}Arnica montana,3,T.1,,1,\nSilene acaulis,1,,north,,Ask\n"


def path(cast, end=""):
    return f"/seasons/{cast.season.id}/import{end}"


def send(window, cast, data, status=200, name="list.csv", **more):
    file = (io.BytesIO(data if isinstance(data, bytes) else data.encode()), name)
    return window.post(path(cast), {"file": file, **more}, status)


def confirm(window, cast, page, status=303):
    return window.post(path(cast, "/confirm"), {"seal": seal_of(page)}, status)


def seal_of(page):
    return form_at(page, None).values["seal"]


def listed(cast):
    with cast.work("cora") as work:
        return write_rows(listed_rows(work, cast.season))


def test_it_works(browse, cast):
    list_of(cast, ARNICA)
    plant(cast, CAMPION)
    window, before = browse("cora"), listed(cast)
    page = send(window, cast, GOOD)
    assert "1 species" in page.main
    assert "from ecoregion Meadows" in page.main
    assert listed(cast) == before
    confirm(window, cast, page)
    assert listed(cast).decode().count("\r\n") == 3


def test_a_list_is_taken_back_after_another_look(browse, cast):
    list_of(cast, ARNICA)
    plant(cast, CAMPION)
    window, before = browse("cora"), listed(cast)
    assert path(cast, "/undo") not in window.get(path(cast)).links
    window.get(path(cast, "/undo"), 404)
    confirm(window, cast, send(window, cast, GOOD, whole="yes"))
    after = listed(cast)
    assert path(cast, "/undo") in window.get(path(cast)).links
    confirm(window, cast, window.get(path(cast, "/undo")))
    assert listed(cast) == before
    confirm(window, cast, window.get(path(cast, "/undo")))
    assert listed(cast) == after


def test_problems_are_told_by_row_and_column_and_cannot_be_confirmed(browse, cast):
    plant(cast, ARNICA)
    window, before = browse("cora"), listed(cast)
    page = send(window, cast, f"{HEAD}Arnica montana,1\nArnika montana,1\nArnica montana,two\n", 422)
    assert "2 things to mend" in page.main
    assert "Was Arnica montana L. meant?" in page.main
    assert path(cast, "/confirm") not in page.actions
    assert listed(cast) == before


def test_the_same_list_again_has_nothing_to_do(browse, cast):
    list_of(cast, ARNICA)
    window = browse("cora")
    answer = window.get(f"/seasons/{cast.season.id}/wanted.csv").answer
    page = send(window, cast, answer.data)
    assert "there is nothing to do" in page.main
    assert page.actions == []


def test_a_list_that_changed_meanwhile_is_shown_again(browse, cast):
    plant(cast, ARNICA, CAMPION)
    window = browse("cora")
    page = send(window, cast, GOOD)
    confirm(window, cast, send(window, cast, f"{HEAD}Arnica montana,9\n"))
    between = listed(cast)
    again = confirm(window, cast, page, 200)
    assert "has changed since you looked" in again.main
    assert listed(cast) == between
    confirm(window, cast, again)
    assert listed(cast) != between


@pytest.mark.parametrize("seal", ["", "torn", "x" * 500])
def test_a_torn_seal_is_refused(browse, cast, seal):
    assert browse("cora").post(path(cast, "/confirm"), {"seal": seal}, 422).problems


def test_a_seal_of_another_season_is_refused(browse, cast):
    plant(cast, ARNICA, CAMPION)
    page = send(browse("cora"), cast, GOOD)
    other = f"/seasons/{cast.far_season.id}/import/confirm"
    assert browse("dora").post(other, {"seal": seal_of(page)}, 422).problems


@pytest.mark.parametrize("data", ["", "no heading\n", HEAD, b"PK\x03\x04 torn", b"\x00\x01"])
def test_a_file_that_is_no_list_is_refused_in_words(browse, cast, data):
    page = send(browse("cora"), cast, data, 422)
    assert page.beside("file") or "What is wrong" in page.main


def test_no_file_at_all_is_asked_for(browse, cast):
    assert "choose a file" in browse("cora").post(path(cast), status=422).beside("file")


def test_an_empty_list_can_be_had_and_filled_in(browse, cast):
    plant(cast, ARNICA)
    window = browse("cora")
    answer = window.get(f"/seasons/{cast.season.id}/template.xlsx").answer
    page = send(window, cast, answer.data, 422, "list.xlsx")
    assert "no rows below it" in page.beside("file")
    assert read_wanted(answer.data).problems == []


@pytest.mark.parametrize(("name", "status"), [("alice", 403), ("tess", 403), ("olga", 403), ("dora", 404)])
def test_nobody_else_takes_in_a_list(browse, cast, name, status):
    plant(cast, ARNICA, CAMPION)
    window = browse(name)
    for end in ("", "/undo"):
        window.get(path(cast, end), status)
    for file in ("wanted.csv", "template.xlsx"):
        window.get(f"/seasons/{cast.season.id}/{file}", status)
    send(window, cast, GOOD, status)
    window.post(path(cast, "/confirm"), {"seal": "x"}, status)


def test_wrong_verbs_are_refused(browse, cast):
    browse("cora").get(path(cast, "/confirm"), 405)
    browse("cora").post(path(cast, "/undo"), status=405)


def test_five_thousand_rows_are_looked_at_and_taken_in(browse, cast):
    names = [f"Carex {''.join(signs)}" for signs in product("aeiou", "lr", "aeiou", "mn", "aeiou", "st")][
        :834
    ]
    sow(cast, names)
    places = [(region, part) for region in ("", "T.1") for part in ("", "north", "south")]
    rows = [f"{name},1,{region},{part},," for name in names for region, part in places]
    window = browse("cora")
    page = send(window, cast, HEAD + "\n".join(rows))
    assert f"{len(names)} species" in page.main
    confirm(window, cast, page)
    assert listed(cast).count(b"\r\n") == len(rows) + 1


def sow(cast, names):
    """Store many species at once, without a record for each."""
    usual = {**UNTOLD, "hazards": [], "care_class": CareClass.UNKNOWN}
    with cast.everywhere() as work:
        work.db.add_all(
            Taxon(scientific_name=name, canonical=name, search_key=name.lower(), **usual) for name in names
        )


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=20)
@given(
    st.binary(max_size=200)
    | st.text('Arnica montana,;123\n"T.north=', max_size=200).map(lambda text: (HEAD + text).encode())
)
def test_no_file_breaks_the_page_or_changes_the_list(browse, cast, data):
    window, before = browse("cora"), listed(cast)
    answer = window.client.post(
        path(cast), data={"csrf_token": window.form_token, "file": (io.BytesIO(data), "list.csv")}
    )
    assert answer.status_code in (200, 422)
    assert listed(cast) == before
