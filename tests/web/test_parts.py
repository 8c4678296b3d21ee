"""The shared parts of pages and prints: one page with all of them, held against the HTML standard."""

from __future__ import annotations

from collections import Counter
from datetime import date

import html5lib
import pytest
from flask import render_template, render_template_string
from marshmallow import Schema, fields

from hub.web.forms import Form
from hub.web.listing import Asked
from hub.web.paging import Page

POINTERS = ("for", "aria-describedby", "aria-labelledby", "popovertarget", "list", "data-open-dialog")
NAMES = (
    "name mail flagged day hour handling what storage latitude longitude uncertainty notes photographs sure"
)
Fields = Schema.from_dict({name: fields.String() for name in NAMES.split()})

PRINTED = """
{% extends "print/base_pdf.html" %}{% import "print/pieces.html" as pieces %}
{% import "parts/charts.html" as charts %}
{% block title %}Sheet{% endblock %}
{% block content %}
{{ pieces.masthead('Bank', 'Arnica montana'|taxon, number='1', qr='data:image/png;base64,') }}
{{ pieces.verdict('not_yet', 'Not yet', ['No permission.']) }}
{{ pieces.big_numbers([('At most', '400', 'seeds', 'this year')]) }}
<h2>Parts</h2>
{{ pieces.table('Fruits', ['Ripe', 'Take'], [(10, 1)], numbers=(1,)) }}
{{ pieces.facts('Case', [('Care class', 'rare')]) }}
{{ pieces.blank_table('Tally', ['Mother', 'Taken'], range(3)) }}
{{ pieces.checklist(['Permission']) }}{{ pieces.steps(['Dry']) }}
{{ pieces.reasons([('10%', 'rare', 'source')]) }}{{ pieces.to_fill(['Date']) }}
{{ pieces.tags([{'number': 'M1', 'name': 'Arnica', 'lines': ['1'], 'qr': 'data:image/png;base64,'}]) }}
{{ charts.share_bar('Filled', 0.6, 0.5, 0.7, limit=0.8) }}
{{ charts.line('Ripe', [('1 July', 3, 1)], 'fruits') }}
{{ charts.bars('Districts', [('Fell', 0, '0 species')], 'District', 'Species') }}
{{ charts.division('List', [('Wanted', 0, '0')]) }}
{% endblock %}
"""


@pytest.fixture
def specimen(app) -> str:
    bad = Form(Fields())
    bad.typed.update(
        {"name": "Ramblers", "flagged": "4o", "day": "12th July", "handling": "bulk", "sure": "yes"}
    )
    for name in ("mail", "flagged", "day", "hour", "handling", "what", "storage", "latitude", "uncertainty"):
        bad.problems.append((name, f"Please look at {name} again."))
    bad.problems.append((None, "The sheet has ended."))
    with app.test_request_context():
        return render_template("specimen.html", form=Form(Fields()), bad=bad)


def elements(page: str):
    """Every element of a page. A page that breaks the HTML standard's parsing rules fails here."""
    return list(html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page).iter())


def test_each_id_stands_once(specimen):
    ids = Counter(each.get("id") for each in elements(specimen) if each.get("id"))
    assert [name for name, times in ids.items() if times > 1] == []


def test_whatever_points_finds_its_target(specimen):
    found = elements(specimen)
    ids = {each.get("id") for each in found}
    wanted = {name for each in found for key in POINTERS for name in (each.get(key) or "").split()}
    links = {each.get("href")[1:] for each in found if (each.get("href") or "").startswith("#field-")}
    assert links
    assert wanted | links <= ids


FORM = """
{% import "parts/forms.html" as forms %}{% import "parts/choices.html" as choices %}
{% call forms.form(form, '/there') %}
{{ forms.text(form, 'name', 'Name of the group') }}
{{ choices.radios(form, 'handling', 'Handling', [('b', 'Bulk')]) }}
{{ choices.select(form, 'storage', 'Storage', []) }}{{ choices.checkbox(form, 'sure', 'I am sure') }}
{{ choices.coordinates(form, 'Place', uncertainty='uncertainty') }}
{% endcall %}
"""


def test_each_line_of_the_summary_names_its_field_and_leads_to_it(app):
    bad = Form(Fields())
    named = {"name": "Name of the group", "handling": "Handling", "storage": "Storage", "sure": "I am sure",
             "latitude": "Latitude", "uncertainty": "Could be off by"}  # fmt: skip
    bad.problems = [*((name, "Please fill this in.") for name in named), (None, "The sheet has ended.")]
    with app.test_request_context():
        page = elements(f"<!doctype html><title>t</title>{render_template_string(FORM, form=bad)}")
    links = {each.get("href"): each.text for each in page if (each.get("href") or "").startswith("#field-")}
    assert links == {f"#field-{name}": f"{label}: Please fill this in." for name, label in named.items()}


