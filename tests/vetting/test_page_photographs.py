"""Photographs: many at once, each read by itself, shown to nobody who may not see them."""

from __future__ import annotations

import io
from datetime import timedelta
from uuid import uuid4

import pytest
from PIL import Image
from sqlalchemy import select

from hub.vetting import actions, queries
from hub.vetting.models import Photograph
from hub.vetting.rules import MOST_PHOTOGRAPHS, PhotographKind
from tests.vetting.pictures import jpeg, picture_of
from tests.vetting.scene import begun, collection, handed_in, set_scene


@pytest.fixture
def scene(cast):
    return set_scene(cast)


@pytest.fixture
def draft(cast, scene):
    return begun(cast, scene)


def path(draft):
    return f"/hand-ins/{draft}/photographs"


def files(*named):
    return [(io.BytesIO(body), name) for name, body in named]


def send(window, draft, *named, status=303, **boxes):
    fields = {"kind": PhotographKind.HABITAT, "caption": "the scar", "photographs": files(*named), **boxes}
    return window.post(path(draft), fields, status=status)


def kept(cast, draft):
    with cast.work("alice") as work:
        return queries.photographs(work, draft)


def test_photographs_are_drawn_anew_and_their_place_is_kept_apart(browse, cast, draft):
    bob = browse("bob")
    shown = bob.follow(send(bob, draft, ("one.jpg", jpeg(placed=True)), ("two.jpg", jpeg("red"))))
    assert "2 photographs are kept." in shown.text
    first = next(each for each in kept(cast, draft) if each.latitude)
    assert (first.kind, first.caption) == (PhotographKind.HABITAT, "the scar")
    assert (first.latitude, first.longitude) == (47.8, -28.2)
    assert first.taken_at.isoformat() == "2031-07-12T10:00:00+00:00"
    answer = bob.client.get(f"/photographs/{first.id}")
    assert answer.mimetype == "image/webp"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Cache-Control"] == "private, max-age=3600"
    assert not Image.open(io.BytesIO(answer.data)).getexif()
    assert len(bob.client.get(f"/photographs/{first.id}/small").data) <= len(answer.data)


def test_a_file_that_is_no_photograph_names_itself_and_the_others_are_kept(browse, cast, draft):
    alice = browse("alice")
    shown = alice.follow(send(alice, draft, ("a.jpg", jpeg()), ("evil.jpg", b"<script>"), ("b.jpg", jpeg())))
    assert "2 photographs are kept." in shown.text
    assert "evil.jpg: This is not a photograph that can be read." in shown.text
    assert len(kept(cast, draft)) == 2


def test_when_no_file_is_a_photograph_the_form_comes_back_with_what_was_typed(browse, cast, draft):
    refused = send(browse("alice"), draft, ("x.pdf", b"%PDF-1.7"), status=422)
    assert "x.pdf: This is not a photograph" in refused.beside("photographs")
    assert refused.typed("caption") == "the scar"
    assert kept(cast, draft) == []


@pytest.mark.parametrize("boxes", [{"photographs": ""}, {"kind": "people"}, {"caption": "x" * 201}])
def test_a_torn_form_is_refused(browse, cast, draft, boxes):
    assert send(browse("alice"), draft, ("a.jpg", jpeg()), status=422, **boxes).problems
    assert kept(cast, draft) == []


def test_no_more_than_so_many_photographs(browse, cast, draft):
    alice = browse("alice")
    send(alice, draft, *[(f"{at}.jpg", jpeg()) for at in range(MOST_PHOTOGRAPHS - 1)])
    shown = alice.follow(send(alice, draft, ("a.jpg", jpeg()), ("b.jpg", jpeg())))
    assert "b.jpg: A hand-in holds at most 30 photographs." in shown.text
    assert len(kept(cast, draft)) == MOST_PHOTOGRAPHS


def test_a_photograph_is_described_taken_away_and_put_back(browse, cast, draft):
    alice = browse("alice")
    send(alice, draft, ("a.jpg", jpeg()))
    key = f"/photographs/{kept(cast, draft)[0].id}"
    alice.fill(path(draft), action=f"{key}/describe", kind="voucher", caption="sheet 3")
    assert (kept(cast, draft)[0].kind, kept(cast, draft)[0].caption) == (PhotographKind.VOUCHER, "sheet 3")
    gone = alice.follow(alice.press(path(draft), f"{key}/remove"))
    assert "Taken away" in gone.main
    assert kept(cast, draft) == []
    alice.press(path(draft), f"{key}/restore")
    assert len(kept(cast, draft)) == 1


def test_once_handed_in_photographs_stay_as_they_are(browse, cast, scene, draft):
    submission_id = handed_in(cast, scene)
    alice = browse("alice")
    assert path(submission_id) not in alice.get(path(submission_id)).actions
    send(alice, submission_id, ("a.jpg", jpeg()), status=422)
    assert kept(cast, submission_id) == []


def test_a_revision_keeps_the_photographs_it_went_with(browse, cast, draft):

    before = cast.now - timedelta(hours=1)
    with cast.work("bob", now=before) as work:
        actions.add_photograph(work, submission_id=draft, kind=PhotographKind.PLANT, upload=picture_of())
    with cast.work("alice", now=before) as work:
        actions.hand_in(work, submission_id=draft, data=collection())
    with cast.work("cora", now=before) as work:
        actions.send_back(work, submission_id=draft, remarks="A sharper one, please.")
    browse("alice").press(path(draft), f"/photographs/{kept(cast, draft)[0].id}/remove")
    with cast.work("alice") as work:
        (revision,) = queries.revisions(work, draft)
        assert len(queries.photographs_of(work, revision)) == 1
        assert queries.photographs(work, draft) == []


def test_who_may_see_a_photograph(browse, cast, draft):
    send(browse("alice"), draft, ("a.jpg", jpeg()))
    photograph = kept(cast, draft)[0].id
    for name, status in {
        "bob": 200,
        "cora": 200,
        "tess": 200,
        "charlie": 404,
        "dora": 404,
        "eve": 404,
    }.items():
        for page in ("", "/small"):
            browse(name).get(f"/photographs/{photograph}{page}", status=status)
    for name in ("olga", "stan"):
        browse(name).get(f"/photographs/{photograph}", status=403)
    browse("alice").get(f"/photographs/{uuid4()}", status=404)
    assert browse().get(f"/photographs/{photograph}", status=302).location.startswith("/sign-in")


@pytest.mark.parametrize("verb", ["describe", "remove", "restore"])
def test_who_may_change_a_photograph(browse, cast, draft, verb):
    send(browse("alice"), draft, ("a.jpg", jpeg()))
    address = f"/photographs/{kept(cast, draft)[0].id}/{verb}"
    fields = {"kind": "voucher", "caption": ""}
    for name, status in {"cora": 403, "olga": 403, "charlie": 404, "eve": 404}.items():
        browse(name).post(address, fields, status=status)
    browse("alice").post(f"/photographs/{uuid4()}/{verb}", fields, status=404)
    browse("alice").get(address, status=405)
    assert kept(cast, draft)[0].kind is PhotographKind.HABITAT


def test_the_files_hold_nothing_but_what_the_rows_name(browse, cast, draft):
    send(browse("alice"), draft, ("a.jpg", jpeg(placed=True)))
    with cast.everywhere() as work:
        row = work.db.scalars(select(Photograph)).one()
        for key in (row.file, row.thumbnail):
            assert b"GPS" not in work.files.read(key)
            assert b"Exif" not in work.files.read(key)
