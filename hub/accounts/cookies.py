"""The browser's side of a session: a signed cookie with a random token in it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from flask import Flask, request, session
from flask_login import LoginManager, UserMixin, current_user, login_user, logout_user

from hub.accounts.devices import device_name
from hub.web.caller import Caller

KNOWN, HALFWAY = "known", "halfway"
MOST_KNOWN = 5  # accounts that share one browser


@dataclass(frozen=True)
class SignedIn(UserMixin):
    """Whoever a session's token stands for."""

    token: str
    sign_in_id: UUID | None = None
    seat_id: UUID | None = None
    caller: Caller | None = None

    def get_id(self) -> str:
        """What the cookie carries: the token, never an id that somebody could guess."""
        return self.token


Load = Callable[[str], SignedIn | None]


def prepare(app: Flask, load: Load) -> None:
    """Set up sign-in. ``load`` finds who stands behind a session's token."""
    logins = LoginManager(app)
    logins.session_protection = None  # a phone changes its address on every hill
    logins.user_loader(load)


def begin(token: str, known_as: str = "") -> None:
    """Hand the browser a new session; whatever was in its cookie before is forgotten.

    ``known_as`` is the digest under which this browser is known to its owner from now on.
    """
    start_anew([known_as] if known_as else [])
    login_user(SignedIn(token))


def start_anew(known: Sequence[str] = ()) -> None:
    """Empty the cookie, but for whose browser this is: that makes nobody signed in."""
    kept = dict.fromkeys([*known, *session.get(KNOWN, [])])
    session.clear()
    session.permanent = True
    if kept:
        session[KNOWN] = list(kept)[:MOST_KNOWN]


def knows(digest: str) -> bool:
    """Whether this account signed in from this browser before: strangers' failures do not stop it here."""
    return digest in session.get(KNOWN, [])


def wait_for_code(person_id: UUID, mark: str, until: datetime) -> None:
    """The password was shown, the second factor is still to come. ``mark`` changes with the password."""
    start_anew()
    session[HALFWAY] = [str(person_id), mark, until.isoformat()]


def halfway(now: datetime) -> tuple[UUID, str] | None:
    """Who showed their password in this browser a short while ago, and the mark of that password."""
    person_id, mark, until = session.get(HALFWAY, ["", "", ""])
    return (UUID(person_id), mark) if person_id and now < datetime.fromisoformat(until) else None


def device() -> str:
    """The device behind this request, in words."""
    return device_name(request.headers.get("User-Agent", ""))


def forget() -> None:
    """Take the session from the browser."""
    logout_user()
    start_anew()


def present() -> SignedIn | None:
    """The session behind this request, if somebody is signed in."""
    return current_user._get_current_object() if current_user.is_authenticated else None
