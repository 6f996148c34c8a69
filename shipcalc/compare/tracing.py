"""From a line of a quote to the cell that priced it, in words; what the cell says in the book of today, and what that changes."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.pricing.line import LINEHAUL
from shipcalc.quote.again import request_again
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.buyer import is_for_buyer
from shipcalc.quote.model import Charge, Option, Quote
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.changes.at_cell import AtCell, find_cell
from shipcalc.records import dataclass, replace
from shipcalc.trade import DRIVEN

# Which setting of the sheet Pricing marks a line's rate up, by how the line's code begins.
_MARKUPS = (
    ((*LINEHAUL, "truck.spot"), "Markup on linehaul"),
    (("truck.fuel",), "Markup on fuel"),
    (("extra.", "area.", "truck.class"), "Markup on extra charges"),
    (("ocean.",), "Markup, ocean freight"),
    (("port.", "oncarriage.", "stage."), "Markup, ports, papers and on-carriage"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineTrace:
    """One line of a choice, traced. `reckoning` is how it came about, a sentence each.

    `there` is what stands at its cell today, None where no row does; `today` the line as it is priced today and `own` the cell
    that it takes its rate from, None where there is none.
    """

    charge: Charge
    reckoning: tuple[str, ...]
    there: AtCell | None
    today: Charge | None
    own: AtCell | None

    @property
    def has_moved(self) -> bool:
        """Return whether the line takes its rate from another cell today than when it was quoted."""
        return self.own is not None and self.own.cell != self.charge.source

    @property
    def change(self) -> Decimal | None:
        """Return by how much the line would change, None where it is not priced today."""
        return self.today.amount - self.charge.amount if self.today is not None else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """A choice of a quote, traced through today's rate book: `today` is the same choice priced today."""

    quote: Quote
    option: Option
    today: Option | None
    lines: tuple[LineTrace, ...]
    notes: tuple[str, ...]


def trace(quote: Quote, index: int, book: RateBook, as_of: date, *, line: str | None = None, where: str = "") -> Trace:
    """Return a choice of a quote, or one line of it, traced. Raises WrongInput for a buyer's copy and an unknown line."""
    if is_for_buyer(quote):
        what = "is the buyer's copy of a quote, which names neither cost nor cell"
        raise WrongInput(what, where=where, remedy="name the quote.json that the office kept")
    option = quote.options[index]
    charges = [charge for charge in option.charges if line in (None, charge.line)]
    if not charges:
        known = f"{option.charges[0].line} to {option.charges[-1].line}" if option.charges else "none"
        raise WrongInput(f"there is no line {line} in this choice", where="LINE", remedy=f"its lines are {known}")
    today, why_not = _priced_today(quote, option, book, as_of)
    return Trace(
        quote=quote,
        option=option,
        today=today,
        lines=tuple(_traced(charge, option, today, book, quote.wishes.keep_until or quote.ready) for charge in charges),
        notes=tuple(_notes(quote, book, as_of, why_not)),
    )


def _traced(charge: Charge, option: Option, today: Option | None, book: RateBook, day: date) -> LineTrace:
    now = _same_line(charge, today) if today is not None else None
    return LineTrace(
        charge=charge,
        reckoning=tuple(_reckoning(charge, book, day)),
        there=find_cell(book, charge.source) if charge.source else None,
        today=now,
        own=find_cell(book, now.source) if now is not None and now.source else None,
    )


def _priced_today(quote: Quote, option: Option, book: RateBook, as_of: date) -> tuple[Option | None, str]:
    """Return the same choice by today's book, or None and why: the trucks of the choice alone, and its way over the sea."""
    request = request_again(quote, as_of)
    wishes = replace(request.wishes, trailer=option.trailer or request.wishes.trailer, ocean=option.ocean)
    trucks = {
        (leg.carrier.casefold(), option.trailer or DRIVEN) for leg in option.legs if leg.mode in ("truck", DRIVEN)
    }
    rows = tuple(row for row in book.carriers if (row.carrier.casefold(), row.trailer) in trucks)
    try:
        made = make_quote(
            replace(request, wishes=wishes),
            replace(book, carriers=rows or book.carriers),
            as_of=as_of,
            dealer=quote.dealer,
        )
    except (NoAnswer, WrongInput) as refused:
        return None, str(refused)
    found = [other for other in made.options if _driven_by(other) == _driven_by(option)]
    return (found[0], "") if found else (None, "it is not among the choices of today")


