"""Photographs of a hand-in: many at once, each read by itself, and shown only to those who may see them."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from flask import make_response, url_for
from werkzeug.datastructures import FileStorage
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.vetting import actions, queries
from hub.vetting.pages.blueprint import pages
from hub.vetting.pages.kinds import KINDS
from hub.vetting.rules import MOST_PHOTOGRAPHS, WRITABLE, PhotographKind
from hub.vetting.schemas import PhotographSchema, PhotographsSchema
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, notice, render
from hub.web.uploads import Picture, picture
from hub.words import Refused, Words, say, say_n

AN_HOUR = 3600
LONGEST_NAME = 80


@pages.get("/hand-ins/<uuid:submission_id>/photographs", needs=Right.SUBMISSION_WRITE)
def photographs(work: Work, submission_id: UUID) -> Response:
    return showing(work, submission_id, Form(PhotographsSchema(), {"kind": PhotographKind.PLANT}))


def showing(work: Work, submission_id: UUID, form: Form) -> Response:
    submission = queries.get(work, submission_id)
    return render(
        "vetting/photographs.html",
        form=form,
        submission=submission,
        writable=submission.state in WRITABLE,
        photographs=queries.photographs(work, submission_id),
        removed=queries.removed_photographs(work, submission_id),
        kinds=list(KINDS.items()),
        kind_words=KINDS,
        most=MOST_PHOTOGRAPHS,
    )


@pages.post("/hand-ins/<uuid:submission_id>/photographs", needs=Right.SUBMISSION_WRITE)
@limited("photographs", times=60, within=minutes(10), by=person)
def send_photographs(work: Work, submission_id: UUID) -> Response:
    form = Form.sent(PhotographsSchema())
    with form.answering():
        kept, failed = keep_all(work, submission_id, form)
        if not kept:
            raise Refused(failed[0], field="photographs")
        for words in failed:
            notice(words, "problem")
        words = say_n("{n} photograph is kept.", "{n} photographs are kept.", n=kept)
        return done(words, url_for(".photographs", submission_id=submission_id))
    return showing(work, submission_id, form)


def keep_all(work: Work, submission_id: UUID, form: Form) -> tuple[int, list[Words]]:
    """Keep every file that is a photograph; the others are named, each with what is wrong with it."""
    pictures, failed = read_all(form.data["photographs"])
    kept = 0
    for name, upload in pictures:
        try:
            actions.add_photograph(
                work,
                submission_id=submission_id,
                kind=form.data["kind"],
                upload=upload,
                caption=form.data["caption"],
            )
            kept += 1
        except Refused as refusal:
            failed.append(say("{file}: {why}", file=name, why=refusal.words))
    return kept, failed


def read_all(uploads: Iterable[FileStorage]) -> tuple[list[tuple[str, Picture]], list[Words]]:
    """Draw every photograph anew before the store is touched: nobody waits to write in the meantime."""
    pictures, failed = [], []
    for upload in uploads:
        try:
            pictures.append((name_of(upload), picture(upload)))
        except Refused as refusal:
            failed.append(say("{file}: {why}", file=name_of(upload), why=refusal.words))
    return pictures, failed


def name_of(upload: FileStorage) -> str:
    name = upload.filename or ""
    return name if len(name) <= LONGEST_NAME else f"{name[: LONGEST_NAME - 1]}…"


@pages.get("/photographs/<uuid:photograph_id>", needs=Right.SUBMISSION_READ)
def photograph(work: Work, photograph_id: UUID) -> Response:
    return file_of(work, queries.get_photograph(work, photograph_id).file)


@pages.get("/photographs/<uuid:photograph_id>/small", needs=Right.SUBMISSION_READ)
def small_photograph(work: Work, photograph_id: UUID) -> Response:
    return file_of(work, queries.get_photograph(work, photograph_id).thumbnail)


def file_of(work: Work, key: str) -> Response:
    """The picture alone. It never changes, and only the reader's own browser may keep it for a while."""
    answer = make_response(work.files.read(key))
    answer.mimetype = "image/webp"
    answer.cache_control.private = True
    answer.cache_control.max_age = AN_HOUR
    return answer


@pages.post("/photographs/<uuid:photograph_id>/describe", needs=Right.SUBMISSION_WRITE)
def describe_photograph(work: Work, photograph_id: UUID) -> Response:
    found = queries.get_photograph(work, photograph_id)
    form = Form.sent(PhotographSchema())
    with form.answering():
        actions.describe_photograph(work, photograph_id=photograph_id, **form.data)
        return done(say("The photograph is described."), back_to(found.submission_id))
    return showing(work, found.submission_id, form)


@pages.post("/photographs/<uuid:photograph_id>/remove", needs=Right.SUBMISSION_WRITE)
def remove_photograph(work: Work, photograph_id: UUID) -> Response:
    found = actions.remove_photograph(work, photograph_id=photograph_id)
    return done(say("The photograph is taken away. You can put it back below."), back_to(found.submission_id))


@pages.post("/photographs/<uuid:photograph_id>/restore", needs=Right.SUBMISSION_WRITE)
def restore_photograph(work: Work, photograph_id: UUID) -> Response:
    found = actions.restore_photograph(work, photograph_id=photograph_id)
    return done(say("The photograph is back."), back_to(found.submission_id))


def back_to(submission_id: UUID) -> str:
    return url_for(".photographs", submission_id=submission_id)
