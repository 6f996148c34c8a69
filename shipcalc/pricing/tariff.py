"""A carrier's tariff compiled: for every whole mile, the mile it is charged as and the pieces of its bands.

Distance bands are priced in one of two ways, chosen by the carrier's row:

    whole trip   all miles at the rate of the band that the trip falls in
    graduated    each mile at the rate of its own band

Where a band's rate drops so far that a somewhat longer trip would cost less, the shorter trip is charged as the longer one (the
"later break" of freight tariffs), so that a longer trip never costs less. The comparison is made on exact sums, before any
rounding; a markup multiplies both sides and cannot change it.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.money import Int64, from_e4, to_decimal
from shipcalc.pricing.areas import area_rows
from shipcalc.pricing.ferries import fares_of
from shipcalc.pricing.fuel import FuelCharge, fuel_charges
from shipcalc.pricing.lane_prices import LanePrices, ServiceLanes, lane_prices, lanes_of
from shipcalc.pricing.loaded import loads_of
from shipcalc.pricing.occasions import occasions_of
from shipcalc.pricing.row_currency import exchanged, in_book_currency, rate_of_row
from shipcalc.pricing.service_classes import classes_of
from shipcalc.pricing.spot import Spot
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.occasions import Occasion
from shipcalc.ratebook.rows.service_classes import ServiceClass
from shipcalc.ratebook.rows.vehicles_loaded import VehiclesLoaded
from shipcalc.records import dataclass, replace

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.currencies import Currency

LONGEST_TRIP_MI = 9_000


@dataclass(frozen=True, slots=True)
class Given:
    """A carrier's row and its bands, the shortest trips first, as they were typed: in its own currency, at a rate of exchange."""

    row: Carrier
    bands: tuple[MileBand, ...]
    rate: "Currency"
    currency: str

    @property
    def base(self) -> str:
        """How the base fee became the book's, for the office."""
        return self._sum(self.row.base_minor)

    @property
    def minimum(self) -> str:
        """How the minimum did."""
        return self._sum(self.row.minimum_minor)

    def band(self, from_mi: int) -> str:
        """Return how the rate a mile of the band that begins there did."""
        own = next(band for band in self.bands if band.from_mi == from_mi)
        return exchanged(str(from_e4(own.rate_e4)), self.rate)

    def _sum(self, minor: int) -> str:
        return exchanged(f"{to_decimal(minor, self.currency):,}", self.rate)


@dataclass(frozen=True, slots=True)
class Service:
    """One carrier with one kind of trailer, ready to be priced.

    `charged_mi[m]` is the mile that a trip of m miles is charged as. `from_rows` and `to_rows` are the rows of the sheet Areas
    that it picks up in and delivers to, where its own row names areas. `spot`: a price in hand stands in place of its rates.
    `lanes` are its rows of the sheet Lanes, `loads` those of Vehicles loaded. `offer`: it is one of the carrier's classes.
    `occasions` is what it asks for when something happens, in no price. `fares` are its own on ferries.
    `given`: its prices as they were typed, where they are in another currency than the book's.
    """

    row: Carrier
    bands: tuple[MileBand, ...]
    charged_mi: Int64
    last_mi: int
    fuel: FuelCharge | None
    from_rows: tuple[int, ...]
    to_rows: tuple[int, ...]
    spot: Spot | None = None
    lanes: ServiceLanes | None = None
    loads: tuple[VehiclesLoaded, ...] = ()
    offer: ServiceClass | None = None
    occasions: tuple[Occasion, ...] = ()
    fares: tuple[Ferry, ...] = ()
    given: Given | None = None


@dataclass(frozen=True, slots=True)
class Tariffs:
    """All services of a rate book of a day, the day of the quote, and the book's rows of the sheet Lanes."""

    book: RateBook
    as_of: date
    services: tuple[Service, ...]
    lanes: LanePrices | None = None


