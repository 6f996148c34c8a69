"""The charges of one way, stage by stage, each with its payer."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from decimal import Decimal

from shipcalc.money import to_decimal, to_minor
from shipcalc.quote.model import Charge, ImportEstimate
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.price.charges import least_margin_charge, line_charges, line_numbers, rounding_charge
from shipcalc.quote.price.paid import Import, Sums
from shipcalc.quote.price.parts import Group, Parts, groups_of
from shipcalc.trade import AT_HOME, COST_STAGES, DUTY_STAGE, KEPT, ROUNDING, STAGES
from shipcalc.vehicles.vehicle import Vehicle

ALL_STAGES = (KEPT, *COST_STAGES, AT_HOME)
ESTIMATED_STAGES = frozenset(stage.name for stage in STAGES if stage.estimated)


def way_charges(one: OneWay, parts: Parts, sums: Sums) -> tuple[Charge, ...]:
    """Return all charges of one way in the order of the stages, what is missing to the least margin, and the rounding; what the
    buyer pays is taken at cost.
    """
    currency, vehicles = one.currency, one.request.vehicles
    groups: list[Group] = []
    for charged in parts:
        column = charged.column_of(one.truck, one.sea_lane)
        if column >= 0 and (charged.season is None or sums.seasonal[charged.season][one.number]):
            groups += charged.part.groups(column, vehicles)
    cover = sums.cover.by_mode.get(one.mode)
    if cover is not None:
        groups += groups_of(cover[1], cover[1], one.number, vehicles)
    if sums.imports.treatments:
        groups += _duty_groups(sums.imports.treatments[0], one.number, vehicles)
    groups.sort(key=lambda group: ALL_STAGES.index(group.stage))
    charges = _charges(groups, sums, currency, _estimates(one))
    if one.network.leads_abroad and one.book.pricing.least_abroad_minor:
        charges = (*charges, *_missing_margin(one, charges))
    rounding = rounding_charge(
        _sum_of((charge.amount for charge in charges if charge.payer == "seller"), currency),
        one.book.pricing.rounding_step_minor,
        cell=one.book.pricing.cells.get("Rounding step", ""),
        stage=AT_HOME if one.at_home else ROUNDING,
        currency=currency,
        line=str(len(charges) + 1),
    )
    return (*charges, rounding) if rounding else charges


def _missing_margin(one: OneWay, charges: Sequence[Charge]) -> Iterator[Charge]:
    sold = [charge for charge in charges if charge.payer == "seller"]
    missing = least_margin_charge(
        _sum_of((charge.amount for charge in sold), one.currency),
        _sum_of((charge.cost.amount for charge in sold if charge.cost), one.currency),
        one.book.pricing.least_abroad_minor * len(one.request.vehicles),
        cell=one.book.pricing.cells.get("Least margin abroad", ""),
        stage=ROUNDING,
        currency=one.currency,
        line=str(len(charges) + 1),
    )
    if missing is not None:
        yield missing


def _sum_of(amounts: Iterable[Decimal], currency: str) -> int:
    return to_minor(sum(amounts, start=to_decimal(0, currency)), currency)


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


def _charges(groups: Iterable[Group], sums: Sums, currency: str, estimates: Collection[str] = ()) -> tuple[Charge, ...]:
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


def _duty_groups(treatment: Import, way: int, vehicles: Sequence[Vehicle]) -> Iterator[Group]:
    for vehicle, own in zip(vehicles, treatment.lines, strict=True):
        yield Group(DUTY_STAGE, own, own, 0, way, vehicle.stock_number)
