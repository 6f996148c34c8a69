"""Which rows of the sheet Ocean quotations price a ship between two ports, and what they come to in the book's currency.

Of the rows of freight that hold on the day for the ports, mode, line and size of container, the one that names more ports counts,
then the one that names the line; rows equal in that are a fault (`ratebook/checks/quotations.py`). Of a quotation's surcharges
with one name, the one that names most.
"""

from collections.abc import Mapping, Sequence
from datetime import date
from functools import lru_cache

from shipcalc.money import E4, decimals, half_up
from shipcalc.pricing.ocean import SeaService
from shipcalc.pricing.row_currency import exchanged, in_book_currency, rate_of_row
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.remembered import remembered_by_book
from shipcalc.ratebook.rows.ports import Port, names_of
from shipcalc.ratebook.rows.quotations import OceanQuotation, quotation_of, rank, size_of
from shipcalc.records import dataclass

Ends = tuple[str, str, str]  # mode, from, to


@dataclass(frozen=True, slots=True, eq=False)
class Quoted:
    """A row of a quotation in the book's currency: its amount in ten-thousandths, its minimum in minor units.

    `told` is who quotes it, for the office.
    """

    row: OceanQuotation
    amount_e4: int
    minimum_minor: int
    told: str


@dataclass(frozen=True, slots=True, eq=False)
class Offer:
    """The freight between two ports with its surcharges."""

    freight: Quoted
    surcharges: tuple[Quoted, ...]

    @property
    def rows(self) -> tuple[OceanQuotation, ...]:
        """The rows that it is made from."""
        return (self.freight.row, *(one.row for one in self.surcharges))


@dataclass(frozen=True, slots=True, eq=False)
class Offers:
    """What is quoted for one service between two ports, by the size of container; "" where it is none of their own.

    The days are the ship's, whatever size it carries: of several that are told, the longest.
    """

    by_size: Mapping[str, Offer]
    transit_days: int | None
    cutoff_days: int | None

    def of(self, sizes: Sequence[str]) -> tuple[tuple[str, Offer], ...]:
        """Return what is quoted of some sizes."""
        return tuple((size, self.by_size[size]) for size in sizes if size in self.by_size)


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """The rows of a book of the day of pickup: freight by mode and by what it names at both ends, surcharges by their quotation.

    `names` are what rows of freight may call a port, by its code; without the ports that none of them names.
    """

    freight: Mapping[Ends, Sequence[OceanQuotation]]
    surcharges: Mapping[tuple[str, str], Sequence[OceanQuotation]]
    names: Mapping[str, tuple[str, ...]]


def quoted_between(book: RateBook, day: date, service: SeaService, export: Port, arrival: Port) -> Offers | None:
    """Return what is quoted for a service between two ports; None where nothing is."""
    names = _sheet_of(book).names
    outward, inward = names.get(export.port), names.get(arrival.port)
    if outward is None or inward is None:
        return None
    row = service.row
    sizes = tuple(size_of(each.basis) for each in service.rows)
    return _offers(book, day, row.carrier.casefold(), row.mode, sizes, outward, inward)


@lru_cache(maxsize=8)
def _sheet_of(book: RateBook) -> Sheet:
    freight: dict[Ends, list[OceanQuotation]] = {}
    surcharges: dict[tuple[str, str], list[OceanQuotation]] = {}
    for row in book.quotations:
        if row.surcharge is not None:
            surcharges.setdefault(quotation_of(row), []).append(row)
        elif row.mode and row.from_port and row.to_port:
            freight.setdefault((row.mode, row.from_port.casefold(), row.to_port.casefold()), []).append(row)
    named = {name for _, *ends in freight for name in ends}
    names = ((port.port, names_of(port)) for port in book.ports)
    return Sheet(freight, surcharges, {code: own for code, own in names if named.intersection(own)})


@remembered_by_book(65_536)
def _offers(
    book: RateBook,
    day: date,
    line: str,
    mode: str,
    sizes: tuple[str, ...],
    outward: tuple[str, ...],
    inward: tuple[str, ...],
) -> Offers | None:
    sheet = _sheet_of(book)
    rows = [row for one in outward for other in inward for row in sheet.freight.get((mode, one, other), ())]
    ends = outward, inward
    found = {size: best for size in sizes if (best := _best(rows, line, mode, size, ends)) is not None}
    if not found:
        return None
    return Offers(
        {
            size: Offer(_quoted(book, day, row), _surcharges(book, day, row, line, size, ends))
            for size, row in found.items()
        },
        transit_days=_longest([row.transit_days for row in found.values()]),
        cutoff_days=_longest([row.cutoff_days for row in found.values()]),
    )


def _longest(told: Sequence[int | None]) -> int | None:
    return max((days for days in told if days is not None), default=None)


def _best(
    rows: Sequence[OceanQuotation], line: str, mode: str, size: str, ends: tuple[tuple[str, ...], tuple[str, ...]]
) -> OceanQuotation | None:
    """Return the row that names most, of those that hold; the first of equals."""
    own = [row for row in rows if _holds(row, line, mode, size, ends)]
    return max(own, key=lambda row: rank(row, ends[0][0], ends[1][0]), default=None)


def _holds(row: OceanQuotation, line: str, mode: str, size: str, ends: tuple[tuple[str, ...], tuple[str, ...]]) -> bool:
    asked = ((row.line, (line,)), (row.mode, (mode,)), (row.from_port, ends[0]), (row.to_port, ends[1]))
    is_open = all(cell is None or cell.casefold() in names for cell, names in asked)
    return is_open and size_of(row.basis) in (("", size) if row.surcharge else (size,))


def _surcharges(
    book: RateBook,
    day: date,
    freight: OceanQuotation,
    line: str,
    size: str,
    ends: tuple[tuple[str, ...], tuple[str, ...]],
) -> tuple[Quoted, ...]:
    """Return the surcharges on a row of freight, each name once, in the order of the sheet."""
    assert freight.mode is not None, "freight names its mode"
    by_name: dict[str, list[OceanQuotation]] = {}
    for row in _sheet_of(book).surcharges.get(quotation_of(freight), ()):
        by_name.setdefault((row.surcharge or "").casefold(), []).append(row)
    found = (_best(rows, line, freight.mode, size, ends) for rows in by_name.values())
    return tuple(_quoted(book, day, row) for row in found if row is not None)


def _quoted(book: RateBook, day: date, row: OceanQuotation) -> Quoted:
    own = book.pricing.currency
    rate = rate_of_row(book, row.currency, own, day)
    amount = exchanged(f"{(row.amount_e4 or 0) / E4:,.2f}", rate) if row.amount_e4 else ""
    minimum_e4 = in_book_currency(row.minimum_e4 or 0, rate)
    told = (f"{row.forwarder}, quotation {row.quotation}", _until(row), amount)
    return Quoted(
        row,
        amount_e4=in_book_currency(row.amount_e4 or 0, rate),
        minimum_minor=half_up(minimum_e4 * 10 ** decimals(own), E4),
        told=", ".join(part for part in told if part),
    )


def _until(row: OceanQuotation) -> str:
    return f"until {row.valid_to.isoformat()}" if row.valid_to else ""
