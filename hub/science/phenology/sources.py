"""The bibliography of phenology."""

from __future__ import annotations

from hub.science.quantity import Evidence, Source

SINGLE_SINE = Source(
    "Baskerville & Emin 1969; Zalom et al. 1983: degree days under a single sine, horizontal upper cut-off",
    Evidence.MEMORY,
)
AVERAGES = Source("McMaster & Wilhelm 1997: degree days from the mean of the day", Evidence.MEMORY)
TURNBULL = Source(
    "Turnbull 1976: the likeliest distribution from times known to lie between two looks", Evidence.MEMORY
)
PRODUCT_LIMIT = Source(
    "Kaplan & Meier 1958, with Greenwood’s error on the scale log(−log S)", Evidence.MEMORY
)
FORECAST = Source("Degree days of the seasons before, carried to the calendar", Evidence.OWN)
NEXT_VISIT = Source("Chance of a first ripe fruit before the visit, by the seasons before", Evidence.OWN)
WEEKLY = Source("Weekly visits from the end of flowering, until the fruit is ripe", Evidence.OWN)
