"""The charges of one way, stage by stage, each with its payer."""

from collections.abc import Collection, Iterable, Iterator, Sequence

from shipcalc.money import to_decimal, to_minor
from shipcalc.pricing.lines import Line
from shipcalc.quote.model import Charge, ImportEstimate
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network, mode_of
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.price.charges import line_charges, line_numbers, rounding_charge
from shipcalc.quote.price.paid import Import, Sums
from shipcalc.quote.price.parts import TO_PORT, Part, Parts, road_stage
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.trade import AT_HOME, COST_STAGES, DUTY_STAGE, ROUNDING, STAGES
from shipcalc.vehicles.vehicle import Vehicle

ALL_STAGES = (*COST_STAGES, AT_HOME)
ESTIMATED_STAGES = frozenset(stage.name for stage in STAGES if stage.estimated)


def way_charges(
    way: int, request: Request, book: RateBook, network: Network, parts: Parts, ways: Ways, sums: Sums
) -> tuple[Charge, ...]:
    """Return all charges of one way in the order of the stages, and the rounding; what the buyer pays is taken at cost."""
    currency = book.pricing.currency
    groups = [*_truck_groups(way, request, network, parts, ways)]
    for part, column in (*_parts_of(way, network, parts, ways), *_seasonal_of(way, network, parts, ways, sums)):
        groups += _groups(part.selling, part.cost, column, request.vehicles)
    cover = sums.cover.by_mode.get(mode_of(network, ways, way))
    if cover is not None:
        groups += _groups(cover[1], cover[1], way, request.vehicles)
    if sums.imports.treatments:
        groups += _duty_groups(sums.imports.treatments[0], way, request.vehicles)
    groups.sort(key=lambda group: ALL_STAGES.index(group.stage))
    charges = _charges(groups, sums, currency, _estimates(book, network))
    sold = (charge.amount for charge in charges if charge.payer == "seller")
    rounding = rounding_charge(
        to_minor(sum(sold, start=to_decimal(0, currency)), currency),
        book.pricing.rounding_step_minor,
        cell=book.pricing.cells.get("Rounding step", ""),
        stage=AT_HOME if network.at_home else ROUNDING,
        currency=currency,
        line=str(len(charges) + 1),
    )
    return (*charges, rounding) if rounding else charges


def _estimates(book: RateBook, network: Network) -> Collection[str]:
    """Return the codes of charges by stage that are said to be estimates."""
    if network.at_home:
        return ()
    from shipcalc.pricing.stage_charges import estimated_codes

    return estimated_codes(book.stage_charges)


def import_estimates(way: int, request: Request, book: RateBook, sums: Sums) -> tuple[ImportEstimate, ...]:
    """Return every treatment by the customs for one way, the counted one first."""
    currency, country = book.pricing.currency, sums.imports.country
    return tuple(
        ImportEstimate(
            treatment=treatment.treatment,
            counted=number == 0,
            amount=to_decimal(int(treatment.total[way]), currency),
            lines=_charges(_duty_groups(treatment, way, request.vehicles), sums, currency),
            criteria=(country.collector_criteria or "") if country and treatment.treatment == "collector" else "",
        )
        for number, treatment in enumerate(sums.imports.treatments)
    )


@dataclass(frozen=True, slots=True)
class _Group:
    """Lines of one stage for one vehicle (`row`), or for the whole shipment (None), and the way's column in them."""

    stage: str
    selling: Sequence[Line]
    cost: Sequence[Line]
    row: int
    column: int
    vehicle: str | None


def _charges(
    groups: Iterable[_Group], sums: Sums, currency: str, estimates: Collection[str] = ()
) -> tuple[Charge, ...]:
    """Return the charges of groups, numbered in their order; `estimates` are codes of lines that are said to be such."""
    numbers = line_numbers()
    return tuple(
        charge
        for group in groups
        for charge in line_charges(
            group.selling,
            group.cost,
            row=group.row,
            column=group.column,
            vehicle=group.vehicle,
            stage=group.stage,
            payer=sums.term.payer(group.stage),
            currency=currency,
            numbers=numbers,
            estimate=group.stage in ESTIMATED_STAGES,
            estimates=estimates,
        )
    )


def _truck_groups(way: int, request: Request, network: Network, parts: Parts, ways: Ways) -> Iterator[_Group]:
    truck, export = int(ways.truck[way]), int(ways.export[way])
    stage = TO_PORT if export >= 0 else road_stage(network)
    selling, cost = parts.trucks[truck].lines, parts.truck_at_cost(truck)
    for number, (vehicle, lane) in enumerate(zip(request.vehicles, network.lane_of(export), strict=True)):
        yield _Group(stage, selling, cost, number, lane, vehicle.stock_number)


def _parts_of(way: int, network: Network, parts: Parts, ways: Ways) -> Iterator[tuple[Part, int]]:
    """Yield the parts of a way beside its truck, each with the way's column in it."""
    crossing, export, arrival = (int(column[way]) for column in (ways.crossing, ways.export, ways.arrival))
    if crossing < 0:
        yield parts.by_road, 0
        return
    load = network.crossings[crossing].load
    yield parts.export_ports[load], export
    yield from parts.sea_of(int(ways.sea_lane[way]))
    yield parts.arrival_ports[load], arrival
    if network.arrivals.on_carriage:
        yield parts.last_leg_by(trailer_of(network.services[int(ways.truck[way])])), arrival
    yield parts.stages[load], 0


def _seasonal_of(way: int, network: Network, parts: Parts, ways: Ways, sums: Sums) -> Iterator[tuple[Part, int]]:
    """Yield the charges of a season that arise for a way."""
    for by_load, mask in zip(parts.seasonal, sums.seasonal, strict=True):
        if mask[way]:
            yield by_load[network.crossings[int(ways.crossing[way])].load], 0


def _groups(
    selling: Sequence[Line], cost: Sequence[Line], column: int, vehicles: Sequence[Vehicle]
) -> Iterator[_Group]:
    """Yield the lines of each vehicle together, then those of the whole shipment, stage by stage."""
    whose = [*((number, vehicle.stock_number) for number, vehicle in enumerate(vehicles)), (0, None)]
    for row, vehicle in whose:
        own, own_cost = ([line for line in lines if line.shared == (vehicle is None)] for lines in (selling, cost))
        for stage in dict.fromkeys(line.stage for line in own):
            sold, paid = ([line for line in lines if line.stage == stage] for lines in (own, own_cost))
            yield _Group(stage, sold, paid, row, column, vehicle)


def _duty_groups(treatment: Import, way: int, vehicles: Sequence[Vehicle]) -> Iterator[_Group]:
    for vehicle, own in zip(vehicles, treatment.lines, strict=True):
        yield _Group(DUTY_STAGE, own, own, 0, way, vehicle.stock_number)
