"""What must be true of a carrier's own table of fuel surcharges."""

from collections.abc import Iterator
from itertools import pairwise

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.fuel_steps import FuelStep
from shipcalc.ratebook.rows.tables import Tables

STEP_TABLE = "step table"


def steps_have_one_charge(tables: Tables) -> Iterator[Problem]:
    """A step is a percentage or dollars a mile, and all steps of a scheme are the same of the two."""
    for row in tables.fuel_steps:
        if (row.percent_ppm is None) == (row.rate_e4 is None):
            what = "says neither a percentage nor dollars" if row.rate_e4 is None else "says a percentage and dollars"
            yield fault(row, "percent_ppm", f"the row {what} a mile", "fill one of the two; 0 is no surcharge")
    for steps in _tables_of(tables).values():
        for row in steps[1:]:
            if _is_percent(row) != _is_percent(steps[0]) and (row.percent_ppm is None) != (row.rate_e4 is None):
                field = "percent_ppm" if _is_percent(row) else "rate_e4"
                where = short_cell(steps[0], "percent_ppm" if _is_percent(steps[0]) else "rate_e4")
                yield warning(row, field, f"the first row of this table is the other kind ({where})", "use one kind")


def steps_stand_once(tables: Tables) -> Iterator[Problem]:
    """A price of diesel begins one step of a scheme."""
    for steps in _tables_of(tables).values():
        for one, later in pairwise(steps):
            if one.from_price_e4 == later.from_price_e4:
                message = f"this price begins a step already at {short_cell(one, 'from_price_e4')}"
                yield fault(later, "from_price_e4", message, "correct the price, or remove one of the two rows")


def steps_do_not_fall(tables: Tables) -> Iterator[Problem]:
    """Dearer diesel never means a lower surcharge: where it does, one of two figures has slipped."""
    for steps in _tables_of(tables).values():
        for one, later in pairwise(steps):
            if _is_percent(one) == _is_percent(later) and _charge(later) < _charge(one):
                field = "percent_ppm" if _is_percent(later) else "rate_e4"
                message = f"the surcharge is lower than at the lower price in {short_cell(one, field)}"
                yield warning(later, field, message, "correct the figure, or the price it begins at")


def tables_and_schemes_belong_together(tables: Tables) -> Iterator[Problem]:
    """A scheme that goes by a table has one, and a table is gone by."""
    with_steps = _tables_of(tables)
    methods = {row.scheme.casefold(): row.method for row in tables.fuel}
    for row in tables.fuel:
        if row.method != STEP_TABLE or tables.may_stand_in("Fuel steps", row.scheme):
            continue
        if row.scheme.casefold() not in with_steps:
            message = f'"{row.scheme}" goes by a step table, and the sheet Fuel steps has no row of it'
            yield fault(row, "method", message, "add its rows there, or write another method")
    for name, steps in with_steps.items():
        if name in methods and methods[name] != STEP_TABLE:
            message = f'"{steps[0].scheme}" goes by the method {methods[name]} on the sheet Fuel, so that its table is not used'
            yield warning(steps[0], "scheme", message, f"write {STEP_TABLE} there, or remove the table")


def _tables_of(tables: Tables) -> dict[str, list[FuelStep]]:
    """Return the steps of each scheme, the lowest price first."""
    found: dict[str, list[FuelStep]] = {}
    for row in tables.fuel_steps:
        found.setdefault(row.scheme.casefold(), []).append(row)
    return {name: sorted(steps, key=lambda row: row.from_price_e4) for name, steps in found.items()}


def _is_percent(row: FuelStep) -> bool:
    return row.percent_ppm is not None


def _charge(row: FuelStep) -> int:
    return (row.percent_ppm or 0) if _is_percent(row) else (row.rate_e4 or 0)


CHECKS = (steps_have_one_charge, steps_stand_once, steps_do_not_fall, tables_and_schemes_belong_together)
