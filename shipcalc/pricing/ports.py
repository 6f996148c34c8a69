"""What ports charge: for vehicles driven on and off, for containers, and for packing them; and for standing there too long.

Columns over ports: `m` export ports or `m` arrival ports.
"""

from collections.abc import Iterator, Sequence
from functools import partial

import numpy as np

from shipcalc.money import E4, Int64, decimals, half_up
from shipcalc.pricing.counted import ONE, counted_line, lump_line
from shipcalc.pricing.line import THOUSANDTHS, Line
from shipcalc.pricing.loads import Freight, Load
from shipcalc.pricing.port_charges import Asked, Bands
from shipcalc.ratebook.rows.ports import Port
from shipcalc.records import replace
from shipcalc.trade import CROSSING_BY_MODE

# For each port what it asks line by line; empty where none does.
AskedAt = Sequence[Sequence[Asked]]
NOTHING: AskedAt = ()


def export_port_lines(
    load: Load, freight: Freight, ports: Sequence[Port], asked: AskedAt = NOTHING, *, markup_ppm: int, currency: str
) -> tuple[Line, ...]:
    """Return what arises where the vehicles leave: packing and drayage of containers, gate, wharfage, terminal handling.

    `asked` is what each port asks line by line, in place of the last three.
    """
    terminal = _terminal_lines(load, freight, ports, asked, "origin terminal", "export", markup_ppm, currency)
    return (*_packing_lines(load, len(freight), markup_ppm), *terminal)


def arrival_port_lines(
    load: Load, freight: Freight, ports: Sequence[Port], asked: AskedAt = NOTHING, *, markup_ppm: int, currency: str
) -> tuple[Line, ...]:
    """Return what arises where the vehicles arrive: gate, wharfage, terminal handling, unpacking of containers.

    `asked` is what each port asks line by line, in place of the first three.
    """
    unpacking = (
        lump_line(
            code="port.unpacking",
            label="Unpacking from the container",
            stage="destination terminal",
            minor=_each_vehicle(load, "unloading_minor"),
            markup_ppm=markup_ppm,
            cell=kind.at.cell("unloading_minor"),
        )
        for kind, _ in load.boxes[:1]
        if kind.unloading_minor
    )
    terminal = _terminal_lines(load, freight, ports, asked, "destination terminal", "arrival", markup_ppm, currency)
    return (*terminal, *unpacking)


def storage_minor(port: Port, days: int, vehicles: int, bands: Bands = ()) -> int:
    """Return the storage for vehicles that stand in the terminal so many days after their free ones; all of these count.

    `bands` stand in place of the port's own: each from its day on, until the next begins.
    """
    if bands:
        ends = [*(first for first, _ in bands[1:]), days + 1]
        own = [max(min(end, days + 1) - first, 0) * minor for (first, minor), end in zip(bands, ends, strict=True)]
        return vehicles * sum(own)
    first = min(days, port.storage_first_days)
    return vehicles * (first * port.storage_first_minor + (days - first) * port.storage_then_minor)


def _terminal_lines(
    load: Load,
    freight: Freight,
    ports: Sequence[Port],
    asked: AskedAt,
    stage: str,
    end: str,
    markup_ppm: int,
    currency: str,
) -> Iterator[Line]:
    where = f"{CROSSING_BY_MODE[load.mode].called.place} of {end}"
    for line in (
        *_row_lines(load, freight, ports, asked, end, where, markup_ppm, currency),
        *_asked_lines(load, freight, asked, f"port.{end}.charge", where, markup_ppm, currency),
    ):
        yield replace(line, stage=stage)


def _row_lines(
    load: Load,
    freight: Freight,
    ports: Sequence[Port],
    asked: AskedAt,
    end: str,
    where: str,
    markup_ppm: int,
    currency: str,
) -> Iterator[Line]:
    """Yield what the rows of ports charge that do not ask line by line, without a stage."""
    column, cells = partial(_column, ports, asked), partial(_cells, ports)
    if CROSSING_BY_MODE[load.mode].is_driven_aboard:
        yield lump_line(
            code=f"port.{end}.gate",
            label=f"Gate and handling, {where}",
            stage="",
            minor=column("gate_minor"),
            markup_ppm=markup_ppm,
            lane_cells=cells("gate_minor"),
        )
        yield counted_line(
            code=f"port.{end}.wharfage",
            label=f"Wharfage, {where}",
            stage="",
            unit="W/M",
            quantity=freight.revenue_tons,
            rate_e4=column("wharfage_e4"),
            markup_ppm=markup_ppm,
            currency=currency,
            lane_cells=cells("wharfage_e4"),
        )
    elif load.packing is not None:
        yield counted_line(
            code=f"port.{end}.thc",
            label=f"Terminal handling (THC), {where}",
            stage="",
            unit="container",
            quantity=ONE * sum(count for _, count in load.boxes),
            rate_e4=column("thc_minor") * 100,
            markup_ppm=markup_ppm,
            currency=currency,
            lane_cells=cells("thc_minor"),
            shared=True,
        )


