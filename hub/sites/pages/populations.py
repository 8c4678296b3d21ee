"""One population: its censuses, threats, papers and allowance; added, changed, verified, retired."""

from __future__ import annotations

from collections.abc import Callable
from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries, schemas
from hub.sites.localities import category_words
from hub.sites.models import Census, Population, Salvage, Site
from hub.sites.pages.blueprint import pages
from hub.sites.pages.offers import members, rights, species_called, species_names
from hub.sites.readings import exact_place_read
from hub.sites.rules import Origin, Threat, Trend, salvage_lacks
from hub.taxa.queries import get
from hub.web.forms import Form
from hub.web.render import done, notice, render
from hub.words import Words, say

CHOICES = {"origins": members(Origin), "trends": members(Trend), "threats": members(Threat)}


@pages.get("/populations/<uuid:population_id>", needs=Right.SITE_READ)
def population(work: Work, population_id: UUID) -> Response:
    found = queries.get_population(work, population_id)
    site, taxon = queries.get_site(work, found.site_id), get(work, found.taxon_id)
    case, counts = queries.newest_salvage(work, population_id), queries.censuses(work, population_id)
    exact_place_read(work, found, [taxon])
    return render(
        "sites/population.html",
        population=found,
        site=site,
        taxon=taxon,
        censuses=counts,
        most_counted=most_counted(counts),
        account=queries.take_account(work, population_id, work.today.year),
        permits=queries.permits_on(work, taxon_id=taxon.id, site_id=site.id, day=work.today),
        missing=queries.missing_papers(work, site=site, taxon_id=taxon.id, day=work.today),
        case=case,
        lacks=lacking(case),
        others_see=category_words(taxon),
        today=work.today,
        **rights(work),
    )


def most_counted(counts: list[Census]) -> int:
    """The top of the chart: the highest end of any interval, at least one plant."""
    return max((count.plants_high or count.plants for count in counts), default=0) or 1


def lacking(case: Salvage | None) -> list[Words]:
    """What an open salvage case still waits for."""
    if case is None:
        return []
    return salvage_lacks(evidence=True, owner=bool(case.owner_agreed_on), curator=bool(case.decided_at))


@pages.get("/sites/<uuid:site_id>/populations/add", needs=Right.SITE_EDIT)
def add_population(work: Work, site_id: UUID) -> Response:
    site = queries.get_site(work, site_id)
    return adding(work, site, Form(schemas.NewPopulationSchema(), {"uncertainty_m": 10}))


def adding(work: Work, site: Site, form: Form) -> Response:
    return render(
        "sites/population_form.html",
        form=form,
        site=site,
        population=None,
        species=species_names(work),
        **CHOICES,
    )


@pages.post("/sites/<uuid:site_id>/populations/add", needs=Right.SITE_EDIT)
def send_population(work: Work, site_id: UUID) -> Response:
    site, form = queries.get_site(work, site_id), Form.sent(schemas.NewPopulationSchema())
    with form.answering():
        details = dict(form.data)
        taxon_id = species_called(work, details.pop("species"))
        added = actions.add_population(work, site_id=site_id, taxon_id=taxon_id, **details)
        point_out_near(work, added)
        words = say("{code} is added. Count its plants next.", code=added.code)
        return done(words, url_for(".population", population_id=added.id))
    return adding(work, site, form)


def point_out_near(work: Work, added: Population) -> None:
    """The same plants written down twice are a frequent slip; two patches may also be right."""
    position = queries.position_of(added)
    near = queries.near_populations(work, taxon_id=added.taxon_id, position=position, but=added.id)
    for other, metres in near[:3]:
        words = say("{code} is only {n} m away. Are these the same plants?", code=other.code, n=round(metres))
        notice(words, "note")


@pages.get("/populations/<uuid:population_id>/change", needs=Right.SITE_EDIT)
def change_population(work: Work, population_id: UUID) -> Response:
    found = queries.get_population(work, population_id)
    return changing(work, found, Form(schemas.ChangePopulationSchema(), found))


def changing(work: Work, found: Population, form: Form) -> Response:
    site = queries.get_site(work, found.site_id)
    return render("sites/population_form.html", form=form, site=site, population=found, species=(), **CHOICES)


@pages.post("/populations/<uuid:population_id>/change", needs=Right.SITE_EDIT)
def send_change_population(work: Work, population_id: UUID) -> Response:
    found, form = queries.get_population(work, population_id), Form.sent(schemas.ChangePopulationSchema())
    with form.answering():
        changed = actions.change_population(work, population_id=population_id, **form.data)
        return done(say("{code} is changed.", code=changed.code), here(population_id))
    return changing(work, found, form)


def here(population_id: UUID) -> str:
    return url_for(".population", population_id=population_id)


@pages.get("/populations/<uuid:population_id>/verify", needs=Right.IDENTITY_VERIFY)
def verify_identity(work: Work, population_id: UUID) -> Response:
    return verifying(work, population_id, Form(schemas.VerifySchema()))


def verifying(work: Work, population_id: UUID, form: Form) -> Response:
    found = queries.get_population(work, population_id)
    return render("sites/verify.html", form=form, population=found, taxon=get(work, found.taxon_id))


@pages.post("/populations/<uuid:population_id>/verify", needs=Right.IDENTITY_VERIFY)
def send_identity(work: Work, population_id: UUID) -> Response:
    form = Form.sent(schemas.VerifySchema())
    with form.answering():
        actions.verify_identity(work, population_id=population_id, **form.data)
        return done(say("The identity is noted as verified."), here(population_id))
    return verifying(work, population_id, form)


@pages.get("/populations/<uuid:population_id>/retire", needs=Right.SITE_EDIT)
def retire_population(work: Work, population_id: UUID) -> Response:
    return retiring(work, population_id, Form(schemas.ReasonSchema()))


def retiring(work: Work, population_id: UUID, form: Form) -> Response:
    found = queries.get_population(work, population_id)
    return render("sites/retire.html", form=form, population=found)


@pages.post("/populations/<uuid:population_id>/retire", needs=Right.SITE_EDIT)
def send_retire(work: Work, population_id: UUID) -> Response:
    words = say("This population is retired. What was done stays, and you can bring it back.")
    return moved(work, population_id, actions.retire_population, words)


@pages.post("/populations/<uuid:population_id>/bring-back", needs=Right.SITE_EDIT)
def bring_back(work: Work, population_id: UUID) -> Response:
    return moved(work, population_id, actions.bring_back_population, say("This population is back."))


def moved(work: Work, population_id: UUID, act: Callable[..., Population], words: Words) -> Response:
    form = Form.sent(schemas.ReasonSchema())
    with form.answering():
        act(work, population_id=population_id, **form.data)
        return done(words, here(population_id))
    return retiring(work, population_id, form)
