"""Every rank string of the table of 45, with what a separate parser of the same grammar made of it.

The definitions are those of the public G, N and S ranks (Master et al. 2012; Faber-Langendoen
et al. 2012); the table was written with a first, independent parser and is kept as it was.
"""

from __future__ import annotations

import pytest

from hub.taxa.ranks import Rank, RankPart, RankUnreadable, parse_rank
from tests.outside.reference import reference_rows


def ends(part: RankPart | None) -> tuple[str, str]:
    return (part.rarer, part.commoner) if part else ("", "")


def as_row(rank: Rank) -> dict[str, str]:
    """The rank in the columns of the table, which leaves those of seasons and hybrids empty."""
    only = rank.parts[0] if len(rank.parts) == 1 else None
    t_part = rank.infraspecific
    return {
        "scope": rank.scope,
        "kind": rank.kind.value,
        "lo": ends(only)[0],
        "hi": ends(only)[1],
        "inexact": str(only.inexact) if only else "",
        "questionable": str(only.questionable) if only else "",
        "captive": str(only.captive) if only else "",
        "t_lo": ends(t_part)[0],
        "t_hi": ends(t_part)[1],
        "t_questionable": str(t_part.questionable) if t_part else "",
        "rounded": rank.rounded,
    }


def test_every_rank_string_reads_as_the_table_says() -> None:
    rows = reference_rows("examples/rank_tests.csv")
    assert len(rows) == 45
    for row in rows:
        if row["ok"] == "no":
            with pytest.raises(RankUnreadable):
                parse_rank(row["input"])
            continue
        rank = parse_rank(row["input"])
        if row["ok"] == "empty":
            assert rank is None
            continue
        assert rank is not None
        read = as_row(rank)
        assert {name: row[name] for name in read} == read, row["input"]
        assert bool(rank.warnings) == (bool(row["error_or_warning"]) or rank.kind == "seasonal"), row["input"]


@pytest.mark.parametrize(
    ("text", "words"),
    [("G1G4", "skip more than one"), ("G3G2", "from the rarer"), ("G1T2", "commoner"), ("S2Q", "global")],
)
def test_refusals_name_the_reason_of_the_table(text: str, words: str) -> None:
    with pytest.raises(RankUnreadable, match=words):
        parse_rank(text)
