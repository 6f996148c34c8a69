"""The lines of a price become the charges of a quote, for one vehicle at a time."""

from collections.abc import Collection, Iterator, Sequence
from decimal import Decimal
from itertools import count

from shipcalc.money import PPM, Int64, round_up, to_decimal
from shipcalc.pricing.line import RATE_SCALE, THOUSANDTHS, Line
from shipcalc.quote.model import Charge, Cost
from shipcalc.records import replace
from shipcalc.trade import Payer


def line_charges(
    selling: Sequence[Line],
    costing: Sequence[Line],
    *,
    row: int,
    column: int,
    vehicle: str | None,
    stage: str,
    payer: Payer = "seller",
    currency: str,
    numbers: Iterator[int],
    estimate: bool = False,
    estimates: Collection[str] = (),
) -> tuple[Charge, ...]:
    """Return the charges of one vehicle (row) over one lane (column). `costing` holds the lines of `selling` at cost.

    Lines that come to nothing are left out, unless they are said to be free. Percentages name the lines of their base. What
    the buyer pays is taken at cost, which is then no cost of the dealer's. All are estimates, or those whose codes are in
    `estimates`.
    """
    charges: list[Charge] = []
    for line, cost_line in _as_paid(selling, costing, payer, column):
        amount = at(line.amount, row, column)
        cost = _cost(cost_line, row, column, currency) if cost_line else None
        if not amount and not (cost and cost.amount) and not line.free:
            continue
        quantity, rate = _quantity_and_rate(line, row, column, currency)
        if cost is None and payer == "seller":
            cost = Cost(quantity=quantity, rate=Decimal(0), amount=to_decimal(0, currency))
        cell = _cell(line, column)
        charges.append(
            Charge(
                line=str(next(numbers)),
                code=line.code,
                label=line.label,
                stage=stage,
                vehicle=vehicle,
                quantity=quantity,
                unit=line.unit,
                rate=rate,
                of=tuple(charge.line for charge in charges if charge.code in line.of),
                amount=to_decimal(amount, currency),
                payer=payer,
                estimate=estimate or line.code in estimates,
                note=line.lane_notes[column] if line.lane_notes else line.note,
                source=cell or None,
                offer=line.lane_offers[column] if line.lane_offers else line.offer,
                cost=cost,
            )
        )
    return tuple(charges)


def _as_paid(
    selling: Sequence[Line], costing: Sequence[Line], payer: Payer, column: int
) -> Iterator[tuple[Line, Line | None]]:
    """Yield each line as its payer is asked for it, and where that is not at cost, the same line at cost."""
    costs = {_identity(line, column): line for line in costing}
    for line in selling:
        at_cost = costs.get(_identity(line, column))
        if payer == "seller":
            yield line, at_cost
        elif at_cost is not None:
            yield at_cost, None


def rounding_charge(
    total_minor: int, step_minor: int, *, cell: str, stage: str, currency: str, line: str
) -> Charge | None:
    """Return the line that brings the total up to the rounding step, or None where it is on it."""
    missing = round_up(total_minor, step_minor) - total_minor if step_minor > 1 else 0
    if not missing:
        return None
    return _without_cost("price.rounding", "Rounding", missing, cell=cell, stage=stage, currency=currency, line=line)


def least_margin_charge(
    sold_minor: int, cost_minor: int, margin_minor: int, *, cell: str, stage: str, currency: str, line: str
) -> Charge | None:
    """Return the line that brings what is sold up to its cost and the least margin, or None where it is there."""
    missing = cost_minor + margin_minor - sold_minor
    if not sold_minor or missing <= 0:
        return None
    label = "Arranging the shipment"
    charge = _without_cost("price.margin", label, missing, cell=cell, stage=stage, currency=currency, line=line)
    return replace(charge, offer="least margin")


def _without_cost(code: str, label: str, minor: int, *, cell: str, stage: str, currency: str, line: str) -> Charge:
    amount, nothing = to_decimal(minor, currency), to_decimal(0, currency)
    return Charge(
        line=line,
        code=code,
        label=label,
        stage=stage,
        quantity=Decimal(1),
        unit="lump",
        rate=amount,
        amount=amount,
        source=cell,
        cost=Cost(quantity=Decimal(1), rate=nothing, amount=nothing),
    )


def line_numbers() -> Iterator[int]:
    """Return the numbers of an option's lines: 1, 2, 3 …"""
    return count(1)


def at(column: Int64, vehicle: int, lane: int) -> int:
    """Return one value of a column that may have been broadcast from a single row or a single lane."""
    rows, lanes = column.shape
    return int(column[min(vehicle, rows - 1), min(lane, lanes - 1)])


def _identity(line: Line, column: int) -> tuple[str, str, str]:
    return line.code, _cell(line, column), line.label


def _cell(line: Line, column: int) -> str:
    return line.lane_cells[min(column, len(line.lane_cells) - 1)] if line.lane_cells else line.cell


def _cost(line: Line, vehicle: int, lane: int, currency: str) -> Cost:
    quantity, rate = _quantity_and_rate(line, vehicle, lane, currency)
    return Cost(quantity=quantity, rate=rate, amount=to_decimal(at(line.amount, vehicle, lane), currency))


def _quantity_and_rate(line: Line, vehicle: int, lane: int, currency: str) -> tuple[Decimal, Decimal]:
    quantity = at(line.quantity, vehicle, lane)
    rate = line.rate if isinstance(line.rate, int) else at(line.rate, vehicle, lane)
    if line.unit == "lump":
        return Decimal(quantity), to_decimal(rate, currency)
    if line.unit == "%":
        return to_decimal(quantity, currency), _plain(Decimal(rate) * 100 / PPM)
    counted = Decimal(quantity).scaleb(-3) if line.unit in THOUSANDTHS else Decimal(quantity)
    return counted, _plain(Decimal(rate) / RATE_SCALE)


def _plain(number: Decimal) -> Decimal:
    """Return the number without needless zeros, but never fewer than two decimals: 0.8200 → 0.82, 18 → 18.00."""
    plain = number.normalize()
    exponent = plain.as_tuple().exponent
    assert isinstance(exponent, int)
    return plain if exponent <= -2 else plain.quantize(Decimal("0.01"))
