"""The list of sites that a seat is let in on, and the same as a file without exact places."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import localities, queries
from hub.sites.models import Permission, Site
from hub.sites.pages.blueprint import pages
from hub.sites.pages.offers import members, own_districts, rights, species_here
from hub.sites.rules import PermissionState
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier
from hub.web.listing import Asked, Filter
from hub.web.render import render
from hub.words import say

FILTERS = (
    Filter("state", say("Permission"), Choice(PermissionState), lambda state: state.words),
    Filter("district", say("District"), Identifier(), lambda key: say("one only")),
    Filter("taxon", say("Species"), Identifier(), lambda key: say("one only")),
)
HEAD = (
    say("Site"),
    say("District"),
    say("Habitat"),
    say("Permission"),
    say("From"),
    say("To"),
    say("Latitude (°, WGS 84)"),
    say("Longitude (°, WGS 84)"),
    say("Uncertainty (m)"),
    say("How exact the place is"),
)


@pages.get("/sites", needs=Right.SITE_READ)
def sites(work: Work) -> Response:
    asked = Asked.of(FILTERS, queries.ORDERS)
    statement = queries.sites(work, **asked.values)
    if asked.wants_csv:
        return csv_download("sites", HEAD, rows(work, asked.everything(work, statement)))
    return render(
        "sites/sites.html",
        asked=asked,
        page=asked.page(work, statement),
        states_offered=members(PermissionState),
        districts=own_districts(work),
        species=species_here(work),
        today=work.today,
        **rights(work),
    )


def rows(work: Work, found: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    """Each site with its permission, its place as anybody may have it: a file travels on."""
    growing = queries.taxa_by_site(work)
    for site, district, permission in found:
        place = localities.public_place(site, growing.get(site.id, ()))
        yield (*in_words(site, district, permission), *localities.cells(place))


def in_words(site: Site, district: str, permission: Permission | None) -> tuple[object, ...]:
    if permission is None:
        return site.name, district, site.habitat, PermissionState.TO_ASK.words, None, None
    state = permission.state.words
    return site.name, district, site.habitat, state, permission.starts_on, permission.ends_on
