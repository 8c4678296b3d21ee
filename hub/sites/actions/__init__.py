"""What people do: open and share sites, ask owners, record permits, populations, counts and salvage."""

from hub.sites.actions.censuses import record_census
from hub.sites.actions.permissions import (
    ask_permission,
    expire_due,
    grant_permission,
    keep_signed_file,
    refuse_permission,
    withdraw_permission,
)
from hub.sites.actions.permits import end_permit, record_permit
from hub.sites.actions.populations import (
    add_population,
    bring_back_population,
    change_population,
    retire_population,
    verify_identity,
)
from hub.sites.actions.salvage import agree_salvage, ask_salvage, decide_salvage
from hub.sites.actions.sites import change_site, open_site, share_site, unshare_site

__all__ = [
    "add_population", "agree_salvage", "ask_permission", "ask_salvage", "bring_back_population",
    "change_population", "change_site", "decide_salvage", "end_permit", "expire_due", "grant_permission",
    "keep_signed_file", "open_site", "record_census", "record_permit", "refuse_permission",
    "retire_population", "share_site", "unshare_site", "verify_identity", "withdraw_permission",
]  # fmt: skip
