"""The bibliography of the germination calculations."""

from __future__ import annotations

from hub.science.quantity import Evidence, Source

# Indices.
COOLBEAR = Source(
    "Coolbear, Francis & Grierson 1984, Journal of Experimental Botany 35:1609", Evidence.PUBLISHED
)
FAROOQ = Source(
    "Farooq et al. 2005, Journal of Integrative Plant Biology 47:187; interval by order statistics",
    Evidence.PUBLISHED,
)
INDICES = Source("Ranal & Santana 2006, Brazilian Journal of Botany 29:1–11", Evidence.PUBLISHED)

# The curve.
CURVE = Source(
    "Three-parameter log-logistic curve by interval-censored maximum likelihood, profile intervals",
    Evidence.MEMORY,
)

# Comparisons.
HETEROGENEITY = Source("Chi-square test of heterogeneity between shares", Evidence.MEMORY)
DEALT = Source("The same seeds dealt out anew to the replicates, 20,000 times", Evidence.ALGEBRA)
SCATTER = Source(
    "Chi-square of the groups over that of the replicates within them, on Fisher’s F", Evidence.MEMORY
)

TREATMENT = Source(
    "Logistic regression on lot and treatment; McCullagh & Nelder 1989, Generalized Linear Models",
    Evidence.MEMORY,
)

# Pure live seed.
PURE_LIVE_SEED = Source(
    "Pure live seed; Penn State plant science and Texas DOT seed specifications", Evidence.PUBLISHED
)