def _driven_by(option: Option) -> tuple[list[str], tuple[str, date] | None, str]:
    """Return who carries a choice, leg by leg, at which price in hand, if at one, and in which class."""
    held = option.in_hand
    return [leg.carrier for leg in option.legs], (held.reference, held.until) if held else None, option.service_class


def _same_line(charge: Charge, today: Option) -> Charge | None:
    """Return today's line for the same thing: of the same code, label and vehicle, among several that of the same cell."""
    alike = [other for other in today.charges if (other.code, other.vehicle) == (charge.code, charge.vehicle)]
    by_label = [other for other in alike if other.label == charge.label]
    by_cell = [other for other in by_label if other.source == charge.source]
    # A label that names a price, as the fuel surcharge's does, changes with it.
    found = by_cell or by_label or (alike if len(alike) == 1 else [])
    return found[0] if found else None


def _reckoning(charge: Charge, book: RateBook, day: date) -> Iterator[str]:
    """Yield how a line came about: quantity × rate, and how its rate came from the cell's."""
    yield _product(charge)
    cost, setting = charge.cost, _markup_of(charge.code)
    if charge.code == "price.rounding":
        yield f"It brings the sum of the other lines up to a multiple of the step in {charge.source}."
        return
    if charge.code == "price.margin":
        yield f"It is what our price of the whole shipment was short of its cost and the least margin in {charge.source}."
        return
    if charge.code == "truck.margin":
        yield f"It is what our price of the linehaul was short of the least margin in {charge.source}."
        return
    if charge.code.endswith(".minimum"):
        yield f"It is what is missing to the minimum in {charge.source}, with the markup on it."
        return
    if cost is None or not charge.source:
        return
    if charge.code == "truck.fuel":
        what = "percentage" if charge.unit == "%" else "rate a mile"
        yield f"The {what} is what the diesel price in {charge.source} gives by the carrier's fuel scheme."
        if charge.unit == "%":
            return
    if cost.rate == charge.rate and cost.amount == charge.amount:
        yield f"The rate is as it stands in {charge.source}; nothing is added."
    elif cost.rate == charge.rate:
        yield f"The percentage is as it stands in {charge.source}; it is taken of marked-up lines, {cost.quantity:,} at cost."
    elif cost.rate:
        added = (charge.rate / cost.rate - 1) * 100
        cell = book.pricing.of_day(day).cells.get(setting, "") if setting else ""
        by = f' for "{setting}" ({cell or "not set today"})' if setting else ""
        if setting and book.markups:
            by = f"{by}, or by a row of the sheet Markups"
        yield f"The cost is {cost.rate:f}, from {charge.source}; with {_plain(added)} % added{by} that is {charge.rate:f}."


def _product(charge: Charge) -> str:
    """Return the line's own arithmetic: `1,237 mi × 0.9348 = 1,156.35`."""
    if charge.unit == "%":
        of = ", ".join(charge.of)
        lines = f" (line {of})" if len(charge.of) == 1 else f" (lines {of})" if of else " (the vehicle's value)"
        return f"{charge.rate:f} % of {charge.quantity:,}{lines} = {charge.amount:,}"
    if charge.unit == "lump" and charge.quantity == 1:
        return f"A fixed sum of {charge.amount:,}"
    unit = "" if charge.unit == "lump" else f" {charge.unit}"
    return f"{charge.quantity:,}{unit} × {charge.rate:f} = {charge.amount:,}"


def _markup_of(code: str) -> str:
    return next((setting for starts, setting in _MARKUPS if code.startswith(starts)), "")


def _notes(quote: Quote, book: RateBook, as_of: date, why_not: str) -> Iterator[str]:
    if quote.rate_book.fingerprint == book.fingerprint:
        yield "The rate book is the one that priced the quote."
    else:
        then, today = quote.rate_book.fingerprint, book.fingerprint
        yield f"The rate book was changed since ({then} then, {today} today): rows may have moved."
    if quote.ready < as_of:
        yield f"Priced for pickup from {as_of.isoformat()} on, since {quote.ready.isoformat()} is past."
    if why_not:
        yield f"The choice cannot be priced today: {why_not}."


def _plain(number: Decimal) -> str:
    rounded = number.quantize(Decimal("0.01"))
    return f"{rounded.normalize():f}"
