"""What bills propose for fuel schemes: miles per gallon, the percentage of a step, or each row of a table of steps.

A table has a rate for each row that enough bills were reckoned by, at the price of diesel that they were quoted at.

Where fuel is a percentage of linehaul, it is held to the linehaul that was billed: a rate that has risen is no dearer fuel.
"""

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from decimal import Decimal

import numpy as np

from shipcalc.learning.bill import ALL_IN, Bill
from shipcalc.learning.compared import too_few
from shipcalc.learning.proposals import FEWEST_BILLS, FEWEST_OF_CELL, Learnt, Proposal
from shipcalc.learning.robust import Bools, robust_fit
from shipcalc.money import PPM, decimals, from_e4
from shipcalc.pricing.fuel import step_at
from shipcalc.pricing.line import FUEL
from shipcalc.quote.model import Option
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.fuel_steps import FuelStep
from shipcalc.records import dataclass

STEP_TABLE = "step table"
_PERCENT = PPM // 100


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelBilled:
    """Fuel of one quote: whose truck, what the scheme comes to (if a share, then of the linehaul that was billed), the bill.

    `quantity` is what a rate is for: miles, or a hundredth of that linehaul (`is_share`); `diesel_e4` the price of diesel that it
    was quoted at, where that is known.
    """

    number: str
    carrier: str
    trailer: str
    reckoned: float
    paid: float
    quantity: float = 0.0
    is_share: bool = False
    diesel_e4: int | None = None


def fuel_billed(
    number: str,
    option: Option,
    currency: str,
    bills: Iterable[Bill],
    diesel_at: Callable[[str], int | None] = lambda _cell: None,
) -> FuelBilled | None:
    """Return the fuel of a quote beside its bill, None where it was not billed by itself; `diesel_at` is the price of diesel in a
    cell of the quote's own rate book, in ten-thousandths."""
    paid: dict[str, Decimal] = {}
    for bill in bills:
        if bill.currency == currency:
            amount = Decimal(bill.amount_minor).scaleb(-decimals(currency))
            paid[bill.kind] = paid.get(bill.kind, Decimal(0)) + amount
    lines = [one for one in option.charges if one.code in FUEL and one.cost and one.cost.amount]
    carriers = [leg.carrier for leg in option.legs if leg.mode == "truck"]
    if len(lines) != 1 or ALL_IN in paid or "fuel" not in paid or not carriers or option.trailer is None:
        return None
    cost, is_share = lines[0].cost, lines[0].unit == "%"
    assert cost is not None, "only lines with a cost are taken"
    if is_share and paid.get("linehaul", 0) <= 0:
        return None
    reckoned = paid["linehaul"] * cost.rate / 100 if is_share else cost.amount
    return FuelBilled(
        number=number,
        carrier=carriers[0],
        trailer=option.trailer,
        reckoned=float(reckoned),
        paid=float(paid["fuel"]),
        quantity=float(paid["linehaul"] / 100 if is_share else cost.quantity),
        is_share=is_share,
        diesel_e4=diesel_at(lines[0].source or ""),
    )


def fuel_learnt(found: Sequence[FuelBilled], book: RateBook, day: date) -> Learnt:
    """Return what bills propose for the schemes of a book that carriers go by on a day."""
    schemes = {
        (row.carrier.casefold(), row.trailer): row.fuel_scheme.casefold() for row in book.carriers if row.fuel_scheme
    }
    groups: dict[str, list[FuelBilled]] = {}
    for one in found:
        scheme = schemes.get((one.carrier.casefold(), one.trailer))
        if scheme is not None:
            groups.setdefault(scheme, []).append(one)
    proposals: list[Proposal] = []
    said: list[str] = []
    wild: list[tuple[str, str]] = []
    for scheme, group in groups.items():
        row = max(
            (row for row in book.fuel if row.scheme.casefold() == scheme and (row.as_of or date.min) <= day),
            key=lambda row: row.as_of or date.min,
            default=None,
        )
        if row is not None and row.method == STEP_TABLE:
            made = _of_steps(row, group, [step for step in book.fuel_steps if step.scheme.casefold() == scheme])
        else:
            made = _of_scheme(row, group)
        proposals += made.proposals
        said += [f"fuel, {scheme}: {told}" for told in made.said]
        wild += [(number, f"fuel, {scheme}") for number, _ in made.wild]
    return Learnt(proposals=tuple(proposals), said=tuple(said), wild=tuple(wild))


def _nothing(why: str) -> Learnt:
    return Learnt(proposals=(), said=(why,), wild=())


