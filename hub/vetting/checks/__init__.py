"""Every check of a collection, in one table: pure functions from evidence to findings."""

from __future__ import annotations

from hub.vetting.checks import (
    care,
    complete,
    date,
    handling,
    identity,
    mothers,
    papers,
    pattern,
    place,
    quality,
    sheet,
    take,
)
from hub.vetting.checks.answers import Check
from hub.vetting.evidence import Evidence
from hub.vetting.finding import Finding
from hub.vetting.rules import Severity
from hub.words import say

CHECKS = (
    Check(say("Data that every collection needs"), complete.minimum_data),
    Check(say("The sheet held on the day"), sheet.sheet_current),
    Check(say("The sheet was there on the day"), sheet.sheet_issued),
    Check(say("The sheet was ready to use"), sheet.sheet_ready),
    Check(say("Same species and population as the sheet"), sheet.sheet_same_plants),
    Check(say("Same season as the sheet"), sheet.sheet_season),
    Check(say("The owner’s permission held on the day"), papers.permission_on_the_day),
    Check(say("The permits held on the day"), papers.permits_on_the_day),
    Check(say("The cap of the permit"), papers.permit_cap),
    Check(say("Proof of what the plants are"), identity.identity_evidence),
    Check(say("Who identified the plants"), identity.identity_named),
    Check(say("Female and male plants"), identity.identity_of_sex),
    Check(say("Photographs asked for"), identity.photographs_asked),
    Check(say("The place lies in the site"), place.position_in_site),
    Check(say("The place is known closely enough"), place.position_precision),
    Check(say("The place is near the population"), place.position_near_population),
    Check(say("The place lies in the region"), place.position_in_region),
    Check(say("The place lies where the species grows"), place.position_in_range),
    Check(say("Photographs were taken at the place"), place.photograph_position),
    Check(say("Photographs were taken on the day"), place.photograph_day),
    Check(say("The season when fruit is ripe"), date.date_plausible),
    Check(say("Ripe fruit had been seen"), date.ripe_before_collecting),
    Check(say("Not the first ripe fruit"), date.first_ripe_fruit),
    Check(say("Plants had begun to shed"), date.shedding),
    Check(say("Somebody had been there before"), date.visited_before),
    Check(say("Dates in their order"), date.dates_in_order),
    Check(say("Handling as the sheet asked"), handling.handling_as_asked),
    Check(say("Every mother has a flag of its own"), handling.flags_unique),
    Check(say("The rows add up to the total"), handling.tally_sum),
    Check(say("The total agrees with the fruits"), handling.total_plausible),
    Check(say("What all groups took from the population"), take.share_of_population),
    Check(say("What the sheet left to this group"), take.left_on_sheet),
    Check(say("No seed was written back"), take.taken_lowered),
    Check(say("Ripe fruits were counted"), take.ripe_counted),
    Check(say("Share of the fruit ripe that day"), take.share_of_day),
    Check(say("Share of each plant"), take.share_of_plant),
    Check(say("Enough plants in fruit"), mothers.few_plants),
    Check(say("Enough mothers"), mothers.mothers),
    Check(say("Even shares from the mothers"), mothers.effective_mothers),
    Check(say("Chance of holding an uncommon gene variant"), mothers.allele_capture),
    Check(say("A cut test was made"), quality.cut_test_made),
    Check(say("Filled seed"), quality.filled_share),
    Check(say("A small lot"), quality.small_lot),
    Check(say("The container"), care.container),
    Check(say("Time from plant to drying"), care.hours_to_drying),
    Check(say("Time from plant to bank"), care.hours_to_bank),
    Check(say("Living seed on its way"), care.alive_in_transit),
    Check(say("Drying long enough"), care.dried_long_enough),
    Check(say("Dryness shown"), care.dryness_shown),
    Check(say("Never frozen before it is dry"), care.frozen_undried),
    Check(say("Frozen only where the sheet says so"), care.frozen_as_asked),
    Check(say("Never dried when drying kills it"), care.never_dried),
    Check(say("Figures out of the ordinary"), pattern.unusual_figure),
    Check(say("Handed in before"), pattern.near_duplicate),
)

_WORST_FIRST = tuple(Severity)


def findings(evidence: Evidence) -> list[Finding]:
    """What all checks say of one collection, worst first, else in the order of the table."""
    found = [finding for check in CHECKS for finding in check.looks(evidence)]
    return sorted(found, key=lambda finding: _WORST_FIRST.index(finding.severity))
