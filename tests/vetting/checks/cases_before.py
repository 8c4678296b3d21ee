"""What had to stand before anybody went out: the sheet, the papers, the plants’ identity."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from hub.protocols.sheet import Status
from hub.sites.rules import Paper
from hub.vetting.collection import CutTest
from hub.vetting.evidence import Evidence, PermitHeld
from hub.vetting.rules import PhotographKind, Severity
from tests.vetting.checks.dossier import (
    DAY,
    SHEET,
    Silent,
    Speaks,
    collection,
    dossier,
    in_bulk,
    pictures,
    sheet_for,
    tallied,
)

STOP, QUERY, NOTE = Severity
DAY_BEFORE = DAY - timedelta(days=1)
PERMIT = PermitHeld(
    "the authority", "N 7", date(2030, 1, 1), date(2030, 12, 31), cap_seeds=3000, used_seeds=3001
)
DIOECIOUS = sheet_for(population={"name": "P 01"}, taxon={"dioecious": True})
NO_PROOF = pictures()[:2]


def under(**facts: Any) -> Evidence:
    """The ordinary collection under a sheet with another history."""
    ordinary = dossier()
    return replace(ordinary, sheet=replace(ordinary.sheet, **facts))


SPEAKS = [
    Speaks("minimum_data", QUERY, "how many plants were seen", dossier(collection(plants_seen=None))),
    Speaks("minimum_data", QUERY, "begun to shed", dossier(collection(already_shedding=None))),
    Speaks("minimum_data", QUERY, "each mother had", dossier(tallied((None, 2, 50)))),
    Speaks("sheet_current", STOP, "replaced on 2030-07-31", under(ended_on=DAY_BEFORE)),
    Speaks("sheet_current", STOP, "withdrawn on", under(ended_on=DAY_BEFORE, withdrawn=True)),
    Speaks("sheet_issued", STOP, "before sheet", under(issued_on=DAY + timedelta(days=1))),
    Speaks(
        "sheet_ready",
        STOP,
        "was not to be used",
        dossier(sheet=sheet_for(population={"name": "P 01"}, permission={"granted": "unknown"})),
    ),
    Speaks(
        "sheet_ready", STOP, "no reason", dossier(sheet=replace(SHEET, status=Status.NOT_YET, reasons=()))
    ),
    Speaks("sheet_same_plants", STOP, "P 02", dossier(place={"population": "P 02"})),
    Speaks("sheet_same_plants", STOP, "Salix herbacea", dossier(taxon={"name": "Salix herbacea"})),
    Speaks("sheet_season", STOP, "season 2030", dossier(collection(collected_on=date(2031, 1, 1)))),
    Speaks("sheet_season", STOP, "had closed on 2030-07-31", under(closes_on=DAY_BEFORE)),
    Speaks("permission_on_the_day", STOP, "Scar Top", dossier(papers={"permission": None})),
    Speaks("permission_on_the_day", STOP, "2030-08-01", dossier(papers={"missing": (Paper.PERMISSION,)})),
    Speaks("permits_on_the_day", STOP, "legal list", dossier(papers={"missing": (Paper.TAXON_PERMIT,)})),
    Speaks(
        "permits_on_the_day",
        STOP,
        "protected; the consent",
        dossier(papers={"missing": (Paper.AREA_PERMIT, Paper.OWN_CONSENT)}),
    ),
    Speaks("permit_cap", STOP, "the 3000 seeds of permit N 7", dossier(papers={"permits": (PERMIT,)})),
    Speaks(
        "identity_evidence",
        STOP,
        "neither a pressed",
        dossier(collection(voucher=None), photographs=NO_PROOF),
    ),
    Speaks("identity_named", QUERY, "Nobody is named", dossier(collection(identified_by=" "))),
    Speaks(
        "identity_of_sex",
        QUERY,
        "None of 20",
        dossier(collection(cut_test=CutTest(20, 0)), sheet=DIOECIOUS),
    ),
    Speaks("photographs_asked", QUERY, "whole plant; ", dossier(photographs=())),
    Speaks("photographs_asked", QUERY, "fruit or seed", dossier(photographs=pictures()[:3])),
]

SILENT = [
    Silent("minimum_data", "bulk seed has no rows", dossier(in_bulk())),
    Silent("sheet_current", "replaced on the very day", under(ended_on=DAY)),
    Silent("sheet_issued", "issued on the very day", under(issued_on=DAY)),
    Silent("sheet_ready", "ready", dossier()),
    Silent(
        "sheet_same_plants",
        "the sheet names the author too",
        dossier(sheet=sheet_for(taxon={"name": "Campanula scheuchzeri Vill."}, population={"name": "P 01"})),
    ),
    Silent(
        "sheet_same_plants",
        "no name that can be read, but the same",
        dossier(sheet=sheet_for(taxon={"name": "?"}, population={"name": "P 01"}), taxon={"name": "?"}),
    ),
    Silent("sheet_same_plants", "the sheet names no population", dossier(sheet=sheet_for())),
    Silent("sheet_season", "the last day of the season", under(closes_on=DAY)),
    Silent("sheet_season", "the last day of the year", dossier(collection(collected_on=date(2030, 12, 31)))),
    Silent("permission_on_the_day", "granted", dossier(papers={"missing": (Paper.AREA_PERMIT,)})),
    Silent("permits_on_the_day", "only leave is missing", dossier(papers={"missing": (Paper.PERMISSION,)})),
    Silent("permit_cap", "exactly the cap", dossier(papers={"permits": (replace(PERMIT, used_seeds=3000),)})),
    Silent("permit_cap", "no cap", dossier(papers={"permits": (replace(PERMIT, cap_seeds=None),)})),
    Silent("identity_evidence", "a specimen alone", dossier(photographs=NO_PROOF)),
    Silent("identity_evidence", "photographs alone", dossier(collection(voucher=None))),
    Silent(
        "identity_evidence",
        "a photograph of the specimen",
        dossier(collection(voucher=None), photographs=pictures(kind=PhotographKind.VOUCHER)),
    ),
    Silent("identity_named", "somebody", dossier()),
    Silent(
        "identity_of_sex", "one filled seed", dossier(collection(cut_test=CutTest(20, 1)), sheet=DIOECIOUS)
    ),
    Silent("identity_of_sex", "both sexes in one flower", dossier(collection(cut_test=CutTest(20, 0)))),
    Silent("identity_of_sex", "nothing was cut", dossier(collection(cut_test=None), sheet=DIOECIOUS)),
    Silent("photographs_asked", "one of each", dossier()),
]
