"""What every page of this feature is asked: does it open only to those it is for, and only in its own way."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from tests.support.browser import Browser

Browse = Callable[..., Browser]
NOWHERE = "00000000-0000-4000-8000-000000000000"
LAWFUL = ("GET", "POST")


def opens_to(browse: Browse, path: str, names: Iterable[str]) -> None:
    for name in names:
        browse(name).get(path)


def hides_from(browse: Browse, path: str, names: Iterable[str] = ("charlie", "eve", "dora")) -> None:
    """For strangers it does not exist."""
    for name in names:
        browse(name).get(path, 404)


def refuses(browse: Browse, path: str, names: Iterable[str]) -> None:
    """Seats without the right are told so, whether they send or only look."""
    for name in names:
        browse(name).get(path, 403)
        browse(name).post(path, status=403)


def is_missing(browse: Browse, path: str, name: str = "cora") -> None:
    """The same address for a thing that is not there. ``path`` has a gap for its id."""
    browse(name).get(path.format(NOWHERE), 404)


def keeps_its_verbs(browse: Browse, path: str, name: str = "cora", but: Iterable[str] = LAWFUL) -> None:
    client = browse(name).client
    for verb in {"GET", "POST", "PUT", "DELETE"} - set(but):
        assert client.open(path, method=verb).status_code in (400, 405), verb


def asks_to_sign_in(browse: Browse, path: str) -> None:
    assert browse().get(path, 302).location.startswith("/sign-in")
