"""Signing in and out, one's own account, and a new password by mail: a file for each."""

from hub.accounts.pages import account, keys, reset, second_step, sign_in
from hub.accounts.pages.blueprint import pages

__all__ = ["account", "keys", "pages", "reset", "second_step", "sign_in"]
