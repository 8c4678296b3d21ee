"""Find people, their sessions, links and keys."""

from __future__ import annotations

from typing import TypeVar
from uuid import UUID

from sqlalchemy import func, select

from hub.accounts.models import ApiToken, Person, RecoveryCode, ResetLink, SecondFactor, SignIn
from hub.accounts.secrets import digest_of
from hub.db.work import Work
from hub.words import NotFound

Row = TypeVar("Row")


def find_person(work: Work, *, email: str) -> Person | None:
    """The open account with this address."""
    found = select(Person).where(Person.email == email.lower(), Person.closed_at.is_(None))
    return work.db.scalars(found).one_or_none()


def get_person(work: Work, person_id: UUID | None = None) -> Person:
    """One person; by default whoever is asking. Raises NotFound."""
    person = work.db.get(Person, person_id or work.scope.person_id)
    if person is None or person.closed_at is not None:
        raise NotFound(person_id)
    return person


def my_sign_ins(work: Work) -> list[SignIn]:
    """The asker's sessions that have not ended, the latest used first."""
    return sign_ins_of(work, work.scope.person_id)


def sign_ins_of(work: Work, person_id: UUID | None) -> list[SignIn]:
    """A person's sessions that have not ended, the latest used first."""
    found = select(SignIn).where(
        SignIn.person_id == person_id, SignIn.ended_at.is_(None), SignIn.ends_at > work.now
    )
    return list(work.db.scalars(found.order_by(SignIn.seen_at.desc(), SignIn.id)))


def get_my_sign_in(work: Work, sign_in_id: UUID | None) -> SignIn:
    """One of the asker's sessions that has not ended. Raises NotFound."""
    found = select(SignIn).where(
        SignIn.id == sign_in_id, SignIn.person_id == work.scope.person_id, SignIn.ended_at.is_(None)
    )
    return there(work.db.scalars(found).one_or_none(), sign_in_id)


def last_seat(work: Work, person_id: UUID) -> UUID | None:
    """The seat that a person worked in last, on any device."""
    found = select(SignIn.seat_id).where(SignIn.person_id == person_id, SignIn.seat_id.is_not(None))
    return work.db.scalars(found.order_by(SignIn.seen_at.desc()).limit(1)).first()


def factor_of(work: Work, person_id: UUID | None) -> SecondFactor | None:
    """A person's second factor, if it is on."""
    found = select(SecondFactor).where(
        SecondFactor.person_id == person_id, SecondFactor.confirmed_at.is_not(None)
    )
    return work.db.scalars(found).one_or_none()


def recovery_codes_left(work: Work) -> int:
    """How many of the asker's recovery codes have not been used."""
    mine = (RecoveryCode.person_id == work.scope.person_id, RecoveryCode.used_at.is_(None))
    return work.db.scalar(select(func.count()).select_from(RecoveryCode).where(*mine)) or 0


def open_link(work: Work, token: str) -> ResetLink | None:
    """A reset link that can still be used."""
    found = select(ResetLink).where(
        ResetLink.token_digest == digest_of(token), ResetLink.used_at.is_(None), ResetLink.ends_at > work.now
    )
    return work.db.scalars(found.with_for_update()).one_or_none()


def my_tokens(work: Work) -> list[ApiToken]:
    """The asker's keys for programs that have not ended, newest first."""
    found = select(ApiToken).where(
        ApiToken.person_id == work.scope.person_id, ApiToken.ended_at.is_(None), ApiToken.ends_at > work.now
    )
    return list(work.db.scalars(found.order_by(ApiToken.created_at.desc(), ApiToken.id)))


def get_my_token(work: Work, token_id: UUID) -> ApiToken:
    """One of the asker's keys that has not ended. Raises NotFound."""
    found = select(ApiToken).where(
        ApiToken.id == token_id, ApiToken.person_id == work.scope.person_id, ApiToken.ended_at.is_(None)
    )
    return there(work.db.scalars(found).one_or_none(), token_id)


def there(found: Row | None, wanted: object) -> Row:
    """What was found. Raises NotFound where nothing was."""
    if found is None:
        raise NotFound(wanted)
    return found
