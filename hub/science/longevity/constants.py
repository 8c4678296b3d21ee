"""What is known of single species for the viability equation: few crops, and hardly a wild plant."""

from __future__ import annotations

from dataclasses import dataclass

from hub.science.longevity.sources import BARLEY, CEREALS, LEGUMES, LETTUCE, ONION
from hub.science.quantity import Source


@dataclass(frozen=True)
class Constants:
    """The four constants: level, moisture, and temperature with its square (°C)."""

    k_e: float
    c_w: float
    c_h: float
    c_q: float
    source: Source

    @property
    def turn_over_c(self) -> float:
        """The temperature below which the equation would shorten life by cold, which is nonsense."""
        return -self.c_h / (2 * self.c_q)


def _of_twelve(k_e: float, c_w: float) -> Constants:
    """Twelve crops were fitted with one answer to temperature."""
    return Constants(k_e, c_w, 0.0322, 0.000454, CEREALS)


CONSTANTS = {
    "Zea mays": _of_twelve(9.993, 5.993),
    "Sorghum bicolor": _of_twelve(9.381, 5.379),
    "Pennisetum glaucum": _of_twelve(9.336, 5.540),
    "Beta vulgaris": _of_twelve(8.988, 4.969),
    "Oryza glaberrima": _of_twelve(8.786, 4.727),
    "Triticum aestivum": _of_twelve(8.498, 4.836),
    "Setaria italica": _of_twelve(8.478, 4.829),
    "Saccharum": _of_twelve(8.454, 4.964),
    "Eleusine coracana": _of_twelve(8.288, 4.345),
    "Paspalum scrobiculatum": _of_twelve(8.138, 4.435),
    "Oryza sativa": _of_twelve(8.096, 4.246),
    "Solanum tuberosum": _of_twelve(8.037, 5.152),
    "Hordeum vulgare": Constants(9.983, 5.896, 0.040, 0.000428, BARLEY),
    "Cicer arietinum": Constants(9.070, 4.829, 0.045, 0.000324, LEGUMES),
    "Vigna unguiculata": Constants(8.690, 4.715, 0.026, 0.000498, LEGUMES),
    "Glycine max": Constants(7.748, 3.979, 0.053, 0.000228, LEGUMES),
    "Allium cepa": Constants(6.975, 3.470, 0.040, 0.000428, ONION),
    "Lactuca sativa": Constants(8.218, 4.797, 0.0489, 0.000365, LETTUCE),
}
"""By species, whose names here are our own reading of the crops’ English names."""

LARGEST_K_E_ERROR = 0.55
"""The largest standard error of K_E among the twelve crops (published), taken for all (our own default)."""
