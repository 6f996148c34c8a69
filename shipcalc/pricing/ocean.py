"""Ocean freight: base and nautical miles at a rate, for a vehicle, a revenue ton, a cubic metre or a container.

freight     (base + nautical miles × rate) × what the row counts, never under the row's minimum for one unit: an estimate
            from the distance, for ports between which nothing is quoted (`quoted.py`)
BAF, CAF, peak season    percentages of the freight
security, bill of lading, inoperable    flat sums
"""

from collections.abc import Collection, Hashable, Iterator, Sequence

import numpy as np

from shipcalc.measures import grams_to_pounds, mm_to_inches
from shipcalc.money import Int64, decimals, share
from shipcalc.pricing.counted import ONE, counted_line, lump_line, percent_line
from shipcalc.pricing.line import THOUSANDTHS, Line
from shipcalc.pricing.loading import cannot_be_loaded, way_for
from shipcalc.pricing.loads import Freight, Load, cannot_be_measured
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.records import dataclass
from shipcalc.trade import CROSSING_BY_MODE
from shipcalc.vehicles.vehicle import Vehicle

STAGE = "main carriage"
FROM_DISTANCE = "Estimated from distance."
_WEIGHED = {"per W/M": "W/M", "per m³": "m³", "per vehicle": "vehicle"}


@dataclass(frozen=True, slots=True, eq=False)
class SeaService:
    """One line's service between two regions; for containers, a row for each size that it takes, on the same ships."""

    rows: tuple[OceanService, ...]

    @property
    def row(self) -> OceanService:
        """Return the row that says when it sails."""
        return self.rows[0]

    def for_container(self, size: str) -> OceanService:
        """Return the row for a size of container that it takes."""
        return next(row for row in self.rows if row.basis.removeprefix("per ") == size)


def sea_services(rows: tuple[OceanService, ...]) -> tuple[SeaService, ...]:
    """Return the services of a book of the day of pickup, in the order of the sheet; rows of one ship's containers together."""
    groups: dict[object, list[OceanService]] = {}
    for row in rows:
        # Any sailing may be named: ships that sail on the same days are one.
        days = row.first_sailing.toordinal() % row.sails_every_days, row.sails_every_days, row.sailings
        ship = (row.carrier.casefold(), row.from_region, row.to_region, days)
        groups.setdefault(ship if row.mode == "container" else row.service, []).append(row)
    return tuple(SeaService(tuple(group)) for group in groups.values())


def in_the_way(service: SeaService, load: Load, vehicles: Sequence[Vehicle], ways: tuple[LoadingWay, ...]) -> str:
    """Return why a service cannot take the load, as a sentence's end; empty where it can."""
    if load.mode == "container":
        taken = {row.basis.removeprefix("per ") for row in service.rows}
        sizes = {kind.container for kind, _ in load.boxes}
        missing = [kind.container for kind, _ in load.boxes if kind.container not in taken]
        if missing:
            return f"it takes no {missing[0]} container"
        rows = [row for row in service.rows if row.basis.removeprefix("per ") in sizes]
        return next((reason for row in rows for vehicle in vehicles for reason in _refusals(row, vehicle, ways)), "")
    unknown = cannot_be_measured(vehicles)
    if unknown and service.row.basis != "per vehicle":
        return unknown
    return next((reason for vehicle in vehicles for reason in _refusals(service.row, vehicle, ways)), "")


def asked_of(service: SeaService, load: Load) -> Hashable:
    """Return all of a service that `in_the_way` hangs on: of those alike in it, all take the same vehicles."""
    sizes = {kind.container for kind, _ in load.boxes}
    taken = tuple(sorted(row.basis for row in service.rows if row.basis.removeprefix("per ") in sizes))
    rows = service.rows if load.mode == "container" else service.rows[:1]
    limits = tuple(
        (row.mode, row.carrier.casefold(), row.takes_inoperable, row.longest_mm, row.highest_mm, row.heaviest_grams)
        for row in rows
        if load.mode != "container" or row.basis.removeprefix("per ") in sizes
    )
    return load.mode, tuple(sorted(sizes)), taken, service.row.basis == "per vehicle", limits


