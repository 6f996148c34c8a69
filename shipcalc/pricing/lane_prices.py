"""The sheet Lanes compiled: which row of each service meets a lane, and what it says, in the rate book's currency.

A row says a price of its own, or a percentage or a minimum of the carrier's prices a mile; of each of these three kinds the most
specific row that meets a lane counts (`ratebook/lane_ends.py`), and where there is a price, the other two do not.

Rows are not tried one by one: a place has a few keys (its ZIP's first figures, its city, its state …), a key leads to the ends
that hold it, and two ends to the rows between them.
"""

from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64, from_e4, to_decimal
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.place_keys import keys_of
from shipcalc.pricing.row_currency import exchanged, in_book_currency, rate_of_row
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.lane_ends import (
    AT_TERMINAL,
    ZIP,
    End,
    areas_by_name,
    find_end,
    rank_of,
)
from shipcalc.ratebook.rows.lanes import LaneRow, says
from shipcalc.records import dataclass
from shipcalc.trade import TRAILERS

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.currencies import Currency

Bool = NDArray[np.bool_]

PRICE, PERCENT, MINIMUM = KINDS = "price", "percent", "minimum"
NONE_MET = -1


@dataclass(frozen=True, slots=True)
class Direction:
    """A row from its From to its To, or back where it holds both ways. `rate` turns its sums into the book's."""

    row: LaneRow
    begin: End
    end: End
    rate: "Currency | None"

    @property
    def said(self) -> str:
        """Return what the buyer reads beside the price."""
        return " ".join(
            part for part in ("Fuel is included." if self.row.fuel_included else "", self.row.note or "") if part
        )

    def told(self, currency: str) -> str:
        """Return what the office reads: whose price it is, by what number, until when, and in which currency it was given."""
        row = self.row
        given = row.flat_minor if row.flat_minor is not None else (row.rate_e4 or 0)
        shown = str(from_e4(given)) if row.flat_minor is None else f"{to_decimal(given, currency):,}"
        parts = (
            f"lane price of {row.carrier}",
            f"reference {row.reference}" if row.reference else "",
            f"until {row.valid_to.isoformat()}" if row.valid_to else "",
            exchanged(shown, self.rate),
        )
        return ", ".join(part for part in parts if part)


@dataclass(frozen=True, slots=True, eq=False)
class LanePrices:
    """The rows of a day, the more specific first, as columns of their sums in the book's currency, zero where they say none.

    `columns` numbers what a lane can meet: a service (carrier in lower case, trailer) with one of KINDS. `between` leads from the
    numbers of two ends to (column, row) pairs, `ends_at` from a level and a key there to the numbers of ends.
    """

    rows: tuple[Direction, ...]
    flat_minor: Int64
    rate_e4: Int64
    minimum_minor: Int64
    percent_ppm: Int64
    fuel_included: Bool
    from_named: Bool
    to_named: Bool
    columns: Mapping[tuple[str, str, str], int]
    between: Mapping[int, Mapping[int, Sequence[tuple[int, int]]]]
    ends_at: Mapping[str, Mapping[str, tuple[int, ...]]]


@dataclass(frozen=True, slots=True, eq=False)
class ServiceLanes:
    """The rows of one service: the columns in which its rows of each of KINDS are met, None where it has none."""

    prices: LanePrices
    columns: tuple[int | None, int | None, int | None]


@dataclass(frozen=True, slots=True, eq=False)
class RowsMet:
    """The row of one kind that each lane meets: its number (m,), and where there is one (m,)."""

    prices: LanePrices
    numbers: Int64
    where: Bool

    def of(self, column: NDArray[Any]) -> NDArray[Any]:
        """Return what a column says of the row of each lane; where there is none, anything."""
        return column[self.numbers]

    def each(self) -> Iterator[Direction | None]:
        """Yield the row of each lane."""
        for number in self.numbers.tolist():
            yield None if number == NONE_MET else self.prices.rows[number]

    def cells(
        self, field: str, most: int, where: Bool | None = None, otherwise: str | Sequence[str] = ""
    ) -> tuple[str, ...]:
        """Return the cell of a field for each lane, `otherwise` where there is no row; nothing for more than `most` lanes."""
        if len(self.numbers) > most:
            return ()
        others = [otherwise] * len(self.numbers) if isinstance(otherwise, str) else otherwise
        here = (self.where if where is None else where).tolist()
        return tuple(
            one.row.at.cell(field) if one and met else other
            for one, met, other in zip(self.each(), here, others, strict=True)
        )


