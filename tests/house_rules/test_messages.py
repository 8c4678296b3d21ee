"""The texts for people can be gathered and translated, and are set as texts should be."""

from __future__ import annotations

import re
from string import Formatter

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from hub.web.catalogue import FOLDER, collect, renew, texts_of_rules

STRAIGHT = re.compile(r"\w'\w|\"")
# A tag or an attribute inside a text belongs to the template around it.
MARKUP = re.compile(r"</?[a-z]+[^>]*>")


@pytest.fixture(scope="module")
def texts():
    """Every text with one of the places where it stands, each form of a counting text on its own."""
    found = []
    for message in collect():
        forms = message.id if isinstance(message.id, tuple | list) else (message.id,)
        found += [(form, message.locations[0]) for form in forms if form]
    assert len(found) > 100
    return found


def faults(texts, wrong):
    return [f"{place[0]}:{place[1]}: {text!r}" for text, place in texts if wrong(text)]


def test_apostrophes_and_quotation_marks_are_typographic(texts):
    quoted = faults(texts, lambda text: STRAIGHT.search(MARKUP.sub("", text)))
    assert not quoted, "write ’ and “ ”:\n" + "\n".join(quoted)


def test_no_text_begins_or_ends_in_space(texts):
    in_code = [each for each in texts if each[1][0].startswith("hub/")]
    loose = faults(in_code, lambda text: text != text.strip())
    assert not loose, "\n".join(loose)


def test_values_in_code_are_named_so_that_translators_can_move_them(texts):
    def nameless(text):
        try:
            names = [name for _, name, _, _ in Formatter().parse(text) if name is not None]
            return not all(name.isidentifier() for name in names)
        except ValueError:
            return True

    broken = faults([each for each in texts if each[1][0].endswith(".py")], nameless)
    assert not broken, "name each value: {name}\n" + "\n".join(broken)


def test_the_texts_of_the_rules_are_gathered(tmp_path):
    path = tmp_path / "rules.toml"
    path.write_text('[[rule]]\nid = "a.b"\nsays = "Look first."\n[rule.more]\nwhy = "It helps."\n')
    with path.open("rb") as file:
        found = list(texts_of_rules(file, (), (), {"keys": "says why"}))
    assert [(line, text) for line, _, text, _ in found] == [(3, "Look first."), (5, "It helps.")]


def test_a_language_is_renewed_without_losing_a_translation(tmp_path):
    folder = tmp_path / "de" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    first, second = Catalog(), Catalog()
    first.add("Seed")
    second.add("Seed")
    second.add("Mother")
    language = renew(folder, first)
    language["Seed"].string = "Samen"
    with (folder / "messages.po").open("wb") as file:
        write_po(file, language)
    again = renew(folder, second)
    assert again["Seed"].string == "Samen"
    assert not again["Mother"].string
    assert (folder / "messages.mo").exists()


def test_every_language_keeps_the_values_of_each_text():
    def values(text):
        return {name for _, name, _, _ in Formatter().parse(text) if name}

    for path in FOLDER.glob("*/LC_MESSAGES/messages.po"):
        with path.open("rb") as file:
            for message in read_po(file):
                if isinstance(message.id, str) and message.string:
                    assert values(message.string) <= values(message.id), f"{path}: {message.id!r}"
