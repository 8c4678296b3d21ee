"""The second factor of one's own account: set up, shown, turned off, and reset for somebody who lost it."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import cast
from uuid import UUID

from sqlalchemy import CursorResult, delete, update

from hub.accounts import codes, queries, secrets
from hub.accounts.actions import (
    SignInRefused,
    check_own_password,
    end_other_sessions,
    end_sessions_of,
    forget_factor,
)
from hub.accounts.letters import post
from hub.accounts.models import Person, RecoveryCode, SecondFactor
from hub.accounts.rules import CODE_TRIES
from hub.accounts.sealing import seal, unseal
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.limits import forget_failures
from hub.db.work import Work
from hub.words import NotFound, Refused, Words, say

RECENT = timedelta(minutes=15)
WRONG_CODE = say(
    "This code does not count. Each works once and for half a minute: wait for the next one, and check that "
    "the clock of your phone is right."
)
ON_ALREADY = say("Your second step is on already. Turn it off first to set up another phone.")
NOT_BEGUN = say("Nothing is being set up. Please begin again.")
OWN_RESET = say("This is your own account. Turn your second step off on its page.")
NOT_ON = say("This account has no second step now. Please begin again.")


def begin(work: Work, *, password: str) -> None:
    """Draw a new secret for the asker; it counts for nothing before ``confirm``. Raises Refused."""
    person = check_own_password(work, password)
    if queries.factor_of(work, person.id):
        raise Refused(ON_ALREADY)
    forget_factor(work, person.id)
    sealed = seal(work.settings, codes.fresh_secret())
    work.db.add(SecondFactor(person_id=person.id, sealed_secret=sealed))


def being_set_up(work: Work) -> codes.Shown:
    """What the asker's phone must be told. Raises NotFound where nothing is being set up."""
    factor = work.db.get(SecondFactor, work.scope.person_id)
    secret = unseal(work.settings, factor.sealed_secret) if factor and not factor.confirmed_at else None
    if secret is None:
        raise NotFound("second factor")
    return codes.shown(secret, queries.get_person(work).email)


def confirm(work: Work, *, code: str, sign_in_id: UUID | None) -> list[str]:
    """Turn the second factor on by a first code; other sessions and all keys end. Returns recovery codes."""
    person = queries.get_person(work)
    factor = work.db.get(SecondFactor, person.id)
    if factor is None or factor.confirmed_at:
        raise Refused(NOT_BEGUN)
    take_code(work, person, factor, code)
    factor.confirmed_at = work.now
    queries.get_my_sign_in(work, sign_in_id).factor_at = work.now
    end_other_sessions(work, keep=sign_in_id)
    record(work, Event.FACTOR_ON, person)
    tell(work, person, say("Your second step at sign-in is now on."))
    return draw_recovery_codes(work, person.id)


def show(work: Work, *, person: Person, code: str) -> None:
    """Take one code of a person's phone, or one of their recovery codes. Raises SignInRefused."""
    factor = queries.factor_of(work, person.id)
    if factor is None:
        raise SignInRefused(person, NOT_ON)
    if codes.is_recovery_code(code):
        take_recovery_code(work, person, code)
    else:
        take_code(work, person, factor, code)
    forget_failures(work, CODE_TRIES, str(person.id))


def take_code(work: Work, person: Person, factor: SecondFactor, code: str) -> None:
    """Take a code that no earlier one has overtaken, and none twice: RFC 6238 §5.2."""
    secret = unseal(work.settings, factor.sealed_secret)
    step = codes.step_of(secret, code, phone_time(work)) if secret else None
    unused = (SecondFactor.person_id == person.id, SecondFactor.last_step < (step or 0))
    taken = work.db.execute(update(SecondFactor).where(*unused).values(last_step=step))
    if step is None or not cast(CursorResult[object], taken).rowcount:
        raise SignInRefused(person, WRONG_CODE, field="code")


