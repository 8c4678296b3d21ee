"""Scientific names against the botanical code's own examples and an outside list of name strings.

The table of 34 names gathers forms that the International Code of Nomenclature (Shenzhen 2018)
orders, among them its Saxifraga example of Art. 24.1 and its hybrids of Art. H.1 to H.3. The
outside list is the part on botanical names of the test data of gnames/gnparser, MIT licence.
"""

from __future__ import annotations

import contextlib

import pytest

from hub.taxa.names import NameUnreadable, ParsedName, parse_name
from tests.outside.reference import reference_rows

# What the outside list takes from zoology, whose ranks and forms the botanical code does not know.
ZOOLOGICAL = ("Crematogaster ", "Camponotus ", "Callideriphus ", "Acidalia ", "Littorina ")


def as_row(name: ParsedName) -> dict[str, str]:
    """The name in the columns of our table."""
    return {
        "rank_or_error": name.rank,
        "genus": name.genus,
        "species": name.specific_epithet,
        "infra_marker": name.marker,
        "infra_epithet": name.infraspecific_epithet,
        "hybrid": "" if name.hybrid == "none" else name.hybrid.value,
        "authorship": name.authorship,
        "qualifier": name.qualifier,
    }


def test_every_name_of_the_table_reads_as_it_says() -> None:
    rows = reference_rows("examples/name_tests.csv")
    assert len(rows) == 34
    for row in rows:
        if row["rank_or_error"] == "ERROR":
            with pytest.raises(NameUnreadable):
                parse_name(row["input"])
            continue
        read = as_row(parse_name(row["input"]))
        assert {column: row[column] for column in read} == read, row["input"]


def lowest_rank_only(canonical: str) -> str:
    """The outside canonical form without the ranks between, which are no part of a name (Art. 24.1)."""
    words = canonical.split()
    ranks = [place for place, word in enumerate(words) if word.endswith(".")]
    if ranks:
        return " ".join([*words[:2], *words[ranks[-1] :]])
    return " ".join([*words[:2], *words[2:][-1:]])


def test_outside_names_of_first_quality_have_the_same_canonical_form() -> None:
    rows = [row for row in reference_rows("names/gnparser_icn_subset.csv") if row["quality"] == "1"]
    botanical = [row for row in rows if not row["name"].startswith(ZOOLOGICAL)]
    assert len(botanical) > 50
    for row in botanical:
        assert parse_name(row["name"]).canonical == lowest_rank_only(row["canonical_full"]), row["name"]


def test_most_outside_names_of_any_quality_are_read_and_none_breaks_the_parser() -> None:
    read = 0
    for row in reference_rows("names/gnparser_icn_subset.csv"):
        with contextlib.suppress(NameUnreadable):
            read += bool(parse_name(row["name"]).canonical)
    assert read > 130
