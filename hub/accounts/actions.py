"""What people do with their own account: open it, sign in and out, choose a password, close it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from uuid import UUID

from sqlalchemy import delete, update

from hub.accounts import passwords, queries, secrets
from hub.accounts.letters import address, post
from hub.accounts.models import ApiToken, Person, RecoveryCode, ResetLink, SecondFactor, SignIn
from hub.accounts.rules import CODE_TRIES, RESET_LASTS, SIGN_IN_TRIES, weakness
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.limits import forget_failures
from hub.db.work import Work
from hub.words import NotFound, Refused, Words, say

WRONG = say(
    "The address and the password do not fit together. Check both, or use the link below to choose a new one."
)
NO_PASSWORD = ""  # no hash, so no password fits
NOT_PRESENT = say("This is not your present password.")
EMAIL_TAKEN = say("There is an account with this address already. Sign in with it.")


class SignInRefused(Refused):
    """What was shown does not fit: the same words whether or not the address is known."""

    def __init__(self, person: Person | None, words: Words = WRONG, *, field: str | None = None) -> None:
        super().__init__(words, field=field)
        self.person_id = person.id if person else None


def acting(work: Work, person: Person) -> Work:
    """The same work on behalf of somebody who has just shown who they are."""
    return replace(work, scope=replace(work.scope, person_id=person.id))


def open_account(
    work: Work, *, email: str, name: str, password: str, own_words: Iterable[str] = ()
) -> Person:
    """Make an account. Raises Refused for a weak password or an address that has one already."""
    if queries.find_person(work, email=email):
        raise Refused(EMAIL_TAKEN, field="email")
    check_password(password, [email, name, *own_words])
    return add_person(work, email, name, passwords.hashed(work.settings, password))


def open_sealed_account(work: Work, *, email: str, name: str) -> Person:
    """Make an account that nobody can sign in to before its owner has chosen a password by a link."""
    return add_person(work, email, name, NO_PASSWORD)


def add_person(work: Work, email: str, name: str, stored: str) -> Person:
    person = Person(email=email.lower(), name=name, password_hash=stored, created_at=work.now)
    work.db.add(person)
    work.db.flush()  # its id is about to be named in the audit chain
    record(acting(work, person), Event.ACCOUNT_OPENED, person)
    return person


def check_sign_in(work: Work, *, email: str, password: str) -> Person:
    """Whoever this address and password belong to. Raises SignInRefused."""
    person = queries.find_person(work, email=email)
    stored = person.password_hash if person else None
    work.db.rollback()  # nobody waits to write while a password is hashed, which is slow on purpose
    if not passwords.matches(work.settings, stored, password) or person is None:
        raise SignInRefused(person)
    if passwords.is_outdated(work.settings, person.password_hash):
        person.password_hash = passwords.hashed(work.settings, password)
    forget_failures(work, SIGN_IN_TRIES, person.email)
    return person


def begin_session(work: Work, *, person: Person, device: str, factor_at: datetime | None = None) -> str:
    """Begin a session for somebody who has shown who they are, and return its token."""
    secret = secrets.fresh()
    work.db.add(
        SignIn(
            person_id=person.id,
            token_digest=secret.digest,
            seat_id=queries.last_seat(work, person.id),
            device=device,
            started_at=work.now,
            seen_at=work.now,
            ends_at=work.now + timedelta(days=work.settings.session_days),
            factor_at=factor_at,
        )
    )
    record(acting(work, person), Event.SIGNED_IN, person)
    return secret.token


def note_refusal(work: Work, *, person_id: UUID | None) -> None:
    """Keep the trace of a refused sign-in. What was typed is not kept: it may hold a password."""
    record(work, Event.SIGN_IN_REFUSED, Person(id=person_id))


def take_seat(work: Work, *, sign_in_id: UUID | None, seat_id: UUID) -> None:
    """Go on in another of the asker's seats, in this session alone. Raises NotFound."""
    queries.get_my_sign_in(work, sign_in_id).seat_id = seat_id


def end_session(work: Work, *, sign_in_id: UUID) -> None:
    """End one of the asker's own sessions, here or on another device. Raises NotFound."""
    sign_in = queries.get_my_sign_in(work, sign_in_id)
    sign_in.ended_at = work.now
    record(work, Event.SIGNED_OUT, sign_in, after={"device": sign_in.device})


