"""The charges of one way, stage by stage, each with its payer."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from shipcalc.money import to_decimal, to_minor
from shipcalc.pricing.lines import Line
from shipcalc.pricing.loads import BY_TRUCK
from shipcalc.pricing.stage_charges import estimated_codes
from shipcalc.quote.candidates import trailer_of
from shipcalc.quote.charges import line_charges, line_numbers, rounding_charge
from shipcalc.quote.model import Charge, ImportEstimate
from shipcalc.quote.overseas.choices import mode_of
from shipcalc.quote.overseas.columns import Ways
from shipcalc.quote.overseas.landing import STAGE as DUTY_STAGE
from shipcalc.quote.overseas.network import Network
from shipcalc.quote.overseas.prices import ALL_THE_WAY, NO_PART, TO_PORT, Part, Parts
from shipcalc.quote.overseas.sums import Sums
from shipcalc.quote.request import Request
from shipcalc.quote.stages import ROUNDING
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.overseas_words import COST_STAGES
from shipcalc.vehicles.vehicle import Vehicle

# What arises abroad is known to the dealer only roughly, whoever pays it.
ESTIMATED_STAGES = frozenset({"destination terminal", "on-carriage", "unloading", "import clearance", DUTY_STAGE})


def way_charges(
    way: int, request: Request, book: RateBook, network: Network, parts: Parts, ways: Ways, sums: Sums
) -> tuple[Charge, ...]:
    """Return all charges of one way in the order of the stages, and the rounding; what the buyer pays is taken at cost."""
    currency = book.pricing.currency
    found = [*_truck_charges(way, request, network, parts, ways, sums, currency)]
    for part, column in _parts_of(way, network, parts, ways):
        found += _part_charges(part, column, request.vehicles, sums, currency)
    cover = sums.cover.by_mode.get(mode_of(network, ways, way))
    if cover is not None:
        found += _part_charges(Part(cover[1], cover[1]), way, request.vehicles, sums, currency)
    if sums.imports.treatments:
        found += _duty_charges(sums.imports.treatments[0].lines, way, request.vehicles, sums, currency)
    found.sort(key=lambda charge: COST_STAGES.index(charge.stage))
    estimates = estimated_codes(book.stage_charges)
    numbered = _numbered(
        replace(charge, estimate=charge.stage in ESTIMATED_STAGES or charge.code in estimates) for charge in found
    )
    so_far = to_minor(
        sum((charge.amount for charge in numbered if charge.payer == "seller"), start=to_decimal(0, currency)), currency
    )
    rounding = rounding_charge(
        so_far,
        book.pricing.rounding_step_minor,
        cell=book.pricing.cells.get("Rounding step", ""),
        stage=ROUNDING,
        currency=currency,
        line=str(len(numbered) + 1),
    )
    return (*numbered, rounding) if rounding else numbered


def import_estimates(way: int, request: Request, book: RateBook, sums: Sums) -> tuple[ImportEstimate, ...]:
    """Return every treatment by the customs for one way, the counted one first."""
    currency, country = book.pricing.currency, sums.imports.country
    estimates = []
    for number, treatment in enumerate(sums.imports.treatments):
        lines = tuple(_duty_charges(treatment.lines, way, request.vehicles, sums, currency))
        estimates.append(
            ImportEstimate(
                treatment=treatment.treatment,
                counted=number == 0,
                amount=to_decimal(int(treatment.total[way]), currency),
                lines=_numbered(replace(line, estimate=True) for line in lines),
                criteria=(country.collector_criteria or "") if country and treatment.treatment == "collector" else "",
            )
        )
    return tuple(estimates)


def _truck_charges(
    way: int, request: Request, network: Network, parts: Parts, ways: Ways, sums: Sums, currency: str
) -> Iterator[Charge]:
    truck, export = int(ways.truck[way]), int(ways.export[way])
    stage = TO_PORT if export >= 0 else ALL_THE_WAY
    for number, (vehicle, lane) in enumerate(zip(request.vehicles, network.lane_of(export), strict=True)):
        yield from line_charges(
            parts.trucks[truck].lines,
            parts.truck_at_cost(truck).lines,
            row=number,
            column=lane,
            vehicle=vehicle.stock_number,
            stage=stage,
            payer=sums.term.payer(stage),
            currency=currency,
        )


def _parts_of(way: int, network: Network, parts: Parts, ways: Ways) -> Iterator[tuple[Part, int]]:
    """Yield the parts of a way beside its truck, each with the way's column in it."""
    crossing, export, arrival = (int(column[way]) for column in (ways.crossing, ways.export, ways.arrival))
    if crossing < 0:
        yield parts.stages[BY_TRUCK], 0
        return
    load = network.crossings[crossing].load
    yield parts.export_ports[load], export
    yield parts.sea[crossing], int(ways.lane[way])
    yield parts.arrival_ports[load], arrival
    if network.arrivals.on_carriage:
        yield parts.last_leg_by(trailer_of(network.services[int(ways.truck[way])])), arrival
    yield parts.stages.get(load, NO_PART), 0


def _part_charges(part: Part, column: int, vehicles: Sequence[Vehicle], sums: Sums, currency: str) -> Iterator[Charge]:
    """Yield a part's charges, those of each vehicle together, then those of the whole shipment."""
    shared = (tuple(line for line in lines if line.shared) for lines in (part.selling, part.cost))
    own = (tuple(line for line in lines if not line.shared) for lines in (part.selling, part.cost))
    selling, costing = own
    for number, vehicle in enumerate(vehicles):
        yield from _charges(selling, costing, number, column, vehicle.stock_number, sums, currency)
    selling, costing = shared
    yield from _charges(selling, costing, 0, column, None, sums, currency)


def _charges(
    selling: Sequence[Line],
    costing: Sequence[Line],
    row: int,
    column: int,
    vehicle: str | None,
    sums: Sums,
    currency: str,
) -> Iterator[Charge]:
    for stage in dict.fromkeys(line.stage for line in selling):
        yield from line_charges(
            [line for line in selling if line.stage == stage],
            [line for line in costing if line.stage == stage],
            row=row,
            column=column,
            vehicle=vehicle,
            stage=stage,
            payer=sums.term.payer(stage),
            currency=currency,
        )


def _duty_charges(
    lines: Sequence[Sequence[Line]], way: int, vehicles: Sequence[Vehicle], sums: Sums, currency: str
) -> Iterator[Charge]:
    for vehicle, own in zip(vehicles, lines, strict=True):
        yield from line_charges(
            own,
            own,
            row=0,
            column=way,
            vehicle=vehicle.stock_number,
            stage=DUTY_STAGE,
            payer=sums.term.payer(DUTY_STAGE),
            currency=currency,
        )


def _numbered(charges: Iterator[Charge]) -> tuple[Charge, ...]:
    """Return the charges with their final numbers; percentages keep naming the lines of their base."""
    numbers, names = line_numbers(), dict[str, str]()
    found = []
    for charge in charges:
        names[charge.line] = str(next(numbers))
        found.append(charge)
    return tuple(
        replace(charge, line=names[charge.line], of=tuple(names[line] for line in charge.of)) for charge in found
    )
