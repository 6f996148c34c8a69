"""What is said on every quote about the cells that are kept current from week to week: fuel, currencies, the book itself."""

from collections.abc import Iterator, Sequence
from datetime import date

from shipcalc.pricing.fuel import fuel_charges
from shipcalc.quote.model import Exchange, Option
from shipcalc.quote.price.exchange import rate_on
from shipcalc.ratebook.book import RateBook


def rate_book_notes(book: RateBook, as_of: date, ready: date) -> Iterator[str]:
    """Yield what is out of date in the book: it does not hold on the day, or when the vehicle is ready; fuel old or missing."""
    first, last = book.pricing.valid_from, book.pricing.valid_to
    confirm = "confirm every price before it is promised"
    if last is not None and last < as_of:
        yield f"The rate book ended on {last.isoformat()}: {confirm}."
    elif last is not None and last < ready:
        yield f"The rate book ends on {last.isoformat()}, before the vehicle is ready: {confirm}."
    if first is not None and first > as_of:
        yield f"The rate book begins only on {first.isoformat()}: {confirm}."
    latest = fuel_charges(book.fuel, as_of, book.diesel, book.fuel_steps)
    used = dict.fromkeys(row.fuel_scheme for row in book.carriers if row.fuel_scheme)
    days = book.pricing.fuel_stale_after_days
    stale = [row for row in latest.values() if (as_of - row.as_of).days > days]
    for day in sorted({row.as_of for row in stale}):
        names = ", ".join(f'"{charge.row.scheme}"' for charge in stale if charge.as_of == day)
        of = "" if len(stale) == len(latest) and len({row.as_of for row in stale}) == 1 else f" of {names}"
        yield f"The fuel price{of} is of {day.isoformat()}, more than {days} days old."
    for scheme in used:
        if scheme.casefold() not in latest:
            yield f'There is no fuel price of {as_of.isoformat()} or before for "{scheme}": its carriers are priced without one.'


def exchange_notes(
    exchange: Exchange | None, options: Sequence[Option], country: str, book: RateBook, as_of: date
) -> Iterator[str]:
    """Yield which rate of exchange a quote uses, and every one that it uses and that is old."""
    if exchange is not None:
        added = (
            f", with {exchange.buffer.normalize():f} % added as a buffer against exchange-rate movements until payment"
        )
        buffer = added if exchange.buffer else ""
        rate = f"{exchange.currency} at {exchange.rate:f} for 1 {book.pricing.currency}"
        yield f"{rate}, the rate of {exchange.as_of.isoformat()}{buffer}."
    used = [exchange.currency] if exchange is not None else []
    if any(option.imports for option in options):
        used += [row.currency for row in book.countries if row.country == country]
    days = book.pricing.currency_stale_after_days
    for currency in dict.fromkeys(code.upper() for code in used if code.upper() != book.pricing.currency):
        row = rate_on(book, currency, as_of)
        if row is not None and (as_of - row.as_of).days > days:
            yield f"The rate of exchange for {currency} is of {row.as_of.isoformat()}, more than {days} days old."
