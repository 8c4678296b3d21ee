"""What a group is told about its adoptions."""

from __future__ import annotations

from hub.accounts.letters import Paragraph, address, post
from hub.adoptions.models import Adoption
from hub.db.work import Work
from hub.groups.queries import get_group
from hub.taxa import queries as taxa
from hub.words import Words, say


def accepted(work: Work, adoption: Adoption) -> None:
    tell(
        work,
        adoption,
        say("{species} is yours this season", species=name_of(work, adoption)),
        say("The bank says yes: your group has adopted {species}.", species=name_of(work, adoption)),
        *remark(adoption),
        say("Your season shows what to do first:"),
        address(work, "/our-season"),
    )


def declined(work: Work, adoption: Adoption) -> None:
    tell(
        work,
        adoption,
        say("About your wish for {species}", species=name_of(work, adoption)),
        say(
            "Thank you for asking for {species}. The bank cannot give it to you this season.",
            species=name_of(work, adoption),
        ),  # fmt: skip
        *remark(adoption),
        say("Other species still wait for a group:"),
        address(work, "/adopt"),
    )


def suspended(work: Work, adoption: Adoption) -> None:
    tell(
        work,
        adoption,
        say("Please pause: {species}", species=name_of(work, adoption)),
        say(
            "The bank has paused your work on {species}. Please collect nothing until it goes on.",
            species=name_of(work, adoption),
        ),  # fmt: skip
        *remark(adoption),
        address(work, f"/adoptions/{adoption.id}"),
    )


def resumed(work: Work, adoption: Adoption) -> None:
    tell(
        work,
        adoption,
        say("You can go on: {species}", species=name_of(work, adoption)),
        say("Your work on {species} goes on.", species=name_of(work, adoption)),
        *remark(adoption),
        address(work, "/our-season"),
    )


def lapsed(work: Work, adoption: Adoption) -> None:
    tell(
        work,
        adoption,
        say("{species} is back on the list", species=name_of(work, adoption)),
        say(
            "Nothing was noted for {species} by the day on which idle adoptions end, so others may adopt it now.",
            species=name_of(work, adoption),
        ),  # fmt: skip
        say("If you still want it, ask for it again:"),
        address(work, "/adopt"),
    )


def tell(work: Work, adoption: Adoption, subject: Words, *body: Paragraph) -> None:
    """Write to the group's contact."""
    group = get_group(work, adoption.group_id)
    greeting = say("Hello {name},", name=group.contact_name)
    post(work, to=group.contact_email, subject=subject, body=[greeting, *body])


def name_of(work: Work, adoption: Adoption) -> str:
    taxon = taxa.get(work, adoption.taxon_id)
    return f"{taxon.canonical} ({taxon.vernacular})" if taxon.vernacular else taxon.canonical


def remark(adoption: Adoption) -> list[Paragraph]:
    """The curator's own words, where there are any."""
    return [say("It writes: {reason}", reason=adoption.reason)] if adoption.reason else []
