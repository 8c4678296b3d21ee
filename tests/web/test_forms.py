"""A form is read once, refuses kindly, keeps what was typed, and undoes what was begun."""

from __future__ import annotations

from enum import StrEnum

import pytest
from flask import Flask
from hypothesis import given
from hypothesis import strategies as st
from werkzeug.datastructures import MultiDict

from hub.web import language
from hub.web.fields import Choice, Day, Measure, Password, Rows, Schema, Several, Text, Upload, Whole, Yes
from hub.web.forms import Form
from hub.web.uploads import picture
from hub.words import Refused, say


class Ripeness(StrEnum):
    GREEN = "green"
    RIPE = "ripe"


class Tally(Schema):
    plant = Text(40, required=True)
    seeds = Whole(0, 500, "seeds")


class Visit(Schema):
    observer = Text(20, required=True)
    day = Day()
    mass = Measure("g", 0, 100)
    ripeness = Choice(Ripeness)
    tags = Several(Text(10))
    secret = Password()
    agreed = Yes()
    tallies = Rows(Tally)
    photo = Upload(picture)


@pytest.fixture
def answered(app):
    """Send a form, get the Form that read it and its data or None."""

    def send(body, action=lambda data: None):
        with app.test_request_context(method="POST", data=body):
            form = Form.sent(Visit())
            with form.answering():
                action(form.data)
                return form, form.data
            return form, None

    return send


def test_a_full_form_arrives_typed_and_trimmed(answered):
    sent = {"observer": "  Ada ", "day": "2026-06-12", "mass": "2,5", "ripeness": "ripe", "agreed": "yes"}
    _, data = answered(MultiDict({**sent, "tags": ["a", "", "b"], "csrf_token": "x", "next": "/"}))
    assert data["observer"] == "Ada"
    assert data["day"].isoformat() == "2026-06-12"
    assert str(data["mass"]) == "2.5"
    assert data["ripeness"] is Ripeness.RIPE
    assert data["tags"] == ["a", "b"]
    assert data["agreed"] is True
    assert data["photo"] is None


def test_an_empty_box_means_nothing_was_said(answered):
    _, data = answered({"observer": "Ada", "day": "", "mass": " "})
    assert data["day"] is None
    assert data["mass"] is None
    assert data["agreed"] is False
    assert data["tallies"] == []


def test_a_missing_answer_is_refused_beside_its_box_and_the_rest_is_kept(answered):
    form, data = answered({"observer": " ", "mass": "lots"})
    assert data is None
    assert form.errors("observer") == ["Please fill this in."]
    assert form.errors("mass") == ["Please give a number, such as 2.5."]
    assert form.value("mass") == "lots"


def test_rows_may_have_gaps_and_blanks_and_errors_stay_on_their_row(answered):
    form, data = answered(
        {
            "observer": "Ada",
            "tallies-0-plant": "A",
            "tallies-3-plant": " ",
            "tallies-3-seeds": "",
            "tallies-7-plant": "B",
            "tallies-7-seeds": "9000",
        }
    )
    assert data is None
    assert form.errors("tallies-7-seeds") == ["This must lie from 0 to 500 seeds."]
    assert form.rows("tallies") == ["tallies-0", "tallies-3", "tallies-7"]
    assert form.rows("tallies", blank=1)[-1] == "tallies-8"


def test_rows_arrive_in_the_order_of_their_numbers(answered):
    _, data = answered(
        {"observer": "Ada", "tallies-10-plant": "C", "tallies-2-plant": "B", "tallies-0-plant": "A"}
    )
    assert [row["plant"] for row in data["tallies"]] == ["A", "B", "C"]


def test_a_name_that_the_page_does_not_ask_for_is_refused(answered):
    form, data = answered({"observer": "Ada", "role": "curator"})
    assert data is None
    assert form.problems == [
        (None, "This page does not ask for “role”. Please load it again and send it once more.")
    ]


def test_a_refusal_lands_beside_its_field_or_on_top(answered):
    def refuse(field):
        def action(data):
            raise Refused(say("Not before {day}.", day="May"), field=field)

        return action

    form, _ = answered({"observer": "Ada"}, refuse("day"))
    assert form.problems == [("day", "Not before May.")]
    form, _ = answered({"observer": "Ada"}, refuse("nowhere"))
    assert form.problems == [(None, "Not before May.")]


def test_a_password_is_taken_as_typed_and_never_shown_again(answered):
    form, data = answered({"observer": "Ada", "secret": " two words "})
    assert data["secret"] == " two words "
    assert form.value("secret") == ""


def test_given_values_are_shown_as_their_boxes_want_them():
    form = Form(Visit(), {"ripeness": Ripeness.RIPE, "agreed": True, "tallies": [{"plant": "A", "seeds": 3}]})
    assert form.value("ripeness") == "ripe"
    assert form.value("agreed") == "yes"
    assert form.value("tallies-0-seeds") == "3"
    assert form.value("observer") == ""


speaking = Flask(__name__)
language.prepare(speaking)

texts = st.text(st.characters(codec="utf-8"), max_size=60)
single = st.sampled_from([*Visit().fields, "csrf_token", "tallies-0", "tallies-01-plant"])
cells = st.builds(
    lambda row, key: f"tallies-{row}-{key}", st.integers(0, 10**7), st.sampled_from(["plant", "seeds", "x"])
)


@given(st.lists(st.tuples(single | cells | texts, texts), max_size=12))
def test_no_input_breaks_a_form_and_what_was_typed_comes_back(pairs):
    with speaking.test_request_context(method="POST", data=MultiDict(pairs)):
        form = Form.sent(Visit())
        with form.answering():
            form.schema.dump(form.data)
    for name, text in pairs:
        if name != "secret":
            assert text in form.values(name)
