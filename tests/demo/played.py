"""What a played demo must hold, wherever its database stands."""

from __future__ import annotations

from collections import Counter

from sqlalchemy import func, select

from hub.accessions.models import Accession, Lot, LotEntry
from hub.accessions.rules import AccessionState
from hub.accounts.models import Letter, LetterState
from hub.adoptions.models import Adoption
from hub.audit.queries import first_broken_link
from hub.collecting.models import TakeEntry, TakeKind
from hub.db.work import Work
from hub.groups.models import Group, GroupState
from hub.sites.models import TakeAccount
from hub.vetting import queries as vetting
from hub.vetting.models import Submission
from tests.demo.reading import season, toml

# An owner who withdraws leave ends the sheet, and then nothing may leave the population any more.
FOLLOWS = {"stop:permission_on_the_day": {"stop:sheet_current"}}
ALWAYS = "note:allele_capture"  # how likely a rare allele was caught: told of every collection


def states(work: Work) -> dict[str, str]:
    """The state of every submission, by its key in the files."""
    return {each.sent_key: str(each.state) for each in work.db.scalars(select(Submission))}


def found(work: Work) -> dict[str, set[str]]:
    """What the checks say of everything that was handed in, by the keys of the files."""
    return {
        each.sent_key: {f"{finding.severity}:{finding.check}" for finding in vetting.findings(work, each)}
        for each in work.db.scalars(select(Submission).where(Submission.revision > 0))
    }


def meant(key: str) -> set[str]:
    """What the checks should say of it."""
    intended = set(season("submission")[key]["intended_findings"])
    return intended.union({ALWAYS}, *(FOLLOWS[each] for each in intended & FOLLOWS.keys()))


def assert_everything_happened(work: Work) -> None:
    """Every submission stands where the files say, as do the groups that asked to join."""
    assert states(work) == {key: each["state"] for key, each in season("submission").items()}
    groups = Counter(str(each.state) for each in work.db.scalars(select(Group)))
    assert groups == Counter(each["state"] for each in toml("groups.toml")["group"])
    assert groups[GroupState.ASKED] == 1
    told = Counter(each["state"] for each in season("adoption").values())
    assert Counter(str(each.state) for each in work.db.scalars(select(Adoption))) == told
    kept = Counter(str(each.state) for each in work.db.scalars(select(Accession)))
    assert kept == Counter(
        each["accession"]["state"] for each in season("submission").values() if "accession" in each
    )
    assert kept[AccessionState.PROCESSING] > 0


def assert_books_agree(work: Work) -> None:
    """The audit chain is whole, and every balance is the sum of its entries."""
    assert first_broken_link(work) is None
    sums = select(LotEntry.lot_id, func.sum(LotEntry.seeds)).group_by(LotEntry.lot_id)
    assert {lot.id: lot.balance_seeds for lot in work.db.scalars(select(Lot))} == {
        lot: int(seeds) for lot, seeds in work.db.execute(sums)
    }
    booked: dict[object, Counter[TakeKind]] = {}
    for entry in work.db.scalars(select(TakeEntry)):
        booked.setdefault(entry.account_id, Counter())[entry.kind] += entry.seeds
    for account in work.db.scalars(select(TakeAccount)):
        kinds = booked.get(account.id, Counter())
        assert account.reserved_seeds == kinds[TakeKind.RESERVE] - kinds[TakeKind.RELEASE]
        assert account.taken_seeds == kinds[TakeKind.TAKE] - kinds[TakeKind.GIVE_BACK]


def assert_letters_left(work: Work) -> None:
    """Every letter was delivered, to an address that cannot exist."""
    letters = list(work.db.scalars(select(Letter)))
    assert letters
    assert {each.state for each in letters} == {LetterState.SENT}
    assert all(each.to.endswith(".example") for each in letters)
