"""Figures that a slipped point has made ten or a hundred times what stands beside them, or as many times less."""

from collections.abc import Iterator, Sequence
from statistics import median

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import warning
from shipcalc.ratebook.rows.pricing_settings import currency_of
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import Row, columns_of
from shipcalc.ratebook.workbook.written import as_shown
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Comparable:
    """Figures of a sheet that are of one size among rows that are alike in some fields."""

    rows: str
    alike: tuple[str, ...]
    figures: tuple[str, ...]


FEWEST_OTHERS = 3
# Neighbours lie within this factor of their middle; a figure is odd beyond it from all of them, and fits once it is moved.
_WIDE, _CLOSE = 3, 2
_SHIFTS = ((10, "ten times", "a tenth of"), (100, "a hundred times", "a hundredth of"))


def figures_are_of_one_size(tables: Tables) -> Iterator[Problem]:
    """A figure is of the size of its neighbours: a carrier's bands, a trailer's carriers, a scheme's prices, all bodies."""
    currency = currency_of(tables.settings)
    kinds = {kind.rows: kind for kind in SHEETS}
    for told in COMPARED:
        if told.rows in kinds:
            for group in _groups(getattr(tables, told.rows), told.alike):
                for field in told.figures:
                    yield from _odd_ones(group, field, currency)


def _groups(rows: Sequence[Row], alike: tuple[str, ...]) -> Iterator[list[Row]]:
    groups: dict[tuple[object, ...], list[Row]] = {}
    for row in rows:
        groups.setdefault(tuple(getattr(row, field) for field in alike), []).append(row)
    yield from groups.values()


def _odd_ones(rows: Sequence[Row], field: str, currency: str) -> Iterator[Problem]:
    known = [(row, float(value)) for row in rows if (value := getattr(row, field))]
    if len(known) <= FEWEST_OTHERS:
        return
    # One figure moves the middle of all little: only those far from it are looked at closely.
    of_all = median(figure for _, figure in known)
    for row, figure in known:
        if of_all * 2 / _WIDE <= figure <= of_all * _WIDE / 2:
            continue
        others = [other for neighbour, other in known if neighbour is not row]
        middle = median(others)
        near = [other for other in others if middle / _WIDE <= other <= middle * _WIDE]
        if 2 * len(near) >= len(others):
            yield from _slipped(row, field, figure, (min(near), max(near)), currency)


def _slipped(row: Row, field: str, figure: float, near: tuple[float, float], currency: str) -> Iterator[Problem]:
    low, high = near
    if low / _WIDE <= figure <= high * _WIDE:
        return
    column = columns_of(type(row))[field]

    def told(value: float) -> str:
        kept = value if isinstance(getattr(row, field), float) else round(value)
        return as_shown(kept, column, currency)

    for times, more, less in _SHIFTS:
        for meant, how in ((figure / times, more), (figure * times, less)):
            if low / _CLOSE <= meant <= high * _CLOSE:
                beside = told(low) if low == high else f"{told(low)} to {told(high)}"
                message = f"{told(figure)} is about {how} what stands beside it ({beside})"
                yield warning(row, field, message, f"write {told(meant)} if the point has slipped")
                return


COMPARED = (
    Comparable("carriers", ("trailer", "currency"), ("base_minor", "minimum_minor")),
    Comparable("carriers", (), ("longest_mm", "widest_mm", "highest_mm", "lowest_clearance_mm")),
    Comparable("bands", ("carrier", "trailer"), ("rate_e4",)),
    Comparable("fuel", ("scheme",), ("price_e4", "peg_e4", "miles_per_gallon", "step_e4", "step_percent_ppm")),
    Comparable("diesel", ("region",), ("price_e4",)),
    Comparable("fuel_steps", ("scheme",), ("from_price_e4", "percent_ppm", "rate_e4")),
    Comparable("ocean", ("mode",), ("sails_every_days",)),
    Comparable("sizes", (), ("length_mm", "width_mm", "height_mm", "clearance_mm", "mass_grams")),
    Comparable("ocean", ("mode", "basis"), ("base_e4", "per_nmi_e4", "minimum_minor")),
    Comparable("on_carriage", ("trailer",), ("base_minor", "rate_e4")),
    Comparable("currencies", ("currency",), ("rate",)),
)
CHECKS = (figures_are_of_one_size,)
