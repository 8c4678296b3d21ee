"""What the documents say is there, is there: files, links, commands, settings, rules, recipes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from hub import cli
from hub.protocols.rulebook_reader import standard_rulebook
from hub.rights.right import Right

ROOT = Path(__file__).resolve().parents[2]
DOCUMENTS = sorted([ROOT / "README.md", ROOT / "DEVELOPERS.md", *(ROOT / "docs").rglob("*.md")])
LINK = re.compile(r"\[[^\]]*\]\(([^)\s]+)\)")
CODE = re.compile(r"`([^`\n]+)`")
COMMAND = re.compile(r"(?:^|\b)(?:python3 -m )?hub ([a-z]+)\b")
RULE = re.compile(r"^[a-z]+\.[a-z]+(?:-[a-z]+)*$")
SETTING = re.compile(r"\bHUB_[A-Z_]+\b")
FILE = re.compile(r"^(?:hub|templates|tests|demo_data|docs|\.ci|\.requirements)/[\w./-]*$")
# Ends of file names, which look like the id of a rule.
ENDINGS = ("py", "html", "md", "toml", "json", "csv", "css", "js", "txt", "org", "example", "pdf")


def text_of(path: Path) -> str:
    return path.read_text("utf-8")


def anchors(path: Path) -> set[str]:
    """The ids that a heading gets: small letters, dashes for spaces, other signs dropped."""
    headings = re.findall(r"^#+ (.+)$", text_of(path), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).strip().replace(" ", "-") for heading in headings}


def in_code(path: Path) -> Iterator[str]:
    """Everything set as code: in a line, or in a block."""
    blocks = re.findall(r"^```[^\n]*\n(.*?)^```", text_of(path), re.MULTILINE | re.DOTALL)
    yield from (line for block in blocks for line in block.splitlines())
    yield from CODE.findall(text_of(path))


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


@pytest.mark.parametrize("path", DOCUMENTS, ids=name_of)
def test_every_link_leads_somewhere(path: Path) -> None:
    for link in LINK.findall(text_of(path)):
        if "://" in link or link.startswith("mailto:"):
            continue
        file, _, anchor = link.partition("#")
        target = (path.parent / file).resolve() if file else path
        assert target.exists(), f"{link}: there is no such file"
        assert not anchor or anchor in anchors(target), f"{link}: there is no such heading"


@pytest.mark.parametrize("path", DOCUMENTS, ids=name_of)
def test_every_command_exists(path: Path) -> None:
    named = {found for code in in_code(path) for found in COMMAND.findall(code)}
    assert named <= cli.COMMANDS.keys()


@pytest.mark.parametrize("path", DOCUMENTS, ids=name_of)
def test_every_file_exists(path: Path) -> None:
    named = [code for code in in_code(path) if FILE.match(code)]
    missing = [code for code in named if not list(ROOT.glob(code.rstrip("/")))]
    assert not missing


@pytest.mark.parametrize("path", DOCUMENTS, ids=name_of)
def test_every_rule_named_is_in_standard_rulebook(path: Path) -> None:
    rulebook = standard_rulebook()
    named = {code for code in CODE.findall(text_of(path)) if RULE.match(code) and not code.endswith(ENDINGS)}
    assert not {code for code in named if rulebook.rule(code) is None}


@pytest.mark.parametrize("path", DOCUMENTS, ids=name_of)
def test_every_right_named_exists(path: Path) -> None:
    named = {code for code in CODE.findall(text_of(path)) if re.fullmatch(r"[a-z]+:[a-z-]+", code)}
    assert named <= {str(right) for right in Right}


def test_every_setting_is_explained() -> None:
    """README names every variable that the configuration reads, and no other."""
    read = set(SETTING.findall(text_of(ROOT / "hub" / "config.py"))) - {"HUB_DAYS_AHEAD"}  # the demo's own
    assert set(SETTING.findall(text_of(ROOT / "README.md"))) == read


def test_every_document_is_linked_from_another() -> None:
    linked = {
        (path.parent / link.partition("#")[0]).resolve()
        for path in DOCUMENTS
        for link in LINK.findall(text_of(path))
        if "://" not in link
    }
    assert not [name_of(path) for path in DOCUMENTS if path not in linked and path.name != "README.md"]
