"""What forms and programs send about species, seasons and the wanted list."""

from __future__ import annotations

from decimal import Decimal
from typing import Any, NamedTuple

from werkzeug.datastructures import FileStorage

from hub.taxa.models import Difficulty, Evidence, StandingKind, Taxon
from hub.taxa.needs import MOST_POPULATIONS
from hub.taxa.rules import FruitType, Hazard, LifeForm, StorageBehaviour
from hub.taxa.traits import MEASURES, UNTOLD
from hub.taxa.wanted_file import WantedFile, read_wanted
from hub.web.fields import (
    Choice,
    Day,
    Identifier,
    LongText,
    Measure,
    Rows,
    Schema,
    Several,
    SomeOrNone,
    Text,
    Upload,
    Whole,
    Yes,
    YesNo,
)
from hub.words import Refused, say

LARGEST_LIST = 5_000_000  # bytes


class SpeciesSchema(Schema):
    """A species with all its traits; ``version`` says which state of it the form was filled from."""

    version = Whole(0)
    scientific_name = Text(200, required=True)
    family = Text(60, load_default="")
    vernacular = Text(200, load_default="")
    native = YesNo()
    life_form = Choice(LifeForm, load_default=LifeForm.UNKNOWN)
    fruit_type = Choice(FruitType, load_default=FruitType.UNKNOWN)
    storage = Choice(StorageBehaviour, load_default=StorageBehaviour.UNKNOWN)
    storage_source = LongText(2000, load_default="")
    storage_evidence = Choice(Evidence, load_default=Evidence.DEFAULT)
    hazards = SomeOrNone(Choice(Hazard))
    dioecious = YesNo()
    clonal = YesNo()
    two_year_ripening = YesNo()
    masting = YesNo()
    persistent_seed_bank = YesNo()
    international_trade_listed = YesNo()
    seed_mass_mg = Measure(say("milligrams"), 0.00001, 1_000_000)
    seeds_per_fruit = Measure(say("seeds"), 0.01, 1_000_000)
    collect_from_bbch = Text(2)
    flowers_from = Whole(1, 12)
    ripens_from = Whole(1, 12)
    ripens_to = Whole(1, 12)
    ripeness_note = LongText(2000, load_default="")
    diagnostic_parts = LongText(2000, load_default="")
    lookalikes = LongText(2000, load_default="")
    difficulty = Choice(Difficulty, load_default=Difficulty.MEDIUM)
    suits_school = Yes()
    sensitivity = Whole(1, 4)
    note = LongText(load_default="")


def form_of(taxon: Taxon) -> dict[str, Any]:
    """A species as its form shows it."""
    held = {name: getattr(taxon, name) for name in ("version", "scientific_name", *UNTOLD)}
    measures = {name: decimal(held[name]) for name in MEASURES}
    return {**held, **measures}


def decimal(measure: float | None) -> Decimal | None:
    """A measure in the digits in which somebody would type it: 60, not 60.0."""
    return None if measure is None else Decimal(repr(measure)).normalize()


class StandingRow(Schema):
    """One authority's statement on rarity."""

    kind = Choice(StandingKind, required=True)
    text = Text(100, required=True)
    place = Text(120, required=True)
    authority = Text(200, required=True)
    as_of = Day()
    permit_needed = Yes()


class StandingsSchema(Schema):
    """All standings of a species."""

    version = Whole(0)
    standings = Rows(StandingRow, most=40)


class EcoregionsSchema(Schema):
    """The ecoregions of one region that a species grows in."""

    version = Whole(0)
    ecoregion_ids = Several(Identifier(), most=500)


class DaysSchema(Schema):
    """The days of a season."""

    opens_on = Day(required=True)
    closes_on = Day(required=True)
    lapses_on = Day(required=True)


class SeasonSchema(DaysSchema):
    """A new season."""

    year = Whole(1990, 2190, required=True)


class NeedRow(Schema):
    """So many populations from one place, or from anywhere."""

    populations = Whole(1, MOST_POPULATIONS, required=True)
    ecoregion_id = Identifier()
    district_id = Identifier()


class WantSchema(Schema):
    """A species' line on a season's list."""

    priority = Whole(1, 3, required=True)
    note = LongText(load_default="")
    needs = Rows(NeedRow, least=1, most=60)


class WantNewSchema(WantSchema):
    """The same, with the species by name."""

    species = Text(200, required=True)


class SentList(NamedTuple):
    """A list as it was sent, and what it says."""

    data: bytes
    said: WantedFile


def list_file(upload: FileStorage) -> SentList:
    """The reader of a sent list. Raises ``Refused`` when the file as a whole cannot be read."""
    data = upload.stream.read(LARGEST_LIST + 1)
    if len(data) > LARGEST_LIST:
        raise Refused(say("This file is too large: at most {n} megabytes.", n=LARGEST_LIST // 1_000_000))
    said = read_wanted(data)
    if not said.rows and not said.problems:
        raise Refused(say("The list has a heading, but no rows below it."))
    return SentList(data, said)


class ImportSchema(Schema):
    """A list as a file. With ``whole``, species that it does not name leave the list."""

    file = Upload(list_file, required=True)
    whole = Yes()
