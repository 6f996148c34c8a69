"""Marine cargo cover: the premium that insures itself.

Under CIF and CIP the insured sum is 110 % of the contract price, which contains the premium. With u the insured share, r the
rate and C + F the value with carriage:

    CIF = (C + F) / (1 − u·r)        premium = CIF − (C + F) = (C + F) · u·r / (1 − u·r)

One worked number: C + F = 50,000, u = 110 %, r = 1 %: CIF = 50,556.12, premium 556.12.
"""

import numpy as np

from shipcalc.money import PPM, Int64, half_up

# u·r in billionths keeps amounts up to LARGEST_MINOR inside 63 bits: 10^12 × 10^6 would not.
BILLION = 1_000_000_000


def premium(value_and_carriage_minor: Int64, *, insured_ppm: int, rate_ppm: int, minimum_minor: int = 0) -> Int64:
    """Return the premium, in minor units, for columns of value with carriage.

    `insured_ppm` is the insured share (1_100_000 for 110 %), `rate_ppm` the rate of the insured sum.
    """
    load = half_up(insured_ppm * rate_ppm, PPM * PPM // BILLION)
    assert load < BILLION, "a premium that eats the whole price is not a rate"
    exact = half_up(value_and_carriage_minor * load, BILLION - load)
    return np.maximum(exact, minimum_minor)


def insured_sum(value_and_carriage_minor: Int64, premium_minor: Int64, *, insured_ppm: int) -> Int64:
    """Return the sum insured: the insured share of value, carriage and premium together."""
    return half_up((value_and_carriage_minor + premium_minor) * insured_ppm, PPM)
