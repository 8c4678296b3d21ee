"""What happened in the field: place, day, handling, take, mothers."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

from hub.protocols.sheet import Sheet
from hub.vetting.collection import Collection, Tally
from hub.vetting.evidence import Account, Evidence
from hub.vetting.rules import PhotographKind, Severity
from tests.vetting.checks.dossier import (
    DAY,
    SHEET,
    Silent,
    Speaks,
    collection,
    dossier,
    in_bulk,
    north,
    pictures,
    sheet_for,
    square,
    tallied,
)

STOP, QUERY, NOTE = Severity
NAMED = {"name": "P 01"}
SHEET_DAY = DAY - timedelta(days=30)
RARE = sheet_for(
    population=NAMED, taxon={"care_class": "rare"}, sign_off={"by": "the curator", "on": SHEET_DAY}
)
DOOMED = sheet_for(
    population=NAMED,
    salvage={"curator": "The curator", "owner": "The owner", "evidence": "A road", "evidence_on": SHEET_DAY},
)
UNDATED_CONSENT = sheet_for(population=NAMED, sign_off={"by": "the curator"})
UNPROVEN = sheet_for(population=NAMED, salvage={"curator": "The curator", "owner": "The owner"})
UNCOUNTED = sheet_for(population=NAMED, crop={"ripe_fruits_per_plant": "unknown"})
STOPPED = sheet_for(population=NAMED, permission={"granted": False})


def at(metres: float, **changes: Any) -> Collection:
    """The ordinary collection, so far north of the population."""
    place = north(metres)
    return collection(latitude=place.latitude, longitude=place.longitude, **changes)


def round_site(**changes: Any) -> dict[str, Any]:
    return {"site_outline": None, **changes}


def seen(given: Collection | None = None, sheet: Sheet | None = None, **parts: Any) -> Evidence:
    return dossier(given, sheet, **parts)


def lines(**values: Any) -> Sheet:
    """The ordinary sheet with other values on some of its lines."""
    headline = SHEET.headline
    changes = {name: replace(getattr(headline, name), value=value) for name, value in values.items()}
    return replace(SHEET, headline=replace(headline, **changes))


def on(day: date, **taxon: Any) -> Evidence:
    return dossier(collection(collected_on=day, first_ripe_on=None), taxon=taxon)


def taken_at(moment: datetime) -> Evidence:
    return dossier(photographs=pictures(taken_at=moment))


NOON = datetime(2030, 8, 1, 12, tzinfo=UTC)
FEW = tuple(Tally(f"A{n}", 20, 2, 50) for n in range(1, 50))
UNEVEN = (*(Tally(f"A{n}", 20, 1, 1) for n in range(1, 50)), Tally("A50", 40, 4, 2000))

SPEAKS = [
    Speaks("position_in_site", STOP, "outside Scar Top", seen(at(330))),
    Speaks("position_in_site", STOP, "107 m outside", seen(at(407, uncertainty_m=40_000))),
    Speaks("position_in_site", STOP, "outside", seen(at(330), place=round_site())),
    Speaks("position_precision", QUERY, "may be off by 101", seen(at(0, uncertainty_m=101))),
    Speaks("position_near_population", QUERY, "530 m from population P 01", seen(at(530))),
    Speaks(
        "position_in_region",
        QUERY,
        "outside the region",
        seen(place={"districts": (square(50, north(900)),)}),
    ),
    Speaks("position_in_range", QUERY, "ecoregions", seen(taxon={"range": (square(50, north(900)),)})),
    Speaks(
        "photograph_position",
        QUERY,
        "Of 3 photographs with a position, 3 lie up to 300 m",
        seen(photographs=pictures(position=north(300))),
    ),
    Speaks("photograph_day", QUERY, "such as 2030-07-30", taken_at(NOON - timedelta(days=2))),
    Speaks("photograph_day", QUERY, "such as 2030-08-03", taken_at(NOON + timedelta(days=2))),
    Speaks("date_plausible", QUERY, "14 days outside", on(date(2030, 6, 17))),
    Speaks("date_plausible", STOP, "15 days outside", on(date(2030, 6, 16))),
    Speaks("date_plausible", STOP, "31 days outside", on(date(2030, 10, 31))),
    Speaks("date_plausible", NOTE, "does not know when", on(DAY, ripens_from=None)),
    Speaks("date_plausible", NOTE, "does not know when", on(DAY, ripens_to=None)),
    Speaks("date_plausible", QUERY, "1 day outside", on(date(2030, 3, 1), ripens_from=11, ripens_to=2)),
    Speaks(
        "ripe_before_collecting",
        STOP,
        "before the first ripe fruit was seen",
        seen(collection(first_ripe_on=DAY + timedelta(days=1))),
    ),
    Speaks(
        "first_ripe_fruit",
        QUERY,
        "2 days after the first",
        seen(collection(first_ripe_on=DAY - timedelta(days=2), already_shedding=False)),
    ),
    Speaks("shedding", QUERY, "hard and dark", seen(collection(already_shedding=False))),
    Speaks("visited_before", QUERY, "Nobody had visited", seen(collection(visits_before=0))),
    Speaks(
        "dates_in_order",
        QUERY,
        "drying began on 2030-07-31",
        seen(collection(drying_from=DAY - timedelta(days=1))),
    ),
    Speaks(
        "dates_in_order",
        QUERY,
        "frozen on 2030-07-30; it reached",
        seen(collection(frozen_on=date(2030, 7, 30), reached_bank_on=date(2030, 7, 31))),
    ),
    Speaks("dates_in_order", QUERY, "it was handed in", seen(handed_in_at=NOON - timedelta(days=1))),
    Speaks("handling_as_asked", STOP, "put together", seen(in_bulk(), RARE)),
    Speaks("flags_unique", STOP, "a1", seen(collection(tallies=(Tally("A1"), Tally("a1"))))),
    Speaks(
        "tally_sum", STOP, "add up to 2600 seeds, the total says 2500", seen(collection(total_seeds=2500))
    ),
    Speaks("tally_sum", QUERY, "2579", seen(collection(total_seeds=2579))),
    Speaks("tally_sum", STOP, "100 seeds", seen(tallied((20, 2, 100), (20, 2, None), total_seeds=70))),
    Speaks("total_plausible", QUERY, "the total says 3901", seen(collection(total_seeds=3901))),
    Speaks("total_plausible", QUERY, "make about 2600", seen(collection(total_seeds=1733))),
    Speaks("share_of_population", STOP, "12000 seeds", seen(account=Account(12_000, 0, 12_001))),
    Speaks("share_of_population", STOP, "12000 seeds", seen(in_bulk(total_seeds=11_981), account=None)),
    Speaks("share_of_population", QUERY, "Nobody has counted", seen(sheet=UNCOUNTED, account=None)),
    Speaks("left_on_sheet", STOP, "481 fruits were taken; the sheet left 480", seen(in_bulk(fruits=481))),
    Speaks(
        "left_on_sheet",
        QUERY,
        "12001 seeds were taken; the sheet left 12000",
        seen(in_bulk(total_seeds=11_981)),
    ),
    Speaks("left_on_sheet", STOP, "12001 seeds", seen(in_bulk(fruits=None, total_seeds=11_981))),
    Speaks("taken_lowered", QUERY, "2621 seeds were taken, this one says 2620", seen(entered_seeds=2621)),
    Speaks("ripe_counted", QUERY, "left blank", seen(tallied((None, 2, 50), (20, 2, 50)))),
    Speaks("ripe_counted", QUERY, "left blank", seen(in_bulk(ripe=None))),
    Speaks("few_plants", STOP, "Only 19 plants", seen(collection(plants_fruiting=19))),
    Speaks("few_plants", STOP, "Only 19 plants", seen(collection(plants_fruiting=19), UNDATED_CONSENT)),
    Speaks("few_plants", STOP, "Only 19 plants", seen(collection(plants_fruiting=19), UNPROVEN)),
    Speaks(
        "share_of_day",
        STOP,
        "241 fruits were taken of about 1200",
        seen(in_bulk(fruits=241, plants_fruiting=60)),
    ),
    Speaks(
        "share_of_day",
        STOP,
        "5 fruits were taken of about 20",
        seen(tallied((10, 3, 50), (10, 2, 50), plants_fruiting=1)),
    ),
    Speaks(
        "share_of_plant",
        STOP,
        "12 of 40 ripe fruits were taken from plant A1; the sheet allows 4.",
        seen(tallied((40, 12, 50), (20, 2, 50))),
    ),
    Speaks(
        "share_of_plant", STOP, "plant A2; the sheet allows 0. 1 more", seen(tallied((20, 3, 9), (9, 3, 9)))
    ),
    Speaks("share_of_plant", STOP, "allows 0. 2 more plants", seen(tallied((9, 1, 9), (9, 1, 9), (9, 1, 9)))),
    Speaks("share_of_plant", STOP, "2.02 of 20.0 ripe fruits", seen(in_bulk(fruits=121))),
    Speaks("share_of_plant", STOP, "allows 0.", seen(sheet=STOPPED)),
    Speaks("mothers", QUERY, "49 mothers; the sheet asks for 50", seen(collection(tallies=FEW))),
    Speaks("mothers", QUERY, "0 mothers", seen(collection(tallies=(Tally("A1", 20),)))),
    Speaks("mothers", QUERY, "1 mother; the sheet asks for 3", seen(in_bulk(1, plants_fruiting=3))),
    Speaks("effective_mothers", QUERY, "count for 1.0 even", seen(collection(tallies=UNEVEN))),
    Speaks("allele_capture", NOTE, "93.1% (if the plants fertilise themselves) to 99.5%", seen()),
    Speaks("allele_capture", NOTE, "0% (if", seen(tallied((20, 0, None)))),
    Speaks("allele_capture", NOTE, "95.4% ", seen(in_bulk(60))),
]

SILENT = [
    Silent("position_in_site", "outside by less than the uncertainty", seen(at(304))),
    Silent("position_in_site", "inside the circle", seen(at(299), place=round_site())),
    Silent("position_precision", "exactly the most", seen(at(0, uncertainty_m=100))),
    Silent("position_near_population", "within the walk and both uncertainties", seen(at(510))),
    Silent("position_in_region", "no districts known", seen(place={"districts": ()})),
    Silent("position_in_range", "nobody has said where it grows", seen(taxon={"range": ()})),
    Silent("position_in_range", "in one of two", seen(taxon={"range": (square(9, north(900)), square(9))})),
    Silent("photograph_position", "cameras without positions", seen(photographs=pictures(position=None))),
    Silent("photograph_position", "within reach", seen(photographs=pictures(position=north(250)))),
    Silent(
        "photograph_position",
        "specimens are photographed at home",
        seen(photographs=pictures(position=north(9000), kind=PhotographKind.VOUCHER)),
    ),
    Silent("photograph_day", "a day off", taken_at(NOON + timedelta(days=1))),
    Silent("photograph_day", "cameras without clocks", seen(photographs=pictures(taken_at=None))),
    Silent("date_plausible", "the first day", on(date(2030, 7, 1))),
    Silent("date_plausible", "the last day", on(date(2030, 9, 30))),
    Silent("date_plausible", "over the turn of the year", on(date(2030, 1, 9), ripens_from=11, ripens_to=2)),
    Silent(
        "date_plausible", "in the last year there is", on(date(9999, 12, 30), ripens_from=12, ripens_to=12)
    ),
    Silent("ripe_before_collecting", "on the same day", seen(collection(first_ripe_on=DAY))),
    Silent(
        "first_ripe_fruit",
        "three days later",
        seen(collection(first_ripe_on=DAY - timedelta(days=3), already_shedding=None)),
    ),
    Silent("first_ripe_fruit", "already shedding", seen(collection(first_ripe_on=DAY))),
    Silent("first_ripe_fruit", "not known", seen(collection(first_ripe_on=None))),
    Silent("shedding", "not said", seen(collection(already_shedding=None))),
    Silent("visited_before", "once", seen(collection(visits_before=1))),
    Silent("dates_in_order", "all on the day", seen(collection(reached_bank_on=DAY, frozen_on=DAY))),
    Silent("handling_as_asked", "better than asked", seen()),
    Silent("handling_as_asked", "as asked", seen(sheet=RARE)),
    Silent("flags_unique", "all different", seen()),
    Silent("tally_sum", "bulk has no rows", seen(in_bulk())),
    Silent("tally_sum", "the rows count the twenty cut seeds", seen(collection(total_seeds=2580))),
    Silent("tally_sum", "the rows leave the cut seeds out", seen(collection(total_seeds=2600))),
    Silent("tally_sum", "no row has a count", seen(tallied((20, 2, None)))),
    Silent("tally_sum", "some rows have none", seen(tallied((20, 2, 100), (20, 2, None), total_seeds=150))),
    Silent("total_plausible", "exactly half as much again", seen(collection(total_seeds=3900))),
    Silent("total_plausible", "nobody counted seeds", seen(collection(seeds_per_fruit=None))),
    Silent("total_plausible", "nobody counted fruits", seen(in_bulk(fruits=None))),
    Silent("share_of_population", "exactly the allowance", seen(account=Account(12_000, 0, 12_000))),
    Silent("share_of_population", "exactly the sheet’s", seen(in_bulk(total_seeds=11_980), account=None)),
    Silent("left_on_sheet", "exactly what was left", seen(in_bulk(fruits=480, total_seeds=11_980))),
    Silent("left_on_sheet", "nobody knows what is left", seen(sheet=UNCOUNTED)),
    Silent("taken_lowered", "the same as before", seen(entered_seeds=2620)),
    Silent("ripe_counted", "counted on the mean plant", seen(in_bulk())),
    Silent("ripe_counted", "a plant that gave nothing", seen(tallied((None, 0, None), (20, 2, 50)))),
    Silent("few_plants", "twenty", seen(collection(plants_fruiting=20))),
    Silent("few_plants", "not counted", seen(collection(plants_fruiting=None))),
    Silent("few_plants", "a curator consented", seen(collection(plants_fruiting=19), RARE)),
    Silent("few_plants", "to be lost", seen(collection(plants_fruiting=19), DOOMED)),
    Silent("share_of_day", "exactly the share", seen(in_bulk(fruits=240, plants_fruiting=60))),
    Silent("share_of_day", "no ripe fruit counted", seen(in_bulk(fruits=900, ripe=None))),
    Silent("share_of_day", "no fruit counted", seen(in_bulk(fruits=None))),
    Silent("share_of_day", "no plants counted", seen(in_bulk(fruits=900, plants_fruiting=None))),
    Silent("share_of_day", "rows without ripe fruit", seen(tallied((None, 9, 50)))),
    Silent("share_of_day", "the sheet has no share", seen(in_bulk(fruits=900), lines(visit_share=None))),
    Silent("share_of_plant", "exactly a tenth", seen(tallied((40, 4, 50), (10, 1, 50)))),
    Silent("share_of_plant", "rows without ripe fruit", seen(tallied((None, 9, 50)))),
    Silent("share_of_plant", "exactly the mean share", seen(in_bulk(fruits=120))),
    Silent("share_of_plant", "no ripe fruit counted", seen(in_bulk(fruits=900, ripe=None))),
    Silent("share_of_plant", "the sheet has no share", seen(in_bulk(fruits=900), lines(plant_share=None))),
    Silent("mothers", "exactly the goal", seen(in_bulk(50))),
    Silent("mothers", "all there were", seen(in_bulk(12, plants_fruiting=12))),
    Silent(
        "mothers", "as many as the goal, fruiting plants unknown", seen(in_bulk(50, plants_fruiting=None))
    ),
    Silent("mothers", "the sheet has no goal", seen(in_bulk(1), lines(mothers_goal=None))),
    Silent("effective_mothers", "even", seen()),
    Silent("effective_mothers", "bulk", seen(in_bulk())),
    Silent("effective_mothers", "nothing was taken", seen(tallied((20, 0, None)))),
    Silent(
        "effective_mothers", "fruits, where not all seeds are known", seen(tallied((9, 1, None), (9, 1, 400)))
    ),
]
