"""A group asks for a species."""

from __future__ import annotations

from uuid import UUID

from hub.adoptions import queries
from hub.adoptions.actions.moving import move, turn
from hub.adoptions.counting import recount
from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState, Stage, holding_key, waits_for_curator
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import District, Group
from hub.taxa import queries as taxa
from hub.taxa.models import Season
from hub.words import Refused, say


def ask(work: Work, *, season_id: UUID, taxon_id: UUID, district_id: UUID, wish: str = "") -> Adoption:
    """Ask for one species for one season. It counts at once, or waits for a curator, as the bank has it.

    Raises Refused for whatever ``may_ask`` finds, and for a district outside the group's region.
    """
    turn(work)
    season, taxon = taxa.get_season(work, season_id), taxa.get(work, taxon_id)
    asker = queries.asker(work, season)
    check_district(work, asker.group, district_id)
    wanted = taxa.wanted_of(work, season.id, taxon.id) is not None
    groups = queries.holders(work, season.id, taxon.id)
    against = asker.reason_against(taxon, today=work.today, wanted=wanted, groups=groups)
    if against:
        raise Refused(against)
    adoption = requested(work, asker.group, season, taxon_id, district_id, wish)
    if not waits_for_curator(asker.bank.adoption_mode, taxon.care_class):
        move(work, adoption, AdoptionState.ACTIVE)
    return adoption


def check_district(work: Work, group: Group, district_id: UUID) -> None:
    district = work.db.get(District, district_id)
    if district is None or district.region_id != group.region_id:
        raise Refused(say("Please choose one of the districts of your region."), field="district_id")


def requested(
    work: Work, group: Group, season: Season, taxon_id: UUID, district_id: UUID, wish: str
) -> Adoption:
    adoption = Adoption(
        group_id=group.id,
        bank_id=group.bank_id,
        season_id=season.id,
        taxon_id=taxon_id,
        region_id=group.region_id,
        district_id=district_id,
        state=AdoptionState.REQUESTED,
        stage=Stage.ASKED,
        holding_key=holding_key(group.id, season.id, taxon_id),
        wish=wish,
        asked_at=work.now,
        moved_at=work.now,
    )
    work.db.add(adoption)
    work.db.flush()  # its id is about to be named in the audit chain
    recount(work, adoption, None)
    record(work, Event.ADOPTION_MOVED, adoption, after={"state": str(adoption.state), "wish": wish})
    return adoption
