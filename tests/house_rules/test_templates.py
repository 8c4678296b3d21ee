"""Templates: each is used, each page stands in the frame, none carries code, style or hosts of its own."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import jinja2
import pytest
from jinja2 import nodes

from hub.config import PACKAGE, resource_folder

TEMPLATES = resource_folder("templates")
NAMING = (nodes.Extends, nodes.Include, nodes.Import, nodes.FromImport)
READING = jinja2.Environment(extensions=["jinja2.ext.i18n"], autoescape=True)
PAGES = sorted(TEMPLATES.rglob("*.html"))
EVERYTHING = sorted(path for path in TEMPLATES.rglob("*") if path.is_file())
FRAMES = frozenset({"base.html", "print/base_pdf.html"})  # of pages, of papers
SHOWCASE = "specimen.html"  # shows every part with invented names, to those who change the look
# What a browser does with an address of another host: it asks there.
FETCHED = re.compile(
    r"""(?:\bsrc|\bhref|\baction|\bdata|\bposter|\bsrcset)=["'](?:https?:)?//|url\(\s*["']?(?:https?:)?//"""
)
HANDLER = re.compile(r"""<[a-zA-Z][^<>]*?\son[a-z]+\s*=""")
STYLE = re.compile(r"""<[a-zA-Z][^<>]*?\sstyle\s*=""")
SCRIPT = re.compile(r"<script\b(?![^>]*\bsrc=)", re.IGNORECASE)


def name_of(path: Path) -> str:
    return path.relative_to(TEMPLATES).as_posix()


@cache
def tree_of(path: Path) -> nodes.Template:
    return READING.parse(path.read_text("utf-8"))


def named_in_templates() -> Iterator[str]:
    """Every template that another one extends, includes or imports from."""
    for path in EVERYTHING:
        if path.suffix in (".html", ".css", ".txt", ".svg"):
            for node in tree_of(path).find_all(
                (nodes.Extends, nodes.Include, nodes.Import, nodes.FromImport)
            ):
                yield from (each.value for each in node.find_all(nodes.Const) if isinstance(each.value, str))


@cache
def named_in_code() -> set[str]:
    """Every text of the code that could name a template, f-strings with a star for what they put in."""
    found = set()
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found.add(node.value)
            elif isinstance(node, ast.JoinedStr):
                parts = [part.value if isinstance(part, ast.Constant) else "*" for part in node.values]
                found.add("".join(map(str, parts)))
    return found


def test_every_template_is_used() -> None:
    named = named_in_code() | set(named_in_templates())
    paths = [each for each in named if "/" in each or each in FRAMES]
    unused = [
        name_of(path)
        for path in EVERYTHING
        if path.name != SHOWCASE and not any(path.relative_to(TEMPLATES).match(each) for each in paths)
    ]
    assert not unused, f"nothing shows {unused}"


def imported_names(tree: nodes.Template) -> set[str]:
    names = {node.target for node in tree.find_all(nodes.Import)}
    for node in tree.find_all(nodes.FromImport):
        names |= {each[1] if isinstance(each, tuple) else each for each in node.names}
    return names


def used_names(tree: nodes.Template) -> set[str]:
    return {node.name for node in tree.find_all(nodes.Name) if node.ctx == "load"}


@pytest.mark.parametrize("path", PAGES, ids=name_of)
def test_every_import_is_used(path: Path) -> None:
    tree = tree_of(path)
    unused = imported_names(tree) - used_names(tree)
    assert not unused, f"imported and never used: {sorted(unused)}"


def macros_of(path: Path) -> set[str]:
    return {node.name for node in tree_of(path).find_all(nodes.Macro)}


def test_every_macro_is_called() -> None:
    called = {name for path in EVERYTHING if path.suffix == ".html" for name in reached(tree_of(path))}
    unused = {f"{name_of(path)}: {name}" for path in PAGES for name in macros_of(path) - called}
    assert not unused, f"no template calls {sorted(unused)}"


def reached(tree: nodes.Template) -> Iterator[str]:
    """Names that a template calls: of its own, imported, or of an imported module."""
    yield from used_names(tree)
    yield from (node.attr for node in tree.find_all(nodes.Getattr))
    for node in tree.find_all(nodes.FromImport):
        yield from (each[0] if isinstance(each, tuple) else each for each in node.names)


def test_every_page_stands_in_the_frame() -> None:
    """Whatever a route shows whole extends the frame, unless it is a document of its own."""
    bare = [
        name_of(path)
        for path in PAGES
        if name_of(path) in named_in_code()
        and not extends_frame(path)
        and "<html" not in path.read_text("utf-8")
    ]
    assert not bare, f"these pages extend no frame: {bare}"


def extends_frame(path: Path) -> bool:
    """Whether a template extends the frame, itself or through another."""
    parents = [
        name.value for node in tree_of(path).find_all(nodes.Extends) for name in node.find_all(nodes.Const)
    ]
    return any(name in FRAMES or extends_frame(TEMPLATES / str(name)) for name in parents)


@pytest.mark.parametrize("path", PAGES, ids=name_of)
def test_no_template_carries_code_style_or_hosts(path: Path) -> None:
    source = re.sub(r"{#.*?#}|{{.*?}}|{%.*?%}", "", path.read_text("utf-8"), flags=re.DOTALL)
    assert not HANDLER.search(source), "an on…= attribute: the policy forbids it; put the code into a file"
    assert not SCRIPT.search(source), "a script in the page: the policy forbids it; put it into a file"
    assert not STYLE.search(source), "a style attribute: use a class, or an attribute of SVG"
    assert not FETCHED.search(source), "something from another host: everything comes from the hub itself"