def end_other_sessions(work: Work, *, keep: UUID | None) -> None:
    """End all of the asker's sessions but one, and the keys that somebody in them may have made."""
    end_tokens(work, queries.get_person(work).id)
    for sign_in in queries.my_sign_ins(work):
        if sign_in.id != keep:
            end_session(work, sign_in_id=sign_in.id)


def end_sessions_of(work: Work, *, person_id: UUID) -> None:
    """End every session and key of somebody else, whose phone or laptop was lost."""
    end_tokens(work, person_id)
    for sign_in in queries.sign_ins_of(work, person_id):
        sign_in.ended_at = work.now
        record(work, Event.SIGNED_OUT, sign_in, after={"device": sign_in.device})


def check_own_password(work: Work, password: str, *, field: str = "password") -> Person:
    """The asker, who has typed their present password. Raises Refused beside ``field``."""
    person = queries.get_person(work)
    if not passwords.matches(work.settings, person.password_hash, password):
        raise Refused(NOT_PRESENT, field=field)
    return person


def change_password(
    work: Work, *, current: str, new: str, keep: UUID | None, own_words: Iterable[str] = ()
) -> None:
    """Choose another password; other sessions and all keys end. Raises Refused beside its box."""
    person = check_own_password(work, current, field="current")
    set_password(work, person, new, own_words)
    end_other_sessions(work, keep=keep)


def set_password(work: Work, person: Person, new: str, own_words: Iterable[str]) -> None:
    check_password(new, [person.email, person.name, *own_words], field="new")
    person.password_hash = passwords.hashed(work.settings, new)
    record(work, Event.PASSWORD_CHANGED, person)


def check_password(password: str, own_words: Iterable[str], field: str = "password") -> None:
    reason = weakness(password, own_words)
    if reason:
        raise Refused(reason, field=field)


def ask_reset(work: Work, *, email: str) -> None:
    """Mail a link for a new password, if the address is known. The asker is told the same either way."""
    person = queries.find_person(work, email=email)
    if person is not None:
        link = reset_link(work, person)
        post(
            work,
            to=person.email,
            subject=say("A new password for the seed hub"),
            body=[
                say("Hello {name},", name=person.name),
                say("Somebody, probably you, asked to choose a new password. This link lets you do it:"),
                link,
                say("It works once, and for {n} minutes.", n=RESET_LASTS.seconds // 60),
            ],
        )


def reset_link(work: Work, person: Person, *, lasts: timedelta = RESET_LASTS) -> str:
    """The address at which this person can choose a password, once. Earlier links stop working."""
    earlier = update(ResetLink).where(ResetLink.person_id == person.id, ResetLink.used_at.is_(None))
    work.db.execute(earlier.values(used_at=work.now))
    secret = secrets.fresh()
    work.db.add(ResetLink(person_id=person.id, token_digest=secret.digest, ends_at=work.now + lasts))
    return address(work, f"/reset/{secret.token}")


def use_reset(work: Work, *, token: str, new: str, own_words: Iterable[str] = ()) -> None:
    """Set a password by a mailed link; sessions and keys end. Raises NotFound for a spent link."""
    link = queries.open_link(work, token)
    if link is None:
        raise NotFound("reset link")
    person = queries.get_person(work, link.person_id)
    set_password(acting(work, person), person, new, own_words)
    link.used_at = work.now
    forget_failures(work, SIGN_IN_TRIES, person.email)
    end_other_sessions(acting(work, person), keep=None)


def close_account(work: Work, *, password: str) -> None:
    """Close the asker's account for good: name and address are wiped, sessions and keys end."""
    person = check_own_password(work, password)
    end_other_sessions(work, keep=None)
    forget_factor(work, person.id)
    record(work, Event.ACCOUNT_CLOSED, person)
    person.email, person.name = f"closed-{person.id}@funicle.invalid", "–"
    person.password_hash, person.closed_at = NO_PASSWORD, work.now


def forget_factor(work: Work, person_id: UUID) -> None:
    """Remove a person's second factor with all its codes."""
    for kind in (RecoveryCode, SecondFactor):
        work.db.execute(delete(kind).where(kind.person_id == person_id))
    forget_failures(work, CODE_TRIES, str(person_id))


def end_tokens(work: Work, person_id: UUID) -> None:
    """End every key that acts for a person."""
    mine = update(ApiToken).where(ApiToken.person_id == person_id, ApiToken.ended_at.is_(None))
    work.db.execute(mine.values(ended_at=work.now))