@dataclass(frozen=True, slots=True, eq=False)
class LanesMet:
    """What lanes meet of one service's rows, by kind; None where no lane meets one."""

    prices: LanePrices
    price: RowsMet | None
    percent: RowsMet | None
    minimum: RowsMet | None


@lru_cache(maxsize=8)
def lane_prices(book: RateBook, as_of: date) -> LanePrices | None:
    """Return the sheet Lanes of a book of the day of pickup, at the rates of exchange known on `as_of`; None without rows."""
    rows = book.lanes
    if not rows:
        return None
    areas = areas_by_name(book.areas)
    ends = {text: find_end(text, areas) for text in {text for row in rows for text in (row.from_end, row.to_end)}}
    ranked = sorted(_directions(rows, ends, book, as_of), key=_preference)
    columns, between, numbers = _looked_up(ranked, book)
    return LanePrices(
        rows=tuple(ranked),
        flat_minor=_sums(ranked, lambda row: row.flat_minor),
        rate_e4=_sums(ranked, lambda row: row.rate_e4),
        minimum_minor=_sums(ranked, lambda row: row.minimum_minor),
        percent_ppm=np.array([one.row.percent_ppm or 0 for one in ranked], dtype=np.int64),
        fuel_included=np.array([one.row.fuel_included for one in ranked], dtype=np.bool_),
        from_named=np.array([one.begin.points > 0 for one in ranked], dtype=np.bool_),
        to_named=np.array([one.end.points > 0 for one in ranked], dtype=np.bool_),
        columns=columns,
        between=between,
        ends_at=_ends_at(numbers),
    )


def lanes_of(prices: LanePrices | None, carrier: str, trailer: str) -> ServiceLanes | None:
    """Return the rows of a service, None where it has none."""
    if prices is None:
        return None
    price, percent, minimum = (prices.columns.get((carrier.casefold(), trailer, kind)) for kind in KINDS)
    return None if price is percent is minimum is None else ServiceLanes(prices, (price, percent, minimum))


def priced_terminals(prices: LanePrices | None) -> Container[str]:
    """Return the terminals that rows have at an end, by `named_terminal`."""
    return prices.ends_at.get(AT_TERMINAL, {}) if prices else ()


def met_by(service: ServiceLanes | None, met: Int64 | None) -> LanesMet | None:
    """Return what lanes meet of a service's rows, as `rows_met` has it; None where they meet none."""
    if service is None:
        return None
    assert met is not None, "lanes are made with the rows that they meet wherever a service has any"
    price, percent, minimum = (_met_in(service.prices, met, column) for column in service.columns)
    return None if price is percent is minimum is None else LanesMet(service.prices, price, percent, minimum)


def rows_priced_by(service: ServiceLanes | None, met: Int64 | None, lanes: Sequence[int]) -> tuple[LaneRow, ...]:
    """Return the rows that some lanes of a service meet, of every kind, each once."""
    found = met_by(service, met)
    kinds = (found.price, found.percent, found.minimum) if found else ()
    numbers = dict.fromkeys(int(kind.numbers[lane]) for kind in kinds if kind for lane in lanes if kind.where[lane])
    return tuple(found.prices.rows[number].row for number in numbers) if found else ()


def _met_in(prices: LanePrices, met: Int64, column: int | None) -> RowsMet | None:
    if column is None:
        return None
    numbers = met[:, column]
    where = numbers != NONE_MET
    return RowsMet(prices, numbers, where) if where.any() else None


def _directions(
    rows: Sequence[LaneRow], ends: Mapping[str | None, End | None], book: RateBook, as_of: date
) -> Iterator[Direction]:
    for row in rows:
        rate = rate_of_row(book, row.currency, book.pricing.currency, as_of) if row.currency else None
        begin, end = ends[row.from_end], ends[row.to_end]
        assert begin, "the rate book's check lets no such row through"
        assert end, "the rate book's check lets no such row through"
        yield Direction(row, begin, end, rate)
        if row.both_ways:
            yield Direction(row, end, begin, rate)