def _refusals(row: OceanService, vehicle: Vehicle, ways: tuple[LoadingWay, ...]) -> Iterator[str]:
    if way_for(vehicle, row, ways) is None:
        yield cannot_be_loaded(vehicle, row)
    if row.longest_mm is not None and (vehicle.length_mm or 0) > row.longest_mm:
        yield f"{vehicle.stock_number} is too long: it takes up to {mm_to_inches(row.longest_mm):g} in"
    if row.highest_mm is not None and (vehicle.height_mm or 0) > row.highest_mm:
        yield f"{vehicle.stock_number} is too high: it takes up to {mm_to_inches(row.highest_mm):g} in"
    if row.heaviest_grams is not None and (vehicle.mass_grams or 0) > row.heaviest_grams:
        yield f"{vehicle.stock_number} is too heavy: it takes up to {grams_to_pounds(row.heaviest_grams):,} lb"


def charged_by(service: SeaService, load: Load) -> str:
    """Return what the freight of a load is charged by: services that agree in it can be priced together."""
    return "container" if load.mode == "container" else _WEIGHED[service.row.basis]


def ocean_lines(
    services: Sequence[SeaService],
    of_lane: Int64,
    load: Load,
    freight: Freight,
    nmi: Int64,
    *,
    markup_ppm: int,
    currency: str,
    but: Collection[str] = (),
) -> tuple[Line, ...]:
    """Return the lines of one load over m lanes of whole nautical miles (m,), lane for lane by the service `of_lane` (m,).

    `but` are sizes of container whose freight is quoted.

    The services are charged by the same. Vehicles driven aboard, or in shared containers, have lines of their own (n, m);
    containers have lines of the shipment (1, m).
    """
    ships = _Rows([service.row for service in services], of_lane)
    lines: list[Line] = []
    if load.mode == "container":
        for kind, count in [(kind, count) for kind, count in load.boxes if kind.container not in but]:
            rows = [service.for_container(kind.container) for service in services]
            lines += _row_lines(_Rows(rows, of_lane), "container", ONE * count, nmi, markup_ppm, currency, shared=True)
    else:
        lines += _vehicle_lines(ships, charged_by(services[0], load), freight, nmi, markup_ppm, currency)
    bill = ships.column("bill_minor")
    if bill.any():
        lines.append(
            lump_line(
                code="ocean.bill",
                label=CROSSING_BY_MODE[load.mode].called.document.capitalize(),
                stage=STAGE,
                minor=bill,
                markup_ppm=markup_ppm,
                lane_cells=ships.cells("bill_minor"),
                shared=True,
            )
        )
    return tuple(lines)


def _vehicle_lines(
    ships: "_Rows", unit: str, freight: Freight, nmi: Int64, markup_ppm: int, currency: str
) -> Iterator[Line]:
    """Yield the lines of each vehicle that goes aboard by itself, or in a shared container."""
    counts = {"W/M": freight.revenue_tons, "m³": freight.cubic_metres, "vehicle": np.ones_like(freight.revenue_tons)}
    yield from _row_lines(ships, unit, counts[unit], nmi, markup_ppm, currency, shared=False)
    inoperable = ships.column("inoperable_minor")
    if inoperable.any() and not freight.drives.all():
        yield lump_line(
            code="ocean.inoperable",
            label="Surcharge of the line for a vehicle that cannot be driven",
            stage=STAGE,
            minor=inoperable,
            markup_ppm=markup_ppm,
            where=~freight.drives,
            lane_cells=ships.cells("inoperable_minor"),
        )


