"""The codes of a second factor against the tables that RFC 4226 and RFC 6238 print."""

from __future__ import annotations

import base64
from datetime import UTC, datetime

import pytest

from hub.accounts.codes import code_at, step_at, step_of

SECRET = base64.b32encode(b"12345678901234567890").decode()

# RFC 6238, Appendix B: the rows for SHA-1. The table shows eight digits; a code of six digits is the last six
# of them, because RFC 4226 §5.3 takes the same number modulo a power of ten.
APPENDIX_B = [
    (59, 0x1, "94287082"),
    (1111111109, 0x23523EC, "07081804"),
    (1111111111, 0x23523ED, "14050471"),
    (1234567890, 0x273EF07, "89005924"),
    (2000000000, 0x3F940AA, "69279037"),
    (20000000000, 0x27BC86AA, "65353130"),
]
# RFC 4226, Appendix D: six digits, counters 0 to 9.
APPENDIX_D = [
    "755224",
    "287082",
    "359152",
    "969429",
    "338314",
    "254676",
    "287922",
    "162583",
    "399871",
    "520489",
]


@pytest.mark.parametrize(("seconds", "step", "code"), APPENDIX_B)
def test_appendix_b_of_rfc_6238(seconds: int, step: int, code: str) -> None:
    moment = datetime.fromtimestamp(seconds, UTC)
    assert step_at(moment) == step
    assert code_at(SECRET, step) == code[-6:]
    assert step_of(SECRET, code[-6:], moment) == step


@pytest.mark.parametrize(("counter", "code"), list(enumerate(APPENDIX_D)))
def test_appendix_d_of_rfc_4226(counter: int, code: str) -> None:
    assert code_at(SECRET, counter) == code
