"""Red List assessments such as ``VU B1ab(iii)+2ab(iii); D2``: read and checked, never assigned by us.

Categories and the shape of the criteria follow the IUCN Red List Categories and Criteria,
version 3.1, second edition (2012), with the regional additions; the subcriteria are from memory.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hub.taxa.closed_lists import Worded
from hub.words import Refused, say


class RedListCategory(Worded):
    """The categories of version 3.1; RE and NA are used in regional lists only."""

    EX = "EX", say("extinct")
    EW = "EW", say("extinct in the wild")
    RE = "RE", say("regionally extinct")
    CR = "CR", say("critically endangered")
    EN = "EN", say("endangered")
    VU = "VU", say("vulnerable")
    NT = "NT", say("near threatened")
    LC = "LC", say("least concern")
    DD = "DD", say("too little is known to judge")
    NA = "NA", say("not judged here, as it does not belong here")
    NE = "NE", say("not judged yet")


class AssessmentUnreadable(Refused):
    """The text is not an assessment; ``words`` say what is wrong with it."""


@dataclass(frozen=True)
class Assessment:
    """A category, the tag PE or PEW when possibly extinct, and the criteria met, one per letter."""

    category: RedListCategory
    tag: str = ""
    criteria: tuple[str, ...] = ()

    def __str__(self) -> str:
        tag = f"({self.tag})" if self.tag else ""
        return f"{self.category}{tag} {'; '.join(self.criteria)}".strip()


_THREATENED = (RedListCategory.CR, RedListCategory.EN, RedListCategory.VU)
_ASSESSMENT = re.compile(
    r"(?P<category>EX|EW|RE|CR|EN|VU|NT|LC|DD|NA|NE)(?: ?\((?P<tag>PEW?)\))?(?:\s+(?P<criteria>\S.*))?"
)


def _listed(numerals: str) -> str:
    """A bracket of one or more of these numerals: ``(iii)`` or ``(ii,iii,v)``."""
    return rf"\((?:{numerals})(?:,(?:{numerals}))*\)"


_DECLINE = "b" + _listed("iii|ii|iv|i|v")
_SWINGS = "c" + _listed("iii|ii|iv|i")
_TWO_OF_THREE = f"(?:a{_DECLINE}(?:{_SWINGS})?|a{_SWINGS}|{_DECLINE}{_SWINGS})"
_C2 = rf"2(?:a{_listed('ii|i')}b?|b)"

_CRITERIA = {
    "A": re.compile(r"A[1-4][a-e]+(?:\+[2-4][a-e]+)*"),
    "B": re.compile(rf"B(?:1{_TWO_OF_THREE}(?:\+2{_TWO_OF_THREE})?|2{_TWO_OF_THREE})"),
    "C": re.compile(rf"C(?:1(?:\+{_C2})?|{_C2})"),
    "D": re.compile(r"D"),
    "E": re.compile(r"E"),
}
# Only the vulnerable category splits D into small numbers (D1) and few places (D2).
_VULNERABLE_D = re.compile(r"D(?:1(?:\+2)?|2)")


def parse_assessment(text: str) -> Assessment | None:
    """Read a category with or without its criteria; ``None`` when nothing was given.

    Raises ``AssessmentUnreadable`` with words that say what is wrong.
    """
    tidy = " ".join(text.split())
    if not tidy:
        return None
    found = _ASSESSMENT.fullmatch(tidy)
    if found is None:
        raise AssessmentUnreadable(
            say("Start with a Red List category, such as EN or LC, in capitals, then a space.")
        )
    category = RedListCategory(found["category"])
    if found["tag"] and category is not RedListCategory.CR:
        raise AssessmentUnreadable(say("Only CR can bear the tag PE or PEW."))
    return Assessment(category, found["tag"] or "", _read_criteria(category, found["criteria"] or ""))


def _read_criteria(category: RedListCategory, text: str) -> tuple[str, ...]:
    """The criteria, one text per letter, once they agree with the category and with one another."""
    if not text:
        return ()
    if category not in _THREATENED:
        raise AssessmentUnreadable(say("Criteria are given for CR, EN and VU only."))
    criteria = tuple(re.sub(r"\s+", "", criterion) for criterion in text.split(";"))
    for criterion in criteria:
        _check_criterion(category, criterion)
    letters = [criterion[0] for criterion in criteria]
    if letters != sorted(set(letters)):
        raise AssessmentUnreadable(say("Give each criterion once, in the order A to E."))
    return criteria


def _check_criterion(category: RedListCategory, criterion: str) -> None:
    """Refuse a criterion that the grammar of the Red List does not know."""
    shape = _CRITERIA.get(criterion[:1])
    if category is RedListCategory.VU and criterion[:1] == "D":
        shape = _VULNERABLE_D
    if shape is None or not shape.fullmatch(criterion):
        raise AssessmentUnreadable(
            say(
                "“{criterion}” is not a criterion for {category}. Write for example B2ab(ii,iii) or A2c; C1.",
                criterion=criterion,
                category=category,
            )
        )
