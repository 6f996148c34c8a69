"""Which ships sail between which ports, with the vehicles as they can be loaded: the crossings of a network."""

import math
from collections.abc import Callable, Sequence

import numpy as np

from shipcalc.pricing.loads import BY_TRUCK, Load
from shipcalc.pricing.ocean import SeaService, in_the_way
from shipcalc.pricing.quotations import Offers
from shipcalc.quote.model import LeftOut
from shipcalc.quote.network.columns import Crossing
from shipcalc.quote.network.port_ends import Arrivals, ExportPort
from shipcalc.quote.network.sea_miles import SeaMiles
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.ports import Port
from shipcalc.trade import CROSSING_BY_MODE
from shipcalc.vehicles.vehicle import Vehicle

CANALS = ("suez", "panama")
# What is quoted for a service between two ports.
QuotedBetween = Callable[[SeaService, Port, Port], Offers | None]


def crossings(
    services: Sequence[SeaService],
    loads: Sequence[Load],
    exports: Sequence[ExportPort],
    arrivals: Arrivals,
    vehicles: Sequence[Vehicle],
    loading_ways: tuple[LoadingWay, ...],
    closed: Sequence[str] = (),
    quoted: QuotedBetween | None = None,
) -> tuple[tuple[Crossing, ...], tuple[LeftOut, ...]]:
    """Return every crossing that serves the ports and takes the vehicles, and what was left out with the reason.

    `closed` are passages that no ship takes today; `quoted` says what is quoted, None: nothing at all.
    """
    found: list[Crossing] = []
    left_out: list[LeftOut] = []
    miles = SeaMiles(arrivals.every)
    outward, inward = ({port.row.region.casefold() for port in ports} for ports in (exports, arrivals.ports))
    for service in services:
        row = service.row
        serves = row.from_region.casefold() in outward and row.to_region.casefold() in inward
        lanes = _lanes(service, exports, arrivals) if serves else []
        if not lanes:
            continue
        own = [load for load in loads if load.mode == row.mode]
        reasons = [in_the_way(service, load, vehicles, loading_ways) for load in own]
        fitting = [load for load, reason in zip(own, reasons, strict=True) if not reason]
        if not fitting:
            told = min(reasons, default="no container that it carries holds the vehicles")
            left_out.append(LeftOut(carrier=row.service, reason=told))
            continue
        avoids = tuple(dict.fromkeys((*row.avoids, *closed)))
        crossing = _sailed(service, lanes, exports, arrivals, miles, avoids, quoted)
        if crossing is None:
            without = " and ".join(avoids) or "every passage"
            left_out.append(LeftOut(carrier=row.service, reason=f"there is no way by sea without {without}"))
            continue
        found += [_with_load(crossing, load) for load in fitting]
    return tuple(found), tuple(left_out)


def _lanes(service: SeaService, exports: Sequence[ExportPort], arrivals: Arrivals) -> list[tuple[int, int]]:
    """Return the ports of its regions that handle its ships: each of export with each of arrival, by position."""
    row = service.row
    outward = _served([port.row for port in exports], row.from_region, row.mode)
    inward = _served([port.row for port in arrivals.ports], row.to_region, row.mode)
    return [(p, a) for p in outward for a in inward]


def _served(ports: Sequence[Port], region: str, mode: str) -> list[int]:
    own, handled = region.casefold(), CROSSING_BY_MODE[mode].handled
    return [n for n, port in enumerate(ports) if getattr(port, handled) and port.region.casefold() == own]


def _sailed(
    service: SeaService,
    lanes: Sequence[tuple[int, int]],
    exports: Sequence[ExportPort],
    arrivals: Arrivals,
    miles: SeaMiles,
    avoids: Sequence[str],
    quoted: QuotedBetween | None,
) -> Crossing | None:
    """Return the lanes with their miles, without those that closed passages make impossible; None where none is left."""
    sailed = [(p, a, *miles.between(exports[p].row, arrivals.ports[a].row, avoids)) for p, a in lanes]
    sailed = [lane for lane in sailed if math.isfinite(lane[2])]
    if not sailed:
        return None
    offers = [quoted(service, exports[p].row, arrivals.ports[a].row) for p, a, _, _ in sailed] if quoted else []
    return Crossing(
        service=service,
        load=BY_TRUCK,
        exports=np.array([p for p, _, _, _ in sailed], dtype=np.int64),
        arrivals=np.array([a for _, a, _, _ in sailed], dtype=np.int64),
        nmi=np.array([math.floor(nmi + 0.5) for _, _, nmi, _ in sailed], dtype=np.int64),
        canals=np.array([sum(name in CANALS for name in names) for _, _, _, names in sailed], dtype=np.int64),
        passages=tuple(names for _, _, _, names in sailed),
        offers=tuple(offers) if any(offers) else (),
    )


def _with_load(crossing: Crossing, load: Load) -> Crossing:
    return Crossing(
        crossing.service,
        load,
        crossing.exports,
        crossing.arrivals,
        crossing.nmi,
        crossing.canals,
        crossing.passages,
        crossing.offers,
    )
