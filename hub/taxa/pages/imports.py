"""Take in a whole list from a file: look at what it would do, then do exactly that, or take it back."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from flask import request, url_for
from itsdangerous import BadData, URLSafeSerializer
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa import actions, queries, schemas
from hub.taxa.models import Season
from hub.taxa.pages.blueprint import pages
from hub.taxa.pages.shelf import Shelf
from hub.taxa.trait_words import PRIORITIES
from hub.taxa.wanted_columns import Column
from hub.taxa.wanted_file import Problem, read_wanted, write_rows
from hub.taxa.wanted_plan import Kind, Plan
from hub.taxa.wanted_planning import listed_rows, planned
from hub.web.downloads import download, xlsx_download
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, notice, render
from hub.words import NotFound, Refused, Words, say

MOST_SHOWN = 300  # lines of each table of the preview
CHANGED_MEANWHILE = say("The list has changed since you looked at it. This is what the file would do now.")
TORN = say("This page is not complete. Please choose the file once more.")
PLACES_HEAD = (say("Kind"), say("Code"), say("Name"))


@pages.get("/seasons/<uuid:season_id>/import", needs=Right.WANTED_EDIT)
def import_list(work: Work, season_id: UUID) -> Response:
    season = queries.get_own_season(work, season_id)
    return chooser(work, season, Form(schemas.ImportSchema()))


@pages.post("/seasons/<uuid:season_id>/import", needs=Right.WANTED_EDIT)
@limited("lists", times=60, within=minutes(60), by=person)
def look_at_list(work: Work, season_id: UUID) -> Response:
    season = queries.get_own_season(work, season_id)
    form = Form.sent(schemas.ImportSchema())
    with form.answering():
        sent, whole = form.data["file"], form.data["whole"]
        plan = planned(work, season, sent.said.rows, whole=whole)
        problems = sorted([*sent.said.problems, *plan.problems], key=lambda problem: problem.row)
        if problems:
            return preview(work, season, plan, problems=problems, remarks=sent.said.remarks)
        seal = sealed(work, season, actions.keep_file(work, sent.data), whole, plan)
        return preview(work, season, plan, seal=seal, remarks=sent.said.remarks)
    return chooser(work, season, form)


@pages.post("/seasons/<uuid:season_id>/import/confirm", needs=Right.WANTED_EDIT)
@limited("lists", times=60, within=minutes(60), by=person)
def confirm_list(work: Work, season_id: UUID) -> Response:
    season = queries.get_own_season(work, season_id)
    form = Form(schemas.ImportSchema())
    with form.answering():
        key, whole, digest = opened(work, season, request.form.get("seal", ""))
        rows = read_wanted(work.files.read(key)).rows
        plan = planned(work, season, rows, whole=whole)
        if plan.digest != digest:
            notice(CHANGED_MEANWHILE, "note")
            return preview(
                work, season, plan, problems=plan.problems, seal=sealed(work, season, key, whole, plan)
            )
        actions.import_wanted(work, season_id=season_id, rows=rows, whole=whole)
        words = say("The list is taken in. Under “Take in a list” you can take this back.")
        return done(words, url_for(".wanted", season=season_id))
    return chooser(work, season, form)


@pages.get("/seasons/<uuid:season_id>/import/undo", needs=Right.WANTED_EDIT)
def look_at_undo(work: Work, season_id: UUID) -> Response:
    """The list as it stood before the last import, looked at like any other file."""
    season = queries.get_own_season(work, season_id)
    key = queries.list_before_import(work, season_id)
    if key is None:
        raise NotFound(season_id)
    plan = planned(work, season, read_wanted(work.files.read(key)).rows, whole=True)
    return preview(work, season, plan, problems=plan.problems, seal=sealed(work, season, key, True, plan))


@pages.get("/seasons/<uuid:season_id>/wanted.csv", needs=Right.WANTED_EDIT)
def whole_list(work: Work, season_id: UUID) -> Response:
    """The whole list as a file that can be taken in again."""
    season = queries.get_own_season(work, season_id)
    kind = "text/csv; charset=utf-8; header=present"
    return download(write_rows(listed_rows(work, season)), f"wanted-{season.year}.csv", kind)


@pages.get("/seasons/<uuid:season_id>/template.xlsx", needs=Right.WANTED_EDIT)
def empty_list(work: Work, season_id: UUID) -> Response:
    """An empty list to fill in, with the columns explained and the places that may be named."""
    season = queries.get_own_season(work, season_id)
    shelf = Shelf.of(work, str(season.id))
    places = [(say("ecoregion"), each.code, each.name) for each in shelf.ecoregions.values()] if shelf else []
    places += [(say("district"), each.code, each.name) for each in shelf.districts.values()] if shelf else []
    sheets = {
        "wanted": ([column.heading for column in Column], []),
        "how": ((say("Column"), say("What to write"), say("Other headings that will do")), explained()),
        "places": (PLACES_HEAD, places),
    }
    return xlsx_download(f"wanted-{season.year}-empty", sheets)  # type: ignore[arg-type]


def explained() -> Iterable[tuple[str, Words, str]]:
    return ((column.heading, column.about, ", ".join(column.others)) for column in Column)


def chooser(work: Work, season: Season, form: Form) -> Response:
    return render(
        "taxa/import.html",
        form=form,
        season=season,
        columns=list(Column),
        may_undo=queries.list_before_import(work, season.id) is not None,
    )


def preview(
    work: Work,
    season: Season,
    plan: Plan,
    *,
    problems: Iterable[Problem] = (),
    seal: str = "",
    remarks: Iterable[Words] = (),
) -> Response:
    found = list(problems)
    page = render(
        "taxa/import_preview.html",
        season=season,
        plan=plan,
        kinds=Kind,
        problems=found,
        seal="" if found else seal,
        remarks=list(remarks),
        shelf=Shelf.of(work, str(season.id)),
        priorities=PRIORITIES,
        most=MOST_SHOWN,
    )
    page.status_code = 422 if found else 200
    return page


def signer(work: Work, season: Season) -> URLSafeSerializer:
    return URLSafeSerializer(work.settings.secret_key, salt=f"wanted list of {season.id}")


def sealed(work: Work, season: Season, key: str, whole: bool, plan: Plan) -> str:
    """What was shown, so that nothing else can be confirmed: the file, the way, and what it would do."""
    return str(signer(work, season).dumps([key, whole, plan.digest]))


def opened(work: Work, season: Season, seal: str) -> tuple[str, bool, str]:
    try:
        key, whole, digest = signer(work, season).loads(seal)
    except BadData:
        raise Refused(TORN) from None
    return key, whole, digest
