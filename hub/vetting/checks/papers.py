"""Whether the owner’s permission and the permits held on the day, and the permits’ caps are unbroken."""

from __future__ import annotations

from hub.sites.rules import Paper
from hub.vetting.checks.answers import Answers, listed, stop
from hub.vetting.checks.grounds import RECORDS
from hub.vetting.evidence import Evidence
from hub.words import say


def permission_on_the_day(evidence: Evidence) -> Answers:
    """Nobody may collect on land whose owner has not said yes for that day."""
    day = evidence.collection.collected_on
    if evidence.papers.permission is None or Paper.PERMISSION in evidence.papers.missing:
        words = say(
            "On {day} the owner’s permission for {site} did not hold.", day=day, site=evidence.place.site
        )
        yield stop(
            "permission_on_the_day", words, RECORDS, {"collected_on": day, "site": evidence.place.site}
        )


def permits_on_the_day(evidence: Evidence) -> Answers:
    """A listed species, protected land or a community’s land each need a paper of their own."""
    missing = [paper for paper in evidence.papers.missing if paper is not Paper.PERMISSION]
    if missing:
        day = evidence.collection.collected_on
        words = say(
            "On {day} this was missing: {missing}.", day=day, missing=listed(paper.words for paper in missing)
        )
        yield stop("permits_on_the_day", words, RECORDS, {"collected_on": day, "missing": missing})


def permit_cap(evidence: Evidence) -> Answers:
    """All that was taken under one permit stays within its cap."""
    for permit in evidence.papers.permits:
        if permit.cap_seeds is not None and permit.used_seeds > permit.cap_seeds:
            words = say(
                "With this collection more than the {cap} seeds of permit {number} have been taken.",
                number=permit.number,
                cap=permit.cap_seeds,
            )
            known = {
                "cap_seeds": permit.cap_seeds,
                "used_seeds": permit.used_seeds,
                "authority": permit.authority,
            }
            yield stop("permit_cap", words, RECORDS, known, about=permit.number[:60])
