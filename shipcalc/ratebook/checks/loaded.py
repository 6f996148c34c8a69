"""What must be true of the sheets Vehicles loaded and Markups."""

from collections.abc import Iterator
from itertools import pairwise

from shipcalc.errors import Problem
from shipcalc.money import PPM
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.markups import MarkupRow
from shipcalc.ratebook.rows.pricing_settings import read_settings
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.vehicles_loaded import VehiclesLoaded
from shipcalc.ratebook.workbook.columns import columns_of

# A markup that is farther from the usual one than this is told: a point has slipped, or a sign (our own rule).
_FAR_PPM = 250_000
_SAID = ("linehaul_ppm", "fuel_ppm", "extras_ppm", "ocean_ppm", "port_ppm", "least_minor")
_AT_SEA = ("ocean_ppm", "port_ppm")


def loads_say_one_price(tables: Tables) -> Iterator[Problem]:
    """A row says what each vehicle pays, or what each pays less; of one vehicle there is nothing to say."""
    for row in tables.loaded:
        if (row.percent_ppm is None) == (row.less_minor is None):
            what = "says neither a share nor a sum" if row.percent_ppm is None else "says a share and a sum"
            yield fault(row, "percent_ppm", f"the row {what}", "fill Each at, or Each less by")
        if row.vehicles < 2:
            message = "one vehicle pays what the carrier's other rows say"
            yield fault(row, "vehicles", message, "write from how many vehicles on it holds, 2 or more")
        if row.percent_ppm is not None and not 0 < row.percent_ppm <= PPM:
            message = f"each would pay {row.percent_ppm / 10_000:g} % of what one pays that goes alone"
            yield warning(row, "percent_ppm", message, "write what each pays, as 90 %, and not what is taken off")


def loads_belong_to_services(tables: Tables) -> Iterator[Problem]:
    """A row is for a service that the carrier has."""
    services = {(row.carrier.casefold(), row.trailer) for row in tables.carriers}
    names = {carrier for carrier, _ in services}
    for row in tables.loaded:
        carrier = (row.carrier or "").casefold()
        known = row.trailer is None or not carrier or (carrier, row.trailer) in services
        if not known and carrier in names and not tables.may_stand_in("Carriers", carrier):
            message = f'"{row.carrier}" has no {row.trailer} trailer on the sheet Carriers'
            yield fault(row, "trailer", message, "write its other trailer, or leave it blank")


def loads_rise(tables: Tables) -> Iterator[Problem]:
    """A number of vehicles stands once in a carrier's table; more vehicles never pay more each."""
    for rows in _tables_of(tables).values():
        for one, later in pairwise(rows):
            if one.vehicles == later.vehicles and _overlap(one, later):
                message = f"{later.vehicles} vehicles stand at {short_cell(one, 'vehicles')} already"
                yield fault(later, "vehicles", message, "correct the number, or remove one of the two rows")
            elif _dearer(one, later):
                field = "percent_ppm" if later.percent_ppm is not None else "less_minor"
                message = f"each pays more than where fewer are loaded ({short_cell(one, field)})"
                yield warning(later, field, message, "correct the figure, or the number of vehicles")


def reductions_stand_once(tables: Tables) -> Iterator[Problem]:
    """What several vehicles pay less is said here or among the extra charges, or it would be taken off twice."""
    extras = [
        row for row in tables.extras if row.vehicles_over is not None and (row.percent_ppm or row.amount_minor or 0) < 0
    ]
    for row in tables.loaded:
        twice = next((e for e in extras if None in (e.carrier, row.carrier) or e.carrier == row.carrier), None)
        if twice is not None:
            message = f'"{twice.label}" takes something off as well ({short_cell(twice, "label")})'
            yield warning(row, "vehicles", message, "leave one of the two, if both are the same reduction")


def markups_say_something(tables: Tables) -> Iterator[Problem]:
    """A row says at least one markup, and stands once; one that is far from the usual one is looked at."""
    first: dict[tuple[str, ...], MarkupRow] = {}
    usual, _ = read_settings(tables.settings, sells_overseas=True)
    for row in tables.markups:
        if all(getattr(row, field) is None for field in _SAID):
            yield warning(row, "linehaul_ppm", "the row says no markup", "fill one, or remove the row")
        elif not any((row.carrier, row.buyer, row.country)):
            yield from _for_all(row)
        for field in _AT_SEA if row.carrier else ():
            if getattr(row, field) is not None:
                message = f"the row is for the trucks of {row.carrier} alone, so this is never added to anything"
                yield warning(row, field, message, "clear it, or write it in a row without a carrier")
        key = tuple((text or "").casefold() for text in (row.carrier, row.buyer, row.country))
        earlier = first.setdefault(key, row)
        if earlier is not row:
            message = f"a row for the same shipments stands at {short_cell(earlier, 'linehaul_ppm')} already"
            yield fault(row, "linehaul_ppm", message, "put the two together")
        for field in _SAID[:-1]:
            told = getattr(row, field)
            set_ppm = getattr(usual, f"markup_{field}")
            if told is not None and abs(told - set_ppm) > _FAR_PPM:
                header = columns_of(MarkupRow)[field].header.lower()
                message = f"{told / 10_000:g} % on {header}, where the sheet Pricing has {set_ppm / 10_000:g} %"
                yield warning(row, field, message, "correct it if a point has slipped")


def _for_all(row: MarkupRow) -> Iterator[Problem]:
    """Yield that a row that names nothing counts in place of the sheet Pricing, where a name may have been lost."""
    field = next((field for field in _SAID[:-1] if getattr(row, field) is not None), None)
    if field is not None:
        message = "the row names no carrier, buyer or country: it counts for all, in place of the sheet Pricing"
        yield warning(row, field, message, "name what it is for, or set the markup on the sheet Pricing")


def _tables_of(tables: Tables) -> dict[tuple[str, str | None], list[VehiclesLoaded]]:
    found: dict[tuple[str, str | None], list[VehiclesLoaded]] = {}
    for row in tables.loaded:
        found.setdefault(((row.carrier or "").casefold(), row.trailer), []).append(row)
    return {key: sorted(rows, key=lambda row: row.vehicles) for key, rows in found.items()}


def _overlap(one: VehiclesLoaded, other: VehiclesLoaded) -> bool:
    ends = (
        row.valid_to and later.valid_from and row.valid_to < later.valid_from
        for row, later in ((one, other), (other, one))
    )
    return not any(ends)


def _dearer(one: VehiclesLoaded, later: VehiclesLoaded) -> bool:
    if one.percent_ppm is not None and later.percent_ppm is not None:
        return later.percent_ppm > one.percent_ppm
    return one.less_minor is not None and later.less_minor is not None and later.less_minor < one.less_minor


CHECKS = (
    loads_say_one_price,
    loads_belong_to_services,
    loads_rise,
    reductions_stand_once,
    markups_say_something,
)
