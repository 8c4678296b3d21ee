"""The frame of an issued sheet: what the hub knows of the rows that it names."""

from __future__ import annotations

from hub.db.work import Work
from hub.protocols import listed
from hub.protocols.imprint import Imprint, ended_words
from hub.protocols.models import IssuedSheet


def imprint_for(work: Work, issued: IssuedSheet) -> Imprint:
    """The frame of an issued sheet. The place stands in it by name alone."""
    around, successor = listed.around(work, issued), listed.replaced_by(work, issued)
    return Imprint(
        taxon=around.taxon.canonical,
        common_name=around.taxon.vernacular,
        bank=around.bank.name,
        group=around.group.name,
        population=issued.case["population"]["name"],
        number=issued.number,
        address=f"{work.settings.base_url}/sheets/by-number/{issued.number}",
        site=around.site.name if around.site else "",
        bank_email=around.bank.email,
        law_note=around.bank.law_note,
        issued_on=issued.issued_at.astimezone(work.zone).date(),
        ended=ended_words(issued.state, successor.number if successor else ""),
    )
