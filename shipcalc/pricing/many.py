"""Truck prices of many vehicles over many lanes: each kind of vehicle is priced once over each kind of lane, then looked up.

    price = what `truck_price` says of the vehicle's kind over the lane's kind, without the lines that hang on the value
          + those lines, for the vehicle's own value

Both parts are sums of lines that a single quote's price is made of too; a price is their sum because a line of one part is
never the base of a line of the other.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64, round_up
from shipcalc.pricing.alike import Alike, lanes_alike, lanes_at, rows_alike, vehicles_alike, vehicles_at
from shipcalc.pricing.columns import Asked, LaneColumns, VehicleColumns
from shipcalc.pricing.line import Markup
from shipcalc.pricing.lines import sum_of, truck_lines
from shipcalc.pricing.tariff import Service, Tariffs
from shipcalc.pricing.truck import trip_of, truck_price
from shipcalc.records import dataclass

# Far above every price, and far enough below 2^63 for what a value may add.
NO_PRICE = 1 << 60

# So many prices are held at once while kinds are priced, 8 bytes each and some as much again for their lines.
MOST_AT_ONCE = 1_000_000


@dataclass(frozen=True, slots=True, eq=False)
class ManyPrices:
    """The prices of all services for n vehicles × m lanes, by kind.

    `plain` (kinds of vehicles, services, kinds of lanes) holds what does not hang on the value, NO_PRICE where a service is
    not eligible; `of_value` (distinct vehicles, services, stretches) the rest; `stretch_of` (kinds of lanes) the stretch of
    miles over which that rest is the same. `vehicles` and `lanes` say which of the n and m are alike.
    """

    vehicles: Alike
    lanes: Alike
    plain: Int64
    kind_of: Int64
    of_value: Int64
    stretch_of: Int64

    def total(self, service: int) -> Int64:
        """Return one service's prices (distinct vehicles, kinds of lanes); NO_PRICE or more where it is not eligible."""
        prices: Int64 = self.plain[self.kind_of, service]
        added = self.of_value[:, service]
        if added.any():
            prices += added if added.shape[1] == 1 else added[:, self.stretch_of]
        return prices

    def spread(self, found: NDArray[np.generic]) -> NDArray[np.generic]:
        """Return something known of (distinct vehicles, kinds of lanes) for the n vehicles × m lanes."""
        return found[self.vehicles.kind_of[:, np.newaxis], self.lanes.kind_of[np.newaxis, :]]


@dataclass(frozen=True, slots=True, eq=False)
class Cheapest:
    """The lowest price (distinct vehicles, kinds of lanes) in minor units and the service's number; NO_PRICE and -1 for none."""

    total: Int64
    service: NDArray[np.int16]


def many_prices(
    tariffs: Tariffs,
    services: Sequence[Service],
    vehicles: VehicleColumns,
    lanes: LaneColumns,
    asked: Asked,
    markup: Markup,
    *,
    alike: Alike | None = None,
) -> ManyPrices:
    """Return the prices of some of the services of `tariffs`. `alike` is what `lanes_alike` says of the lanes, if it is known."""
    alike = alike or lanes_alike(lanes)
    book = tariffs.book
    kinds = vehicles_alike(services, book.extras, vehicles, book.pricing.currency)
    lane_kinds = lanes_at(lanes, alike.first)
    plain = np.empty((len(kinds), len(services), len(alike)), dtype=np.int64)
    for part in _parts(len(kinds), len(alike)):
        trip = trip_of(tariffs, vehicles_at(vehicles, kinds.first[part]), lane_kinds, asked)
        for number, service in enumerate(services):
            price = truck_price(service, trip, markup)
            value = sum_of((line for line in price.lines if line.is_of_value), price.total.shape)
            plain[part, number] = np.where(price.eligible, price.total - value, NO_PRICE)
    of_value, stretch_of = _parts_of_value(tariffs, services, vehicles, lane_kinds, asked, markup)
    distinct = rows_alike(np.concatenate([kinds.kind_of[:, np.newaxis], of_value.reshape(len(vehicles), -1)], axis=1))
    return ManyPrices(
        vehicles=distinct,
        lanes=alike,
        plain=plain,
        kind_of=kinds.kind_of[distinct.first],
        of_value=of_value[distinct.first],
        stretch_of=stretch_of,
    )


def cheapest(
    prices: ManyPrices, services: Sequence[int], rounding_step_minor: int, turn: Int64 | None = None
) -> Cheapest:
    """Return the lowest price of some services, rounded up as in a quote.

    Of equal prices the one with the lowest `turn` (services, kinds of lanes) wins, else the first in the order given.
    """
    shape = (len(prices.vehicles), len(prices.lanes))
    best = np.full(shape, NO_PRICE, dtype=np.int64)
    which = np.full(shape, -1, dtype=np.int16)
    for service in services:
        total = prices.total(service)
        if rounding_step_minor > 1:
            total = round_up(total, rounding_step_minor)
        better = total < best
        if turn is not None:
            vehicle, lane = np.nonzero((total == best) & (which >= 0))
            better[vehicle, lane] = turn[service, lane] < turn[which[vehicle, lane], lane]
        np.copyto(best, total, where=better)
        which[better] = service
    return Cheapest(best, which)


def _parts(kinds: int, lanes: int) -> Iterator[slice]:
    """Yield the kinds of vehicles in parts small enough to be priced at once."""
    size = max(1, MOST_AT_ONCE // max(lanes, 1))
    for begin in range(0, kinds, size):
        yield slice(begin, begin + size)


def _parts_of_value(
    tariffs: Tariffs,
    services: Sequence[Service],
    vehicles: VehicleColumns,
    lanes: LaneColumns,
    asked: Asked,
    markup: Markup,
) -> tuple[Int64, Int64]:
    """Return what hangs on the vehicles' values (n, services, stretches), and the stretch of each lane (m,).

    Such a charge knows of a lane only whether it is longer than the row's miles: one lane of each stretch is priced.
    """
    starts = sorted(
        {row.miles_over for row in tariffs.book.extras if row.miles_over is not None and row.charge == "percent"}
    )
    stretches = np.searchsorted(np.array(starts, dtype=np.int64), lanes.miles, side="left")
    probes = rows_alike(stretches[:, np.newaxis])
    trip = trip_of(tariffs, vehicles, lanes_at(lanes, probes.first), asked)
    shape = (len(vehicles), len(probes))
    of_value = np.zeros((shape[0], len(services), shape[1]), dtype=np.int64)
    for number, service in enumerate(services):
        # Not `truck_price`: it makes no lines where the lane that stands for its stretch is itself not served.
        lines = truck_lines(service, trip, markup)
        of_value[:, number] = sum_of((line for line in lines if line.is_of_value), shape)
    return of_value, probes.kind_of