def phone_time(work: Work) -> datetime:
    """What phones show now: a demo hub lives some days ahead of them."""
    return work.now - timedelta(days=work.settings.days_ahead)


def take_recovery_code(work: Work, person: Person, code: str) -> None:
    unused = (
        RecoveryCode.person_id == person.id,
        RecoveryCode.digest == secrets.digest_of(codes.plain(code)),
        RecoveryCode.used_at.is_(None),
    )
    taken = work.db.execute(update(RecoveryCode).where(*unused).values(used_at=work.now))
    if not cast(CursorResult[object], taken).rowcount:
        raise SignInRefused(person, WRONG_CODE, field="code")
    record(work, Event.RECOVERY_USED, person)
    tell(work, person, say("Somebody, probably you, signed in with one of your recovery codes."))


def asks_code(work: Work, *, sign_in_id: UUID | None) -> bool:
    """Whether the asker has a second factor and did not show it in this session a short while ago."""
    if queries.factor_of(work, work.scope.person_id) is None:
        return False
    shown_at = queries.get_my_sign_in(work, sign_in_id).factor_at
    return shown_at is None or work.now - shown_at > RECENT


def show_again(work: Work, *, sign_in_id: UUID | None, code: str) -> None:
    """Show the second factor within a session, where ``asks_code`` asks for it. Raises SignInRefused."""
    if asks_code(work, sign_in_id=sign_in_id):
        show(work, person=queries.get_person(work), code=code)
        queries.get_my_sign_in(work, sign_in_id).factor_at = work.now


def renew_recovery_codes(work: Work, *, password: str, code: str) -> list[str]:
    """Draw new recovery codes; the earlier ones work no more. Raises Refused beside its box."""
    person = check_own_password(work, password)
    show(work, person=person, code=code)
    record(work, Event.RECOVERY_RENEWED, person)
    return draw_recovery_codes(work, person.id)


def draw_recovery_codes(work: Work, person_id: UUID) -> list[str]:
    work.db.execute(delete(RecoveryCode).where(RecoveryCode.person_id == person_id))
    drawn = codes.fresh_recovery_codes()
    digests = [secrets.digest_of(codes.plain(code)) for code in drawn]
    work.db.add_all(RecoveryCode(person_id=person_id, digest=digest) for digest in digests)
    return drawn


def turn_off(work: Work, *, password: str, code: str, sign_in_id: UUID | None) -> None:
    """Do without a second factor; other sessions and all keys end. Raises Refused beside its box."""
    person = check_own_password(work, password)
    show(work, person=person, code=code)
    queries.get_my_sign_in(work, sign_in_id).factor_at = None
    forget_factor(work, person.id)
    end_other_sessions(work, keep=sign_in_id)
    record(work, Event.FACTOR_OFF, person)
    tell(work, person, say("Your second step at sign-in is now off."))


def reset(work: Work, *, person_id: UUID, reason: str) -> None:
    """Take the second factor from somebody who lost it; all their sessions and keys end. Raises Refused."""
    person = queries.get_person(work, person_id)
    if person.id == work.scope.person_id:
        raise Refused(OWN_RESET)
    if queries.factor_of(work, person.id) is None:
        raise Refused(NOT_ON)
    forget_factor(work, person.id)
    end_sessions_of(work, person_id=person.id)
    record(work, Event.FACTOR_RESET, person, reason=reason)
    asker = queries.get_person(work).name
    tell(
        work,
        person,
        say("{name} took off your second step at sign-in: “{reason}”", name=asker, reason=reason),
    )


def tell(work: Work, person: Person, what: Words) -> None:
    """A letter about a change of how somebody signs in, so that a thief cannot make it unseen."""
    was_it_you = say("If this was not you, choose a new password at once and tell whoever runs the hub.")
    post(
        work,
        to=person.email,
        subject=say("Your account at the seed hub"),
        body=[say("Hello {name},", name=person.name), what, was_it_you],
    )
