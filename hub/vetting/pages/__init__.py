"""The pages of vetting, a file for each."""

from hub.vetting.pages.blueprint import pages  # isort: skip  # the others hang themselves on it
from hub.vetting.pages import (
    arrivals,
    bench,
    consents,
    hand_in,
    photographs,
    submission,
    submission_bench,
    writing,
)

__all__ = [
    "arrivals",
    "bench",
    "consents",
    "hand_in",
    "pages",
    "photographs",
    "submission",
    "submission_bench",
    "writing",
]
