"""What bills propose for fuel schemes: miles per gallon, or the percentage of a step; a step table is told and left alone.

Where fuel is a percentage of linehaul, it is held to the linehaul that was billed: a rate that has risen is no dearer fuel.
"""

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal

import numpy as np

from shipcalc.learning.bill import ALL_IN, Bill
from shipcalc.learning.compared import too_few
from shipcalc.learning.proposals import FEWEST_BILLS, Learnt, Proposal
from shipcalc.learning.robust import robust_fit
from shipcalc.money import PPM, decimals
from shipcalc.pricing.line import FUEL
from shipcalc.quote.model import Option
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.records import dataclass

_PERCENT = PPM // 100


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelBilled:
    """Fuel of one quote: whose truck, what the scheme comes to (if a share, then of the linehaul that was billed), the bill."""

    number: str
    carrier: str
    trailer: str
    reckoned: float
    paid: float


def fuel_billed(number: str, option: Option, currency: str, bills: Iterable[Bill]) -> FuelBilled | None:
    """Return the fuel of a quote beside its bill, None where it was not billed by itself."""
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
        number=number, carrier=carriers[0], trailer=option.trailer, reckoned=float(reckoned), paid=float(paid["fuel"])
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
    proposals, said, wild = [], [], []
    for scheme, group in groups.items():
        row = max(
            (row for row in book.fuel if row.scheme.casefold() == scheme and (row.as_of or date.min) <= day),
            key=lambda row: row.as_of or date.min,
            default=None,
        )
        made = _of_scheme(row, group)
        if isinstance(made, str):
            said.append(f"fuel, {scheme}: {made}")
        else:
            proposals.append(made[0])
            wild += [(number, f"fuel, {scheme}") for number in made[1]]
    return Learnt(proposals=tuple(proposals), said=tuple(said), wild=tuple(wild))


def _of_scheme(row: FuelScheme | None, group: Sequence[FuelBilled]) -> tuple[Proposal, list[str]] | str:
    if len(group) < FEWEST_BILLS:
        return f"{too_few(len(group))}, it takes {FEWEST_BILLS}"
    if row is None or row.method == "step table":
        return "a table of steps is not learnt from bills: ask the carrier for its new one"
    reckoned, paid = np.array([one.reckoned for one in group]), np.array([one.paid for one in group])
    fit = robust_fit(reckoned[:, np.newaxis], paid, reckoned, np.ones(1))
    if fit is None:
        return "too many bills contradict each other"
    times, low, high = (float(rates[0]) for rates in (fit.rates, fit.low, fit.high))
    if low <= 0:
        return "the bills scatter too much"
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
    return proposal, [one.number for one, is_wild in zip(group, fit.wild, strict=True) if is_wild]
