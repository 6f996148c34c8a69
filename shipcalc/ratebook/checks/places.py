"""What must be true of areas and road factors, and of typical sizes."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.ratebook.workbook.misread import nearest
from shipcalc.ratebook.workbook.region_codes import SUBDIVISIONS

LEAST_FACTOR, GREATEST_FACTOR = 1.0, 3.0
_PLACES_WITH_ZIPS = ("US", "PR", "GU", "VI", "AS", "MP")


def states_belong_to_their_country(tables: Tables) -> Iterator[Problem]:
    """A state is one of its country's."""
    for row in tables.areas:
        known = SUBDIVISIONS.get(row.country)
        if row.state is not None and known is not None and row.state not in known:
            near = nearest(row.state, known) if len(row.state) <= 3 else None
            remedy = f"write its two letters, e.g. {near}" if near else "write its two letters, e.g. WA"
            yield fault(row, "state", f'"{row.state}" is not a state of {row.country}', remedy)


def zips_rise(tables: Tables) -> Iterator[Problem]:
    """A range of ZIPs begins before it ends, and only the United States and its territories have ZIPs."""
    for row in tables.areas:
        if row.zip_from is None and row.zip_to is not None:
            yield fault(row, "zip_from", '"ZIP from" is empty, although "ZIP to" is filled', "fill it, or clear both")
        elif row.zip_from is not None and row.country not in _PLACES_WITH_ZIPS:
            message = f"{row.country} has no ZIPs"
            yield fault(row, "zip_from", message, "clear the cell, or write US under Country")
        elif (
            row.zip_from is not None
            and row.zip_to is not None
            and row.zip_to.ljust(5, "9") < row.zip_from.ljust(5, "0")
        ):
            message = f"the ZIPs end with {row.zip_to}, before they begin with {row.zip_from}"
            yield fault(row, "zip_to", message, "swap the two")


def factors_are_likely(tables: Tables) -> Iterator[Problem]:
    """A road is never shorter than the straight line, and hardly ever three times as long."""
    for row in tables.road_factors:
        if row.factor is None and row.road_mi is None:
            message = 'the row has neither "Factor" nor "Road miles"'
            yield fault(row, "factor", message, "fill one of the two, e.g. 1.20 under Factor")
        elif row.factor is not None and row.road_mi is not None:
            message = 'the row has both "Factor" and "Road miles"'
            yield fault(row, "road_mi", message, "clear one of the two")
        elif row.factor is not None and not LEAST_FACTOR <= row.factor <= GREATEST_FACTOR:
            message = f"{row.factor:g} is not between {LEAST_FACTOR:g} and {GREATEST_FACTOR:g}"
            yield fault(row, "factor", message, "write road miles divided by straight-line miles, e.g. 1.20")
        elif row.road_mi == 0:
            yield fault(row, "road_mi", "the lane is zero miles long", "write its road miles, or clear the row")


def factor_ranges_rise(tables: Tables) -> Iterator[Problem]:
    """A range of distances ends after it begins."""
    for row in tables.road_factors:
        if row.over_mi is not None and row.up_to_mi is not None and row.up_to_mi <= row.over_mi:
            message = '"Up to (mi)" is not above "Over (mi)", so the row never holds'
            yield fault(row, "up_to_mi", message, "swap the two, or clear one")


def known_lanes_have_two_ends(tables: Tables) -> Iterator[Problem]:
    """Road miles that somebody knows belong to one lane, which has two ends."""
    for row in tables.road_factors:
        if row.road_mi is not None and (row.from_place is None or row.to_place is None):
            field = "from_place" if row.from_place is None else "to_place"
            message = f'"Road miles" needs both ends of the lane, and "{columns_of(RoadFactor)[field].header}" is empty'
            yield fault(row, field, message, "fill it, or write a factor instead of the miles")


def factors_stand_once(tables: Tables) -> Iterator[Problem]:
    """Two places have one factor for a distance."""
    first: dict[object, RoadFactor] = {}
    for row in tables.road_factors:
        ends = tuple(sorted((row.from_place or "", row.to_place or "")))
        earlier = first.setdefault((ends, row.over_mi, row.up_to_mi), row)
        if earlier is not row:
            where = short_cell(earlier, "from_place")
            message = f"the same places and distances stand already at {where}"
            yield fault(row, "from_place", message, "remove one of the two rows")


def factors_have_sources(tables: Tables) -> Iterator[Problem]:
    """A figure that decides a price says where it is from."""
    for row in tables.road_factors:
        if row.source is None:
            yield warning(row, "source", "the factor has no source", 'name it; "own estimate" is one too')


def sizes_are_above_zero(tables: Tables) -> Iterator[Problem]:
    """A body has a length, a width, a height and a weight."""
    columns = columns_of(VehicleSize)
    for row in tables.sizes:
        for field in ("length_mm", "width_mm", "height_mm", "mass_grams"):
            if getattr(row, field) == 0:
                header = columns[field].header
                yield fault(row, field, f'"{header}" is zero', f"write its size, e.g. {columns[field].example}")


CHECKS = (
    states_belong_to_their_country,
    zips_rise,
    factors_are_likely,
    factor_ranges_rise,
    known_lanes_have_two_ends,
    factors_stand_once,
    factors_have_sources,
    sizes_are_above_zero,
)
