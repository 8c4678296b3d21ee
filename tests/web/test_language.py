"""Sentences, numbers and days are written as the reader's language and bank write them."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal
from uuid import uuid4

import pytest
from flask import Flask, render_template_string
from hypothesis import given
from hypothesis import strategies as st

from hub.rights.scope import Role, Scope
from hub.web import catalogue, language
from hub.web.caller import WHO, Caller
from hub.web.language import day, moment, number, said, share, weekday_moment
from hub.words import say, say_n

NOON = datetime(2026, 6, 4, 22, 30, tzinfo=UTC)


@pytest.fixture
def bilingual(app, tmp_path, monkeypatch):
    """An app with a German catalogue of two texts."""
    folder = tmp_path / "de" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    texts = catalogue.Catalog(locale="de")
    texts.add("At most {mass} g.", "Höchstens {mass} g.")
    texts.add(("{n} mother", "{n} mothers"), ("{n} Mutter", "{n} Mütter"))
    with (folder / "messages.mo").open("wb") as file:
        catalogue.write_mo(file, texts)
    german = Flask("german")
    german.config["BABEL_TRANSLATION_DIRECTORIES"] = str(tmp_path)
    german.extensions.update({name: app.extensions[name] for name in (WHO,)})
    language.prepare(german)
    return lambda tag: german.test_request_context(headers={"Accept-Language": tag})


@pytest.mark.parametrize(
    ("tag", "sentence", "mothers"),
    [
        ("de-AT,en;q=0.5", "Höchstens 1.234,5 g.", "2 Mütter"),
        ("en-US", "At most 1,234.5 g.", "2 mothers"),
        ("eo", "At most 1,234.5 g.", "2 mothers"),
        ("", "At most 1,234.5 g.", "2 mothers"),
        (";;;q=x", "At most 1,234.5 g.", "2 mothers"),
    ],
)
def test_the_browsers_language_is_spoken_where_the_hub_speaks_it(bilingual, tag, sentence, mothers):
    with bilingual(tag):
        assert said(say("At most {mass} g.", mass=Decimal("1234.5"))) == sentence
        assert said(say_n("{n} mother", "{n} mothers", n=2)) == mothers


def test_sentences_nest_and_years_are_names():
    inner = say_n("{n} mother", "{n} mothers", n=1200)
    assert said(say("{what} in {year}.", what=inner, year=2026)) == "1,200 mothers in 2026."


def test_days_in_sentences_are_written_out():
    assert said(say("From {day}.", day=date(2026, 6, 4))) == "From 4 June 2026."


def test_an_instant_falls_on_its_day_in_the_banks_zone(app):
    app.extensions[WHO] = lambda: Caller(Scope(None, Role.CURATOR, bank_id=uuid4()), zone="Europe/Vienna")
    with app.test_request_context():
        assert day(NOON) == "5 June 2026"
        assert moment(NOON) == "5 Jun 2026, 00:30"
        assert weekday_moment(NOON) == "Fri, 5 Jun 2026, 00:30"
    assert day(NOON) == "4 June 2026"


def test_the_zone_is_named_to_whoever_has_no_bank(app):
    with app.test_request_context():
        assert moment(NOON) == "4 Jun 2026, 22:30 UTC"
    assert moment(NOON) == "4 Jun 2026, 22:30 UTC"


@pytest.mark.parametrize(
    ("template", "text"),
    [
        ("{{ ngettext('%(num)s seed', '%(num)s seeds', 12345) }}", "12,345 seeds"),
        ("{{ ngettext('%(num)s seed', '%(num)s seeds', 1) }}", "1 seed"),
        ("{{ _('At most %(n)s seeds', n=1000) }}", "At most 1,000 seeds"),
        ("{{ _('In %(year)s', year=2031) }}", "In 2031"),
        ("{{ _('%(a)s of %(b)s', a=True, b='1234') }}", "True of 1234"),
        ("{{ _('%(a)s', a='<b>') }}", "&lt;b&gt;"),
    ],
)
def test_numbers_in_the_sentences_of_templates_take_their_marks(app, template, text):
    with app.test_request_context():
        assert render_template_string(template) == text


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [
        (1234, None, "1,234"),
        (0.1 + 0.2, None, "0.3"),
        (Decimal("0.00040"), None, "0.0004"),
        (0.000123, None, "0.000123"),
        (2.345, 1, "2.3"),
        (12, 2, "12.00"),
        (3.2e18, None, "3.2E18"),
        (float("inf"), None, "∞"),
        (None, None, "–"),
    ],
)
def test_numbers_keep_the_digits_that_count(value, places, text):
    assert number(value, places) == text


@pytest.mark.parametrize(
    ("value", "places", "text"), [(0.237, 0, "24%"), (0.237, 1, "23.7%"), (None, 0, "–")]
)
def test_shares_are_percentages(value, places, text):
    assert share(value, places) == text


@given(st.floats() | st.integers(-(10**300), 10**300) | st.decimals(-(10**12), 10**12, places=6))
def test_any_number_can_be_shown(value):
    assert number(value)
    assert number(value, places=2)


@pytest.mark.parametrize(
    ("name", "markup"),
    [
        ("Carex flacca", '<i lang="la">Carex flacca</i>'),
        (
            "Carex flacca subsp. erythrostachys",
            '<i lang="la">Carex flacca</i> subsp. <i lang="la">erythrostachys</i>',
        ),
        ("Salix × rubens", '<i lang="la">Salix</i> × <i lang="la">rubens</i>'),
        ("Carex sp.", '<i lang="la">Carex</i> sp.'),
        ("<b>x</b>", '<i lang="la">&lt;b&gt;x&lt;/b&gt;</i>'),
    ],
)
def test_names_are_italic_and_ranks_upright(app, name, markup):
    with app.test_request_context():
        assert render_template_string("{{ name|taxon }}", name=name) == markup


def test_a_template_translates_words_wherever_it_prints_them(app):
    with app.test_request_context():
        page = render_template_string("{{ words }} {{ words|said }}", words=say("Give {what}.", what="<b>"))
    assert page == "Give &lt;b&gt;. Give &lt;b&gt;."
