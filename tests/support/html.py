"""Pages as the tests see them, and what is looked at on every one of them.

The rules are those of the HTML standard (a parser that forgives nothing, unique ids), of WCAG 2.2 (one
heading that the title names, a label for every box, alternatives for pictures) and of our own strict CSP.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any
from xml.etree.ElementTree import Element

import html5lib
from werkzeug.test import TestResponse

BOXES = ("input", "select", "textarea")
WITHOUT_LABEL = ("hidden", "submit", "button", "image", "reset")


@dataclass
class Form:
    """A form as a browser would send it untouched."""

    action: str
    values: dict[str, Any]


@dataclass
class Page:
    """One answer."""

    status: int
    html: str
    location: str
    answer: TestResponse

    @cached_property
    def tree(self) -> Element:
        return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(self.html)

    def all(self, tag: str) -> list[Element]:
        return list(self.tree.iter(tag))

    @property
    def text(self) -> str:
        """All that can be read, with single spaces."""
        return words_in(self.tree)

    @property
    def main(self) -> str:
        """What can be read in the page's own part, without header and menu."""
        return words_in(next(self.tree.iter("main")))

    @property
    def heading(self) -> str:
        return words_in(self.all("h1")[0])

    @property
    def problems(self) -> list[str]:
        """The sentences at the top of a form that was sent back."""
        found = [each for each in self.tree.iter() if each.get("id") == "problems"]
        return [words_in(line) for each in found for line in each.iter("li")]

    def beside(self, name: str) -> str:
        """The sentences beside one box."""
        wanted = f"field-{name}-error"
        return " ".join(words_in(each) for each in self.tree.iter() if each.get("id") == wanted)

    def typed(self, name: str) -> str:
        """What stands in a box: typed, or chosen from a list."""
        for each in self.tree.iter():
            if each.get("name") == name and each.tag in BOXES:
                return value_of(each)
        raise AssertionError(f"there is no box {name}")

    @property
    def links(self) -> list[str]:
        return [link.get("href", "") for link in self.all("a")]

    @property
    def actions(self) -> list[str]:
        """Where the forms of the page's own part lead."""
        return [form.get("action", "") for form in next(self.tree.iter("main")).iter("form")]


def words_in(element: Element) -> str:
    return " ".join("".join(element.itertext()).split())


def form_at(page: Page, action: str | None, *, anywhere: bool = False) -> Form:
    """The first form of a page, or the first that goes to ``action``."""
    place = page.tree if anywhere or action else next(page.tree.iter("main"))
    for form in place.iter("form"):
        if (action is None and form.get("method") == "post") or form.get("action") == action:
            return Form(form.get("action", ""), dict(untouched(form)))
    raise AssertionError(f"no form goes to {action}; there are {page.actions}")


def untouched(form: Element) -> Iterator[tuple[str, Any]]:
    """What a browser sends of a form that nobody touched; several values of one name as a list."""
    found: dict[str, list[str]] = {}
    for box in form.iter():
        if box.tag not in BOXES or not box.get("name") or box.get("type") in ("submit", "file"):
            continue
        if box.get("type") in ("checkbox", "radio") and box.get("checked") is None:
            continue
        found.setdefault(box.get("name", ""), []).append(value_of(box))
    for name, values in found.items():
        yield name, values if len(values) > 1 else values[0]


def value_of(box: Element) -> str:
    if box.tag == "textarea":
        return (box.text or "").removeprefix("\n")
    if box.tag == "select":
        options = list(box.iter("option"))
        chosen = [each for each in options if each.get("selected") is not None] or options[:1]
        return chosen[0].get("value", "") if chosen else ""
    return box.get("value", "")


def looked_over(page: Page, path: str) -> None:
    """Fail with every fault that a page has."""
    faults = [fault for check in CHECKS for fault in check(page)]
    assert not faults, f"{path}: " + "; ".join(faults)


def headings(page: Page) -> Iterator[str]:
    found = [words_in(each) for each in page.all("h1")]
    title = " ".join(words_in(each) for each in page.tree.iter("title") if each.text)
    if len(found) != 1:
        yield f"{len(found)} first headings"
    elif not found[0] or found[0] not in title:
        yield f"the title “{title}” does not name “{found[0]}”"


def ids(page: Page) -> Iterator[str]:
    known = Counter(each.get("id") for each in page.tree.iter() if each.get("id") is not None)
    yield from (f"id {name} stands {count} times" for name, count in known.items() if count > 1)
    for each in page.tree.iter():
        pointed = (
            f"{each.get('aria-describedby', '')} {each.get('aria-labelledby', '')} {each.get('for', '')}"
        )
        yield from (f"{each.tag} points at no id {name}" for name in pointed.split() if name not in known)
        here = each.get("href", "") if each.tag == "a" else ""
        if here.startswith("#") and here[1:] not in known:
            yield f"a link leads to no id {here}"


def labels(page: Page) -> Iterator[str]:
    labelled = {each.get("for") for each in page.all("label")}
    for each in page.tree.iter():
        named = each.get("id") in labelled or each.get("aria-label") or each.get("aria-labelledby")
        if each.tag in BOXES and each.get("type") not in WITHOUT_LABEL and not named:
            yield f"the box {each.get('name')} has no label"
        if each.tag == "img" and each.get("alt") is None:
            yield "a picture has no alternative"
        if each.tag in ("a", "button") and not words_in(each) and not each.get("aria-label"):
            yield f"a {each.tag} says nothing"


def forms(page: Page) -> Iterator[str]:
    for form in page.all("form"):
        if not form.get("action") and form.get("method") != "dialog":
            yield "a form has no action"
        if form.get("method", "get").lower() == "post" and not any(
            box.get("name") == "csrf_token" and box.get("value") for box in form.iter("input")
        ):
            yield f"the form to {form.get('action')} has no token"


def nothing_inline(page: Page) -> Iterator[str]:
    for each in page.tree.iter():
        if each.get("style") is not None or each.tag == "style":
            yield f"{each.tag} has a style of its own"
        if each.tag == "script" and not each.get("src"):
            yield "a script stands in the page"
        yield from (f"{each.tag} has {name}" for name in each.attrib if name.startswith("on"))


CHECKS = (headings, ids, labels, forms, nothing_inline)
