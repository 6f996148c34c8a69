"""Charges that an option gets beside its carriage: what waits in a yard, what a terminal takes."""

from collections.abc import Sequence
from decimal import Decimal

from shipcalc.money import PPM, half_up, round_up, to_decimal, to_minor
from shipcalc.quote.model import Charge, Cost, Option
from shipcalc.quote.price.charges import rounding_charge
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace
from shipcalc.trade import AT_HOME, ROUNDING

# Every delivery term has the seller pay what is done at the yard.
AT_THE_YARD = "export packing"


def passed_on(
    *,
    code: str,
    label: str,
    vehicle: str,
    quantity: int,
    unit: str,
    rate: Decimal,
    stage: str,
    source: str,
    note: str = "",
) -> Charge:
    """Return a charge that is sold at what it costs; its line is numbered by `with_charges`."""
    amount = rate * quantity
    return Charge(
        line="",
        code=code,
        label=label,
        stage=stage,
        vehicle=vehicle,
        quantity=Decimal(quantity),
        unit=unit,
        rate=rate,
        amount=amount,
        note=note,
        source=source,
        cost=Cost(quantity=Decimal(quantity), rate=rate, amount=amount),
    )


def with_charges(option: Option, more: Sequence[Charge], book: RateBook) -> Option:
    """Return the option with more lines that the seller is paid for; total, deposit and round price are made anew."""
    if not more:
        return option
    currency, at_home = book.pricing.currency, more[0].stage == AT_HOME
    own = tuple(charge for charge in option.charges if charge.code != "price.rounding")
    charges = _numbered((*own, *more) if at_home else (*more, *own))
    paid = sum((charge.amount for charge in charges if charge.payer == "seller"), start=to_decimal(0, currency))
    rounding = rounding_charge(
        to_minor(paid, currency),
        book.pricing.rounding_step_minor,
        cell=book.pricing.cells.get("Rounding step", ""),
        stage=AT_HOME if at_home else ROUNDING,
        currency=currency,
        line=str(len(charges) + 1),
    )
    total = paid + (rounding.amount if rounding else 0)
    costs = sum((charge.cost.amount for charge in more if charge.cost), start=to_decimal(0, currency))
    return replace(
        option,
        charges=(*charges, rounding) if rounding else charges,
        total=total,
        deposit=to_decimal(half_up(to_minor(total, currency) * book.pricing.deposit_ppm, PPM), currency),
        landed=None if option.landed is None else option.landed + total - option.total,
        total_cost=None if option.total_cost is None else option.total_cost + costs,
    )


def rounded_total(charges: Sequence[Charge], book: RateBook) -> Decimal:
    """Return what the seller asks for charges: their sum, rounded up anew."""
    currency = book.pricing.currency
    own = (charge.amount for charge in charges if charge.payer == "seller" and charge.code != "price.rounding")
    paid = to_minor(sum(own, start=to_decimal(0, currency)), currency)
    return to_decimal(round_up(paid, max(book.pricing.rounding_step_minor, 1)), currency)


def _numbered(charges: Sequence[Charge]) -> tuple[Charge, ...]:
    """Return the charges with lines 1, 2, 3 … in their order, percentages naming those of their base."""
    new = {charge.line: str(number) for number, charge in enumerate(charges, 1) if charge.line}
    return tuple(
        replace(charge, line=str(number), of=tuple(new[line] for line in charge.of))
        for number, charge in enumerate(charges, 1)
    )
