"""The bibliography of the calculations: each formula or figure, and how sure we are of its source."""

from __future__ import annotations

from hub.science.quantity import Evidence, Source

# Sampling.
ALLELES = Source(
    "US Bureau of Land Management, technical protocol, section 8 (2012), after Brown & Marshall 1995",
    Evidence.PUBLISHED,
)
SEVERAL_ALLELES = Source("Inclusion and exclusion over the alleles of one locus", Evidence.ALGEBRA)
HALF_SIB_CAPTURE = Source(
    "Mendelian segregation in half-sib families with an unlimited pollen pool", Evidence.ALGEBRA
)
EFFECTIVE_NUMBER = Source(
    "Chief Forester’s Standards for Seed Use (British Columbia), appendix 7", Evidence.PUBLISHED
)
EFFECTIVE_SIZE = Source("Group coancestry of half-sib families; Vencovsky & Crossa 1999", Evidence.MEMORY)
DONORS = Source("Expected distinct draws from equally likely donors", Evidence.ALGEBRA)
RAREFACTION = Source("Hurlbert 1971, Ecology 52", Evidence.MEMORY)

# Populations and crops.
QUADRATS = Source(
    "Estimation of population size and density from quadrat samples (course sheet)", Evidence.PUBLISHED
)
SAMPLE_MEAN = Source("Mean of a simple random sample, Student’s t", Evidence.ALGEBRA)
WALKED_COUNT = Source("The counters’ own statement of how near they came", Evidence.OWN)
PRODUCT = Source("Goodman 1960, the exact variance of a product; lognormal interval", Evidence.PUBLISHED)

TAKEN_SHARE = Source("Seeds taken over the estimated crop", Evidence.ALGEBRA)

# Weights and proportions.
REPLICATE_WEIGHTS = Source("AOSA Rules, appendix 4: eight replicates of 100 seeds", Evidence.PUBLISHED)
COUNTED = Source("Counted one by one", Evidence.ALGEBRA)
WILSON = Source("Wilson score interval; Newcombe 1998, Statistics in Medicine 17:857", Evidence.PUBLISHED)
EXACT_BINOMIAL = Source(
    "Exact binomial interval (Clopper–Pearson); Newcombe 1998, Statistics in Medicine 17:857",
    Evidence.PUBLISHED,
)
VIABLE_SEEDS = Source("Product of independent beta-distributed shares", Evidence.ALGEBRA)
REPLICATE_TOLERANCE = Source("7 CFR 201.55, United States Federal Seed Act regulations", Evidence.PUBLISHED)
REPLICATE_TOLERANCE_LOW = Source("7 CFR 201.55, the rows below 70 %", Evidence.MEMORY)

# Drying.
FRESH_BASIS = Source("Water lost as a share of fresh weight", Evidence.ALGEBRA)
TARGET_WEIGHT = Source(
    "International Rice Research Institute, Knowledge Bank: moisture content calculations",
    Evidence.PUBLISHED,
)

# Comparisons.
MEDIAN_DEVIATION = Source("Modified z-score by median absolute deviation, limit 3.5", Evidence.MEMORY)
