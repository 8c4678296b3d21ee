"""The pages of groups, banks and the hub, a file for each."""

from hub.groups.pages import (
    audit_log,
    bank,
    close_account,
    condition,
    crews,
    group_list,
    hub,
    invitations,
    join,
    our_group,
    safety,
)
from hub.groups.pages.blueprint import pages

__all__ = [
    "audit_log", "bank", "close_account", "condition", "crews", "group_list", "hub", "invitations", "join",
    "our_group", "pages", "safety",
]  # fmt: skip