def _of_scheme(row: FuelScheme | None, group: Sequence[FuelBilled]) -> Learnt:
    if len(group) < FEWEST_BILLS:
        return _nothing(f"{too_few(len(group))}, it takes {FEWEST_BILLS}")
    if row is None:
        return _nothing("the rate book has no such scheme today")
    reckoned, paid = np.array([one.reckoned for one in group]), np.array([one.paid for one in group])
    fit = robust_fit(reckoned[:, np.newaxis], paid, reckoned, np.ones(1))
    if fit is None:
        return _nothing("too many bills contradict each other")
    times, low, high = (float(rates[0]) for rates in (fit.rates, fit.low, fit.high))
    if low <= 0:
        return _nothing("the bills scatter too much")
    per_mile = row.method == "per mile"
    now = float(row.miles_per_gallon or 0) if per_mile else (row.step_percent_ppm or 0) / _PERCENT
    # More fuel money is fewer miles per gallon: the ends of the interval change places.
    rate, least, most = (now / times, now / high, now / low) if per_mile else (now * times, now * low, now * high)
    proposal = Proposal(
        cell=row.at.cell("miles_per_gallon" if per_mile else "step_percent_ppm"),
        what=f"Fuel, {row.scheme}, {'miles per gallon' if per_mile else '% per step'}",
        now=Decimal(f"{now:.3f}"),
        rate=Decimal(f"{rate:.3f}"),
        low=Decimal(f"{least:.3f}"),
        high=Decimal(f"{most:.3f}"),
        bills=len(group),
        percent=not per_mile,
    )
    return Learnt(proposals=(proposal,), said=(), wild=_wild(group, fit.wild))


def _wild(group: Sequence[FuelBilled], is_wild: Bools) -> tuple[tuple[str, str], ...]:
    return tuple((one.number, "") for one, wild in zip(group, is_wild, strict=True) if wild)


def _of_steps(row: FuelScheme, group: Sequence[FuelBilled], steps: Sequence[FuelStep]) -> Learnt:
    """Return what bills propose for each row of a table that enough of them were reckoned by; the others are told."""
    if len(group) < FEWEST_BILLS:
        return _nothing(f"{too_few(len(group))}, it takes {FEWEST_BILLS}")
    by_step: dict[int, list[FuelBilled]] = {}
    for one in group:
        place = _step_of(one, row.scheme, steps)
        if place is not None:
            by_step.setdefault(place, []).append(one)
    often = [place for place in sorted(by_step) if len(by_step[place]) >= FEWEST_OF_CELL]
    used = [one for place in often for one in by_step[place]]
    said = [
        f"the step from {from_e4(steps[place].from_price_e4)} is in {len(bills)} bills, it takes {FEWEST_OF_CELL}: held as it is"
        for place, bills in sorted(by_step.items())
        if place not in often
    ]
    if len(used) < FEWEST_BILLS:
        return _nothing(f"{too_few(len(used))} of steps with {FEWEST_OF_CELL} bills each, it takes {FEWEST_BILLS}")
    quantities = np.zeros((len(used), len(often)))
    quantities[np.arange(len(used)), np.repeat(np.arange(len(often)), [len(by_step[place]) for place in often])] = [
        one.quantity for one in used
    ]
    now = np.array([float(_rate(steps[place])) for place in often])
    fit = robust_fit(quantities, np.array([one.paid for one in used]), quantities @ now, now)
    if fit is None:
        return _nothing("too many bills contradict each other")
    found = [
        _step_proposal(row.scheme, steps[place], (fit.rates[at], fit.low[at], fit.high[at]), len(by_step[place]))
        for at, place in enumerate(often)
    ]
    return Learnt(proposals=tuple(found), said=tuple(said), wild=_wild(used, fit.wild))


def _step_of(one: FuelBilled, scheme: str, steps: Sequence[FuelStep]) -> int | None:
    """Return which row of a table a bill was reckoned by; None where nobody knows, or it was a rate of another kind then."""
    step = None if one.diesel_e4 is None else step_at(scheme, one.diesel_e4, steps)
    if step is None or one.quantity <= 0 or (step.percent_ppm is not None) != one.is_share or not _rate(step):
        return None
    return next(place for place, row in enumerate(steps) if row is step)


def _rate(step: FuelStep) -> Decimal:
    """Return dollars a mile, or the percentage (18, not 0.18)."""
    return from_e4(step.rate_e4 or 0) if step.percent_ppm is None else Decimal(step.percent_ppm) / _PERCENT


def _step_proposal(scheme: str, step: FuelStep, found: tuple[float, float, float], bills: int) -> Proposal:
    percent = step.percent_ppm is not None
    rate, low, high = (Decimal(f"{one:.3f}") for one in found)
    return Proposal(
        cell=step.at.cell("percent_ppm" if percent else "rate_e4"),
        what=f"Fuel, {scheme}, from {from_e4(step.from_price_e4)} a gallon",
        now=_rate(step),
        rate=rate,
        low=low,
        high=high,
        bills=bills,
        percent=percent,
    )
