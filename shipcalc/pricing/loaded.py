"""What each vehicle pays where several are loaded at one place onto one truck (sheet Vehicles loaded)."""

from collections.abc import Iterable, Iterator

import numpy as np

from shipcalc.money import PPM, Int64, share
from shipcalc.pricing.columns import Asked
from shipcalc.pricing.line import LINEHAUL, ONE, Line, marked_up
from shipcalc.ratebook.rows.vehicles_loaded import VehiclesLoaded
from shipcalc.trade import DRIVEN

_MANY = np.iinfo(np.int64).max


def loads_of(rows: Iterable[VehiclesLoaded], carrier: str, trailer: str) -> tuple[VehiclesLoaded, ...]:
    """Return a service's rows, the fewest vehicles first: the carrier's own where it has any, else those for all.

    Of two for as many vehicles the one that names the trailer counts. What is driven by itself is loaded with nothing.
    """
    fits = [row for row in rows if row.trailer in (None, trailer) and (row.trailer or trailer != DRIVEN)]
    own = [row for row in fits if row.carrier and row.carrier.casefold() == carrier.casefold()]
    found: dict[int, VehiclesLoaded] = {}
    for row in own or [row for row in fits if not row.carrier]:
        known = found.get(row.vehicles)
        if known is None or (row.trailer and not known.trailer):
            found[row.vehicles] = row
    return tuple(found[count] for count in sorted(found))


def loaded_lines(
    loads: tuple[VehiclesLoaded, ...], asked: Asked, vehicles: int, linehaul: Int64, markup_ppm: int
) -> Iterator[Line]:
    """Yield what is taken off the linehaul (n or 1, m) of each vehicle, by how many are loaded with it."""
    together = np.array(asked.together or (asked.vehicle_count,) * vehicles, dtype=np.int64)
    ends = (*(row.vehicles for row in loads[1:]), _MANY)
    for row, end in zip(loads, ends, strict=True):
        where = ((together >= row.vehicles) & (together < end))[:, np.newaxis]
        if where.any():
            yield _taken_off(row, np.where(where, linehaul, 0), markup_ppm)


def _taken_off(row: VehiclesLoaded, base: Int64, markup_ppm: int) -> Line:
    label = f"{row.vehicles} vehicles or more on one truck"
    if row.less_minor is not None:
        less = np.maximum(-marked_up(row.less_minor, markup_ppm), -base)
        cell = row.at.cell("less_minor")
        return Line(code="truck.loaded", label=label, unit="lump", quantity=ONE, rate=less, amount=less, cell=cell)
    assert row.percent_ppm is not None, "the rate book's check lets no row without either through"
    rate = row.percent_ppm - PPM
    return Line(
        code="truck.loaded",
        label=f"{label}, each at {row.percent_ppm / 10_000:g} %",
        unit="%",
        quantity=base,
        rate=rate,
        amount=share(base, rate),
        of=LINEHAUL,
        cell=row.at.cell("percent_ppm"),
    )
