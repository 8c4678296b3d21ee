"""Whether everything is there that a collection must carry to be worth keeping."""

from __future__ import annotations

from hub.vetting.checks.answers import Answers, listed, query
from hub.vetting.checks.grounds import FORM
from hub.vetting.evidence import Evidence
from hub.vetting.still_missing import counts
from hub.words import say


def minimum_data(evidence: Evidence) -> Answers:
    """What was counted and seen that day; pictures, identity, cut test and drying have own checks."""
    missing = list(counts(evidence.collection, cut=False))
    if evidence.collection.already_shedding is None:
        missing.append(say("whether plants had begun to shed"))
    if missing:
        words = say("Not said yet: {missing}.", missing=listed(missing))
        yield query("minimum_data", words, FORM, {"missing_fields": len(missing)})
