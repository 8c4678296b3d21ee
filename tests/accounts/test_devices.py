"""Devices are told apart by plain names. The user agents are written from memory of what browsers send."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.accounts.devices import device_name

WEBKIT = "AppleWebKit/537.36 (KHTML, like Gecko)"


@pytest.mark.parametrize(
    ("user_agent", "name"),
    [
        ("Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0", "Firefox, Linux"),
        (
            f"Mozilla/5.0 (Linux; Android 15) {WEBKIT} Chrome/140.0.0.0 Mobile Safari/537.36",
            "Chrome, Android",
        ),
        (f"Mozilla/5.0 (Windows NT 10.0) {WEBKIT} Chrome/140.0 Safari/537.36 Edg/140.0", "Edge, Windows"),
        (
            "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) Version/18.0 Safari/604.1",
            "Safari, iPhone",
        ),
        ("curl/8.0", ""),
        ("", ""),
    ],
)
def test_names_are_plain(user_agent: str, name: str) -> None:
    assert device_name(user_agent) == name


@given(st.text(max_size=500))
def test_nothing_else_of_what_a_browser_says_is_kept(user_agent: str) -> None:
    assert len(device_name(user_agent)) < 40
