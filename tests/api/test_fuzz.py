"""Whatever fits or misfits the document, each operation answers as promised, and never with a fault.

Schemathesis makes the requests out of the document itself; seed and number of examples are fixed.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any
from uuid import UUID

import pytest
import schemathesis
import time_machine
from hypothesis import HealthCheck, given, settings
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from hub.api import pace
from hub.api.declared import operations
from hub.config import Settings
from hub.rights.policy import may
from hub.wiring import create_app, make_house
from tests.api.program import Program
from tests.cast import NOW, gather
from tests.house_rules.belongings import gather_belongings
from tests.support.databases import SqliteTemplate

CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
]
bounded = settings(
    max_examples=20, derandomize=True, deadline=None, database=None, suppress_health_check=list(HealthCheck)
)
NEEDS = {operation.name: operation.needs for operation in operations()}


class Fuzzed:
    """A hub with a season in it, and programs of a lead and a curator."""

    def __init__(self, house: Any) -> None:
        cast = gather(house, now=NOW)
        self.belongings = gather_belongings(cast)
        self.app = create_app(house=house)
        self.programs = {name: Program(self.app, cast, name) for name in ("alice", "cora")}
        shared = {"taxon_id": self.taxon_id(), "season_id": cast.season.id, "district_id": cast.north.id}
        places = {"region_id": cast.region.id, "ecoregion_id": cast.meadows.id}
        self.ids = self.belongings.ids | shared | places

    def taxon_id(self) -> UUID:
        from hub.taxa.queries import find

        with self.belongings.cast.everywhere() as work:
            taxon = find(work, "Silene acaulis")
        assert taxon
        return taxon.id

    def key(self, name: str, made_up: Any) -> Any:
        """The key of something that is there, so that the request gets past the address."""
        return str(self.ids[name]) if name in self.ids else made_up

    def headers_for(self, name: str) -> dict[str, str]:
        """The key of whoever may do it, so that the request gets past the door."""
        lead = self.programs["alice"]
        holds = may(lead.cast.scope("alice"), NEEDS[name])
        return lead.headers if holds else self.programs["cora"].headers


@pytest.fixture(scope="module")
def fuzzed(sqlite_template: SqliteTemplate, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Fuzzed]:
    house = make_house(
        Settings(
            data_dir=tmp_path_factory.mktemp("fuzzed"),
            database_url=sqlite_template.copy(),
            secret_key="for tests alone",
            quick_passwords=True,
        )
    )
    with time_machine.travel(NOW, tick=True), pytest.MonkeyPatch.context() as patch:
        patch.setattr(pace, "TIMES", 10**9)
        patch.setattr(pace, "CHANGES", 10**9)
        yield Fuzzed(house)
    house.engine.dispose()


@pytest.fixture(scope="module")
def described(fuzzed: Fuzzed) -> dict[str, Any]:
    """What schemathesis read in the document, by the name of the operation."""
    schema = schemathesis.openapi.from_wsgi("/api/v1/openapi.json", fuzzed.app)
    found = [each.ok() for each in schema.get_all_operations()]
    return {each.definition.raw["operationId"]: each for each in found}


# Schemathesis leaves out the address that it has read the document from.
@pytest.mark.parametrize("name", sorted(NEEDS.keys() - {"openapi"}))
def test_the_operation_keeps_its_promises(fuzzed: Fuzzed, described: dict[str, Any], name: str) -> None:
    operation = described[name]
    cases = operation.as_strategy() | operation.as_strategy(generation_mode=GenerationMode.NEGATIVE)

    @bounded
    @given(cases)
    def ask(case: Any) -> None:
        case.path_parameters = {name: fuzzed.key(name, value) for name, value in case.path_parameters.items()}
        headers = fuzzed.headers_for(name)
        if "If-Match" in case.headers:
            headers = headers | {"If-Match": "*"}
        case.call_and_validate(headers=headers, checks=CHECKS)

    ask()
