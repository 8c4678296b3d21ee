"""Where a check’s limit comes from: the sheet’s own number, a publication, or our own default.

Only what was read in a publication is named as one; a remembered figure says that it is remembered.
"""

from __future__ import annotations

from hub.protocols.sheet import Evidence as Ground
from hub.protocols.sheet import Line
from hub.vetting.evidence import Evidence
from hub.words import Words, say

OWN = say("Our own default")
ARITHMETIC = say("It follows from the figures given")
RECORDS = say("The hub’s own records of papers on that day")

PROTOCOL = "US Bureau of Land Management 2012, technical protocol for collecting native seed, "
SCOUT = PROTOCOL + "section 7: a visit beforehand confirms identity, seed set and the likely date"
SAMPLING = PROTOCOL + "section 9: mature seed, sampled evenly, cut and looked at before collecting"
FRESH = (
    PROTOCOL + "section 13: spread damp seed at once, and never freeze it before it is processed and dried"
)
FORM = PROTOCOL + "field data form: place, people, population, readiness, voucher and photographs"
VOUCHERS = PROTOCOL + "herbarium section: a pressed specimen with each collection, photographs as second best"
HOLLOW = (
    "Center for Plant Conservation 2019, cleaning, processing, drying and storing orthodox seeds: "
    "more than half hollow suggests predation or poor seed set"
)
SMALL = "Center for Plant Conservation 2019, curating small samples: fewer than 100 seeds need extra steps"
LINES = (
    "Center for Plant Conservation 2019, acquiring a conservation collection: rare plants by maternal line"
)
RIPE = say("Reported of the Millennium Seed Bank: collect when some plants have begun to shed")
EARLY = say("Common practice, from memory: never only the first fruits of a season")
TRADE = say("Common practice in the trade, from memory")

_GROUNDS = {
    Ground.PUBLISHED: say("published: {cited}"),
    Ground.SECONDARY: say("reported, not read in the original: {cited}"),
    Ground.MEMORY: say("common practice, from memory"),
    Ground.DEFAULT: say("our own default"),
}


def by_sheet(evidence: Evidence, line: Line) -> Words:
    """The sheet’s own number, with the rules that gave it and what they stand on."""
    known = {each.key: f"{each.author} {each.year}" for each in evidence.sheet.sheet.sources}
    cited = "; ".join(known.get(key, key) for key in line.sources)
    return say(
        "Sheet {sheet}, rule {rules} ({ground})",
        sheet=evidence.sheet.number,
        rules=", ".join(line.rules),
        ground=Words(_GROUNDS[line.evidence].text, {"cited": cited}),
    )