@dataclass(frozen=True, slots=True, eq=False)
class _Rows:
    """Rows of the sheet, and for each of m lanes which of them it is charged by."""

    rows: Sequence[OceanService]
    of_lane: Int64

    def column(self, field: str) -> Int64:
        """Return a figure of each lane's row (1, m), nothing where it is blank."""
        figures = np.array([getattr(row, field) or 0 for row in self.rows], dtype=np.int64)
        return figures[self.of_lane][np.newaxis, :]

    def cells(self, field: str, instead: str = "") -> tuple[str, ...]:
        """Return where that figure stands, lane for lane; where it is blank, where another one does."""
        each = [row.at.cell(field if getattr(row, field) or not instead else instead) for row in self.rows]
        return tuple([each[number] for number in self.of_lane.tolist()])


def _row_lines(
    rows: _Rows, unit: str, quantity: Int64, nmi: Int64, markup_ppm: int, currency: str, *, shared: bool
) -> Iterator[Line]:
    """Yield freight, the rest to its minimum, its percentages and the security fee of rows; quantity is (n or 1, 1)."""
    own = rows.rows[0].basis.removeprefix("per ") if unit == "container" else ""
    freight = counted_line(
        code=f"ocean.freight{own and '.' + own}",
        label=", ".join(filter(None, (CROSSING_BY_MODE[rows.rows[0].mode].freight, own))),
        stage=STAGE,
        unit=unit,
        quantity=quantity,
        rate_e4=rows.column("base_e4") + nmi * rows.column("per_nmi_e4"),
        rate_places=4 if unit in THOUSANDTHS else decimals(currency),
        markup_ppm=markup_ppm,
        currency=currency,
        lane_cells=rows.cells("per_nmi_e4", instead="base_e4"),
        note=FROM_DISTANCE,
        shared=shared,
    )
    units = quantity if unit in ("container", "vehicle") else np.ones_like(quantity)
    top_up = tuple(_top_up(rows, freight, units, markup_ppm, own))
    yield freight
    yield from top_up
    yield from _percentages(rows, (freight, *top_up), own)
    yield from _security(rows, quantity if unit == "container" else ONE, markup_ppm, own, shared=shared)


def _top_up(rows: _Rows, freight: Line, units: Int64, markup_ppm: int, own: str) -> Iterator[Line]:
    minimum = rows.column("minimum_minor")
    if minimum.any():
        yield lump_line(
            code=f"ocean.minimum{own and '.' + own}",
            label="Top-up to the minimum freight",
            stage=STAGE,
            minor=np.maximum((minimum + share(minimum, markup_ppm)) * units - freight.amount, 0),
            lane_cells=rows.cells("minimum_minor"),
            shared=freight.shared,
        )


def _percentages(rows: _Rows, of: tuple[Line, ...], own: str) -> Iterator[Line]:
    base = sum((line.amount for line in of[1:]), start=of[0].amount)
    carrier = CROSSING_BY_MODE[rows.rows[0].mode].called.carrier.capitalize()
    for field, told in _SURCHARGES:
        label = told.format(carrier=carrier)
        ppm = rows.column(field)
        if ppm.any():
            yield percent_line(
                code=f"ocean.{field.removesuffix('_ppm')}",
                label=f"{label}, {own}" if own else label,
                stage=STAGE,
                base=base,
                ppm=ppm,
                of=(f"ocean.freight{own and '.' + own}", f"ocean.minimum{own and '.' + own}"),
                lane_cells=rows.cells(field),
                shared=of[0].shared,
            )


def _security(rows: _Rows, quantity: Int64, markup_ppm: int, own: str, *, shared: bool) -> Iterator[Line]:
    security = rows.column("security_minor")
    if security.any():
        yield lump_line(
            code="ocean.security",
            label=f"Security, {own}" if own else "Security",
            stage=STAGE,
            minor=security * quantity,
            markup_ppm=markup_ppm,
            lane_cells=rows.cells("security_minor"),
            shared=shared,
        )


_SURCHARGES = (
    ("bunker_ppm", "{carrier}'s fuel surcharge (BAF)"),
    ("currency_ppm", "Exchange rate surcharge (CAF)"),
    ("peak_ppm", "Peak season"),
)
