"""The accession book of a bank, and a group's own list: found, filtered, sorted, paged, as a file."""

from __future__ import annotations

from datetime import UTC, date, datetime
from uuid import uuid4

import pytest
from sqlalchemy import select

from hub.accessions.models import Accession
from hub.accessions.rules import AccessionState
from hub.db.numbering import with_check
from hub.taxa.models import Taxon
from hub.vetting.models import Submission
from tests.accessions.scene import banked
from tests.adoptions.scene import species
from tests.cast import Cast
from tests.support.browser import Browse

BOOK, OURS = "/accession-book", "/our-accessions"
QUERIES = {BOOK: 6, OURS: 5}


def shelf(cast: Cast, model: Accession, count: int) -> None:
    """More accessions like one there is, without the work of collecting them: for lists alone."""
    with cast.everywhere() as work:
        like = work.db.get_one(Submission, model.submission_id)
        taxon = species("Ulmus glabra")
        work.db.add(taxon)
        work.db.flush()
        for serial in range(100, 100 + count):
            copy = {
                column.key: getattr(like, column.key)
                for column in Submission.__table__.columns
                if column.key not in ("version", "id", "number", "sent_key")
            }
            submission = Submission(id=uuid4(), number=f"COPY-{serial}", sent_key=uuid4().hex, **copy)
            work.db.add(submission)
            work.db.flush()
            work.db.add(
                Accession(
                    group_id=model.group_id, bank_id=model.bank_id, submission_id=submission.id,
                    number=with_check(f"FELL-2030-{serial:04d}"), year=2030, serial=serial,
                    taxon_id=taxon.id, population_id=model.population_id, collected_on=date(2030, 7, 1),
                    mothers=5, accessioned_at=datetime(2030, 8, 1, tzinfo=UTC), reason="",
                    state=AccessionState.STORED,
                )
            )  # fmt: skip


@pytest.fixture
def first(cast: Cast) -> Accession:
    return banked(cast)


def rows(browse: Browse, path: str, name: str, **query: str) -> list[str]:
    return browse(name).get(path, **query, **{"as": "csv"}).html.splitlines()[1:]


def test_the_book_shows_what_stands_in_it(browse: Browse, first: Accession) -> None:
    for name in ("cora", "tess"):
        text = browse(name).get(BOOK).main
        for words in (first.number, "Silene acaulis", "Fell Group", "240", "Processing", "12 July 2031"):
            assert words in text
    assert rows(browse, BOOK, "cora") == [
        f"{first.number},Silene acaulis,Fell Group,processing,2031-07-12,2031-07-14,3,3,240"
    ]


def test_a_number_is_found_however_it_is_typed(browse: Browse, first: Accession) -> None:
    tess = browse("tess")
    for typed in (first.number, first.number.lower(), first.number.replace("-", " "), f"{first.number}/02",
                  "FELL-2031-0001", "fell20310001", "2031-0001"):  # fmt: skip
        assert first.number in tess.get(BOOK, search=typed).main, typed
    assert "No accession is like that" in tess.get(BOOK, search="FELL-2031-0002").main


def test_a_wrong_check_character_is_said_and_looked_past(browse: Browse, first: Accession) -> None:
    wrong = first.number[:-1] + ("A" if first.number[-1] != "A" else "B")
    page = browse("tess").get(BOOK, search=wrong)
    assert first.number in page.main
    assert f"The last sign of {wrong} does not fit it." in page.text


@pytest.mark.parametrize("path", [BOOK, OURS])
def test_each_filter_narrows_it(cast: Cast, browse: Browse, first: Accession, path: str) -> None:
    shelf(cast, first, 2)
    name = "cora" if path == BOOK else "alice"
    queries = [
        ({"search": "silene"}, 1), ({"search": "ulmus"}, 2), ({"search": "elm"}, 0), ({"state": "stored"}, 2),
        ({"year": "2031"}, 1), ({"taxon": str(first.taxon_id)}, 1), ({"state": "nonsense"}, 3),
        ({"year": "soon"}, 3), ({"taxon": str(uuid4())}, 0),
    ]  # fmt: skip
    if path == BOOK:
        queries += [({"search": "fell gr"}, 3), ({"group": str(cast.fell_group.id)}, 3)]
        queries += [({"group": str(cast.vale_school.id)}, 0)]
    for query, count in queries:
        assert len(rows(browse, path, name, **query)) == count, query
    assert "No accession is like that" in browse(name).get(path, state="living").main


@pytest.mark.parametrize("order", ["number", "species", "group", "collected"])
def test_it_sorts_both_ways(cast: Cast, browse: Browse, first: Accession, order: str) -> None:
    shelf(cast, first, 3)
    column = {"number": 0, "species": 1, "group": 2, "collected": 4}[order]
    for way, backwards in ((order, False), (f"{order}-down", True)):
        found = [row.split(",")[column] for row in rows(browse, BOOK, "cora", sort=way)]
        assert found == sorted(found, reverse=backwards)
        assert len(found) == 4


@pytest.mark.parametrize("path", [BOOK, OURS])
def test_it_pages_and_costs_the_same_for_sixty_as_for_one(
    cast: Cast, browse: Browse, first: Accession, path: str
) -> None:
    browser = browse("cora" if path == BOOK else "alice")
    browser.get(path)
    assert len(browser.queries) == QUERIES[path]
    shelf(cast, first, 60)
    page = browser.get(path)
    assert len(browser.queries) == QUERIES[path]
    (after,) = {link for link in page.links if "at=" in link}
    rest = browser.get(after)
    seen = page.html + rest.html
    assert all(f"FELL-2030-{serial:04d}" in seen for serial in range(100, 160))


def test_another_bank_and_another_group_see_none_of_it(browse: Browse, first: Accession) -> None:
    assert "The book is empty" in browse("dora").get(BOOK).main
    for name in ("charlie", "eve"):
        page = browse(name).get(OURS)
        assert "No accessions yet" in page.main
        assert first.number not in page.html


def test_our_list_gives_thanks_and_tells_what_became_of_it(
    cast: Cast, browse: Browse, first: Accession
) -> None:
    text = browse("bob").get(OURS).main
    for words in (
        "Thank you",
        first.number,
        "Silene acaulis",
        "The bank is cleaning, drying and testing it.",
    ):
        assert words in text
    assert "Lot" not in text
    assert rows(browse, OURS, "alice")[0].startswith(f"{first.number},Silene acaulis,SIL-ACA")


@pytest.mark.parametrize(
    ("path", "names"), [(BOOK, ("alice", "bob", "olga", "stan")), (OURS, ("cora", "tess", "olga", "stan"))]
)
def test_who_may_not_look(browse: Browse, path: str, names: tuple[str, ...]) -> None:
    for name in names:
        browse(name).get(path, status=403)
    assert browse().get(path, status=302).location.startswith("/sign-in")
    browse("cora" if path == BOOK else "alice").post(path, status=405)


def test_a_formula_in_a_name_stays_a_text(cast: Cast, browse: Browse, first: Accession) -> None:
    with cast.everywhere() as work:
        work.db.scalars(select(Taxon).where(Taxon.id == first.taxon_id)).one().canonical = "=1+1"
    assert ",'=1+1," in browse("cora").get(BOOK, **{"as": "csv"}).html
