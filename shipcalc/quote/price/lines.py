"""The charges of one way, stage by stage, each with its payer."""

from collections.abc import Collection, Iterable, Iterator, Sequence

from shipcalc.money import to_decimal, to_minor
from shipcalc.pricing.lines import Line
from shipcalc.quote.model import Charge, ImportEstimate
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.price.charges import line_charges, line_numbers, rounding_charge
from shipcalc.quote.price.paid import Import, Sums
from shipcalc.quote.price.parts import TO_PORT, Part, Parts, road_stage
from shipcalc.records import dataclass
from shipcalc.trade import AT_HOME, COST_STAGES, DUTY_STAGE, ROUNDING, STAGES
from shipcalc.vehicles.vehicle import Vehicle

ALL_STAGES = (*COST_STAGES, AT_HOME)
ESTIMATED_STAGES = frozenset(stage.name for stage in STAGES if stage.estimated)


def way_charges(one: OneWay, parts: Parts, sums: Sums) -> tuple[Charge, ...]:
    """Return all charges of one way in the order of the stages, and the rounding; what the buyer pays is taken at cost."""
    currency, vehicles = one.currency, one.request.vehicles
    groups = [*_truck_groups(one, parts)]
    for part, column in (*_parts_of(one, parts), *_seasonal_of(one, parts, sums)):
        groups += _groups(part.selling, part.cost, column, vehicles)
    cover = sums.cover.by_mode.get(one.mode)
    if cover is not None:
        groups += _groups(cover[1], cover[1], one.number, vehicles)
    if sums.imports.treatments:
        groups += _duty_groups(sums.imports.treatments[0], one.number, vehicles)
    groups.sort(key=lambda group: ALL_STAGES.index(group.stage))
    charges = _charges(groups, sums, currency, _estimates(one))
    sold = (charge.amount for charge in charges if charge.payer == "seller")
    rounding = rounding_charge(
        to_minor(sum(sold, start=to_decimal(0, currency)), currency),
        one.book.pricing.rounding_step_minor,
        cell=one.book.pricing.cells.get("Rounding step", ""),
        stage=AT_HOME if one.at_home else ROUNDING,
        currency=currency,
        line=str(len(charges) + 1),
    )
    return (*charges, rounding) if rounding else charges


def _estimates(one: OneWay) -> Collection[str]:
    """Return the codes of charges by stage that are said to be estimates."""
    if one.at_home:
        return ()
    from shipcalc.pricing.stage_charges import estimated_codes

    return estimated_codes(one.book.stage_charges)


def import_estimates(one: OneWay, sums: Sums) -> tuple[ImportEstimate, ...]:
    """Return every treatment by the customs for one way, the counted one first."""
    way, currency, country = one.number, one.currency, sums.imports.country
    return tuple(
        ImportEstimate(
            treatment=treatment.treatment,
            counted=number == 0,
            amount=to_decimal(int(treatment.total[way]), currency),
            lines=_charges(_duty_groups(treatment, way, one.request.vehicles), sums, currency),
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


def _truck_groups(one: OneWay, parts: Parts) -> Iterator[_Group]:
    stage = road_stage(one.network) if one.export is None else TO_PORT
    selling, cost = parts.trucks[one.truck].lines, parts.truck_at_cost(one.truck)
    for number, (vehicle, lane) in enumerate(zip(one.request.vehicles, one.network.lane_of(one.end), strict=True)):
        yield _Group(stage, selling, cost, number, lane, vehicle.stock_number)


def _parts_of(one: OneWay, parts: Parts) -> Iterator[tuple[Part, int]]:
    """Yield the parts of a way beside its truck, each with the way's column in it."""
    if one.ship is None:
        yield parts.by_road, 0
        return
    load, arrival = one.ship.load, int(one.ways.arrival[one.number])
    lane = int(one.ways.sea_lane[one.number])
    yield from parts.at_ports(load, lane, one.end, arrival)
    yield from parts.sea_of(lane)
    if one.network.arrivals.on_carriage:
        yield parts.last_leg_by(trailer_of(one.service)), arrival
    yield parts.stages[load], 0


def _seasonal_of(one: OneWay, parts: Parts, sums: Sums) -> Iterator[tuple[Part, int]]:
    """Yield the charges of a season that arise for a way."""
    for by_load, mask in zip(parts.seasonal, sums.seasonal, strict=True):
        if one.ship is not None and mask[one.number]:
            yield by_load[one.ship.load], 0


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
