"""Find a species, and ask for it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from babel.dates import get_month_names
from flask import url_for
from werkzeug.wrappers import Response

from hub.adoptions import actions, queries
from hub.adoptions.cards import SpeciesCard, card_of, cards
from hub.adoptions.pages.blueprint import pages
from hub.adoptions.rules import AdoptionState, waits_for_curator
from hub.adoptions.schemas import AskSchema
from hub.adoptions.what_it_takes import DIFFICULTY
from hub.db.work import Work
from hub.groups.queries import my_group
from hub.rights.policy import may
from hub.rights.right import Right
from hub.taxa import queries as taxa
from hub.taxa.models import Difficulty, Season
from hub.taxa.rules import CareClass
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier, Whole, Yes
from hub.web.forms import Form
from hub.web.language import locale
from hub.web.listing import Asked, Filter
from hub.web.render import done, render
from hub.words import NotFound, say

HEAD = (
    say("Species"), say("Everyday name"), say("Care class"), say("Difficulty"), say("Suits a school"),
    say("Ripens from month"), say("Ripens to month"), say("Populations wanted"), say("Groups that have it"),
)  # fmt: skip


@pages.get("/adopt", needs=Right.ADOPTION_READ)
def find(work: Work) -> Response:
    """Wanted species as cards. A curator sees the same page, without the buttons."""
    bank_id = work.scope.bank_id
    season = taxa.current_season(work, bank_id) if bank_id else None
    if season is None:
        return render("adoptions/no_season.html")
    asker = queries.asker(work, season) if work.scope.own_group_id else None
    districts = queries.districts_of(work, work.scope.region_id)
    offered = choices(districts, months_from(work.today.month))
    asked = Asked.of(filters(offered), queries.SPECIES_ORDERS)
    statement = queries.species_to_adopt(work, season_id=season.id, **asked.values)
    if asked.wants_csv:
        rows = cards(work, season, asked.everything(work, statement), asker)
        return csv_download(f"species-to-adopt-{season.year}", HEAD, map(row_of, rows))
    page = asked.page(work, statement)
    return render(
        "adoptions/find.html",
        asked=asked,
        page=page,
        cards=cards(work, season, [row[:2] for row in page.items], asker),
        season=season,
        asker=asker,
        may_ask=may(work.scope, Right.ADOPTION_ASK),
        choices=offered,
    )


def choices(districts: list[tuple[UUID, str]], months: Mapping[int, str]) -> dict[str, list[Any]]:
    """What each filter offers."""
    return {
        "district": districts,
        "month": list(months.items()),
        "difficulty": list(DIFFICULTY.items()),
        "care": [(care, care.words) for care in CareClass if care is not CareClass.GONE],
    }


def filters(offered: Mapping[str, list[Any]]) -> tuple[Filter, ...]:
    """What the list can be narrowed by; a chip shows the words that were chosen."""
    districts, months = dict(offered["district"]), dict(offered["month"])
    return (
        Filter("district", say("District"), Identifier(), lambda key: districts.get(key, "–")),
        Filter("month", say("Ripe in"), Whole(1, 12), months.__getitem__),
        Filter("difficulty", say("Difficulty"), Choice(Difficulty), DIFFICULTY.__getitem__),
        Filter("care", say("Care class"), Choice(CareClass), lambda care: care.words),
        Filter("school", say("Suits a school"), Yes(), lambda yes: say("yes")),
        Filter("free", say("Still needed"), Yes(), lambda yes: say("yes")),
    )


def months_from(first: int) -> dict[int, str]:
    """The twelve months by number, named in the reader's language, beginning with this one."""
    names = get_month_names("wide", context="stand-alone", locale=locale())
    return {month: names[month] for month in [*range(first, 13), *range(1, first)]}


def row_of(card: SpeciesCard) -> tuple[object, ...]:
    taxon = card.taxon
    return (
        taxon.canonical, taxon.vernacular, taxon.care_class.words, DIFFICULTY[taxon.difficulty],
        taxon.suits_school, taxon.ripens_from, taxon.ripens_to, card.populations,
        card.others + (card.ours is not None),
    )  # fmt: skip


@pages.get("/adopt/<uuid:taxon_id>", needs=Right.ADOPTION_ASK)
def ask(work: Work, taxon_id: UUID) -> Response:
    season = open_season(work)
    return ask_form(work, season, taxon_id, Form(AskSchema(), usual_answers(work)))


@pages.post("/adopt/<uuid:taxon_id>", needs=Right.ADOPTION_ASK)
def send_ask(work: Work, taxon_id: UUID) -> Response:
    season = open_season(work)
    taxa.get(work, taxon_id)
    form = Form.sent(AskSchema())
    with form.answering():
        given = {name: form.data[name] for name in ("district_id", "wish")}
        adoption = actions.ask(work, season_id=season.id, taxon_id=taxon_id, **given)
        if adoption.state is AdoptionState.ACTIVE:
            return done(say("It is yours. Here is what to do first."), url_for("progress.our_season"))
        words = say("Your wish is sent. The bank answers by mail.")
        return done(words, url_for(".adoption", adoption_id=adoption.id))
    return ask_form(work, season, taxon_id, form)


def open_season(work: Work) -> Season:
    """The season that the group's bank collects in, or opens next. Raises NotFound for none."""
    found = taxa.current_season(work, work.scope.bank_id) if work.scope.bank_id else None
    if found is None:
        raise NotFound("season")
    return found


def usual_answers(work: Work) -> dict[str, object]:
    """A group mostly collects in its own district."""
    group = my_group(work)
    return {"district_id": group.district_id}


def ask_form(work: Work, season: Season, taxon_id: UUID, form: Form) -> Response:
    taxon = taxa.get(work, taxon_id)
    wanted = taxa.wanted_of(work, season.id, taxon_id)
    if wanted is None:
        raise NotFound(taxon_id)
    asker = queries.asker(work, season)
    needs, groups = taxa.needs_of(work, wanted.id), queries.holders(work, season.id, taxon_id)
    return render(
        "adoptions/ask.html",
        form=form,
        card=card_of(work, wanted, taxon, needs, groups, asker),
        season=season,
        districts=queries.districts_of(work, asker.group.region_id),
        months=months_from(1),
        waits=waits_for_curator(asker.bank.adoption_mode, taxon.care_class),
    )
