"""What sites tell the features below them: the texts that no public note may repeat."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select

from hub.db.work import Work
from hub.sites.models import Site
from hub.taxa.untold import tells_places


@tells_places
def names_and_ways(work: Work, bank_id: UUID) -> list[str]:
    """The name of each site of a bank, and how to find it."""
    found = work.db.execute(select(Site.name, Site.locality).where(Site.bank_id == bank_id))
    return [text for site in found for text in site if text]
