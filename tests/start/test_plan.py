"""The steps from what is found on a machine to an environment: every situation, each with its answer."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.bootstrap.plan import Situation, plan

BARE = Situation(
    python=(3, 11),
    writable=True,
    usable=False,
    locks_met=False,
    uv=True,
    ensurepip=True,
    libraries=(),
    programs=(),
    may_install=False,
)
COMPLETE = replace(BARE, usable=True, locks_met=True)

situations = st.builds(
    Situation,
    python=st.sampled_from([(3, 9), (3, 11), (3, 14)]),
    writable=st.booleans(),
    usable=st.booleans(),
    locks_met=st.booleans(),
    uv=st.booleans(),
    ensurepip=st.booleans(),
    libraries=st.sampled_from([(), ("libpango-1.0-0",), ("libpango-1.0-0", "libfontconfig1")]),
    programs=st.sampled_from([(), ("chromium",), ("chromium", "postgresql")]),
    may_install=st.booleans(),
)


def actions(found: Situation) -> list[str]:
    return [step.action for step in plan(found)]


def test_nothing_is_done_where_all_is_there():
    assert plan(COMPLETE) == []


def test_a_bare_checkout_with_uv():
    assert actions(BARE) == ["environment", "packages", "project"]


def test_without_uv_it_is_fetched_once_there_is_an_environment():
    assert actions(replace(BARE, uv=False)) == ["environment", "installer", "packages", "project"]


def test_a_changed_lock_fills_the_environment_that_stands():
    assert actions(replace(BARE, usable=True)) == ["packages", "project"]


def test_root_installs_libraries_and_programs_in_one_go():
    found = replace(COMPLETE, libraries=("libpango-1.0-0",), programs=("chromium",), may_install=True)
    assert [(step.action, step.packages) for step in plan(found)] == [
        ("debian", ("libpango-1.0-0", "chromium"))
    ]


def test_others_are_told_one_command_and_what_is_off():
    [step] = plan(replace(COMPLETE, libraries=("libpango-1.0-0",), programs=("postgresql",)))
    assert step.action == "tell"
    assert "PDF sheets" in step.says
    assert "the checks with postgresql" in step.says
    assert step.says.count("sudo apt-get install") == 1


def test_root_gets_the_part_of_python_that_debian_keeps_apart():
    found = replace(BARE, uv=False, ensurepip=False, may_install=True)
    assert plan(found)[0].packages == ("python3-venv",)


def test_uv_needs_no_part_that_debian_keeps_apart():
    assert actions(replace(BARE, ensurepip=False)) == ["environment", "packages", "project"]


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (replace(BARE, python=(3, 9)), "This is Python 3.9; the hub needs 3.11 or newer."),
        (replace(BARE, writable=False), "This folder cannot be written to"),
        (
            replace(BARE, uv=False, ensurepip=False, libraries=("libfontconfig1",)),
            "sudo apt-get install -y --no-install-recommends python3-venv libfontconfig1",
        ),
    ],
)
def test_what_cannot_be_done_is_one_sentence(found: Situation, words: str):
    [step] = plan(found)
    assert step.action == "stop"
    assert words in step.says


def test_a_complete_environment_starts_from_a_folder_that_cannot_be_written():
    assert plan(replace(COMPLETE, writable=False)) == []


@given(situations)
def test_each_step_stands_after_what_it_needs(found: Situation):
    order = ["stop", "tell", "debian", "environment", "installer", "packages", "project"]
    places = [order.index(action) for action in actions(found)]
    assert places == sorted(set(places))
    assert 0 not in places or places == [0]


@given(situations)
def test_only_root_touches_the_system(found: Situation):
    assert found.may_install or "debian" not in actions(found)


@given(situations)
def test_no_missing_package_goes_unmentioned(found: Situation):
    steps = plan(found)
    if steps and steps[0].action == "stop" and "apt-get" not in steps[0].says:
        return  # It ended before the system mattered.
    said = " ".join(step.says for step in steps)
    assert all(package in said for package in (*found.libraries, *found.programs))
