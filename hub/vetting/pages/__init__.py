"""The pages of vetting, a file for each."""

from hub.vetting.pages.blueprint import pages  # isort: skip  # the others hang themselves on it
from hub.vetting.pages import hand_in, photographs, submission, writing

__all__ = ["hand_in", "pages", "photographs", "submission", "writing"]
