"""Reads: sites, their papers, populations with their censuses and accounts, and what lies near what."""

from hub.sites.queries.nearby import (
    check_inside_district,
    check_inside_site,
    near_populations,
    near_sites,
    position_of,
)
from hub.sites.queries.papers import (
    PERMIT_ORDERS,
    get_permission,
    get_permit,
    lock_permits,
    missing_papers,
    newest_permission,
    permission_on,
    permissions_of,
    permits,
    permits_on,
)
from hub.sites.queries.populations import (
    censuses,
    get_population,
    get_salvage,
    latest_census,
    newest_counts,
    newest_salvage,
    populations_at,
    populations_of,
    salvage_of,
    take_account,
)
from hub.sites.queries.sites import (
    ORDERS,
    district_name,
    ecoregion_at,
    get_site,
    groups_let_in,
    groups_to_let_in,
    is_let_in,
    sites,
    sites_by_name,
    taxa_by_site,
)

__all__ = [
    "ORDERS", "PERMIT_ORDERS", "censuses", "check_inside_district", "check_inside_site", "district_name",
    "ecoregion_at", "get_permission", "get_permit", "get_population", "get_salvage", "get_site",
    "groups_let_in", "groups_to_let_in", "is_let_in", "latest_census", "lock_permits", "missing_papers",
    "near_populations", "near_sites", "newest_counts", "newest_permission", "newest_salvage",
    "permission_on", "permissions_of", "permits", "permits_on", "populations_at", "populations_of",
    "position_of", "salvage_of", "sites", "sites_by_name", "take_account", "taxa_by_site",
]  # fmt: skip
