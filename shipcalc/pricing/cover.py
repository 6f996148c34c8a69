"""Marine cargo cover: the insured sum that contains its own premium.

Under CIF and CIP the insured sum is 110 % of the contract price, which contains the premium. With u the insured share, r the
rate and C + F the value with carriage:

    CIF = (C + F) / (1 − u·r)        insured sum = u · CIF        premium = r · insured sum

One worked number: C + F = 50,000, u = 110 %, r = 1 %: CIF = 50,556.12, premium 556.12. Cover is passed on at cost.
"""

from collections.abc import Iterator

import numpy as np

from shipcalc.money import PPM, Int64, half_up, share
from shipcalc.pricing.line import Line
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.trade import SHIP, Called

STAGE = "cargo insurance"

# u·r in billionths keeps amounts up to LARGEST_MINOR inside 63 bits: 10^12 × 10^6 would not.
BILLION = 1_000_000_000


def insured_sum(value_and_carriage_minor: Int64, *, insured_ppm: int, rate_ppm: int) -> Int64:
    """Return the sum insured, in minor units, for columns of value with carriage.

    `insured_ppm` is the insured share (1_100_000 for 110 %) of value, carriage and premium together, `rate_ppm` the rate.
    """
    load = half_up(insured_ppm * rate_ppm, PPM * PPM // BILLION)
    assert load < BILLION, "a premium that eats the whole price is not a rate"
    price = value_and_carriage_minor + half_up(value_and_carriage_minor * load, BILLION - load)
    return half_up(price * insured_ppm, PPM)


def premium(value_and_carriage_minor: Int64, *, insured_ppm: int, rate_ppm: int, minimum_minor: int = 0) -> Int64:
    """Return the premium of that sum, in minor units; never less than the minimum."""
    exact = share(insured_sum(value_and_carriage_minor, insured_ppm=insured_ppm, rate_ppm=rate_ppm), rate_ppm)
    return np.maximum(exact, minimum_minor)


def cover_lines(row: MarineCover, value_and_carriage_minor: Int64, called: Called = SHIP) -> Iterator[Line]:
    """Yield the premium for the whole shipment, and what is missing to its minimum, over m ways of carriage (1, m)."""
    what = f"{called.cargo_cover[:1].upper()}{called.cargo_cover[1:]}"
    insured = insured_sum(value_and_carriage_minor, insured_ppm=row.insured_ppm, rate_ppm=row.rate_ppm)
    insured = insured[np.newaxis, :]
    amount = share(insured, row.rate_ppm)
    yield Line(
        code="cover.premium",
        label=f"{what}, conditions {row.conditions}, on {row.insured_ppm / 10_000:g} % of price and carriage",
        unit="%",
        quantity=insured,
        rate=row.rate_ppm,
        amount=amount,
        cell=row.at.cell("rate_ppm"),
        stage=STAGE,
        shared=True,
    )
    missing = np.maximum(row.minimum_minor - amount, 0)
    if missing.any():
        yield Line(
            code="cover.minimum",
            label="Top-up to the minimum premium",
            unit="lump",
            quantity=np.ones((1, 1), dtype=np.int64),
            rate=missing,
            amount=missing,
            cell=row.at.cell("minimum_minor"),
            stage=STAGE,
            shared=True,
        )
