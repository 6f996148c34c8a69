"""The last leg: by road from the arrival port to the buyer, at the rate of the buyer's country. Always an estimate."""

from collections.abc import Callable, Iterator, Sequence
from datetime import date

import numpy as np

from shipcalc.money import Int64, share
from shipcalc.pricing.counted import counted_line, lump_line
from shipcalc.pricing.line import Line
from shipcalc.pricing.loads import Freight
from shipcalc.pricing.row_currency import in_book_currency, rate_of_row
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.records import replace
from shipcalc.trade import SHIP

STAGE = "on-carriage"
UNLOADED = "unloading"
WINCH, SKATES = "Winch", "Forklift and skates"


def on_carriage_lines(
    rows: Sequence[OnCarriage],
    miles: Int64,
    ferries: Sequence[FerryAbroad | None],
    freight: Freight,
    *,
    markup_ppm: int,
    currency: str,
    place: str = SHIP.place,
) -> Iterator[Line]:
    """Yield base, miles and the rest to the minimum of each vehicle over m roads of whole miles (m,), then the fares.

    `rows` (m,) are the rates of each road, `ferries` (m,) the ferry on it, None where roads lead all the way; `place` is what the
    places are called that the roads begin at.
    """

    def column(field: str) -> Int64:
        return np.array([[getattr(row, field) or 0 for row in rows]], dtype=np.int64)

    def cells(field: str) -> tuple[str, ...]:
        return tuple([row.at.cell(field) for row in rows])

    yield from _road(column, cells, _trailers(rows), miles, len(freight), markup_ppm, currency, place)
    yield from _handling(column, cells, freight, markup_ppm, place)
    yield from _fares(ferries, len(freight), markup_ppm)


def in_currency_of_book(row: OnCarriage, book: RateBook, day: date) -> OnCarriage:
    """Return a row with its sums in the rate book's currency, as the sheet Currencies says on a day."""
    rate = rate_of_row(book, row.currency, book.pricing.currency, day)
    if rate is None:
        return row
    return replace(
        row,
        base_minor=in_book_currency(row.base_minor, rate),
        rate_e4=in_book_currency(row.rate_e4, rate),
        minimum_minor=in_book_currency(row.minimum_minor, rate),
        winch_minor=None if row.winch_minor is None else in_book_currency(row.winch_minor, rate),
        skates_minor=None if row.skates_minor is None else in_book_currency(row.skates_minor, rate),
    )


def _road(
    column: Callable[[str], Int64],
    cells: Callable[[str], tuple[str, ...]],
    trailers: str,
    miles: Int64,
    vehicles: int,
    markup_ppm: int,
    currency: str,
    place: str,
) -> Iterator[Line]:
    """Yield base, miles and the rest to the minimum."""
    each = np.ones((vehicles, 1), dtype=np.int64)
    total: Int64 = np.zeros((1, len(miles)), dtype=np.int64)
    bases, minimums = column("base_minor"), column("minimum_minor")
    if bases.any():
        base = lump_line(
            code="oncarriage.base",
            label=f"Carriage from the {place}, base",
            stage=STAGE,
            minor=each * bases,
            markup_ppm=markup_ppm,
            lane_cells=cells("base_minor"),
        )
        total = total + base.amount
        yield base
    by_mile = counted_line(
        code="oncarriage.miles",
        label=f"Carriage from the {place}, {trailers} truck",
        stage=STAGE,
        unit="mi",
        quantity=each * miles[np.newaxis, :],
        rate_e4=column("rate_e4"),
        markup_ppm=markup_ppm,
        currency=currency,
        lane_cells=cells("rate_e4"),
    )
    total = total + by_mile.amount
    yield by_mile
    if minimums.any():
        yield lump_line(
            code="oncarriage.minimum",
            label=f"Top-up to the minimum for carriage from the {place}",
            stage=STAGE,
            minor=np.maximum(minimums + share(minimums, markup_ppm) - total, 0),
            lane_cells=cells("minimum_minor"),
        )


def _trailers(rows: Sequence[OnCarriage]) -> str:
    """Return the kind of trailer, both where the ports differ."""
    return " or ".join(dict.fromkeys(row.trailer for row in rows))


def _handling(
    column: Callable[[str], Int64],
    cells: Callable[[str], tuple[str, ...]],
    freight: Freight,
    markup_ppm: int,
    place: str,
) -> Iterator[Line]:
    """Yield what it costs to get a vehicle on and off the truck there that cannot be driven: one way of the two."""
    for field, what, where in (
        ("winch_minor", WINCH, ~freight.drives & freight.rolls),
        ("skates_minor", SKATES, ~freight.rolls),
    ):
        if not (where.any() and column(field).any()):
            continue
        for end, label, stage in (
            ("on", f"{what}, onto the truck at the {place}", STAGE),
            ("off", f"{what} at the door, since it cannot be driven off", UNLOADED),
        ):
            yield lump_line(
                code=f"oncarriage.{field.removesuffix('_minor')}.{end}",
                label=label,
                stage=stage,
                minor=column(field),
                markup_ppm=markup_ppm,
                where=where,
                lane_cells=cells(field),
            )


def _fares(ferries: Sequence[FerryAbroad | None], vehicles: int, markup_ppm: int) -> Iterator[Line]:
    """Yield the fare of each vehicle for every ferry on the ways."""
    for row in {id(ferry): ferry for ferry in ferries if ferry is not None}.values():
        yield lump_line(
            code="oncarriage.ferry",
            label=row.ferry,
            stage=STAGE,
            minor=np.full((vehicles, 1), row.amount_minor, dtype=np.int64),
            markup_ppm=markup_ppm,
            where=np.array([[ferry is row for ferry in ferries]]),
            cell=row.at.cell("amount_minor"),
        )
