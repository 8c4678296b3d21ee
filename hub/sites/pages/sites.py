"""One site: its land, owner, papers and plants; opened and changed."""

from __future__ import annotations

import json
from typing import Any
from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.science.distance import Position
from hub.sites import actions, queries, schemas
from hub.sites.models import Permission, Site
from hub.sites.next_step import newest_first, path_of
from hub.sites.pages.blueprint import pages
from hub.sites.pages.offers import members, own_districts, rights
from hub.sites.readings import exact_place_read
from hub.sites.rules import PERMISSION_MOVES, Risk
from hub.sites.site_map import site_map
from hub.taxa.trait_words import ANSWERS, NONE_KNOWN
from hub.web.forms import Form
from hub.web.render import done, notice, render
from hub.words import say

RISKS = {risk.value: risk.words for risk in Risk}


@pages.get("/sites/open", needs=Right.SITE_EDIT)
def open_site(work: Work) -> Response:
    form = Form(schemas.SiteSchema(), {"radius_m": 200})
    return asking(work, form)


@pages.post("/sites/open", needs=Right.SITE_EDIT)
def send_site(work: Work) -> Response:
    form = Form.sent(schemas.SiteSchema())
    with form.answering():
        opened = actions.open_site(work, **form.data)
        point_out_near(work, opened)
        words = say("{name} is open. The next thing is to ask its owner.", name=opened.name)
        return done(words, url_for(".site", site_id=opened.id))
    return asking(work, form)


def asking(work: Work, form: Form, site: Site | None = None) -> Response:
    return render(
        "sites/site_form.html",
        form=form,
        site=site,
        districts=own_districts(work),
        risks=[NONE_KNOWN, *members(Risk)],
        answers=ANSWERS,
    )


def point_out_near(work: Work, site: Site) -> None:
    """Two sites on the same land are a frequent slip; they may also be right."""
    position = Position(latitude=site.latitude, longitude=site.longitude)
    for other, metres in queries.near_sites(work, position=position, but=site.id)[:3]:
        words = say("{name} is only {n} m away. Is this the same land?", name=other.name, n=round(metres))
        notice(words, "note")


@pages.get("/sites/<uuid:site_id>", needs=Right.SITE_READ)
def site(work: Work, site_id: UUID) -> Response:
    found = queries.get_site(work, site_id)
    permissions = queries.permissions_of(work, site_id)
    growing = queries.populations_at(work, site_id)
    exact_place_read(work, found, [taxon for _, taxon in growing])
    return render(
        "sites/site.html",
        site=found,
        district=queries.district_name(work, found),
        growing=growing,
        counts=queries.newest_counts(work, site_id),
        map=site_map(found, [each for each, _ in growing if each.retired_at is None]),
        risks=[RISKS.get(risk, risk) for risk in found.risks or ()],
        sharing=shared_with(work, found),
        **papers(work, permissions),
        **rights(work),
    )


def papers(work: Work, permissions: list[Permission]) -> dict[str, Any]:
    """The newest permission with its path and moves, and all those before it."""
    newest = newest_first(permissions)
    return {
        "permission": newest,
        "earlier": permissions[1:],
        "steps": path_of(newest, work.today),
        "moves": PERMISSION_MOVES[newest.state] if newest else frozenset(),
        "today": work.today,
    }


def shared_with(work: Work, site: Site) -> dict[str, Any]:
    """For the bank alone: the groups let in, and those that could be."""
    if work.scope.own_bank_id is None:
        return {"groups": [], "others": []}
    groups = queries.groups_let_in(work, site.id)
    others = queries.groups_to_let_in(work, but=[group_id for group_id, _ in groups])
    return {"groups": groups, "others": others}


@pages.get("/sites/<uuid:site_id>/change", needs=Right.SITE_EDIT)
def change_site(work: Work, site_id: UUID) -> Response:
    found = queries.get_site(work, site_id)
    fields = {name: getattr(found, name) for name in schemas.ChangeSiteSchema().fields}
    outline = json.dumps(found.outline) if found.outline else None
    return asking(work, Form(schemas.ChangeSiteSchema(), fields | {"outline": outline}), found)


@pages.post("/sites/<uuid:site_id>/change", needs=Right.SITE_EDIT)
def send_change_site(work: Work, site_id: UUID) -> Response:
    found = queries.get_site(work, site_id)
    form = Form.sent(schemas.ChangeSiteSchema())
    with form.answering():
        changed = actions.change_site(work, site_id=site_id, **form.data)
        return done(say("{name} is changed.", name=changed.name), url_for(".site", site_id=site_id))
    return asking(work, form, found)
