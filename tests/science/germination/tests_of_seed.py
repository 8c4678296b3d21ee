"""Germination tests as hypothesis draws them: uneven counts, some seed taken out, some never up."""

from hypothesis import strategies as st

from hub.science.germination.counts import GerminationTest


@st.composite
def germination_tests(draw, fewest=0):
    days = sorted(draw(st.sets(st.integers(1, 400), min_size=1, max_size=12)))
    germinated = draw(st.lists(st.integers(0, 40), min_size=len(days), max_size=len(days)))
    germinated[0] += max(fewest - sum(germinated), 0)
    never, removed = draw(st.integers(0, 50)), draw(st.integers(0, 20))
    sown = max(sum(germinated) + never, 1) + removed
    return GerminationTest(tuple(map(float, days)), tuple(germinated), sown, removed)
