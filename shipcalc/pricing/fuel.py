"""Fuel surcharges: per mile, (price − peg) ÷ miles per gallon; or a percentage for each started step above the peg.

The step method is that of published freight tables (US General Services Administration, Freight Management Program:
no surcharge up to 2.50 dollars a gallon, then 1 % for each started 0.13). Prices are whole ten-thousandths of a dollar, because
binary fractions give a wrong step at prices such as 2.89.
"""

from collections.abc import Iterable
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from shipcalc.money import from_e4
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class FuelCharge:
    """What a scheme comes to on a day: dollars a mile (`rate_e4`) or a percentage of linehaul (`percent_ppm`)."""

    row: FuelScheme
    rate_e4: int
    percent_ppm: int

    @property
    def label(self) -> str:
        """Return what the buyer reads."""
        return f"Fuel surcharge (diesel at {from_e4(self.row.price_e4)} a gallon on {self.row.as_of.isoformat()})"


def fuel_charges(rows: Iterable[FuelScheme], day: date) -> dict[str, FuelCharge]:
    """Return for each scheme, by its name in lower case, the charge from its latest price not after `day`."""
    latest: dict[str, FuelScheme] = {}
    for row in rows:
        name = row.scheme.casefold()
        if row.as_of <= day and (name not in latest or row.as_of > latest[name].as_of):
            latest[name] = row
    return {name: fuel_charge(row) for name, row in latest.items()}


def fuel_charge(row: FuelScheme) -> FuelCharge:
    """Return the charge that one row of the sheet Fuel comes to."""
    above_e4 = max(0, row.price_e4 - row.peg_e4)
    if row.method == "per mile":
        assert row.miles_per_gallon is not None, "the rate book's check lets no such row through"
        return FuelCharge(row, rate_e4_a_mile(above_e4, row.miles_per_gallon), 0)
    assert row.step_e4 is not None
    assert row.step_percent_ppm is not None
    return FuelCharge(row, 0, started_steps(above_e4, row.step_e4) * row.step_percent_ppm)


def started_steps(above_e4: int, step_e4: int) -> int:
    """Return the number of started steps: 0.0001 above is one, exactly a step is one."""
    return -(-above_e4 // step_e4)


def rate_e4_a_mile(above_e4: int, miles_per_gallon: float) -> int:
    """Return the surcharge a mile, half up to a ten-thousandth of a dollar: 2.60 above ÷ 6.5 mpg = 0.40."""
    exact = Decimal(above_e4) / Decimal(repr(miles_per_gallon))
    return int(exact.quantize(Decimal(1), ROUND_HALF_UP))