def _preference(one: Direction) -> tuple[int, ...]:
    """Return what the most specific row has the least of; the sort leaves equal rows in the order of the sheet."""
    return tuple(-int(part) for part in rank_of(one.row, one.begin, one.end))


def _sums(ranked: Sequence[Direction], told: Callable[[LaneRow], int | None]) -> Int64:
    sums = [told(one.row) or 0 for one in ranked]
    for number, one in enumerate(ranked):
        if one.rate is not None:
            sums[number] = in_book_currency(sums[number], one.rate)
    return np.array(sums, dtype=np.int64)


def _looked_up(
    ranked: Sequence[Direction], book: RateBook
) -> tuple[dict[tuple[str, str, str], int], dict[int, dict[int, list[tuple[int, int]]]], dict[End, int]]:
    """Return the columns, the rows between each two ends, the more specific first, and the numbers of the ends."""
    columns: dict[tuple[str, str, str], int] = {}
    between: dict[int, dict[int, list[tuple[int, int]]]] = {}
    numbers: dict[End, int] = {}
    for number, one in enumerate(ranked):
        begin, end = (numbers.setdefault(side, len(numbers)) for side in (one.begin, one.end))
        kind = next(kind for kind in KINDS if says(one.row, kind))
        met = between.setdefault(begin, {}).setdefault(end, [])
        for trailer in (one.row.trailer,) if one.row.trailer else TRAILERS:
            met.append((columns.setdefault((one.row.carrier.casefold(), trailer, kind), len(columns)), number))
    return columns, between, numbers


def _ends_at(numbers: Mapping[End, int]) -> dict[str, dict[str, tuple[int, ...]]]:
    """Return the ends that each key leads to, by level; ZIPs by how many figures a key has: `zip 3`, `zip US-WA 3`."""
    found: dict[str, dict[str, tuple[int, ...]]] = {}
    for end, number in numbers.items():
        for level, key in end.pieces:
            at = found.setdefault(f"{level} {len(key)}" if level.startswith(ZIP) else level, {})
            at[key] = (*at.get(key, ()), number)
    return found


def rows_met(prices: LanePrices, pickups: PlaceColumns, deliveries: PlaceColumns, count: int) -> Int64:
    """Return the number of the row that each lane meets in each column (m, columns), NONE_MET where none.

    `pickups` may hold one place for all lanes.
    """
    (from_kind, begins), (to_kind, ends) = _ends_of(prices, pickups), _ends_of(prices, deliveries)
    pairs = np.broadcast_to(from_kind * len(ends) + to_kind, (count,))
    distinct, which = np.unique(pairs, return_inverse=True)
    found = np.full((len(distinct), len(prices.columns)), NONE_MET, dtype=np.int64)
    for number, pair in enumerate(distinct.tolist()):
        for column, row in _best(prices, begins[pair // len(ends)], ends[pair % len(ends)]).items():
            found[number, column] = row
    met: Int64 = found[which.reshape(-1)]
    return met


def _best(prices: LanePrices, begins: Sequence[int], ends: Sequence[int]) -> dict[int, int]:
    """Return by column the first row, which is the most specific, between any of some ends and any of others."""
    best: dict[int, int] = {}
    for begin in begins:
        beyond = prices.between.get(begin)
        if beyond is None:
            continue
        for end in ends:
            for column, row in beyond.get(end, ()):
                if row < best.get(column, row + 1):
                    best[column] = row
    return best


def _ends_of(prices: LanePrices, places: PlaceColumns) -> tuple[Int64, list[tuple[int, ...]]]:
    """Return the kind of each place (n,), and the numbers of the ends that each kind lies in."""
    kind: Int64 = np.zeros(len(places.country), dtype=np.int64)
    levels = [(known, *keys_of(level, known, places)) for level, known in prices.ends_at.items()]
    for _, at, told in levels:
        _, kind = np.unique(kind * (len(told) + 1) + at, return_inverse=True)
        kind = kind.reshape(-1)
    _, first = np.unique(kind, return_index=True)
    ends: list[tuple[int, ...]] = []
    for place in first.tolist():
        keys = ((known, told[at[place]]) for known, at, told in levels)
        ends.append(tuple(number for known, key in keys if key is not None for number in known[key]))
    return kind, ends
