"""Reserve and take against a population's allowance: one account, locked, for all groups together."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select, update

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.collecting.models import TakeEntry, TakeKind
from hub.collecting.queries import reserved_under, taken_under
from hub.db.work import Work
from hub.protocols.models import IssuedSheet
from hub.sites.models import Population, TakeAccount
from hub.words import NotFound, Refused, Words, say, say_n

# What an entry adds to the seeds that its sheet keeps free, or that were taken under it.
ON_SHEET = {
    TakeKind.RESERVE: ("reserved_seeds", 1),
    TakeKind.RELEASE: ("reserved_seeds", -1),
    TakeKind.TAKE: ("taken_seeds", 1),
    TakeKind.GIVE_BACK: ("taken_seeds", -1),
}


def locked_account(work: Work, *, population_id: UUID, year: int) -> TakeAccount:
    """The account of a population and year, locked until the commit; opened empty when there is none.

    The population's own row is locked first, so that two groups cannot open the account at the same time.
    On SQLite the work holds the one write lock from its beginning.
    """
    population = work.db.scalars(
        select(Population).where(Population.id == population_id).with_for_update()
    ).one_or_none()
    if population is None:
        raise NotFound("population")
    found = select(TakeAccount).where(TakeAccount.population_id == population_id, TakeAccount.year == year)
    account = work.db.scalars(found.with_for_update().execution_options(populate_existing=True)).one_or_none()
    if account is None:
        account = TakeAccount(
            bank_id=population.bank_id,
            site_id=population.site_id,
            population_id=population_id,
            year=year,
            allowance_seeds=0,
            reserved_seeds=0,
            taken_seeds=0,
        )
        work.db.add(account)
        work.db.flush()
    return account


def allow(work: Work, *, population_id: UUID, year: int, seeds: int) -> TakeAccount:
    """Set what may leave the population in this year, as the newest sheet reckoned it."""
    account = locked_account(work, population_id=population_id, year=year)
    account.allowance_seeds = seeds
    return account


def reserve(work: Work, *, sheet: IssuedSheet, year: int, seeds: int) -> None:
    """Keep seeds free for one sheet. Refuses more than is left."""
    account = locked_account(work, population_id=sheet.population_id, year=year)
    left = account.allowance_seeds - account.reserved_seeds - account.taken_seeds
    if seeds > left:
        raise Refused(nothing_left(max(0, left)))
    if seeds:
        account.reserved_seeds += seeds
        enter(work, account, sheet, TakeKind.RESERVE, seeds)


def release(work: Work, *, sheet: IssuedSheet, year: int, note: str = "") -> int:
    """Give back what one sheet still keeps free; returns how many seeds."""
    account = locked_account(work, population_id=sheet.population_id, year=year)
    seeds = reserved_under(work, sheet.id, account.id)
    if seeds:
        account.reserved_seeds -= seeds
        enter(work, account, sheet, TakeKind.RELEASE, seeds, note)
    return seeds


def take(work: Work, *, sheet: IssuedSheet, year: int, seeds: int, note: str = "") -> None:
    """Record seeds that left the population in a year: first from what the sheet kept free in that year.

    What is gone is gone: taking more than was allowed is recorded all the same, and vetting finds it.
    """
    account = locked_account(work, population_id=sheet.population_id, year=year)
    from_reserve = min(seeds, reserved_under(work, sheet.id, account.id))
    if from_reserve:
        account.reserved_seeds -= from_reserve
        enter(work, account, sheet, TakeKind.RELEASE, from_reserve, note)
    if seeds:
        account.taken_seeds += seeds
        enter(work, account, sheet, TakeKind.TAKE, seeds, note)


def give_back(work: Work, *, sheet: IssuedSheet, year: int, seeds: int, note: str) -> None:
    """Correct a taking that was counted too high, never below what was taken under this sheet.

    Seed that was taken stays taken: only the bank corrects a figure, when its curator finds it mistaken.
    """
    if work.scope.own_group_id is not None:
        raise Refused(say("Only the bank can correct what was taken."))
    account = locked_account(work, population_id=sheet.population_id, year=year)
    taken = taken_under(work, sheet.id, account.id)
    if seeds > taken:
        raise Refused(
            say_n(
                "Only {n} seed was taken under this sheet.",
                "Only {n} seeds were taken under this sheet.",
                n=taken,
            )
        )
    if seeds:
        account.taken_seeds -= seeds
        enter(work, account, sheet, TakeKind.GIVE_BACK, seeds, note)


def nothing_left(left: int) -> Words:
    return say_n(
        "Only {n} seed may still leave this population this year: the rest is taken or kept for others.",
        "Only {n} seeds may still leave this population this year: the rest is taken or kept for others.",
        n=left,
    )


def enter(
    work: Work, account: TakeAccount, sheet: IssuedSheet, kind: TakeKind, seeds: int, note: str = ""
) -> None:
    """Add one entry; entries are never changed."""
    entry = TakeEntry(
        group_id=sheet.group_id,
        bank_id=sheet.bank_id,
        account_id=account.id,
        sheet_id=sheet.id,
        kind=kind,
        seeds=seeds,
        at=work.now,
        by=work.scope.person_id,
        note=note,
    )
    work.db.add(entry)
    name, sign = ON_SHEET[kind]
    counted = {name: getattr(IssuedSheet, name) + sign * seeds}
    work.db.execute(update(IssuedSheet).where(IssuedSheet.id == sheet.id).values(counted))
    record(work, Event.TAKE_ENTERED, entry, after={"kind": str(kind), "seeds": seeds})
