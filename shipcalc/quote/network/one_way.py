"""One of the ways over a network, row by row: what it drives and sails with, and from where to where."""

from typing import TYPE_CHECKING

from shipcalc.pricing.tariff import Service
from shipcalc.quote.network.columns import Crossing, Ways
from shipcalc.quote.network.network import Network, mode_of
from shipcalc.quote.network.port_ends import ArrivalPort, ExportPort, on_carriage_by
from shipcalc.quote.network.trucks import find_trailer, trailer_of
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.trade import COLLECTED, CROSSING_BY_MODE, DRIVEN, Called, Mode, Trailer

if TYPE_CHECKING:
    from shipcalc.pricing.quotations import Offer, Offers
    from shipcalc.ratebook.rows.on_carriage import OnCarriage


@dataclass(frozen=True, slots=True, eq=False)
class OneWay:
    """A way by its position among all ways of a request; where it takes no ship, `export`, `ship` and `arrival` are None."""

    number: int
    ways: Ways
    network: Network
    request: Request
    book: RateBook

    @property
    def at_home(self) -> bool:
        """Whether a truck goes to the door, with no port and no customs."""
        return self.network.at_home

    @property
    def in_the_yard(self) -> bool:
        """Whether it is handed over in the yard, and no truck takes it."""
        return self.network.in_the_yard

    @property
    def currency(self) -> str:
        """The currency of the rate book."""
        return self.book.pricing.currency

    @property
    def truck(self) -> int:
        """The position of its truck service."""
        return int(self.ways.truck[self.number])

    @property
    def service(self) -> Service:
        """The truck service of its first leg, or of the whole way."""
        return self.network.services[self.truck]

    @property
    def covers_unknown(self) -> bool:
        """Whether nobody knows up to what its truck covers a vehicle: one at a price in hand, of a carrier not in the book."""
        return self.service.spot is not None and not self.service.spot.known

    @property
    def trailer(self) -> Trailer | None:
        """The kind of trailer, None where a driver delivers the vehicle on its own wheels, or nobody does."""
        return None if self.in_the_yard else find_trailer(self.service)

    @property
    def end(self) -> int:
        """The position of the export port that the truck drives to; -1 for the buyer's door."""
        return int(self.ways.export[self.number])

    @property
    def sea_lane(self) -> int:
        """The position of its sea lane; -1 where it takes no ship."""
        return int(self.ways.sea_lane[self.number])

    @property
    def export(self) -> ExportPort | None:
        """The port it leaves from."""
        return self.network.exports[self.end] if self.end >= 0 else None

    @property
    def ship(self) -> Crossing | None:
        """The ship with its load."""
        crossing = int(self.ways.crossing[self.number])
        return self.network.crossings[crossing] if crossing >= 0 else None

    @property
    def arrival(self) -> ArrivalPort | None:
        """The port it arrives at."""
        port = int(self.ways.arrival[self.number])
        return self.network.arrivals.ports[port] if port >= 0 else None

    @property
    def mode(self) -> Mode:
        """How the vehicles cross."""
        return mode_of(self.network, self.ways, self.number)

    @property
    def called(self) -> Called:
        """How the carrier of the longest leg, its places and its departures are spoken of."""
        return CROSSING_BY_MODE[self.mode].called

    @property
    def travels(self) -> str:
        """How they travel the longest leg, as papers ask it: the mode, "driven" by a hired driver, or "collected"."""
        return COLLECTED if self.in_the_yard else self.mode if self.trailer else DRIVEN

    @property
    def miles_aboard(self) -> int:
        """How far the ship goes, in the unit of its mode."""
        ship = self.ship
        return int(ship.nmi[int(self.ways.lane[self.number])]) if ship else 0

    @property
    def _quoted(self) -> "Offers | None":
        ship = self.ship
        return ship.offers[int(self.ways.lane[self.number])] if ship and ship.offers else None

    @property
    def offers(self) -> "tuple[tuple[str, Offer], ...]":
        """What is quoted for its ship, by the sizes of container of its load ("" for none of their own)."""
        quoted, ship = self._quoted, self.ship
        return quoted.of(ship.load.sizes) if quoted and ship else ()

    @property
    def transit_days(self) -> int | None:
        """The days from port to port that are quoted."""
        quoted = self._quoted
        return quoted.transit_days if quoted else None

    @property
    def cutoff_days(self) -> int:
        """The working days before departure that its quotation tells; -1 where the terminal's own count."""
        return int(self.network.sea.cutoff_days[int(self.ways.sea_lane[self.number])]) if self.ship else -1

    @property
    def passages(self) -> tuple[str, ...]:
        """The canals and straits that the ship takes, by their names in the network of sea lanes."""
        ship = self.ship
        return ship.passages[int(self.ways.lane[self.number])] if ship else ()

    @property
    def last_leg(self) -> "OnCarriage | None":
        """The rates that carry it on from the arrival port; None where nobody is priced to."""
        there = self.arrival
        if there is None or there.road is None:
            return None
        leg = on_carriage_by(self.network.arrivals.on_carriage, trailer_of(self.service))
        return leg.rows[int(self.ways.arrival[self.number])] if leg else None

    @property
    def reaches_the_door(self) -> bool:
        """Whether the price goes on to the buyer, or the port is the buyer's own town."""
        return self.request.fetched is None and (self.arrival is None or self.network.arrivals.arrive)
