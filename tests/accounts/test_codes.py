"""Codes are compared as people type them; recovery codes cannot be guessed; secrets are kept sealed."""

from __future__ import annotations

import base64
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from urllib.parse import parse_qs, urlsplit

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.accounts import codes
from hub.accounts.sealing import seal, unseal
from hub.config import Settings

NOON = datetime(2031, 7, 14, 12, tzinfo=UTC)
SECRET = codes.fresh_secret()


@pytest.mark.parametrize(
    ("away", "counts"), [(-61, False), (-30, True), (0, True), (29, True), (30, True), (61, False)]
)
def test_a_code_counts_for_its_step_and_one_on_either_side(away: int, counts: bool) -> None:
    made_at = NOON + timedelta(seconds=away)
    typed = codes.code_at(SECRET, codes.step_at(made_at))
    assert (codes.step_of(SECRET, typed, NOON) is not None) is counts


def test_spaces_do_not_matter() -> None:
    code = codes.code_at(SECRET, codes.step_at(NOON))
    assert codes.step_of(SECRET, f" {code[:3]} {code[3:]} ", NOON) == codes.step_at(NOON)


@given(st.text(max_size=60))
def test_any_other_text_is_no_code(typed: str) -> None:
    present = {codes.code_at(SECRET, codes.step_at(NOON) + off) for off in codes.STEPS_TRIED}
    assert (codes.step_of(SECRET, typed, NOON) is not None) is (codes.plain(typed) in present)


def test_a_secret_has_160_bits_as_rfc_4226_recommends() -> None:
    assert len(base64.b32decode(SECRET)) * 8 == 160
    assert codes.fresh_secret() != SECRET


def test_recovery_codes_have_more_than_112_bits() -> None:
    """ASVS 5.0 6.5.2: from 112 bits on a plain digest is enough."""
    drawn = codes.fresh_recovery_codes()
    assert len(set(drawn)) == codes.RECOVERY_CODES
    for code in drawn:
        assert len(base64.b32decode(codes.plain(code))) * 8 >= 112
        assert codes.is_recovery_code(code.lower())


def test_a_phone_reads_whose_secret_it_is_and_which() -> None:
    told = codes.shown(SECRET, "alice@cast.example")
    address = urlsplit(told.address)
    assert (address.scheme, address.netloc) == ("otpauth", "totp")
    assert "alice%40cast.example" in address.path
    assert parse_qs(address.query)["secret"] == [SECRET] == [told.secret.replace(" ", "")]
    assert parse_qs(address.query)["issuer"] == ["Funicle"]


def test_a_sealed_secret_opens_with_the_hub_s_own_key_alone(tmp_path) -> None:
    settings = Settings(tmp_path, "sqlite://", "the hub's key")
    sealed = seal(settings, SECRET)
    assert SECRET not in sealed
    assert unseal(settings, sealed) == SECRET
    assert unseal(replace(settings, secret_key="another key"), sealed) is None
    changed = sealed[:40] + ("A" if sealed[40] != "A" else "B") + sealed[41:]
    assert unseal(settings, changed) is None
