"""Cases of every kind, for tests of what must hold in all of them."""

from __future__ import annotations

from datetime import date
from typing import Any

from hypothesis import strategies as st

from hub.protocols.case import (
    BankFacts,
    Case,
    CropFacts,
    HistoryFacts,
    PartyFacts,
    PermissionFacts,
    PermitFacts,
    PopulationFacts,
    SalvageFacts,
    SignOff,
    SiteRisk,
    TaxonFacts,
    Trend,
)
from hub.taxa.rules import CareClass, FruitType, Hazard, LifeForm, StorageBehaviour

DAY = date(2030, 8, 1)
EARLIER = date(2030, 5, 1)


def _maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


def _amount(most: float) -> st.SearchStrategy[float]:
    return st.floats(0, most, allow_nan=False)


YES_NO = _maybe(st.booleans())
NAMES = st.sampled_from(["Campanula scheuchzeri", "Quercus robur", "Salix herbacea", "Papaver rhoeas"])
TAXA = st.builds(
    TaxonFacts,
    name=NAMES,
    care_class=st.sampled_from(CareClass),
    listed=YES_NO,
    native=YES_NO,
    life_form=st.sampled_from(LifeForm),
    fruit_type=st.sampled_from(FruitType),
    storage=st.sampled_from(StorageBehaviour),
    storage_confirmed=st.booleans(),
    persistent_seed_bank=YES_NO,
    clonal=YES_NO,
    dioecious=YES_NO,
    two_year_ripening=YES_NO,
    masts=YES_NO,
    hazards=_maybe(st.lists(st.sampled_from(Hazard), unique=True).map(tuple)),
    green_spores=YES_NO,
)
PLANTS = st.integers(0, 12) | st.integers(13, 120) | st.integers(121, 5000)
POPULATIONS = st.builds(
    PopulationFacts,
    identity_verified=YES_NO,
    wild_origin=YES_NO,
    fruiting_plants=_maybe(PLANTS),
    fruiting_plants_se=_maybe(_amount(60)),
    trend=st.sampled_from(Trend),
    severe_threat=YES_NO,
    site_risks=_maybe(st.lists(st.sampled_from(SiteRisk), unique=True).map(tuple)),
    disease_known=YES_NO,
)
CROPS = st.builds(
    CropFacts,
    ripe_fruits_per_plant=_maybe(_amount(300)),
    good_seeds_per_fruit=_maybe(_amount(80)),
    good_seeds_per_fruit_se=_maybe(_amount(9)),
    plants_counted=_maybe(st.integers(0, 30)),
    poor_year=YES_NO,
    empty_share=_maybe(_amount(1)),
    immature_share=_maybe(_amount(1)),
)
HISTORIES = st.builds(
    HistoryFacts,
    years_collected=_maybe(st.lists(st.integers(2018, 2029), max_size=6, unique=True).map(tuple)),
    taken_seeds=_maybe(st.integers(0, 3000)),
    reserved_seeds=_maybe(st.integers(0, 3000)),
)
DAYS = st.dates(date(2029, 1, 1), date(2031, 12, 31))
SPANS = _maybe(DAYS).flatmap(lambda since: st.tuples(st.just(since), _maybe(_from(since))))


def _from(day: date | None) -> st.SearchStrategy[date]:
    return st.dates(day or date(2029, 1, 1), date(2031, 12, 31))


def _spanned(kind: Any, **parts: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Papers whose last day never comes before their first."""
    return st.builds(lambda span, **rest: kind(since=span[0], until=span[1], **rest), SPANS, **parts)


PERMITS = _spanned(
    PermitFacts,
    number=st.sampled_from(["", "7"]),
    cap_seeds=_maybe(st.integers(0, 5000)),
    used_seeds=st.integers(0, 5000),
)
SIGN_OFFS = st.builds(SignOff, by=st.just("The curator"), on=_maybe(DAYS), share=_maybe(_amount(1)))
SALVAGES = st.builds(
    SalvageFacts,
    curator=st.sampled_from(["", "The curator"]),
    owner=st.sampled_from(["", "The owner"]),
    evidence=st.sampled_from(["", "Road order 12"]),
    evidence_on=_maybe(DAYS),
)
CASES = st.builds(
    Case,
    taxon=TAXA,
    population=POPULATIONS,
    crop=CROPS,
    history=HISTORIES,
    permission=_spanned(PermissionFacts, granted=YES_NO),
    permit_needed=YES_NO,
    permits=st.lists(PERMITS, max_size=2).map(tuple),
    sign_off=_maybe(SIGN_OFFS),
    salvage=_maybe(SALVAGES),
    bank=st.builds(BankFacts, home_freezing=st.booleans()),
    party=st.builds(PartyFacts, pupils=YES_NO, crosses_border=YES_NO),
)


@st.composite
def sound_cases(draw: st.DrawFn) -> Case:
    """Cases that often come out ready: papers in order, everything counted."""
    taxon = draw(
        st.builds(
            TaxonFacts,
            name=NAMES,
            care_class=st.sampled_from(CareClass),
            listed=st.just(False),
            native=st.just(True),
            life_form=st.sampled_from(LifeForm),
            fruit_type=st.sampled_from(FruitType),
            storage=st.sampled_from(StorageBehaviour),
            persistent_seed_bank=YES_NO,
        )
    )
    population = draw(
        st.builds(
            PopulationFacts,
            identity_verified=st.just(True),
            wild_origin=st.just(True),
            fruiting_plants=PLANTS,
            trend=st.sampled_from(Trend),
            severe_threat=YES_NO,
        )
    )
    counted = st.builds(
        CropFacts,
        ripe_fruits_per_plant=_amount(300),
        good_seeds_per_fruit=_amount(80),
        poor_year=st.booleans(),
    )
    history = st.builds(
        HistoryFacts,
        years_collected=st.lists(st.integers(2022, 2029), max_size=2, unique=True).map(tuple),
        taken_seeds=st.integers(0, 200),
        reserved_seeds=st.integers(0, 200),
    )
    consent = st.builds(SignOff, by=st.just("The curator"), on=st.just(EARLIER), share=_maybe(_amount(0.3)))
    return Case(
        taxon,
        population,
        draw(counted),
        draw(history),
        PermissionFacts(granted=True),
        permit_needed=False,
        sign_off=draw(_maybe(consent)),
    )
