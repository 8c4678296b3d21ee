"""Every text for people goes through the catalogues: none stands bare in a template or in a page's code."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import jinja2
import pytest
from jinja2 import nodes

from hub.config import PACKAGE, resource_folder

TEMPLATES = resource_folder("templates")
# What is no text of a page: translated stretches, the block that names a class, comments and expressions.
JINJA = re.compile(
    r"{%-?\s*trans\b.*?{%-?\s*endtrans\s*-?%}|{% block width %}.*?{% endblock %}|{#.*?#}|{%.*?%}|{{.*?}}",
    re.DOTALL,
)
# Attributes that a macro adds to a tag, as they look outside of it.
LOOSE_ATTRIBUTE = re.compile(r"[\w-]+=\"[^\"]*\"|\b(required|selected|checked|disabled|hidden)\b")
WORD = re.compile(r"[^\W\d_]{2,}")
SENTENCE = re.compile(r"^[A-ZÀ-Þ][a-zß-ÿ’]+(\s|[.:!?…]|$)")
# Proper names, units and formats, which are the same in every language.
SAME_EVERYWHERE = frozenset(
    ["Funicle", "mm", "cm", "km", "ha", "kg", "mg", "CSV", "PDF", "XLSX", "YYYY", "QR"]
)
# It shows every part of the pages with invented names.
SHOWCASE = "specimen.html"
SPOKEN = frozenset({"alt", "title", "placeholder", "label", "summary", "aria-label", "aria-description"})
UNSPOKEN = frozenset({"script", "style"})
TRANSLATORS = frozenset({"_", "gettext", "ngettext", "pgettext", "npgettext"})
# Calls whose first argument is read by a person.
TELLING = frozenset({"done", "notice", "Refused", "refuse", "MenuEntry", "ValidationError", "BadRequest"})
REASONS = "reason"  # and whatever is kept as the reason of a change is read in the audit log

READING = jinja2.Environment(extensions=["jinja2.ext.i18n"], autoescape=True)
Finding = tuple[int, str]


def bare(text: str) -> bool:
    """Whether a text has a word that a translator would have to see."""
    return any(word not in SAME_EVERYWHERE for word in WORD.findall(LOOSE_ATTRIBUTE.sub("", text)))


class Reader(HTMLParser):
    """Gathers what a page says outside Jinja: its texts, and the attributes that are read out."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.findings: list[Finding] = []
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.open.append(tag)
        given = dict(attributes)
        for name, value in attributes:
            spoken = name in SPOKEN or (name == "value" and given.get("type") in ("submit", "button"))
            if value and ((spoken and bare(value)) or (name.startswith("data-") and SENTENCE.match(value))):
                self.findings.append((self.getpos()[0], value))

    def handle_endtag(self, tag: str) -> None:
        if tag in self.open:
            del self.open[len(self.open) - 1 - self.open[::-1].index(tag) :]

    def handle_data(self, data: str) -> None:
        if bare(data) and not UNSPOKEN & set(self.open):
            before = data[: len(data) - len(data.lstrip())]
            self.findings.append((self.getpos()[0] + before.count("\n"), data.strip()))


def markup_findings(source: str) -> list[Finding]:
    """Bare texts in a template's HTML. Jinja's parts are blanked out, and lines keep their numbers."""
    reader = Reader()
    reader.feed(JINJA.sub(lambda part: "\n" * part[0].count("\n"), source))
    return reader.findings


def expression_findings(source: str) -> Iterator[Finding]:
    """Sentences written as plain strings inside Jinja's own expressions, such as a label given to a macro."""
    yield from untranslated(READING.parse(source))


def untranslated(node: nodes.Node) -> Iterator[Finding]:
    if isinstance(node, nodes.Call) and getattr(node.node, "name", "") in TRANSLATORS:
        return
    if isinstance(node, nodes.Const) and isinstance(node.value, str):
        if SENTENCE.match(node.value) and bare(node.value):
            yield node.lineno, node.value
        return
    for inner in node.iter_child_nodes():
        yield from untranslated(inner)


def code_findings(source: str) -> Iterator[Finding]:
    """Plain strings handed to a function that tells people something, or kept as a reason."""
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        told = node.args[:1] if name in TELLING else []
        told += [each.value for each in node.keywords if each.arg == REASONS]
        for each in told:
            if isinstance(each, ast.JoinedStr) or (isinstance(each, ast.Constant) and each.value):
                yield node.lineno, ast.unparse(each)


def told(path: Path, findings: Iterator[Finding] | list[Finding]) -> list[str]:
    return [f"{path}:{line}: {text!r}" for line, text in findings]


def test_no_text_stands_bare_in_a_template():
    faults = []
    for path in sorted(TEMPLATES.rglob("*.html")):
        source = path.read_text()
        name = path.relative_to(TEMPLATES.parent)
        faults += told(name, markup_findings(source))
        if path.name != SHOWCASE:
            faults += told(name, expression_findings(source))
    assert not faults, "put these into {{ _('…') }}:\n" + "\n".join(faults)


def test_no_text_stands_bare_in_code():
    faults = []
    for path in sorted(PACKAGE.rglob("*.py")):
        faults += told(path.relative_to(PACKAGE.parent), code_findings(path.read_text()))
    assert not faults, "put these into say(…):\n" + "\n".join(faults)


@pytest.mark.parametrize(
    ("source", "findings"),
    [
        ("<p>\n\nHello</p>", [(3, "Hello")]),
        ("<p>{{ _('Hello') }} · 5 mm</p>", []),
        ("{% trans %}Hello there{% endtrans %}", []),
        ("{# about this #}\n<a title='Go'>{{ x }}</a>", [(2, "Go")]),
        ("<style>.seed { color: red }</style>", []),
        ("<input type=submit value=Save>", [(1, "Save")]),
        ("<option{% if a %} selected{% endif %}>{{ a }}</option>", []),
        ("<b data-said='Sent to the hub.'></b>", [(1, "Sent to the hub.")]),
    ],
)
def test_bare_markup_is_found_where_it_stands(source, findings):
    assert markup_findings(source) == findings


@pytest.mark.parametrize(
    ("source", "findings"),
    [
        ("\n{{ text(form, 'name', 'Your name') }}", [(2, "Your name")]),
        ("{{ text(form, 'name', _('Your name')) }}", []),
        ("{{ 'button quiet' if a else 'primary' }}", []),
        ("{% set lead = 'All species.' %}", [(1, "All species.")]),
    ],
)
def test_bare_expressions_are_found_where_they_stand(source, findings):
    assert list(expression_findings(source)) == findings


def test_bare_code_is_found_where_it_stands():
    assert list(code_findings("\ndone('Kept.', url)\ndone(say('Kept.'), url)")) == [(2, "'Kept.'")]
    assert list(code_findings("end(a, reason='Over.')\nend(a, reason='')")) == [(1, "'Over.'")]
