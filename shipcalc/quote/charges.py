"""The lines of a price become the charges of a quote, for one vehicle at a time."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import count

from shipcalc.money import PPM, Int64, round_up, to_decimal
from shipcalc.pricing.lines import RATE_SCALE, Line
from shipcalc.quote.model import Charge, Cost


def truck_charges(
    selling: Sequence[Line],
    costing: Sequence[Line],
    *,
    vehicle: int,
    lane: int,
    stock_number: str,
    stage: str,
    currency: str,
    numbers: Iterator[int],
) -> tuple[Charge, ...]:
    """Return the charges of one vehicle over one lane. `costing` holds the same lines as `selling`, at the carrier's rates.

    Lines that come to nothing are left out. Percentages name the lines of their base by number.
    """
    costs = {_identity(line): line for line in costing}
    charges: list[Charge] = []
    for line in selling:
        amount = at(line.amount, vehicle, lane)
        cost_line = costs.get(_identity(line))
        cost = _cost(cost_line, vehicle, lane, currency) if cost_line else None
        if not amount and not (cost and cost.amount):
            continue
        quantity, rate = _quantity_and_rate(line, vehicle, lane, currency)
        charges.append(
            Charge(
                line=str(next(numbers)),
                code=line.code,
                label=line.label,
                stage=stage,
                vehicle=stock_number,
                quantity=quantity,
                unit=line.unit,
                rate=rate,
                of=tuple(charge.line for charge in charges if charge.code in line.of),
                amount=to_decimal(amount, currency),
                note=line.lane_notes[lane] if line.lane_notes else line.note,
                source=line.cell,
                cost=cost or Cost(quantity=quantity, rate=Decimal(0), amount=to_decimal(0, currency)),
            )
        )
    return tuple(charges)


def rounding_charge(
    total_minor: int, step_minor: int, *, cell: str, stage: str, currency: str, line: str
) -> Charge | None:
    """Return the line that brings the total up to the rounding step, or None where it is on it."""
    missing = round_up(total_minor, step_minor) - total_minor if step_minor > 1 else 0
    if not missing:
        return None
    amount, nothing = to_decimal(missing, currency), to_decimal(0, currency)
    return Charge(
        line=line,
        code="price.rounding",
        label="Rounding up",
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


def _identity(line: Line) -> tuple[str, str, str]:
    return line.code, line.cell, line.label


def _cost(line: Line, vehicle: int, lane: int, currency: str) -> Cost:
    quantity, rate = _quantity_and_rate(line, vehicle, lane, currency)
    return Cost(quantity=quantity, rate=rate, amount=to_decimal(at(line.amount, vehicle, lane), currency))


def _quantity_and_rate(line: Line, vehicle: int, lane: int, currency: str) -> tuple[Decimal, Decimal]:
    quantity = at(line.quantity, vehicle, lane)
    rate = line.rate if isinstance(line.rate, int) else at(line.rate, vehicle, lane)
    if line.unit == "mi":
        return Decimal(quantity), _plain(Decimal(rate) / RATE_SCALE)
    if line.unit == "%":
        return to_decimal(quantity, currency), _plain(Decimal(rate) * 100 / PPM)
    return Decimal(quantity), to_decimal(rate, currency)


def _plain(number: Decimal) -> Decimal:
    """Return the number without needless zeros, but never fewer than two decimals: 0.8200 → 0.82, 18 → 18.00."""
    plain = number.normalize()
    exponent = plain.as_tuple().exponent
    assert isinstance(exponent, int)
    return plain if exponent <= -2 else plain.quantize(Decimal("0.01"))
