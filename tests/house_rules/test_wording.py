"""What is written speaks of the hub alone: no machine's paths, no unfinished notes, one spelling."""

from __future__ import annotations

import re
import subprocess
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
ITSELF = Path(__file__).relative_to(ROOT).as_posix()
BINARY = {".pdf", ".png", ".jpg", ".jpeg", ".webp", ".ico", ".woff2", ".ttf", ".xlsx"}
GENERATED = (".requirements/", "hub/messages/")
# Each is written so that it does not find itself here.
FORBIDDEN = {
    "a path of one machine": r"(?<![\w.])/(?:wor[k]|hom[e]|roo[t]|User[s])/\w|(?<![\w.])/tm[p]/\w",
    "an unfinished note": r"\b(?:TOD[O]|FIXM[E]|XX[X]|HAC[K]|WI[P])\b",
    "how the text was made": r"\b(?:language mode[l]|chatbo[t]|generated b[y] (?:AI|an? model)|as an A[I])\b",
    "a number of an issue": r"\b(?:issu[e]|ticke[t]|pull reques[t]) ?#?\d+\b|\(#\d+\)",
    "a packages’ host": r"\b(?:pypi\.or[g]|files\.pythonhosted\.or[g]|registry\.npmjs\.or[g])\b",
    "filler text": r"\blorem ipsu[m]\b",
}
# American spellings of words that these texts use; the first of each pair is what we write.
SPELLING = {
    "colour": r"\bcolors?\b", "centre": r"\bcenters?\b", "metre": r"\b(?:kilo|centi|milli)?meters\b",
    "grey": r"\bgray\b", "licence": r"\b(?:a|the) license\b", "catalogue": r"\bcatalogs?\b",
    "organise": r"\borganiz(?:e|ed|ing|ation)s?\b", "recognise": r"\brecogniz\w+", "labelled": r"\blabeled\b",
    "neighbour": r"\bneighbors?\b", "favour": r"\bfavor\b", "programme": r"\bresearch program\b",
    "mould": r"\bmoldy?\b", "plough": r"\bplow\b", "generalise": r"\bgeneraliz(?:e|ed|ing)\b",
}  # fmt: skip
# Where the other spelling is somebody’s name: an identifier, a property of a standard, a title.
NAMED = re.compile(
    r"Center for Plant Conservation|generalizing sensitive species|Generalizing Sensitive Species"
)


@cache
def written() -> dict[str, str]:
    """Every tracked text, by its path. What git ignores belongs to nobody but its machine."""
    told = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True, text=True)
    names = [name for name in told.stdout.split("\0") if name and Path(name).suffix not in BINARY]
    kept = [name for name in names if not name.startswith(GENERATED) and (ROOT / name).is_file()]
    return {name: (ROOT / name).read_text("utf-8") for name in kept if name != ITSELF}


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    if not (ROOT / ".git").exists():
        pytest.skip("only a checkout knows which files are its own")
    return written()


def found(pattern: str, texts: dict[str, str], flags: int = 0) -> list[str]:
    reading = re.compile(pattern, flags)
    return [
        f"{name}:{number}: {line.strip()[:100]}"
        for name, text in texts.items()
        if reading.search(text)
        for number, line in enumerate(text.splitlines(), 1)
        if reading.search(NAMED.sub("", line))
    ]


@pytest.mark.parametrize("what", FORBIDDEN)
def test_no_file_holds(what: str, texts: dict[str, str]) -> None:
    faults = found(FORBIDDEN[what], texts)
    assert not faults, f"{what}:\n" + "\n".join(faults)


@pytest.mark.parametrize("ours", SPELLING)
def test_texts_for_people_are_spelt_one_way(ours: str, texts: dict[str, str]) -> None:
    """In templates, the rulebook and the documents; code names things as its libraries do."""
    for_people = {
        name: re.sub(r"`[^`]*`|https?://\S+|<[^>]*>|{[{%].*?[%}]}", "", text)
        for name, text in texts.items()
        if name.endswith((".md", ".html")) or name.startswith("hub/protocols/rulebook/")
    }
    faults = found(SPELLING[ours], for_people, re.IGNORECASE)
    assert not faults, f"we write “{ours}”:\n" + "\n".join(faults)
