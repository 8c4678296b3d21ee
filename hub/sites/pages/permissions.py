"""What the owner answered: granted with dates and the signed letter, refused, taken back."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries, schemas
from hub.sites.models import Permission
from hub.sites.pages.blueprint import pages
from hub.sites.pages.papers import keep_paper, paper_download
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import NotFound, say


def asking(work: Work, template: str, permission: Permission, form: Form) -> Response:
    site = queries.get_site(work, permission.site_id)
    return render(f"sites/{template}.html", form=form, permission=permission, site=site)


def back(permission: Permission) -> str:
    return url_for(".site", site_id=permission.site_id)


@pages.get("/permissions/<uuid:permission_id>/grant", needs=Right.SITE_EDIT)
def grant(work: Work, permission_id: UUID) -> Response:
    found = queries.get_permission(work, permission_id)
    given = {
        "answered_on": work.today,
        "starts_on": work.today,
        "ends_on": work.today.replace(month=12, day=31),
    }
    return asking(work, "grant", found, Form(schemas.GrantSchema(), given))


@pages.post("/permissions/<uuid:permission_id>/grant", needs=Right.SITE_EDIT)
def send_grant(work: Work, permission_id: UUID) -> Response:
    found, form = queries.get_permission(work, permission_id), Form.sent(schemas.GrantSchema())
    with form.answering():
        details = dict(form.data)
        key = keep_paper(work, details.pop("signed_file"), "permissions")
        actions.grant_permission(work, permission_id=permission_id, signed_file=key, **details)
        words = say("The permission holds until {day}.", day=details["ends_on"])
        return done(words, back(found))
    return asking(work, "grant", found, form)


@pages.get("/permissions/<uuid:permission_id>/refuse", needs=Right.SITE_EDIT)
def refuse(work: Work, permission_id: UUID) -> Response:
    found = queries.get_permission(work, permission_id)
    return asking(work, "refuse", found, Form(schemas.RefuseSchema(), {"answered_on": work.today}))


@pages.post("/permissions/<uuid:permission_id>/refuse", needs=Right.SITE_EDIT)
def send_refuse(work: Work, permission_id: UUID) -> Response:
    found, form = queries.get_permission(work, permission_id), Form.sent(schemas.RefuseSchema())
    with form.answering():
        actions.refuse_permission(work, permission_id=permission_id, **form.data)
        return done(say("It is noted that the owner said no."), back(found))
    return asking(work, "refuse", found, form)


@pages.get("/permissions/<uuid:permission_id>/withdraw", needs=Right.SITE_EDIT)
def withdraw(work: Work, permission_id: UUID) -> Response:
    found = queries.get_permission(work, permission_id)
    return asking(work, "withdraw", found, Form(schemas.EndSchema(), {"on": work.today}))


@pages.post("/permissions/<uuid:permission_id>/withdraw", needs=Right.SITE_EDIT)
def send_withdraw(work: Work, permission_id: UUID) -> Response:
    found, form = queries.get_permission(work, permission_id), Form.sent(schemas.EndSchema())
    with form.answering():
        actions.withdraw_permission(work, permission_id=permission_id, **form.data)
        return done(say("The permission holds no more. Sheets that stood on it are changed."), back(found))
    return asking(work, "withdraw", found, form)


@pages.get("/permissions/<uuid:permission_id>/signed", needs=Right.SITE_READ)
def signed(work: Work, permission_id: UUID) -> Response:
    found = queries.get_permission(work, permission_id)
    if not found.signed_file:
        raise NotFound(permission_id)
    site = queries.get_site(work, found.site_id)
    return paper_download(work, found.signed_file, f"Permission, {site.name}")


@pages.get("/permissions/<uuid:permission_id>/keep", needs=Right.SITE_EDIT)
def keep_signed(work: Work, permission_id: UUID) -> Response:
    found = queries.get_permission(work, permission_id)
    return asking(work, "keep_signed", found, Form(schemas.SignedSchema()))


@pages.post("/permissions/<uuid:permission_id>/keep", needs=Right.SITE_EDIT)
def send_signed(work: Work, permission_id: UUID) -> Response:
    found, form = queries.get_permission(work, permission_id), Form.sent(schemas.SignedSchema())
    with form.answering():
        key = keep_paper(work, form.data["signed_file"], "permissions")
        actions.keep_signed_file(work, permission_id=permission_id, signed_file=key)
        return done(say("The signed letter is kept."), back(found))
    return asking(work, "keep_signed", found, form)
