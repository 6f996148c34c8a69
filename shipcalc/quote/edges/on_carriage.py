"""The last leg: by truck from the arrival port to the door."""

from collections.abc import Iterator
from datetime import date
from functools import partial

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.line import Markup
from shipcalc.pricing.loads import Freight, freight_of
from shipcalc.pricing.on_carriage import in_currency_of_book, on_carriage_lines
from shipcalc.quote.edges.edge import NO_WORDS, Words, takes_all
from shipcalc.quote.edges.road import road_legs
from shipcalc.quote.model import Leg
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.port_ends import ArrivalPort, Arrivals, LastLeg, on_carriage_by
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.price.marked_up import markup_on
from shipcalc.quote.price.parts import Charged, Rated
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Dated, Days, Span, step
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.records import replace
from shipcalc.trade import CROSSING_BY_MODE, SHIP

# Who drives the last leg abroad, whom the rate book does not name.
LOCAL_HAULIER = "a haulier of the country"


# Where nobody is priced to the door, the price ends at the port.
ineligible = takes_all


def lines(request: Request, book: RateBook, network: Network) -> Iterator[Charged]:
    """Yield the last leg by each kind of trailer, for the trucks that it follows."""
    freight, markup = freight_of(request.vehicles), markup_on(request, book)
    for leg, own in _followed_by(network):
        for place, lanes in _called_alike(network):
            part = last_leg(leg, network.arrivals, freight, book, markup, network.day, place)
            yield Charged(part, np.where(own[:, np.newaxis], np.append(lanes, -1), -1))


def _called_alike(network: Network) -> Iterator[tuple[str, Int64]]:
    """Yield what ports of arrival are called, with the positions of those that are on each sea lane, -1 for all others."""
    places = [CROSSING_BY_MODE[crossing.load.mode].called.place for crossing in network.crossings]
    of_lane = np.array(places)[network.sea.crossing]
    for place in dict.fromkeys(places):
        yield place, np.where(of_lane == place, network.sea.arrival, -1)


def _followed_by(network: Network) -> Iterator[tuple[LastLeg, Bool]]:
    """Yield the rates of the last leg with the truck services (t,) that they follow."""
    trailers = [trailer_of(service) for service in network.services]
    by_trailer = {trailer: on_carriage_by(network.arrivals.on_carriage, trailer) for trailer in dict.fromkeys(trailers)}
    for leg in {id(leg): leg for leg in by_trailer.values()}.values():
        if leg is not None:
            yield leg, np.array([by_trailer[trailer] is leg for trailer in trailers], dtype=np.bool_)


def last_leg(
    leg: LastLeg,
    arrivals: Arrivals,
    freight: Freight,
    book: RateBook,
    markup: Markup,
    day: date | None,
    place: str = SHIP.place,
) -> Rated:
    """Return the carriage from every arrival port, as such places are called, to the buyer, at the day's rates of exchange."""
    assert day is not None, "a network with ports of arrival has the day of their rates"
    rows = tuple(in_currency_of_book(row, book, day) for row in leg.rows)
    miles = np.array([port.road.miles if port.road else 0 for port in arrivals.ports], dtype=np.int64)
    ferries = [port.ferry for port in arrivals.ports]
    priced = partial(on_carriage_lines, rows, miles, ferries, freight, currency=book.pricing.currency, place=place)
    return Rated(priced, markup.port_ppm)


def days(request: Request, book: RateBook, network: Network, ways: Ways, when: Days) -> Days:
    """Return the days with those of delivery."""
    drive, spare = days_driven(network, ways)
    return replace(when, delivery=Span(when.release.earliest + drive, when.release.latest + drive + spare))


def days_driven(network: Network, ways: Ways) -> tuple[Int64, Int64]:
    """Return the days of driving and crossing and the days of waiting of the last leg; none where the price ends at the port."""
    table: Int64 = np.zeros((2, len(network.services), len(network.arrivals.ports) + 1), dtype=np.int64)
    for leg, own in _followed_by(network):
        for number, (row, port) in enumerate(zip(leg.rows, network.arrivals.ports, strict=True)):
            ferry = port.ferry
            table[0, own, number] = driving_days(row, port) + (ferry.crossing_days if ferry else 0)
            table[1, own, number] = row.spare_days + (ferry.extra_days if ferry else 0)
    drive, spare = table[:, ways.truck, ways.arrival]
    return drive, spare


def driving_days(row: OnCarriage, port: ArrivalPort) -> int:
    """Return the days from the port to the buyer, started days counted whole."""
    return -(-port.road.miles // max(row.miles_a_day, 1)) if port.road else 0


def words(one: OneWay, dated: Dated) -> Words:
    """Return the road from the port, and the delivery; where the price ends at the port, that it stands ready there."""
    there = one.arrival
    if there is None:
        return NO_WORDS
    told = "Delivered" if there.road else f"Ready to be collected in {there.row.name}"
    ferry = f"Over the {there.ferry.ferry}." if there.ferry else ""
    return Words(legs=tuple(_legs(one, there)), steps=(step(told, dated.delivery, "delivery", ferry),))


def _legs(one: OneWay, there: ArrivalPort) -> Iterator[Leg]:
    if one.last_leg is None or there.road is None:
        return
    numbers = tuple(vehicle.stock_number for vehicle in one.request.vehicles)
    for part in road_legs(there.place, one.request.to, there.road, there.crossing):
        yield replace(part, carrier=LOCAL_HAULIER, vehicles=numbers, carrier_named=True)
