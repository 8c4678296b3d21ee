"""The words of a sheet’s own choices: what a figure’s short answer is called when it is printed large."""

from __future__ import annotations

from hub.protocols.sheet import Evidence, Section, Status
from hub.words import Words, say, say_n

STATUS = {
    Status.READY: say("Ready to use"),
    Status.NOT_YET: say("Not yet to be used for collecting"),
    Status.STOP: say("Stop: do not collect"),
}

SECTIONS = {
    Section.COLLECT: say("At the plants"),
    Section.MATURITY: say("Is it ripe?"),
    Section.QUALITY: say("Look inside the seed"),
    Section.CONTAINERS: say("Bags"),
    Section.LABELS: say("Labels"),
    Section.TRANSPORT: say("On the way"),
    Section.AFTER: say("Back home, the same day"),
    Section.CAUTIONS: say("Take care of yourselves and of the place"),
    Section.PAPERWORK: say("Papers and records"),
}

# How good the ground under a line is, as it stands beside its reason.
EVIDENCE = {
    Evidence.PUBLISHED: say("Published"),
    Evidence.SECONDARY: say("Published, read second-hand"),
    Evidence.MEMORY: say("From memory"),
    Evidence.DEFAULT: say("Our own default"),
}

# A source given with any other is only to compare with: it does not say this.
CITED = frozenset({Evidence.PUBLISHED, Evidence.SECONDARY})

HANDLING = {"by_mother": say("By mother"), "bulk": say("In bulk")}

CONTAINERS = {
    "packet": say("Folded paper packet"),
    "moist_bag": say("Vented bag, barely damp"),
    "vented_box": say("Open bag in a rigid box"),
    "covered_tray": say("Closed paper bag"),
    "mesh_sack": say("Open mesh sack"),
    "paper_bag": say("Paper or cloth bag"),
}

DRYING = {
    "never": say("Never dry it"),
    "bank": say("The bank dries it"),
    "home": say("Dry it at home"),
}
FREEZING = {
    "never": say("Never freeze it"),
    "bank": say("Leave it to the bank"),
    "home": say("Once dry, freeze it"),
}

# What is counted and picked in one piece.
RIPE = {
    "fruit": say("ripe fruits"),
    "head": say("ripe heads"),
    "pod": say("ripe pods"),
    "cone": say("ripe cones"),
    "catkin": say("ripe catkins"),
    "nut": say("ripe nuts"),
    "frond": say("ripe fronds"),
    "spike": say("ripe spikes"),
    "berry": say("ripe berries"),
}
RIPE_ON_PLANT = {
    "fruit": say("Ripe fruits on the plant"),
    "head": say("Ripe heads on the plant"),
    "pod": say("Ripe pods on the plant"),
    "cone": say("Ripe cones on the plant"),
    "catkin": say("Ripe catkins on the plant"),
    "nut": say("Ripe nuts on the plant"),
    "frond": say("Ripe fronds on the plant"),
    "spike": say("Ripe spikes on the plant"),
    "berry": say("Ripe berries on the plant"),
}

HOURS_IN_DAY = 24
DAYS_FROM = 48  # hours; below this people reckon in hours

NOT_KNOWN = say("Not known yet")
NOTHING = say("Nothing")
NUMBER = "{n}"


def amount(n: int | float) -> Words:
    """A number alone, written as the reader’s language writes it."""
    return Words(NUMBER, {"n": n})


def span(hours: int) -> Words:
    """A span of hours as people say it: a short one in hours, a longer one in days."""
    days, rest = divmod(hours, HOURS_IN_DAY)
    if hours < DAYS_FROM or rest:
        return say_n("{n} hour", "{n} hours", n=hours)
    return say_n("{n} day", "{n} days", n=days)
