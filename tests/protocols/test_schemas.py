"""A case as JSON: everything wrong gets a sentence beside its member."""

from __future__ import annotations

import jsonschema
import pytest
from hypothesis import given, settings
from marshmallow import ValidationError

from hub.protocols.schemas import case_json_schema, read_case
from hub.protocols.stored import stored
from tests.protocols.conftest import ordinary
from tests.protocols.random_cases import CASES


@settings(max_examples=50, deadline=None)
@given(CASES)
def test_every_case_reads_back_from_its_own_json_and_fits_the_published_schema(case):
    as_json = stored(case)
    assert read_case(as_json) == case
    jsonschema.validate(as_json, case_json_schema(), cls=jsonschema.Draft202012Validator)


def test_the_schema_is_itself_valid_and_every_fact_says_what_it_means():
    schema = case_json_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    for part in ("taxon", "population", "crop", "history", "permission"):
        assert all(member.get("description") for member in schema["properties"][part]["properties"].values())


@pytest.mark.parametrize(
    ("change", "where"),
    [
        ({"taxon": {}}, ("taxon", "name")),
        ({"taxon": {"name": ""}}, ("taxon", "name")),
        ({"taxon": {"name": "Viola", "care_class": "vanished"}}, ("taxon", "care_class")),
        ({"taxon": {"name": "Viola", "hazards": ["teeth"]}}, ("taxon", "hazards")),
        ({"taxon": {"name": "Viola", "colour": "red"}}, ("taxon", "colour")),
        ({"population": {"plants": "many"}}, ("population", "plants")),
        ({"population": {"plants": -1}}, ("population", "plants")),
        ({"population": {"plants": 10**12}}, ("population", "plants")),
        ({"population": {"plants": 2.5}}, ("population", "plants")),
        ({"population": {"plants": 5, "fruiting_plants": 6}}, ("population", "fruiting_plants")),
        ({"crop": {"empty_share": 1.01}}, ("crop", "empty_share")),
        ({"crop": {"ripe_fruits_per_plant": float("nan")}}, ("crop", "ripe_fruits_per_plant")),
        ({"crop": {"poor_year": "perhaps"}}, ("crop", "poor_year")),
        ({"history": {"years_collected": ["last year"]}}, ("history", "years_collected")),
        ({"permission": {"since": "2030-02-30"}}, ("permission", "since")),
        ({"permission": {"since": "2030-03-02", "until": "2030-03-01"}}, ("permission", "until")),
        ({"population": None}, ("population",)),
        ({"season": 12}, ("season",)),
        ({"weather": "fine"}, ("weather",)),
    ],
    ids=str,
)
def test_what_is_wrong_is_named(change, where):
    with pytest.raises(ValidationError) as refused:
        read_case({**ordinary(), **change})
    found = refused.value.messages
    for member in where:
        found = found[member]
    assert found


@pytest.mark.parametrize("data", [None, [], "a case", 3])
def test_what_is_no_object_is_refused(data):
    with pytest.raises(ValidationError):
        read_case(data)
