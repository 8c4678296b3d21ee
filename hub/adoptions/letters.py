"""What a group is told about its adoptions."""

from __future__ import annotations

from hub.accounts.letters import Paragraph, address, post
from hub.adoptions.models import Adoption
from hub.db.work import Work
from hub.groups.queries import get_group
from hub.taxa import queries as taxa
from hub.words import Words, say


def accepted(work: Work, adoption: Adoption) -> None:
    species = name_of(work, adoption)
    tell(
        work,
        adoption,
        say("{species} is yours this season", species=species),
        say("The bank says yes: your group has adopted {species}.", species=species),
        *remark(adoption),
        say("Your season shows what to do first:"),
        address(work, "/our-season"),
    )


def declined(work: Work, adoption: Adoption) -> None:
    species = name_of(work, adoption)
    tell(
        work,
        adoption,
        say("About your wish for {species}", species=species),
        say("Thank you for asking for {species}. It cannot be yours this season.", species=species),
        *remark(adoption),
        say("Other species still wait for a group:"),
        address(work, "/adopt"),
    )


def suspended(work: Work, adoption: Adoption) -> None:
    species = name_of(work, adoption)
    tell(
        work,
        adoption,
        say("Please pause: {species}", species=species),
        say("The bank has paused your work on {species}. Please collect nothing now.", species=species),
        *remark(adoption),
        address(work, f"/adoptions/{adoption.id}"),
    )


def resumed(work: Work, adoption: Adoption) -> None:
    species = name_of(work, adoption)
    tell(
        work,
        adoption,
        say("You can go on: {species}", species=species),
        say("Your work on {species} goes on.", species=species),
        *remark(adoption),
        address(work, "/our-season"),
    )


def lapsed(work: Work, adoption: Adoption) -> None:
    species = name_of(work, adoption)
    tell(
        work,
        adoption,
        say("{species} is back on the list", species=species),
        say("By the day on which idle adoptions end nothing was noted for {species}.", species=species),
        say("Others may adopt it now. If you still want it, ask for it again:"),
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
