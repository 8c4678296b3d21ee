"""Everything that belongs to one group and its bank, by the name of its key in addresses."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from hashlib import sha256
from uuid import UUID

from sqlalchemy import inspect, select

from hub.accessions.actions import approve
from hub.accessions.models import Lot
from hub.accounts.actions import begin_session
from hub.accounts.queries import my_sign_ins, my_tokens
from hub.accounts.tokens import make_token
from hub.db.tenancy import scoped_classes
from hub.db.work import Work
from hub.groups.crews import add_crew
from hub.groups.invitations import invite_to_group
from hub.groups.models import GroupKind
from hub.groups.rules import AgeBand
from hub.protocols.actions import make_override, sign_off
from hub.rights.scope import Role
from hub.sites.actions import ask_salvage, record_permit
from hub.sites.models import Permission
from hub.vetting.actions import add_photograph, settle
from hub.vetting.models import PhotographKind
from hub.vetting.queries import findings, get
from hub.vetting.rules import FindingState
from tests.cast import Cast
from tests.vetting.pictures import picture_of
from tests.vetting.scene import Scene, begun, handed_in, set_scene

SECRETS = ("Scar Top", "The estate", "SIL-ACA", "47.8")  # what only those let in may read


@dataclass
class Belongings:
    """Keys by the name that routes give them, and words that must not reach a stranger."""

    cast: Cast
    ids: dict[str, UUID]

    def told_in(self, text: str) -> list[str]:
        return [secret for secret in SECRETS if secret in text]

    def fingerprint(self) -> str:
        """A digest of every row that belongs to somebody: equal as long as nothing was changed."""
        digest = sha256()
        with self.cast.everywhere() as work:
            for cls in sorted(scoped_classes(), key=lambda each: each.__name__):
                mapper = inspect(cls)
                names = sorted(column.key for column in mapper.column_attrs)
                for row in work.db.scalars(select(cls).order_by(*mapper.primary_key)):
                    digest.update(repr([getattr(row, name) for name in names]).encode())
        return digest.hexdigest()


def gather_belongings(cast: Cast) -> Belongings:
    """Play a season of the Fell Group: a draft, a waiting submission with a photograph, and an accession."""
    scene = set_scene(cast)
    waiting, accessioned = handed_in(cast, scene), handed_in(cast, scene, total_seeds=2300)
    ids = {
        "group_id": cast.fell_group.id,
        "adoption_id": scene.adoption_id,
        "site_id": scene.site_id,
        "population_id": scene.population_id,
        "sheet_id": scene.sheet.id,
        "submission_id": waiting,
        "draft_id": begun(cast, scene),
        "seat_id": cast.seats["bob"].id,
    }
    made = of_the_group(cast, ids["draft_id"]) | of_the_bank(cast, scene, waiting, accessioned)
    return Belongings(cast, ids | made | with_account(cast))


def of_the_group(cast: Cast, submission_id: UUID) -> dict[str, UUID]:
    """What Alice has made beside her collections."""
    with cast.everywhere() as work:
        work.db.merge(cast.fell_group).kind = GroupKind.SCHOOL  # so that it may have crews
    with cast.work("alice") as work:
        invitation = invite_to_group(work, email="new@cast.example", role=Role.MEMBER)
        crew = add_crew(work, nickname="Otters", headcount=9, age_band=AgeBand.MIXED)
        picture = add_photograph(
            work, submission_id=submission_id, kind=PhotographKind.PLANT, upload=picture_of()
        )
    return {"invitation_id": invitation.id, "crew_id": crew.id, "photograph_id": picture.id}


def of_the_bank(cast: Cast, scene: Scene, waiting: UUID, accessioned: UUID) -> dict[str, UUID]:
    """What Cora has made: papers, a case, consents, and an accession out of the second collection."""
    with cast.work("cora") as work:
        permit = record_permit(
            work,
            authority="County",
            number="C/1",
            taxon_id=scene.taxon_id,
            site_id=scene.site_id,
            starts_on=cast.season.opens_on,
            ends_on=cast.season.closes_on,
        )
        salvage = ask_salvage(
            work, population_id=scene.population_id, evidence="A road.", evidence_on=work.today
        )
        permission = work.db.scalars(
            select(Permission).where(Permission.site_id == scene.site_id).order_by(Permission.noted_at)
        ).first()
        finding = findings(work, get(work, waiting))[0]
        consent = sign_off(
            work,
            adoption_id=scene.adoption_id,
            population_id=scene.population_id,
            share=0.1,
            reason="A good year.",
        )
        change = make_override(
            work,
            rule_id="take.secure",
            figure="season_share",
            value=0.05,
            reason="A dry spring.",
            evidence="",
            ends_on=work.today + timedelta(days=30),
        )
        return {
            "permit_id": permit.id,
            "salvage_id": salvage.id,
            "permission_id": permission.id if permission else scene.site_id,
            "finding_id": finding.id,
            "consent_id": consent.id,
            "override_id": change.id,
            **accession_of(work, accessioned),
        }


def accession_of(work: Work, submission_id: UUID) -> dict[str, UUID]:
    """The accession that a submission becomes once what stands in its way is overruled."""
    stops = [finding.id for finding in findings(work, get(work, submission_id))]
    settle(work, finding_ids=stops, state=FindingState.OVERRULED, reason="A test's scene.")
    accession = approve(work, submission_id=submission_id, without_arrival=True)
    lot = work.db.scalars(select(Lot).where(Lot.accession_id == accession.id).order_by(Lot.label)).first()
    return {"accession_id": accession.id, "lot_id": lot.id if lot else accession.id}


def with_account(cast: Cast, name: str = "bob") -> dict[str, UUID]:
    """A session and a key of somebody's own."""
    with cast.work(name) as work:
        make_token(work, seat_id=cast.seats[name].id, name="script", days=30)
        begin_session(work, person=cast.people[name], device="Firefox")
        key, session = my_tokens(work)[0], my_sign_ins(work)[0]
    return {"token_id": key.id, "sign_in_id": session.id}
