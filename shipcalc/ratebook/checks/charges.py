"""What must be true of charges: extra charges, charges of areas, seasons, fuel."""

from collections.abc import Iterator, Mapping
from datetime import timedelta

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import Column, Row, columns_of
from shipcalc.vehicles.vehicle import WORKS

AMOUNT_OF = {"flat": "amount_minor", "percent": "percent_ppm", "per mile": "rate_e4"}

RANGES = (
    ("length_over_mm", "length_up_to_mm"),
    ("width_over_mm", "width_up_to_mm"),
    ("height_over_mm", "height_up_to_mm"),
    ("clearance_over_mm", "clearance_up_to_mm"),
    ("mass_over_grams", "mass_up_to_grams"),
    ("value_over_minor", "value_up_to_minor"),
)


def charges_have_their_amount(tables: Tables) -> Iterator[Problem]:
    """A charge has the amount that its kind names, and no other."""
    for row in tables.extras:
        yield from _amounts(row, row.charge)
    for area in tables.areas:
        if area.charge is not None:
            yield from _amounts(area, area.charge)


def _amounts(row: ExtraCharge | Area, charge: str) -> Iterator[Problem]:
    columns = columns_of(type(row))
    for kind, field in AMOUNT_OF.items():
        header, value = columns[field].header, getattr(row, field)
        if kind == charge and value is None:
            yield fault(row, field, f'the charge is {charge}, but "{header}" is empty', f'fill "{header}"')
        elif kind != charge and value is not None:
            message = f'the charge is {charge}, so "{header}" has no meaning here'
            yield fault(row, field, message, f'clear the cell, or write {kind} under "{columns["charge"].header}"')


def bases_belong_to_percentages(tables: Tables) -> Iterator[Problem]:
    """Only a percentage is taken of something."""
    for row in tables.extras:
        if row.of is not None and row.charge != "percent":
            message = f'the charge is {row.charge}, so it is not taken of "{row.of}"'
            yield fault(row, "of", message, "clear the cell, or write percent under Charge")


def ranges_rise(tables: Tables) -> Iterator[Problem]:
    """What is over one size and up to another needs the second to be larger, or nothing is ever in between."""
    columns = columns_of(ExtraCharge)
    for row in tables.extras:
        for low, high in RANGES:
            over, up_to = getattr(row, low), getattr(row, high)
            if over is not None and up_to is not None and up_to <= over:
                message = f'"{columns[high].header}" is not above "{columns[low].header}", so the row never holds'
                yield fault(row, high, message, "swap the two, or clear one")


def area_charges_are_whole(tables: Tables) -> Iterator[Problem]:
    """A charge of an area says where it falls, what it is called and how much it is."""
    columns = columns_of(Area)
    for row in tables.areas:
        told = [field for field in ("applies_at", "label", "charge") if getattr(row, field) is not None]
        amounts = [field for field in AMOUNT_OF.values() if getattr(row, field) is not None]
        if told == ["label"] and not amounts:
            yield warning(row, "label", "a label without a charge is never read", "clear the cell, or add the charge")
        elif told or amounts:
            for field in ("applies_at", "label", "charge"):
                if getattr(row, field) is None:
                    header = columns[field].header
                    message = f'the row has a charge, but "{header}" is empty'
                    yield fault(row, field, message, f'fill "{header}", or clear {_others(columns, told + amounts)}')


def _others(columns: Mapping[str, Column], fields: list[str]) -> str:
    headers = [f'"{columns[field].header}"' for field in fields]
    return " and ".join(headers)


def seasons_end_after_they_begin(tables: Tables) -> Iterator[Problem]:
    """A season ends after it begins; one over New Year ends in the next year."""
    for row in tables.seasons:
        if row.last_day < row.first_day:
            message = f"the season ends on {row.last_day}, before it begins on {row.first_day}"
            yield fault(row, "last_day", message, "swap the two dates, or write the next year")
        elif row.every_year and row.last_day - row.first_day >= timedelta(days=366):
            message = "the season lasts more than a year and yet comes every year"
            yield fault(row, "last_day", message, "correct the year, or write no under Every year")


def fuel_schemes_are_whole(tables: Tables) -> Iterator[Problem]:
    """A fuel scheme has what its method needs."""
    for row in tables.fuel:
        if row.method == "step table":
            continue
        yield from _needed(row, "peg_e4")
        if row.method == "per mile":
            yield from _needed(row, "miles_per_gallon")
        else:
            yield from _needed(row, "step_e4")
            yield from _needed(row, "step_percent_ppm")


def _needed(row: FuelScheme, field: str) -> Iterator[Problem]:
    header = columns_of(FuelScheme)[field].header
    value = getattr(row, field)
    if value is None:
        message = f'the method {row.method} needs "{header}", which is empty'
        yield fault(row, field, message, f"fill it, e.g. {columns_of(FuelScheme)[field].example}")
    elif value == 0 and field not in ("step_percent_ppm", "peg_e4"):
        message = f'"{header}" is zero, and the price is divided by it'
        yield fault(row, field, message, f"write a number above zero, e.g. {columns_of(FuelScheme)[field].example}")


def fuel_prices_stand_once(tables: Tables) -> Iterator[Problem]:
    """A fuel scheme has one price a day."""
    first: dict[tuple[str, object], Row] = {}
    for row in tables.fuel:
        earlier = first.setdefault((row.scheme.casefold(), row.as_of), row)
        if earlier is not row:
            where = short_cell(earlier, "as_of")
            day = f"a price of {row.as_of}" if row.as_of else "a row without a day"
            message = f'"{row.scheme}" has {day} already at {where}'
            yield fault(row, "as_of", message, "correct the date, or remove one of the two rows")


def driven_vehicles_work(tables: Tables) -> Iterator[Problem]:
    """A charge for what is driven on its own wheels never arises for what does not run, roll, steer or brake."""
    for row in tables.extras:
        for work in WORKS if row.trailer == "driven" else ():
            if getattr(row, work) is False:
                header = columns_of(type(row))[work].header
                message = f'nobody drives a vehicle with "{header}": no, so this is never charged'
                yield warning(row, work, message, "clear the cell, or write another trailer")


CHECKS = (
    charges_have_their_amount,
    bases_belong_to_percentages,
    ranges_rise,
    driven_vehicles_work,
    area_charges_are_whole,
    seasons_end_after_they_begin,
    fuel_schemes_are_whole,
    fuel_prices_stand_once,
)
