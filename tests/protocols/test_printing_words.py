"""What stands on a printed sheet and form, and what must never (HANDBOOK §12.3, our own defaults)."""

from __future__ import annotations

import re

import pytest

from hub.protocols.laid_out import Version, reasons, title_of
from hub.protocols.sheet import Status
from hub.protocols.sheet_words import span
from hub.web.language import number, said
from tests.protocols.printed import CASES, drawn, html_of, pages, sheet_of

EVERY = sorted(CASES)
OPEN = [name for name in EVERY if sheet_of(name).status is not Status.STOP]
DRY_ORDERS = r"let the seed air-dry|pre-dry|silica gel in|humidity card|spread damp"
FREEZE_ORDERS = r"freeze the sealed|(?<!never )in the freezer|chest freezer|−18"
NEVER_PRINTED = {
    "bulk": FREEZE_ORDERS,
    "rare": FREEZE_ORDERS,
    "acorn": f"{DRY_ORDERS}|{FREEZE_ORDERS}",
    "untested": f"{DRY_ORDERS}|{FREEZE_ORDERS}",
    "willow": r"wait for it to ripen at home|ripen further at home",
    "fern": r"under water|in water\b|damp sawdust",
}


def words_of(name: str, version: Version | None = Version.FULL) -> str:
    return " ".join(pages(drawn(name, version)))


@pytest.mark.parametrize("name", OPEN)
def test_every_essential_number_stands_on_the_first_page(name):
    first, headline = pages(drawn(name))[0], sheet_of(name).headline
    counted = ("left_seeds", "left_fruits", "mothers_goal", "mothers_minimum")
    values = [getattr(headline, each).value for each in counted]
    for value in (each for each in values if each):
        assert re.search(rf"(?<![\d,]){re.escape(number(value))}(?![\d,])", first), value
    assert str(span(headline.hours_to_bank.value)) in first
    assert "168 hours" not in first  # one unit on one page
    if headline.none_below == 1:
        assert "All ripe fruits" in first
        assert "A rescue: every ripe one may be taken." in first
        return
    assert f"1 in {headline.none_below}" in first
    assert f"fewer than {headline.none_below}" in first.lower()
    for row in headline.fruit_table:
        assert f"{number(row.ripe_fruits)} {number(row.take_fruits)}" in first


@pytest.mark.parametrize("name", OPEN)
def test_container_drying_and_freezing_stand_on_the_first_page(name):
    first, headline = pages(drawn(name))[0], sheet_of(name).headline
    squeezed = first.replace(" ", "")
    for line in (headline.handling, headline.container, headline.drying, headline.freezing):
        for word in said(line.text).split()[:3]:
            assert word in squeezed


@pytest.mark.parametrize(("name", "orders"), NEVER_PRINTED.items())
@pytest.mark.parametrize("version", [Version.FULL, Version.PLAIN, None])
def test_no_instruction_of_another_route_is_printed(name, orders, version):
    found = re.search(orders, words_of(name, version), re.IGNORECASE)
    assert found is None, found


def test_home_freezing_is_printed_where_the_bank_allows_it():
    assert re.search(FREEZE_ORDERS, words_of("home"), re.IGNORECASE)


@pytest.mark.parametrize("name", EVERY)
def test_every_line_stands_on_paper_with_its_reason(name):
    text, sheet = words_of(name).replace(" ", ""), sheet_of(name)
    for reason in reasons(sheet, Version.FULL)[0]:
        assert said(reason.line.why).replace(" ", "")[:40] in text or title_of(reason.line)


@pytest.mark.parametrize(
    ("name", "words"), [("stop", "Stop: do not collect"), ("not yet", "Not yet to be used")]
)
def test_a_sheet_not_to_be_used_says_so_on_every_page(name, words):
    for version in (Version.FULL, Version.PLAIN):
        assert all(words in page for page in pages(drawn(name, version)))


def test_a_stop_gives_its_reasons_and_no_figure():
    first = pages(drawn("stop"))[0]
    assert "fewer than 20 plants bear fruit" in first
    assert "From one plant" not in first
    assert "Tally" not in words_of("stop", None)


def test_what_to_ask_is_printed():
    assert "Needed before anybody may collect." in words_of("not yet")


@pytest.mark.parametrize("name", EVERY)
def test_no_position_is_printed(name):
    """A place stands there by the name that the group knows, never by coordinates."""
    assert not re.search(r"-?\d{1,3}\.\d{3,}|latitude|longitude|°\s*[NSEW]\b", words_of(name), re.IGNORECASE)


def test_evidence_is_told_apart():
    text = words_of("bulk")
    for words in ("Published", "From memory", "Our own default"):
        assert words in text


def test_pupils_read_plain_words():
    plain = words_of("school", Version.PLAIN)
    assert "Never go alone." in plain
    assert "Ground" not in plain


def test_the_form_fits_the_handling():
    by_mother, bulk = words_of("rare", None), words_of("bulk", None)
    assert "Tally, mother by mother" in by_mother
    assert "M50" in by_mother
    assert "The whole collection" in bulk
    assert "Tally" not in bulk


@pytest.mark.parametrize(("name", "dries"), [("bulk", True), ("acorn", False), ("untested", False)])
def test_the_form_asks_about_drying_only_where_seed_is_dried(name, dries):
    assert ("Spread to dry on" in words_of(name, None)) is dries
    assert ("Kept moist with" in words_of(name, None)) is not dries


def test_every_picture_is_part_of_the_page():
    for version in (Version.FULL, None):
        assert not re.search(r'(src|href)="(?!data:|#)', html_of("rare", version))


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("version", [*Version, None])
def test_the_site_is_named_for_common_plants_alone(name, version):
    common = sheet_of(name).case["taxon"]["care_class"] == "secure"
    assert ("Scar Top" in words_of(name, version)) is common


def test_what_no_source_says_is_called_our_own_default():
    """A publication beside our own default is there to compare with, never as its source."""
    assert "Our own default, compare [" in words_of("rare")
    assert "Our own default [" not in words_of("rare")
    assert "(Our own default)" in words_of("rare", Version.PLAIN)
