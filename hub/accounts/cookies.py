"""The browser's side of a session: a signed cookie with a random token in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from uuid import UUID

from flask import Flask, request, session
from flask_login import LoginManager, UserMixin, current_user, login_user, logout_user

from hub.accounts.devices import device_name
from hub.web.caller import Caller


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


def begin(token: str) -> None:
    """Hand the browser a new session; whatever was in its cookie before is forgotten."""
    session.clear()
    session.permanent = True
    login_user(SignedIn(token))


def device() -> str:
    """The device behind this request, in words."""
    return device_name(request.headers.get("User-Agent", ""))


def forget() -> None:
    """Take the session from the browser."""
    logout_user()
    session.clear()


def present() -> SignedIn | None:
    """The session behind this request, if somebody is signed in."""
    return current_user._get_current_object() if current_user.is_authenticated else None
