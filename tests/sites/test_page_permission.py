"""What the owner answered: forms for yes, no and taken back, and the signed paper for those let in alone."""

from __future__ import annotations

import io
from pathlib import Path
from uuid import UUID

import pytest
from PIL import Image

from hub.sites import actions, queries
from hub.sites.models import Permission
from tests.cast import Cast
from tests.sites.litany import (
    Browse,
    asks_to_sign_in,
    hides_from,
    is_missing,
    keeps_its_verbs,
    opens_to,
    refuses,
)
from tests.sites.scene import TODAY, opened

FORMS = ("grant", "refuse", "withdraw", "keep")
DAYS = {"answered_on": "2031-07-10", "starts_on": "2031-07-11", "ends_on": "2031-09-30"}


@pytest.fixture
def asked(cast: Cast) -> Permission:
    site, _ = opened(cast)
    with cast.work("alice") as work:
        return actions.ask_permission(work, site_id=site.id, on=TODAY.replace(day=1))


def now(cast: Cast, permission: Permission) -> Permission:
    with cast.work("cora") as work:
        return queries.get_permission(work, permission.id)


def photograph() -> tuple[io.BytesIO, str]:
    body = io.BytesIO()
    Image.new("RGB", (400, 300), "white").save(body, "JPEG")
    body.seek(0)
    return body, "IMG_0001.jpg"


@pytest.mark.parametrize("name", FORMS)
def test_the_litany(browse: Browse, asked: Permission, name: str) -> None:
    path = f"/permissions/{asked.id}/{name}"
    opens_to(browse, path, ("alice", "cora"))
    hides_from(browse, path)
    asks_to_sign_in(browse, path)
    refuses(browse, path, ("bob", "tess", "olga"))
    is_missing(browse, f"/permissions/{{}}/{name}")
    keeps_its_verbs(browse, path)


def test_a_yes_with_its_signed_letter(browse: Browse, cast: Cast, asked: Permission) -> None:
    window, path = browse("alice"), f"/permissions/{asked.id}"
    window.fill(f"{path}/grant", **DAYS, conditions="Ring first.", signed_file=photograph())
    kept = now(cast, asked)
    assert (kept.state, kept.conditions) == ("granted", "Ring first.")
    answer = window.get(f"{path}/signed").answer
    assert answer.mimetype.startswith("image/"), "drawn anew"
    assert "attachment" in answer.headers["Content-Disposition"]
    assert "IMG_0001" not in answer.headers["Content-Disposition"]
    for reader in ("bob", "tess", "cora"):
        browse(reader).get(f"{path}/signed")
    hides_from(browse, f"{path}/signed")
    browse("olga").get(f"{path}/signed", 403)


def test_a_letter_that_comes_later(browse: Browse, cast: Cast, asked: Permission) -> None:
    window, path = browse("alice"), f"/permissions/{asked.id}"
    window.fill(f"{path}/grant", **DAYS)
    window.get(f"{path}/signed", 404)
    page = window.get(f"/sites/{asked.site_id}")
    assert "No signed letter is kept here yet" in page.main
    window.fill(f"{path}/keep", signed_file=photograph())
    window.get(f"{path}/signed")


@pytest.mark.parametrize(
    ("body", "sentence"),
    [
        (b"MZ\x90\x00 a program", "a photograph of the paper"),
        (b"%PDF-1.7 /JavaScript %%EOF", "holds a program"),
    ],
)
def test_a_file_that_is_no_paper_is_refused(
    browse: Browse, cast: Cast, asked: Permission, body: bytes, sentence: str
) -> None:
    page = browse("alice").fill(
        f"/permissions/{asked.id}/grant", status=422, **DAYS, signed_file=(io.BytesIO(body), "letter.pdf")
    )
    assert sentence in page.beside("signed_file")
    assert now(cast, asked).state == "asked"
    folder = Path(cast.house.settings.data_dir) / "files"
    assert [each for each in folder.rglob("*") if each.is_file()] == []


@pytest.mark.parametrize(
    ("name", "typed", "sentence"),
    [
        ("ends_on", "2031-07-01", "before the first"),
        ("answered_on", "2031-06-30", "cannot be older"),
        ("answered_on", "2031-07-15", "still to come"),
        ("starts_on", "soon", "day of the calendar"),
        ("ends_on", "", "fill this in"),
    ],
)
def test_days_that_cannot_be(
    browse: Browse, cast: Cast, asked: Permission, name: str, typed: str, sentence: str
) -> None:
    page = browse("alice").fill(
        f"/permissions/{asked.id}/grant", status=422, **DAYS | {name: typed}, conditions="Ring first."
    )
    assert sentence in page.beside(name)
    assert page.typed("conditions") == "Ring first."
    assert now(cast, asked).state == "asked"


def test_a_no(browse: Browse, cast: Cast, asked: Permission) -> None:
    window = browse("alice")
    page = window.follow(window.fill(f"/permissions/{asked.id}/refuse", reason="Lambing."))
    assert now(cast, asked).state == "refused"
    assert "Nobody may collect here" in page.main


def test_a_yes_that_is_taken_back(browse: Browse, cast: Cast, asked: Permission) -> None:
    window, path = browse("cora"), f"/permissions/{asked.id}"
    window.fill(f"{path}/grant", **DAYS)
    assert "fill this in" in window.fill(f"{path}/withdraw", status=422).beside("reason")
    window.fill(f"{path}/withdraw", reason="The hay is late.")
    assert now(cast, asked).state == "withdrawn"


def test_a_move_there_is_not_says_so(browse: Browse, cast: Cast, asked: Permission) -> None:
    page = browse("alice").fill(f"/permissions/{asked.id}/withdraw", status=422, reason="x")
    assert "“asked” now" in " ".join(page.problems)
    assert now(cast, asked).state == "asked"


def test_its_questions_are_few(browse: Browse, asked: Permission) -> None:
    window = browse("alice")
    for name in FORMS:
        window.get(f"/permissions/{asked.id}/{name}")
        assert len(window.queries) == 3  # the caller, the permission, the site
    assert isinstance(asked.id, UUID)
