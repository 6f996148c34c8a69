"""Fuel surcharges: per mile, (price − peg) ÷ miles per gallon; a percentage for each started step above the peg; or a table.

The step method is that of published freight tables (US General Services Administration, Freight Management Program:
no surcharge up to 2.50 dollars a gallon, then 1 % for each started 0.13). Prices are whole ten-thousandths of a dollar, because
binary fractions give a wrong step at prices such as 2.89.

The price of diesel is one for all schemes, or a region's (sheet Diesel); a scheme's row may have one of its own.
"""

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from shipcalc.money import from_e4
from shipcalc.ratebook.rows.diesel import DieselPrice, region_key
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.fuel_steps import FuelStep
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class FuelCharge:
    """What a scheme comes to on a day: dollars a mile (`rate_e4`) or a percentage of linehaul (`percent_ppm`).

    `price_e4` is the price of diesel that it goes by, with its day and the `cell` it stands in.
    """

    row: FuelScheme
    price_e4: int
    as_of: date
    cell: str
    rate_e4: int
    percent_ppm: int

    @property
    def label(self) -> str:
        """Return what the buyer reads."""
        return f"Fuel surcharge (diesel at {from_e4(self.price_e4)} a gallon on {self.as_of.isoformat()})"


def fuel_charges(
    rows: Iterable[FuelScheme], day: date, diesel: Sequence[DieselPrice] = (), steps: Sequence[FuelStep] = ()
) -> dict[str, FuelCharge]:
    """Return for each scheme, by its name in lower case, the charge of its latest row not after `day`.

    A scheme that no price of diesel is known for has none.
    """
    latest: dict[str, FuelScheme] = {}
    for row in rows:
        name = row.scheme.casefold()
        begins = row.as_of or date.min
        if begins <= day and (name not in latest or begins > (latest[name].as_of or date.min)):
            latest[name] = row
    charges = {name: fuel_charge(row, price_for(row, diesel, day), steps) for name, row in latest.items()}
    return {name: charge for name, charge in charges.items() if charge is not None}


def price_for(row: FuelScheme, diesel: Sequence[DieselPrice], day: date) -> DieselPrice | None:
    """Return the latest price of the sheet Diesel, not after `day`, that a scheme's row goes by; None where there is none."""
    if row.price_e4 is not None:
        return None
    region = region_key(row.diesel_region)
    own = (price for price in diesel if price.key == region and price.as_of <= day)
    return max(own, key=lambda price: price.as_of, default=None)


def fuel_charge(row: FuelScheme, price: DieselPrice | None = None, steps: Sequence[FuelStep] = ()) -> FuelCharge | None:
    """Return what one row of the sheet Fuel comes to at its own price, else at that of the sheet Diesel; None without either."""
    if row.price_e4 is not None:
        assert row.as_of is not None, "the rate book's check lets no price without its day through"
        price_e4, as_of, cell = row.price_e4, row.as_of, row.at.cell("price_e4")
    elif price is not None:
        price_e4, as_of, cell = price.price_e4, price.as_of, price.at.cell("price_e4")
    else:
        return None
    rate_e4, percent_ppm = _surcharge(row, price_e4, steps)
    return FuelCharge(row, price_e4, as_of, cell, rate_e4, percent_ppm)


def _surcharge(row: FuelScheme, price_e4: int, steps: Sequence[FuelStep]) -> tuple[int, int]:
    """Return dollars a mile and the percentage that a scheme asks at a price of diesel: one of them is nothing."""
    if row.method == "step table":
        step = step_at(row.scheme, price_e4, steps)
        return (0, 0) if step is None else (step.rate_e4 or 0, step.percent_ppm or 0)
    assert row.peg_e4 is not None, "the rate book's check lets no such row through"
    above_e4 = max(0, price_e4 - row.peg_e4)
    if row.method == "per mile":
        assert row.miles_per_gallon is not None, "the rate book's check lets no such row through"
        return rate_e4_a_mile(above_e4, row.miles_per_gallon), 0
    assert row.step_e4 is not None
    assert row.step_percent_ppm is not None
    return 0, started_steps(above_e4, row.step_e4) * row.step_percent_ppm


def step_at(scheme: str, price_e4: int, steps: Sequence[FuelStep]) -> FuelStep | None:
    """Return the row of a scheme's table that a price of diesel falls in; None below the first."""
    reached = (row for row in steps if row.scheme.casefold() == scheme.casefold() and row.from_price_e4 <= price_e4)
    return max(reached, key=lambda row: row.from_price_e4, default=None)


def started_steps(above_e4: int, step_e4: int) -> int:
    """Return the number of started steps: 0.0001 above is one, exactly a step is one."""
    return -(-above_e4 // step_e4)


def rate_e4_a_mile(above_e4: int, miles_per_gallon: float) -> int:
    """Return the surcharge a mile, half up to a ten-thousandth of a dollar: 2.60 above ÷ 6.5 mpg = 0.40."""
    exact = Decimal(above_e4) / Decimal(repr(miles_per_gallon))
    return int(exact.quantize(Decimal(1), ROUND_HALF_UP))