LISTS = """
{% import "parts/filters.html" as filters %}
{% call filters.filters('/list', search='', chips=chips) %}{{ filters.tick('school', 'School') }}{% endcall %}
{% call filters.filters('/other', search='', chips=chips) %}{% endcall %}
"""


def test_filters_fold_and_say_how_many_are_in_force(app):
    with app.test_request_context():
        bare, two = (render_template_string(LISTS, chips=chips) for chips in ((), [("a", "/"), ("b", "/")]))
    assert bare.count("<summary>") == 1
    assert "Filters, 2 in force" in two
    assert "in force</summary>" not in bare
    found = elements(f"<!doctype html><title>t</title>{bare}")
    folded = next(each for each in found if each.tag == "details")
    assert [each.get("name") for each in folded.iter("input")] == ["school"]


def test_nothing_is_styled_or_scripted_inline(specimen):
    found = elements(specimen)
    assert [each for each in found if each.tag == "style" or each.get("style")] == []
    assert [each for each in found if each.tag == "script" and not each.get("src")] == []
    assert [key for each in found for key in each.attrib if key.startswith("on")] == []


def test_each_box_has_a_label_or_a_name(specimen):
    found = elements(specimen)
    labelled = {each.get("for") for each in found if each.tag == "label"}
    boxes = [
        each for each in found if each.tag in ("input", "select", "textarea") and each.get("type") != "hidden"
    ]
    assert [box.get("name") for box in boxes if box.get("id") not in labelled] == []


def test_what_was_typed_is_kept_even_where_a_browser_could_not_read_it(specimen):
    boxes = {each.get("id"): each for each in elements(specimen) if each.tag == "input"}
    assert (boxes["field-day"].get("type"), boxes["field-day"].get("value")) == ("text", "12th July")
    assert (boxes["field-flagged"].get("type"), boxes["field-flagged"].get("value")) == ("text", "4o")


def test_a_refused_box_says_so_to_a_screen_reader(specimen):
    box = next(each for each in elements(specimen) if each.get("id") == "field-mail")
    assert box.get("aria-invalid") == "true"
    assert box.get("aria-describedby").split() == ["field-mail-hint", "field-mail-error"]


@pytest.mark.parametrize(
    ("typed", "kind"), [("", "date"), (date(2030, 7, 12).isoformat(), "date"), ("soon", "text")]
)
def test_a_date_box_is_a_date_input_only_for_what_it_can_show(app, typed, kind):
    form = Form(Fields())
    form.typed["day"] = typed
    with app.test_request_context():
        macro = app.jinja_env.get_template("parts/forms.html").module.date
        assert f'type="{kind}"' in macro(form, "day", "Day")


@pytest.mark.parametrize("variant", ["", "large", "plain"])
def test_prints_use_every_piece_and_fetch_nothing(app, variant):
    with app.test_request_context():
        page = render_template_string(PRINTED, number="HV-1", variant=variant)
    found = elements(page.strip())
    assert [each for each in found if each.tag in ("link", "script", "dl")] == []
    assert all(each.get("src").startswith("data:") and each.get("alt") for each in found if each.tag == "img")
    assert [each.tag for each in found if each.tag in ("h1", "h2")] == ["h1", "h2"]


LIST = """
{% import "parts/filters.html" as filters %}{% import "parts/paging.html" as paging %}
{% call filters.above(asked) %}{{ filters.tick('school', 'School') }}{% endcall %}
{{ paging.of(asked, page) }}
"""


def test_a_list_keeps_its_search_and_order_in_form_and_links(app):
    with app.test_request_context("/species?search=carex&sort=newest"):
        asked = Asked.of((), {"name": (), "newest": ()})
        page = render_template_string(LIST, asked=asked, page=Page([], next="edge"))
    found = list(html5lib.parse(page, namespaceHTMLElements=False).iter())
    boxes = {each.get("name"): each.get("value") for each in found if each.tag == "input"}
    links = [each.get("href") for each in found if each.tag == "a"]
    assert boxes == {"search": "carex", "school": "yes", "sort": "newest"}
    assert "/species?sort=newest&search=carex&at=edge" in links
