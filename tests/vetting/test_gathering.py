"""The evidence: the checks see with the bank's eyes, and the group that hands in sees no more than before."""

from __future__ import annotations

from datetime import date

import pytest

from hub.sites.actions import record_permit
from hub.taxa.queries import get
from hub.vetting import actions, queries
from hub.vetting.evidence import Account
from hub.vetting.gathering import as_bank, gather
from hub.vetting.models import Submission
from hub.vetting.rules import PhotographKind
from hub.web.uploads.exif import Position
from hub.words import NotFound
from tests.vetting.pictures import picture_of
from tests.vetting.scene import begun, collection, handed_in, set_scene, sheet_for, surveyed_population


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def gathered(cast, submission_id, name="alice"):
    with cast.work(name) as work:
        submission = queries.get(work, submission_id)
        return gather(work, submission, queries.newest_revision(work, submission))


def test_the_evidence_holds_everything_the_checks_read(cast, scene):
    found = gathered(cast, handed_in(cast, scene))
    assert (found.collection, found.revision) == (collection(), 1)
    assert found.sheet.number == scene.sheet.number
    assert found.case["taxon"]["name"].startswith("Silene acaulis")
    assert found.taxon.ripens_from == 7
    assert (found.place.site_radius_m, len(found.place.districts)) == (300, 2)
    assert found.papers.permission.ends_on == cast.season.closes_on
    assert found.papers.missing == ()
    assert [count.plants for count in found.censuses] == [600]
    assert found.account == Account(24_000, 10_000 - 2410, 2410)
    assert found.earlier == ()


def test_group_and_curator_gather_the_same(cast, scene):
    submission_id = handed_in(cast, scene)
    assert gathered(cast, submission_id) == gathered(cast, submission_id, "cora")


def test_other_groups_of_the_bank_are_compared_with_but_not_named(cast, scene):
    with cast.everywhere() as work:
        taxon = get(work, scene.taxon_id)
    elsewhere = surveyed_population(cast, taxon, name="Low Meadow")
    handed_in(cast, sheet_for(cast, taxon, elsewhere, "charlie"), "charlie", people=9)
    (other,) = gathered(cast, handed_in(cast, scene)).earlier
    assert other.collection.people == 9
    assert (other.same_population, other.same_group, other.approved) == (False, False, False)


def test_what_another_bank_has_is_not_looked_at(cast, scene):
    with cast.everywhere() as work:
        taxon = get(work, scene.taxon_id)
    far = surveyed_population(cast, taxon, "dora")
    handed_in(cast, sheet_for(cast, taxon, far, "eve"), "eve")
    assert gathered(cast, handed_in(cast, scene)).earlier == ()


def test_the_bank_s_eyes_close_again(cast, scene):
    other = begun(cast, scene)
    with cast.work("charlie") as work:
        with as_bank(work, cast.fell_bank.id) as bank:
            assert bank.db.get(Submission, other) is not None
        with pytest.raises(NotFound):
            queries.get(work, other)


def test_what_was_taken_under_a_permit_counts_this_collection_and_those_elsewhere(cast, scene):
    with cast.everywhere() as work:
        taxon = get(work, scene.taxon_id)
    with cast.work("cora") as work:
        record_permit(
            work, authority="The ministry", number="P 7", taxon_id=taxon.id, site_id=None,
            starts_on=date(2031, 1, 1), ends_on=date(2031, 12, 31), cap_seeds=5000, conditions="",
        )  # fmt: skip
    elsewhere = surveyed_population(cast, taxon, name="Low Meadow")
    handed_in(cast, sheet_for(cast, taxon, elsewhere, "charlie"), "charlie", total_seeds=3000)
    (permit,) = gathered(cast, handed_in(cast, scene)).papers.permits
    assert (permit.number, permit.cap_seeds, permit.used_seeds) == ("P 7", 5000, 5420)


def test_photographs_speak_of_the_revision_that_they_went_with(cast, scene):
    submission_id = begun(cast, scene)
    with cast.work("alice") as work:
        for placed in (Position(47.8, -28.2), None):
            actions.add_photograph(
                work,
                submission_id=submission_id,
                kind=PhotographKind.PLANT,
                upload=picture_of(position=placed),
            )
        actions.hand_in(work, submission_id=submission_id, data=collection())
    found = gathered(cast, submission_id).photographs
    assert {each.position and each.position.latitude for each in found} == {47.8, None}
