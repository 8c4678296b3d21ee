"""The bank lets groups in on a site, and takes that back."""

from __future__ import annotations

from uuid import UUID

from flask import redirect, url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups.queries import get_group
from hub.rights.right import Right
from hub.sites import actions, schemas
from hub.sites.pages.blueprint import pages
from hub.web.forms import Form
from hub.web.render import done, notice
from hub.words import say


@pages.post("/sites/<uuid:site_id>/share", needs=Right.SITE_SHARE)
def share_site(work: Work, site_id: UUID) -> Response:
    form, back = Form.sent(schemas.ShareSchema()), url_for(".site", site_id=site_id)
    with form.answering():
        grant = actions.share_site(work, site_id=site_id, **form.data)
        name = get_group(work, grant.group_id).name
        return done(say("{name} sees this site and its plants now.", name=name), back)
    return told(form, back)


@pages.post("/sites/<uuid:site_id>/unshare", needs=Right.SITE_SHARE)
def unshare_site(work: Work, site_id: UUID) -> Response:
    form, back = Form.sent(schemas.ShareSchema()), url_for(".site", site_id=site_id)
    with form.answering():
        group = get_group(work, form.data["group_id"])
        actions.unshare_site(work, site_id=site_id, group_id=group.id)
        words = say("{name} sees this site no more. You can let it in again.", name=group.name)
        return done(words, back)
    return told(form, back)


def told(form: Form, back: str) -> Response:
    """What was wrong, on the page that the button stands on."""
    for _, problem in form.problems:
        notice(problem, "problem")
    return redirect(back, code=303)
