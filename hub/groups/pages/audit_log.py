"""The audit log: a bank's own for its curators, all of it for the steward; read, filtered, verified."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from flask import redirect, url_for
from werkzeug.wrappers import Response

from hub.audit.queries import first_broken_link
from hub.db.work import Work
from hub.groups.audit_log import LOG_ORDERS, SUBJECTS, altered, entries
from hub.groups.event_words import event_words, subject_words
from hub.groups.pages.blueprint import pages
from hub.groups.role_words import ROLES
from hub.rights.right import Right
from hub.rights.scope import Role
from hub.web.downloads import csv_download
from hub.web.fields import Day, Text
from hub.web.limits import limited, minutes, person
from hub.web.listing import Asked, Filter
from hub.web.render import done, notice, render
from hub.words import Words, say

WHY = "the chain runs through all tenants; whether it is whole is all that is told"
HUB = say("the hub")
FILTERS = (
    Filter("subject", say("About"), Text(40), subject_words),
    Filter("since", say("From"), Day()),
    Filter("until", say("Until"), Day()),
)
HEAD = (
    say("Number"), say("When (UTC)"), say("Who"), say("Role"), say("Group"), say("What"), say("Thing"),
    say("Its id"), say("Before"), say("After"), say("Reason"), say("Digest"),
)  # fmt: skip


@pages.get("/audit", needs=Right.AUDIT_READ)
def audit_log(work: Work) -> Response:
    asked = Asked.of(FILTERS, LOG_ORDERS)
    statement = entries(work, **asked.values)
    if asked.wants_csv:
        return csv_download("audit-log", HEAD, csv_rows(asked.everything(work, statement)))
    page = asked.page(work, statement)
    return render(
        "groups/audit_log.html",
        asked=asked,
        page=page,
        altered=altered(row[0] for row in page.items),
        subjects=[(each, subject_words(each)) for each in SUBJECTS],
        event_words=event_words,
        role_words=role_words,
        changes=changes,
    )


@pages.post("/audit/verify", needs=Right.AUDIT_READ, because=WHY)
@limited("verify", times=12, within=minutes(60), by=person)
def verify_audit(work: Work) -> Response:
    serial = first_broken_link(work)
    if serial is None:
        return done(say("Chain verified: every entry follows from the one before it."), url_for(".audit_log"))
    notice(say("The chain is broken at entry {serial}. Tell the steward at once.", serial=serial), "problem")
    return redirect(url_for(".audit_log"), code=303)


def role_words(role: str) -> Words | str:
    """The role in which somebody acted; without one it was the hub itself, or a visitor."""
    return ROLES[Role(role)] if role in list(Role) else HUB


def changes(before: Mapping[str, Any], after: Mapping[str, Any]) -> list[tuple[str, str, str]]:
    """Each field that an entry names: what it was and what it became."""
    names = dict.fromkeys([*before, *after])
    return [(name.replace("_", " "), told(before.get(name)), told(after.get(name))) for name in names]


def told(value: Any) -> str:
    """A value of an entry in one line; nothing where there was none."""
    if value is None:
        return ""
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def csv_rows(rows: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    for entry, name, group in rows:
        yield (
            entry.serial,
            entry.at.isoformat(),
            name or HUB,
            entry.role,
            group,
            entry.event,
            entry.thing_kind,
            entry.thing_id,
            told(entry.before),
            told(entry.after),
            entry.reason,
            entry.digest,
        )
