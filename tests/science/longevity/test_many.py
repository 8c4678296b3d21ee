"""Many lots at once: the same answers as one by one."""

import numpy as np
import pytest

from hub.science.longevity.constants import CONSTANTS
from hub.science.longevity.equation import Mark, time_to
from hub.science.longevity.many import Lots, years_to_share_of_initial
from hub.science.longevity.store import Behaviour, Store
from hub.science.quantity import OutOfRange
from hub.words import Refused

SPECIES = list(CONSTANTS.values())


def lots(number, **changed):
    rng = np.random.default_rng(4)
    constants = np.array([(each.k_e, each.c_w, each.c_h, each.c_q) for each in SPECIES])
    k_e, c_w, c_h, c_q = constants[rng.integers(0, len(SPECIES), number)].T
    kept = {
        "moisture_percent": rng.uniform(1, 15, number),
        "temperature_c": rng.uniform(-20, 40, number),
        "initial_share": rng.uniform(0.3, 0.99, number),
    }
    return Lots(**{"k_e": k_e, "c_w": c_w, "c_h": c_h, "c_q": c_q, **kept, **changed})


def test_each_lot_gets_the_answer_it_would_get_alone():
    some = lots(50)
    found = years_to_share_of_initial(some, 0.7, level=0.9)
    for place in range(50):
        constants = next(each for each in SPECIES if each.k_e == some.k_e[place])
        store = Store(
            moisture_percent=some.moisture_percent[place],
            temperature_c=some.temperature_c[place],
            behaviour=Behaviour.ORTHODOX,
        )
        alone = time_to(constants, store, some.initial_share[place], 0.7, Mark.OF_INITIAL, level=0.9)
        assert found.years[place] == pytest.approx(alone.value)
        assert found.years[place] * found.times == pytest.approx(alone.high)


@pytest.mark.parametrize(
    ("name", "wrong"),
    [
        ("moisture_percent", 15.1),
        ("moisture_percent", np.nan),
        ("temperature_c", -41),
        ("initial_share", 1.0),
        ("k_e", np.inf),
        ("c_w", -1),
    ],
)
def test_one_lot_beyond_the_limits_refuses_the_whole(name, wrong):
    figures = vars(lots(10))[name].copy()
    figures[7] = wrong
    with pytest.raises(OutOfRange):
        lots(10, **{name: figures})


def test_a_lot_colder_than_its_equation_holds_is_refused():
    with pytest.raises(Refused, match="colder"):
        lots(200, temperature_c=np.full(200, -39.0))


def test_every_lot_needs_every_figure_and_there_must_be_one():
    with pytest.raises(Refused, match="every figure"):
        lots(10, k_e=np.full(9, 8.0))
    with pytest.raises(OutOfRange):
        lots(0)


def test_a_share_that_cannot_be_kept_is_refused():
    with pytest.raises(OutOfRange):
        years_to_share_of_initial(lots(10), 1.0)