def _column(ports: Sequence[Port], asked: AskedAt, field: str) -> Int64:
    """Return a figure of each port's row (1, m), nothing where the port asks line by line."""
    by_row = [len(own) == 0 for own in asked] or [True] * len(ports)
    figures = [[getattr(port, field) if by else 0 for port, by in zip(ports, by_row, strict=True)]]
    return np.array(figures, dtype=np.int64)


def _cells(ports: Sequence[Port], field: str) -> tuple[str, ...]:
    return tuple(port.at.cell(field) for port in ports)


def _asked_lines(
    load: Load, freight: Freight, asked: AskedAt, code: str, where: str, markup_ppm: int, currency: str
) -> Iterator[Line]:
    """Yield what ports ask line by line; what has one label and unit in several ports is one line, (n or 1, m)."""
    alike: dict[tuple[str, str], dict[int, Asked]] = {}
    for number, own in enumerate(asked):
        for one in own:
            alike.setdefault((one.row.label.casefold(), one.row.per), {})[number] = one
    for (_, per), at in alike.items():
        label = f"{next(iter(at.values())).row.label}, {where}"
        rates: Int64 = np.zeros((1, len(asked)), dtype=np.int64)
        rates[0, list(at)] = [one.amount_e4 for one in at.values()]
        cells = tuple([at[number].row.at.cell("amount_e4") if number in at else "" for number in range(len(asked))])
        offers = tuple([at[number].told if number in at else "" for number in range(len(asked))])
        offers = offers if any(offers) else ()
        unit, quantity = {
            "vehicle": ("vehicle", np.ones_like(freight.revenue_tons)),
            "revenue ton": ("W/M", freight.revenue_tons),
            "container": ("container", ONE * load.containers),
            "shipment": ("lump", ONE),
        }[per]
        if unit == "lump":
            minor = half_up(rates * 10 ** decimals(currency), E4)
            lump = lump_line(
                code=code, label=label, stage="", minor=minor, markup_ppm=markup_ppm, lane_cells=cells, shared=True
            )
            yield replace(lump, lane_offers=offers)
            continue
        counted = counted_line(
            code=code,
            label=label,
            stage="",
            unit=unit,
            quantity=quantity,
            rate_e4=rates,
            rate_places=4 if unit in THOUSANDTHS else decimals(currency),
            markup_ppm=markup_ppm,
            currency=currency,
            lane_cells=cells,
            shared=per == "container",
        )
        yield replace(counted, lane_offers=offers)


def _packing_lines(load: Load, vehicles: int, markup_ppm: int) -> Iterator[Line]:
    """Yield drayage and materials for each size of container, and the packing of each vehicle in its own."""
    for kind, count in load.boxes:
        for field, label, stage in (
            ("drayage_minor", "Drayage to the terminal", "pre-carriage"),
            ("materials_minor", "Timber and lashings", "loading at origin"),
        ):
            sum_minor = getattr(kind, field)
            if sum_minor:
                yield lump_line(
                    code=f"port.{field.removesuffix('_minor')}.{kind.container}",
                    label=f"{label}, {count} × {kind.container}",
                    stage=stage,
                    minor=sum_minor * count,
                    markup_ppm=markup_ppm,
                    cell=kind.at.cell(field),
                    shared=True,
                )
    for kind, _ in load.boxes[:1]:
        yield lump_line(
            code="port.packing",
            label="Packing and lashing in the container",
            stage="loading at origin",
            minor=_each_vehicle(load, "loading_minor"),
            markup_ppm=markup_ppm,
            cell=kind.at.cell("loading_minor"),
        )


def _each_vehicle(load: Load, field: str) -> Int64:
    """Return a sum of the container that each vehicle is in, (n, 1)."""
    assert load.packing is not None
    by_vehicle = {number: getattr(kind, field) for kind, held in load.packing.containers for number in held}
    return np.array([[by_vehicle[number]] for number in sorted(by_vehicle)], dtype=np.int64)
