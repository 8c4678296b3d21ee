"""The running count of stages: changed in the same transaction as the adoption, and always after the turn.

Every change takes its turn at the audit chain's head first (``actions.moving.turn``), so no two transactions
ever hold rows of this table at the same time, in whatever order they touch them, and none is lost.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import update
from sqlalchemy.dialects import postgresql, sqlite

from hub.adoptions.models import Adoption, StageCount
from hub.adoptions.rules import HOLDING, Stage
from hub.db.work import Work


def counted_at(adoption: Adoption) -> Stage | None:
    """The stage at which an adoption is counted; None when its species is free again."""
    return adoption.stage if adoption.state in HOLDING else None


def recount(work: Work, adoption: Adoption, before: Stage | None) -> None:
    """Bring the count from where an adoption was counted before to where it is counted now."""
    after = counted_at(adoption)
    if before is after:
        return
    if before is not None:
        one_less(work, adoption, before)
    if after is not None:
        one_more(work, adoption, after)


def place_of(adoption: Adoption, stage: Stage) -> dict[str, Any]:
    return {
        "season_id": adoption.season_id,
        "taxon_id": adoption.taxon_id,
        "district_id": adoption.district_id,
        "stage": stage,
    }


def one_more(work: Work, adoption: Adoption, stage: Stage) -> None:
    insert = postgresql.insert if work.db.get_bind().dialect.name == "postgresql" else sqlite.insert
    place = place_of(adoption, stage)
    first = insert(StageCount).values(**place, adoptions=1)
    more = first.on_conflict_do_update(
        index_elements=list(place), set_={"adoptions": StageCount.adoptions + 1}
    )
    work.db.execute(more)


def one_less(work: Work, adoption: Adoption, stage: Stage) -> None:
    fewer = update(StageCount).filter_by(**place_of(adoption, stage))
    work.db.execute(fewer.values(adoptions=StageCount.adoptions - 1))
