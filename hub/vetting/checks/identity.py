"""Whether anybody can tell later what the plants were."""

from __future__ import annotations

from hub.vetting.checks.answers import Answers, listed, query, stop
from hub.vetting.checks.grounds import FORM, OWN, SCOUT, VOUCHERS
from hub.vetting.evidence import Evidence
from hub.vetting.rules import PhotographKind
from hub.vetting.still_missing import WANTED_PICTURES
from hub.words import say


def identity_evidence(evidence: Evidence) -> Answers:
    """A pressed specimen, a photograph of one, or a photograph of the parts that tell the species apart."""
    kinds = {photograph.kind for photograph in evidence.photographs}
    shown = kinds & {PhotographKind.DIAGNOSTIC, PhotographKind.VOUCHER}
    if evidence.collection.voucher is None and not shown:
        words = say(
            "There is neither a pressed specimen nor a photograph of the parts that tell {taxon} apart.",
            taxon=evidence.taxon.name,
        )
        yield stop(
            "identity_evidence",
            words,
            VOUCHERS,
            {"photographs": len(evidence.photographs), "diagnostic_parts": evidence.taxon.diagnostic_parts},
        )


def identity_named(evidence: Evidence) -> Answers:
    """Somebody stands for the name."""
    if not evidence.collection.identified_by.strip():
        yield query("identity_named", say("Nobody is named who identified the plants."), SCOUT)


def identity_of_sex(evidence: Evidence) -> Answers:
    """Where male and female flowers stand on separate plants, heads without any seed may be male."""
    test = evidence.collection.cut_test
    if evidence.case["taxon"].get("dioecious") and test is not None and test.cut and not test.filled:
        words = say(
            "None of {cut} cut seeds was filled. This species has male and female plants: were these male?",
            cut=test.cut,
        )
        yield query("identity_of_sex", words, OWN, {"cut_seeds": test.cut, "filled_seeds": test.filled})


def photographs_asked(evidence: Evidence) -> Answers:
    """Plant, diagnostic parts, fruit and habitat, so that the collection can be understood later."""
    kinds = {photograph.kind for photograph in evidence.photographs}
    missing = {kind: words for kind, words in WANTED_PICTURES.items() if kind not in kinds}
    if missing:
        words = say("Not among the photographs: {missing}.", missing=listed(missing.values()))
        yield query("photographs_asked", words, FORM, {"missing_kinds": list(missing)})
