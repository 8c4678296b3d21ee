"""The colours of the hub, light and dark, against the contrast that WCAG 2.2 asks for."""

from __future__ import annotations

import re
from itertools import product

import pytest

from hub.web.assets import FOLDER

SHEET = (FOLDER / "css" / "colours.css").read_text()
SURFACES = ("folder", "paper", "label", "green-wash", "brown-wash")
TEXTS = ("ink", "soft", "green", "green-deep", "brown")
TEXT, CONTROL = 4.5, 3.0  # WCAG 2.2, criteria 1.4.3 and 1.4.11


def palette(text: str) -> dict[str, str]:
    """Every colour that a part of the sheet sets, by name, as six hexadecimal digits."""
    return dict(re.findall(r"--([a-z-]+): #([0-9a-f]{6});", text))


LIGHT_PART, DARK_PART = SHEET.split("@media (prefers-color-scheme: dark)")
LIGHT = palette(LIGHT_PART)
DARK = LIGHT | palette(DARK_PART)
PALETTES = pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])


def luminance(colour: str) -> float:
    """WCAG 2.2, definition of relative luminance."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, definition of contrast ratio."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_the_ratio_is_that_of_the_definition():
    assert contrast("000000", "ffffff") == pytest.approx(21)
    assert contrast("767676", "ffffff") == pytest.approx(4.54, abs=0.01)  # common practice: the lightest grey


def test_dark_names_every_colour_that_light_does():
    assert palette(DARK_PART).keys() == LIGHT.keys()


@PALETTES
@pytest.mark.parametrize(("text", "surface"), list(product(TEXTS, SURFACES)))
def test_text_can_be_read_on_every_surface(colours, text, surface):
    assert contrast(colours[text], colours[surface]) >= TEXT


@PALETTES
@pytest.mark.parametrize("ground", ["green", "green-deep", "brown"])
def test_text_upon_a_colour_can_be_read(colours, ground):
    assert contrast(colours["on-colour"], colours[ground]) >= TEXT


@PALETTES
@pytest.mark.parametrize("surface", SURFACES)
def test_the_edge_of_a_control_can_be_seen(colours, surface):
    assert contrast(colours["edge"], colours[surface]) >= CONTROL


def test_no_other_sheet_brings_its_own_colours():
    others = [
        path for path in (FOLDER / "css").glob("*.css") if path.name not in ("colours.css", "on_paper.css")
    ]
    assert len(others) > 5
    assert {p.name: re.findall(r"#[0-9a-fA-F]{3,8}\b", p.read_text()) for p in others} == {
        p.name: [] for p in others
    }
