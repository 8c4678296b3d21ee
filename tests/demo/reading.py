"""Reads the files of the demo as they lie, each once."""

from __future__ import annotations

import csv
import json
import math
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from shapely.geometry import Point, Polygon, shape

DEMO = Path(__file__).parents[2] / "demo_data"
YEARS = (2029, 2030, 2031)
METRES_PER_DEGREE = 111_320  # of latitude, near enough to say inside or outside


@cache
def toml(name: str) -> dict[str, Any]:
    """A whole TOML file."""
    return tomllib.loads((DEMO / name).read_text(encoding="utf-8"))


@cache
def rows(name: str) -> list[dict[str, str]]:
    """The rows of a CSV file, as text."""
    with (DEMO / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@cache
def features(name: str, region: str = "halverin-vale") -> dict[str, Any]:
    """The shapes of one region in a GeoJSON file, by id."""
    found = json.loads((DEMO / name).read_text(encoding="utf-8"))["features"]
    return {each["id"]: shape(each["geometry"]) for each in found if each["properties"]["region"] == region}


@cache
def keyed(name: str, table: str) -> dict[str, dict[str, Any]]:
    """The entries of one table of a TOML file, by key."""
    return {each["key"]: each for each in toml(name)[table]}


@cache
def populations() -> dict[str, dict[str, str]]:
    """Every population, by key."""
    return {each["key"]: each for each in rows("populations.csv")}


@cache
def season(table: str) -> dict[str, dict[str, Any]]:
    """The adoptions, sheets or submissions of all seasons, by key."""
    return {each["key"]: each for year in YEARS for each in toml(f"seasons/{year}.toml")[table]}


@cache
def tallies() -> dict[str, list[dict[str, str]]]:
    """The rows of the mothers, by submission."""
    found: dict[str, list[dict[str, str]]] = {}
    for year in YEARS:
        for row in rows(f"seasons/{year}_tallies.csv"):
            found.setdefault(row["submission"], []).append(row)
    return found


def inside_site(site: dict[str, Any], latitude: float, longitude: float) -> bool:
    """Whether a position lies inside the outline of a site, or its circle where none is drawn."""
    if "polygon" in site:
        return Polygon(site["polygon"]).contains(Point(longitude, latitude))
    north = (latitude - site["latitude"]) * METRES_PER_DEGREE
    east = (longitude - site["longitude"]) * METRES_PER_DEGREE * math.cos(math.radians(latitude))
    return math.hypot(north, east) <= site["radius_m"]


def intends(submission: dict[str, Any], what: str) -> bool:
    """Whether this submission is wrong in this way on purpose."""
    return any(found.split(":")[1] == what for found in submission["intended_findings"])
