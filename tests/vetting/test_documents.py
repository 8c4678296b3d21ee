"""A collection outlives every form it takes on the way: document, JSON, boxes on a page, a draft's text."""

from __future__ import annotations

import json
import unicodedata
from dataclasses import fields, replace

from hypothesis import given
from hypothesis import strategies as some
from werkzeug.datastructures import MultiDict

from hub.vetting.collection import Bulk, Collection, CutTest, Voucher
from hub.vetting.differences import differences
from hub.vetting.draft import kept, typed_in
from hub.vetting.pages.drafted import handed_in_before, typed_form
from hub.vetting.schemas import CollectionSchema
from hub.vetting.telling import AFTER, NAMES, PARTS
from tests.vetting.collections import collections
from tests.vetting.scene import collection


@given(collections)
def test_a_revision_is_what_the_schema_dumps_and_reads_back_the_same(whole):
    document = whole.as_document()
    assert document == CollectionSchema().dump(whole)
    assert Collection.from_document(json.loads(json.dumps(document))) == whole


@given(collections)
def test_a_collection_shown_in_the_form_again_is_still_itself(whole):
    again = typed_form(handed_in_before(whole)).data
    # What a form cannot tell from nothing: a zero is told, texts come back in one Unicode form.
    composed = {name: composed_text(getattr(whole, name)) for name in ("identified_by", "weather", "notes")}
    assert {name: getattr(again, name) for name in composed} == composed
    assert again.already_shedding is whole.already_shedding
    assert (again.tallies, again.cut_test) == (
        tuple(unflagged(tally) for tally in whole.tallies),
        whole.cut_test,
    )


def composed_text(text):
    return unicodedata.normalize("NFC", text)


def unflagged(tally):
    return type(tally)(composed_text(tally.flag), tally.ripe_fruits, tally.fruits_taken, tally.seeds)


@given(some.lists(some.tuples(some.text(), some.text())))
def test_a_draft_gives_back_every_character_that_a_browser_can_send(typed):
    stored = json.loads(json.dumps(kept(typed)))
    assert typed_in(stored) == typed
    assert all(text.isascii() and "\0" not in text for text in stored.values())


def test_nothing_in_a_collection_goes_untold():
    assert {each.name for each in fields(Collection)} == {*NAMES, *AFTER.values(), "tallies"}
    assert all(
        {each.name for each in fields(kind)} == set(PARTS[part]) for part, kind in KINDS_OF_PARTS.items()
    )


KINDS_OF_PARTS = {"bulk": Bulk, "cut_test": CutTest, "voucher": Voucher}


def test_an_empty_draft_holds_nothing():
    assert typed_in({}) == []


@given(collections, collections)
def test_differences_are_none_to_itself_and_turn_round(one, other):
    assert differences(one, one) == []
    there, back = differences(one, other), differences(other, one)
    assert {(each.path, each.before, each.after) for each in there} == {
        (each.path, each.after, each.before) for each in back
    }
    assert (there == []) is (unordered(one) == unordered(other))


def unordered(whole):
    """The order of the rows says nothing."""
    return replace(whole, tallies=tuple(sorted(whole.tallies, key=lambda tally: tally.flag)))


def test_differences_name_the_thing_and_both_readings():
    before = collection()
    after = collection(total_seeds=2500, voucher=None, tallies=before.tallies[:59])
    told = [(str(each.label), str(each.before), str(each.after)) for each in differences(before, after)]
    assert told == [
        ("Seeds handed in", "2400 seeds", "2500 seeds"),
        ("Pressed specimen", "FLG 12", "None"),
        ("Specimen kept", "with the bank", "None"),
        ("Mother A60: Mother", "A60", "None"),
        ("Mother A60: Ripe fruits", "30 fruits", "None"),
        ("Mother A60: Fruits taken", "2 fruits", "None"),
        ("Mother A60: Seeds", "40 seeds", "None"),
    ]


def test_a_form_with_gaps_between_its_rows_is_read():
    form = typed_form(MultiDict(handed_in_before(collection())).items(multi=True))
    assert len(form.data.tallies) == 60
