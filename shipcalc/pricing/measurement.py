"""The revenue ton (W/M): the greater of cubic metres and tonnes, over everything that sticks out.

Whole thousandths throughout: 4.85 × 1.95 × 1.40 m = 13.241 m³; with 1.7 t the vehicle is 13.241 revenue tons.
"""

import numpy as np

from shipcalc.money import Int64, half_up

CUBIC_MM_PER_THOUSANDTH = 1_000_000
GRAMS_PER_THOUSANDTH = 1_000


def volume_thousandths(length_mm: Int64, width_mm: Int64, height_mm: Int64) -> Int64:
    """Return cubic metres in thousandths, half up."""
    return half_up(length_mm * width_mm * height_mm, CUBIC_MM_PER_THOUSANDTH)


def revenue_tons_thousandths(length_mm: Int64, width_mm: Int64, height_mm: Int64, mass_grams: Int64) -> Int64:
    """Return revenue tons in thousandths: the greater of volume (m³) and mass (t)."""
    mass = half_up(mass_grams, GRAMS_PER_THOUSANDTH)
    larger: Int64 = np.maximum(volume_thousandths(length_mm, width_mm, height_mm), mass)
    return larger
