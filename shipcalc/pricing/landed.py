"""Duty and tax on the buyer's side, as the rows of the sheet Import charges state them: always estimates.

Members of the World Trade Organization may count carriage and insurance into the customs value or leave them out (Valuation
Agreement, article 8.2): each row names its base.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.money import PPM, Int64, half_up, share
from shipcalc.pricing.facts import vehicle_facts
from shipcalc.pricing.line import Line
from shipcalc.ratebook.decisions import holds, questions_of
from shipcalc.records import dataclass, replace
from shipcalc.vehicles.vehicle import Vehicle

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.imports import ImportCharge


# A country that no row names (ISO 3166-1 leaves these letters to users).
ELSEWHERE = "ZZ"


@dataclass(frozen=True, slots=True, kw_only=True)
class Landed:
    """What a vehicle has cost on its way, as columns (m,) in minor units, for m routes.

    `fob`: price and everything until it is on the ship. `freight` and `insurance` to the border. `onward`: from the border to the
    first destination.
    """

    fob: Int64
    freight: Int64
    insurance: Int64
    onward: Int64


def applying_import_charges(
    rows: "Iterable[ImportCharge]", vehicle: Vehicle, *, country: str, treatment: str, day: date
) -> "tuple[ImportCharge, ...]":
    """Return the rows of the country and treatment ("ordinary", "collector" or "preference") whose conditions it meets."""
    told = vehicle_facts(vehicle, aged_on=day) | {"to_country": country, "treatment": treatment, "day": day}
    return tuple(row for row in rows if holds(row, told))


def dearest_origin(
    rows: "Sequence[ImportCharge]",
    vehicle: Vehicle,
    *,
    country: str,
    day: date,
    local_minor: "Callable[[Sequence[ImportCharge]], Mapping[str, int]]",
) -> Vehicle:
    """Return a vehicle of which nobody knows where it was built as it is dearest, where what is asked hangs on that.

    Compared on its value alone. What was built in a country, and is asked less with proof of that, is such a country too.
    """
    origins = sorted({code.upper() for row in rows for code in (*row.built_in, *row.not_built_in)})
    if knows_origin(vehicle) or not origins:
        return vehicle

    def asked(own: Vehicle) -> int:
        applying = applying_import_charges(rows, own, country=country, treatment="ordinary", day=day)
        return sum_on_value(applying, own, local_minor(applying))

    elsewhere = replace(vehicle, built_in=ELSEWHERE)
    cases = [elsewhere, *(replace(vehicle, built_in=code) for code in origins)]
    dearest = max(cases, key=asked)  # of equals the first
    return vehicle if asked(dearest) <= asked(vehicle) else dearest


def knows_origin(vehicle: Vehicle) -> bool:
    """Return whether it is known where a vehicle was built: by two letters, since a word that is no country meets no row."""
    return len(vehicle.built_in) == len(ELSEWHERE)


def sum_on_value(rows: "Sequence[ImportCharge]", vehicle: Vehicle, local_minor: Mapping[str, int]) -> int:
    """Return what rows ask of a vehicle's value alone, without carriage and cover, in minor units."""
    nothing = np.zeros(1, dtype=np.int64)
    alone = Landed(fob=nothing + (vehicle.value_minor or 0), freight=nothing, insurance=nothing, onward=nothing)
    return sum(int(line.amount[0, 0]) for line in import_lines(rows, alone, local_minor=local_minor))


def asks_of_vehicle(row: "ImportCharge") -> bool:
    """Return whether a row has any condition that some vehicle may not meet."""
    return any(questions_of(row, ("vehicle",)))


def import_lines(rows: "Iterable[ImportCharge]", landed: Landed, *, local_minor: Mapping[str, int]) -> tuple[Line, ...]:
    """Return one line for each row, in order; later rows count on the amounts of earlier ones.

    `local_minor` gives, for each sum in local currency that a row names (by the code of the row), the same sum in minor units of
    the quote's currency.
    """
    duty, tax = np.zeros_like(landed.fob), np.zeros_like(landed.fob)
    lines = []
    for row in rows:
        if row.percent_ppm is None:
            amount = np.full_like(landed.fob, local_minor[row.code])
            unit, quantity, rate = "lump", np.ones_like(landed.fob), local_minor[row.code]
            cell = row.at.cell("flat")
        else:
            quantity = _base(row.base or "CIF", landed, duty, tax)
            if row.above is not None:
                quantity = np.maximum(quantity - local_minor[row.code], 0)
            unit, rate, cell = "%", row.percent_ppm, row.at.cell("percent_ppm")
            amount = share(quantity, rate)
        if row.kind == "duty":
            duty = duty + amount
        else:
            tax = tax + amount
        lines.append(
            Line(
                code=f"import.{row.code}",
                label=row.label,
                unit=unit,
                quantity=quantity[np.newaxis, :],
                rate=rate,
                amount=amount[np.newaxis, :],
                note=f"Source: {row.source}." if row.source else "",
                cell=cell,
            )
        )
    return tuple(lines)


def in_currency(local: float, units_for_one: float, decimals: int) -> int:
    """Return a sum in local currency as minor units of the quote's, half up; `units_for_one` buys one of the quote's."""
    exact = Decimal(repr(local)) / Decimal(repr(units_for_one))
    return int(exact.scaleb(decimals).quantize(Decimal(1), ROUND_HALF_UP))


def _base(name: str, landed: Landed, duty: Int64, tax: Int64) -> Int64:
    cif = landed.fob + landed.freight + landed.insurance
    match name:
        case "FOB":
            return landed.fob
        case "CIF":
            return cif
        case "FOB and duty":
            return landed.fob + duty
        case "CIF and duty":
            return cif + duty
        case "CIF, duty and onward carriage":
            return cif + duty + landed.onward
        case "CIF, duty and tax":
            return cif + duty + tax
        case "FOB + 10 % and duty":
            return half_up(landed.fob * (PPM + PPM // 10), PPM) + duty
    raise AssertionError(f"unknown base {name!r}: the rate book's check lets none through")