@lru_cache(maxsize=8)
def compile_tariffs(book: RateBook, as_of: date) -> Tariffs:
    """Return the services of a book of the day of pickup, with the prices of diesel and rates of exchange known on `as_of`."""
    bands: Mapping[tuple[str, str], list[MileBand]] = defaultdict(list)
    for band in book.bands:
        bands[band.carrier.casefold(), band.trailer].append(band)
    fuel, lanes = fuel_charges(book.fuel, as_of, book.diesel, book.fuel_steps), lane_prices(book, as_of)
    priced = (_in_book_currency(row, bands[row.carrier.casefold(), row.trailer], book, as_of) for row in book.carriers)
    ordinary = (
        replace(
            _service(row, own, fuel, book, lanes, loads_of(book.loaded, row.carrier, row.trailer)),
            given=given,
        )
        for row, own, given in priced
    )
    own = (
        replace(
            service,
            occasions=occasions_of(book.occasions, service.row),
            fares=fares_of(book.ferries, service.row),
        )
        for service in ordinary
    )
    services = tuple(one for service in own for one in (service, *_in_classes(service, book.classes)))
    return Tariffs(book, as_of, services, lanes)


def _in_book_currency(
    row: Carrier, bands: Iterable[MileBand], book: RateBook, as_of: date
) -> tuple[Carrier, tuple[MileBand, ...], Given | None]:
    """Return a carrier's row and its bands, the shortest trips first, in the rate book's currency; and as they were given."""
    own = tuple(sorted(bands, key=lambda band: band.from_mi))
    rate = rate_of_row(book, row.currency, book.pricing.currency, as_of) if row.currency else None
    if rate is None:
        return row, own, None
    base, minimum = (in_book_currency(minor, rate) for minor in (row.base_minor, row.minimum_minor))
    return (
        replace(row, base_minor=base, minimum_minor=minimum),
        tuple(replace(band, rate_e4=in_book_currency(band.rate_e4, rate)) for band in own),
        Given(row, own, rate, book.pricing.currency),
    )


def _in_classes(service: Service, classes: Iterable[ServiceClass]) -> Iterator[Service]:
    """Yield a service in each class that its carrier has."""
    for offer, row in classes_of(classes, service.row):
        yield replace(service, row=row, offer=offer)


def miles_in_band(service: Service, band: MileBand, charged_mi: Int64) -> Int64:
    """Return how many miles of each trip are paid at the rate of `band`, for trips charged as `charged_mi`."""
    last = LONGEST_TRIP_MI if band.to_mi is None else band.to_mi
    if service.row.bands == "graduated":
        return np.clip(charged_mi - band.from_mi, 0, last - band.from_mi)
    return np.where((charged_mi > band.from_mi) & (charged_mi <= last), charged_mi, 0)


def _service(
    row: Carrier,
    bands: tuple[MileBand, ...],
    fuel: Mapping[str, FuelCharge],
    book: RateBook,
    lanes: LanePrices | None,
    loads: tuple[VehiclesLoaded, ...],
) -> Service:
    last_mi = LONGEST_TRIP_MI if not bands or bands[-1].to_mi is None else bands[-1].to_mi
    miles = np.arange(last_mi + 1, dtype=np.int64)
    uncompiled = Service(
        row=row,
        bands=bands,
        charged_mi=miles,
        last_mi=last_mi,
        fuel=fuel.get((row.fuel_scheme or "").casefold()),
        from_rows=area_rows(book.areas, row.from_areas),
        to_rows=area_rows(book.areas, row.to_areas),
        lanes=lanes_of(lanes, row.carrier, row.trailer),
        loads=loads,
    )
    exact = sum((miles_in_band(uncompiled, band, miles) * band.rate_e4 for band in bands), start=np.zeros_like(miles))
    return replace(uncompiled, charged_mi=_lowest_from_here_on(exact))


def _lowest_from_here_on(exact: Int64) -> Int64:
    """Return for each mile the first mile at or after it whose price is the lowest from there on.

    Invariant: exact[result] never falls with the mile, and equals exact where exact never falls.
    """
    lowest = np.minimum.accumulate(exact[::-1])[::-1]
    is_break = exact == lowest
    miles = np.arange(len(exact), dtype=np.int64)
    breaks = np.where(is_break, miles, len(exact))
    return np.minimum.accumulate(breaks[::-1])[::-1]
