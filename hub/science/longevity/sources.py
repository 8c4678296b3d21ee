"""The bibliography of the longevity calculations."""

from __future__ import annotations

from hub.science.quantity import Evidence, Source

# Constants of species.
CEREALS = Source("Ellis & Hong 2007 (abstract), twelve crops", Evidence.PUBLISHED)
BARLEY = Source("Ellis & Roberts 1980, Annals of Botany 45:13", Evidence.MEMORY)
LEGUMES = Source("Ellis, Osei-Bonsu & Roberts 1982", Evidence.MEMORY)
ONION = Source("Ellis & Roberts 1981", Evidence.MEMORY)
LETTUCE = Source("Kraak & Vos 1987", Evidence.MEMORY)

# The equation.
EQUATION = Source(
    "Ellis & Roberts 1980, Annals of Botany 45:13, the improved viability equation; the interval is the "
    "largest standard error of K_E in Ellis & Hong 2007, for every species",
    Evidence.PUBLISHED,
)
TEMPERATURE_FACTOR = Source(
    "Dickie et al. 1990: eight contrasting species answer alike to temperature; C_H 0.0329, C_Q 0.000478",
    Evidence.MEMORY,
)
MOISTURE_FACTOR = Source(
    "The power of moisture in the viability equation, 4 to 6 as in most known species", Evidence.OWN
)
HALVING = Source(
    "Harrington’s rule of thumb: 1 % of moisture or 5 °C halves the life of seed", Evidence.PUBLISHED
)

# Test series and the next test.
PROBIT_FIT = Source(
    "Probit regression of viability on time; limits after Fieller, scatter after Finney 1971", Evidence.MEMORY
)
NEXT_TEST = Source(
    "FAO Genebank Standards 2014, 4.3.3: a third of the time to 85 % of the first result, 40 years at most",
    Evidence.MEMORY,
)
FIRST_TEST_RULE = Source(
    "FAO Genebank Standards 2014, 4.3.1: the first test within 12 months of receipt", Evidence.PUBLISHED
)
CUSTOMARY_TEST = Source("Every 10 years, or 5 for seed that keeps poorly (IBPGR)", Evidence.PUBLISHED)
AGEING = Source(
    "Half dead within 13.7 days at 45 °C and 60 % relative humidity: short-lived (Seglias et al., abstract)",
    Evidence.PUBLISHED,
)
