"""Who reads an exact place on the bench is noted; crews are evidence; nothing ticked is said in its place."""

from __future__ import annotations

from datetime import timedelta
from uuid import UUID

import pytest
from sqlalchemy import select

from hub.audit.models import AuditEntry
from hub.audit.rules import Event
from hub.groups.models import Bank, Crew
from hub.groups.rules import AgeBand
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass
from tests.cast import Cast
from tests.support.browser import Browse
from tests.vetting.scene import handed_in, set_scene


def noted(cast: Cast, submission_id: UUID) -> list[UUID | None]:
    """Who has read the place of a submission, as the audit chain has it."""
    with cast.everywhere() as work:
        found = select(AuditEntry.person_id).where(
            AuditEntry.event == Event.LOCALITY_READ, AuditEntry.thing_id == str(submission_id)
        )
        return list(work.db.scalars(found.order_by(AuditEntry.serial)))


@pytest.mark.parametrize("care", [CareClass.RARE, CareClass.UNKNOWN])
def test_reading_an_exact_place_is_noted_once_a_day_for_each_reader(
    cast: Cast, browse: Browse, care: CareClass
) -> None:
    scene = set_scene(cast)
    one, two = handed_in(cast, scene, people=5), handed_in(cast, scene, people=6)
    with cast.everywhere() as work:
        work.db.get_one(Taxon, scene.taxon_id).care_class = care
    for _ in range(2):
        for name in ("cora", "tess"):
            browse(name).get(f"/bench/{one}")
    assert noted(cast, one) == [cast.people["cora"].id, cast.people["tess"].id]
    assert noted(cast, two) == []


def test_a_secure_plant_s_place_is_read_freely(cast: Cast, browse: Browse) -> None:
    one = handed_in(cast, set_scene(cast))
    browse("cora").get(f"/bench/{one}")
    assert noted(cast, one) == []


def test_the_crew_is_evidence_also_after_it_has_gone(cast: Cast, browse: Browse) -> None:
    group, teacher = cast.fell_group, cast.seats["alice"].id
    with cast.work("alice") as work:
        crew = Crew(
            group_id=group.id,
            bank_id=group.bank_id,
            nickname="Owls",
            headcount=24,
            age_band=AgeBand.FROM_8.value,
            teacher_seat_id=teacher,
        )
        work.db.add(crew)
    one = handed_in(cast, set_scene(cast), crew_id=str(crew.id))
    told = "Owls: 24 pupils, 8 to 11 years"
    assert told in browse("cora").get(f"/bench/{one}").main
    with cast.everywhere() as work:
        work.db.get_one(Crew, crew.id).retired_at = cast.now
    assert told in browse("cora").get(f"/bench/{one}").main


@pytest.mark.parametrize("state", ["resolved", "overruled", "open"])
def test_nothing_ticked_is_said_beside_the_findings(cast: Cast, browse: Browse, state: str) -> None:
    one = handed_in(cast, set_scene(cast), voucher=None)
    page = browse("cora").post(f"/bench/{one}/findings", {"state": state, "reason": "Seen."}, status=422)
    assert page.main.count("No finding is ticked.") >= 2  # on top, and beside the buttons
    assert page.typed("reason") == "Seen."


def test_the_keys_lead_into_the_box_to_write_in(cast: Cast, browse: Browse) -> None:
    one = handed_in(cast, set_scene(cast))
    page = browse("cora").get(f"/bench/{one}")
    for way in ("return#field-remarks", "decline#field-reason"):
        assert f"/bench/{one}/{way}" in page.links
    assert 'data-open-dialog="keys"' in page.html.partition("<footer")[0]


def test_large_numbers_take_their_marks(cast: Cast, browse: Browse) -> None:
    one = handed_in(cast, set_scene(cast), total_seeds=12_400)
    page = browse("cora").get(f"/bench/{one}")
    assert "12,400 seeds" in page.main
    assert "12400" not in page.main


def test_the_queue_goes_by_the_bank_s_own_clock(cast: Cast, browse: Browse) -> None:
    one = handed_in(cast, set_scene(cast))
    with cast.everywhere() as work:
        work.db.get_one(Bank, cast.fell_bank.id).zone = "Asia/Tokyo"
    late = cast.now + timedelta(hours=9)
    assert f"{late:%H:%M}" in browse("cora").get("/bench").main
    assert str(one) in browse("cora").get("/bench").html
