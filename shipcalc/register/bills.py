"""Bills kept beside the quotes they are for."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from sqlalchemy import Connection, Select, delete, select

from shipcalc.errors import WrongInput
from shipcalc.learning.bill import Bill
from shipcalc.money import to_decimal
from shipcalc.quote.as_data import quote_from_json
from shipcalc.quote.model import Quote
from shipcalc.records import dataclass
from shipcalc.register.dialect import insert_into
from shipcalc.register.events import note_of_number
from shipcalc.register.opening import Register
from shipcalc.register.packing import unpacked
from shipcalc.register.tables import bills, quotes, revisions, words
from shipcalc.register.words import IN_HAND

_AT_ONCE = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Billed:
    """A quote as it was promised, the choice that counts (the accepted one, else the recommended), and its bills."""

    quote: Quote
    choice: int
    bills: tuple[Bill, ...]


def keep_bills(register: Register, found: Sequence[Bill], *, at: str, who: str = "") -> int:
    """Keep bills, all or none, and return how many were new: the same line twice is one bill.

    Raises WrongInput for a number that no quote has.
    """
    with register.writing("keeping bills") as connection:
        for number in unknown_numbers(connection, found):
            raise WrongInput(f"there is no quote {number}", remedy="shipcalc quotes list shows which there are")
        kept = 0
        for one in found:
            values = {
                "number": one.number,
                "carrier": one.carrier,
                "kind": one.kind,
                "amount_minor": one.amount_minor,
                "currency": one.currency,
                "day": one.day,
                "reference": one.reference,
                "kept_at": at,
            }
            insert = insert_into(connection, bills).values(**values).on_conflict_do_nothing().returning(bills.c.id)
            if connection.execute(insert).first() is not None:
                kept += 1
                note_of_number(connection, one.number, "bill kept", at=at, who=who, told=_told(one))
    return kept


def _told(bill: Bill) -> str:
    return f"{bill.kind} {to_decimal(bill.amount_minor, bill.currency):,} {bill.currency}, {bill.carrier}"


def unknown_numbers(connection: Connection, found: Sequence[Bill]) -> tuple[str, ...]:
    """Return the numbers of bills that no quote has."""
    wanted = list(dict.fromkeys(bill.number for bill in found))
    known: set[str] = set()
    for start in range(0, len(wanted), _AT_ONCE):
        asked = select(quotes.c.number).where(quotes.c.number.in_(wanted[start : start + _AT_ONCE]))
        known |= set(connection.execute(asked).scalars())
    return tuple(number for number in wanted if number not in known)


def find_bills(connection: Connection, number: str | None = None, *, most: int | None = None) -> tuple[Bill, ...]:
    """Return the bills for a quote, or for all, the latest first."""
    asked = select(bills).order_by(bills.c.day.desc(), bills.c.id.desc())
    if number is not None:
        asked = asked.where(bills.c.number == number)
    return tuple(_bill(row) for row in connection.execute(asked.limit(most) if most is not None else asked))


def remove_bill(register: Register, one: int, *, at: str, who: str = "") -> Bill:
    """Take a bill out again, and return it. Raises WrongInput where there is none."""
    with register.writing("removing a bill") as connection:
        row = connection.execute(select(bills).where(bills.c.id == one)).first()
        if row is None:
            raise WrongInput(f"there is no bill {one}", remedy="shipcalc costs list shows which there are")
        connection.execute(delete(bills).where(bills.c.id == one))
        bill = _bill(row)
        note_of_number(connection, bill.number, "bill removed", at=at, who=who, told=_told(bill))
    return bill


def billed_quotes(connection: Connection, *, since: date | None = None) -> Iterator[Billed]:
    """Yield the quotes that have bills, of those since a day, with all their bills, by number."""
    numbers = select(bills.c.number).distinct()
    if since is not None:
        numbers = numbers.where(bills.c.day >= since)
    of_quote: dict[str, list[Bill]] = {}
    for row in connection.execute(select(bills).where(bills.c.number.in_(numbers)).order_by(bills.c.id)):
        of_quote.setdefault(row.number, []).append(_bill(row))
    for quote, choice in _quotes(connection, select(bills.c.number).where(bills.c.number.in_(numbers))):
        yield Billed(quote=quote, choice=choice, bills=tuple(of_quote[quote.number or ""]))


def quotes_in_hand(connection: Connection, *, since: date | None = None) -> Iterator[Quote]:
    """Yield the quotes, made since a day, that hold a price that a carrier asked for the one shipment."""
    numbers = select(words.c.number).where(words.c.about == IN_HAND)
    if since is not None:
        numbers = select(quotes.c.number).where(quotes.c.number.in_(numbers), quotes.c.as_of >= since)
    for quote, _ in _quotes(connection, numbers):
        yield quote


def _quotes(connection: Connection, numbers: Select[Any]) -> Iterator[tuple[Quote, int]]:
    """Yield the latest revisions of some quotes, with the choice that counts."""
    joined = revisions.join(
        quotes, (quotes.c.number == revisions.c.number) & (quotes.c.revision == revisions.c.revision)
    )
    asked = select(revisions.c.quote, quotes.c.choice, quotes.c.number).select_from(joined)
    for row in connection.execute(asked.where(quotes.c.number.in_(numbers)).order_by(quotes.c.number)):
        quote = quote_from_json(unpacked(row.quote), where=row.number)
        yield quote, quote.recommended if row.choice is None else row.choice


def _bill(row: Any) -> Bill:
    return Bill(
        id=row.id,
        number=row.number,
        carrier=row.carrier,
        kind=row.kind,
        amount_minor=row.amount_minor,
        currency=row.currency,
        day=row.day,
        reference=row.reference,
    )
