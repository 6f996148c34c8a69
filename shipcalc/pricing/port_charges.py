"""Which rows of the sheet Port charges hold at a port, and what they come to in the book's currency.

Rows of a port for a mode stand in place of its gate, wharfage and terminal handling on the sheet Ports; those for a vehicle a day
in place of its storage. Of rows with one label and unit, the one that names the mode counts.
"""

from collections.abc import Mapping
from datetime import date
from functools import lru_cache

from shipcalc.money import E4, decimals, from_e4, half_up
from shipcalc.pricing.row_currency import exchanged, in_book_currency, rate_of_row
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.records import dataclass

A_DAY = "vehicle a day"
# The day after the free ones from which an amount a day holds, in minor units.
Bands = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Asked:
    """A row with its amount in ten-thousandths of the book's currency, and for the office how it became that."""

    row: PortCharge
    amount_e4: int
    told: str = ""


def asked_at(book: RateBook, day: date, port: str, mode: str) -> tuple[Asked, ...]:
    """Return what a port asks of a mode line by line; nothing where its row of the sheet Ports counts."""
    rows = [row for row in _own(book, port, mode) if row.per != A_DAY]
    rates = (rate_of_row(book, row.currency, book.pricing.currency, day) for row in rows)
    return tuple(
        Asked(row, in_book_currency(row.amount_e4, rate), exchanged(f"{from_e4(row.amount_e4):,}", rate))
        for row, rate in zip(rows, rates, strict=True)
    )


def storage_bands(book: RateBook, day: date, port: str, mode: str) -> Bands:
    """Return what a port asks for a vehicle and day after the free days, by the first day of each band."""
    rows = [row for row in _own(book, port, mode) if row.per == A_DAY]
    per_major = 10 ** decimals(book.pricing.currency)
    return tuple(sorted((row.from_day or 1, half_up(_in_book_e4(book, day, row) * per_major, E4)) for row in rows))


def _in_book_e4(book: RateBook, day: date, row: PortCharge) -> int:
    return in_book_currency(row.amount_e4, rate_of_row(book, row.currency, book.pricing.currency, day))


def _own(book: RateBook, port: str, mode: str) -> tuple[PortCharge, ...]:
    rows = [row for row in _by_port(book).get(port.casefold(), ()) if row.mode in (None, mode)]
    best: dict[tuple[str, str, int | None], PortCharge] = {}
    for row in rows:
        key = row.label.casefold(), row.per, row.from_day
        if key not in best or best[key].mode is None:
            best[key] = row
    return tuple(best.values())


@lru_cache(maxsize=8)
def _by_port(book: RateBook) -> Mapping[str, list[PortCharge]]:
    found: dict[str, list[PortCharge]] = {}
    for row in book.port_charges:
        found.setdefault(row.port.casefold(), []).append(row)
    return found
