"""The network to a buyer, wherever he is: the one place where ways begin."""

from datetime import date

from shipcalc.quote.network.columns import sea_lanes
from shipcalc.quote.network.distances import road_lanes
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.port_ends import NO_PORTS
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.network.trucks import truck_trip
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook


def network_for(request: Request, book: RateBook, as_of: date) -> Network:
    """Return everything that ways to the buyer can be made from, with what was left out on the way.

    Raises NoAnswer where no road leads to a buyer at home.
    """
    if request.fetched is not None and not request.fetched.terminal:
        return _yard_network(request, book, as_of)
    if is_home(request.to.country, request.to.subdivision):
        return _home_network(request, book, as_of)
    # Late: a quote at home, the commonest, should not wait for ships.
    from shipcalc.quote.network.beyond import network_beyond

    return network_beyond(request, book, as_of)


def _home_network(request: Request, book: RateBook, as_of: date) -> Network:
    lanes = road_lanes(book, request.starts, request.to)
    services, trip = truck_trip(request, book, lanes, as_of)
    starts = [lane.start for lane in lanes]
    return Network(
        exports=(),
        arrivals=NO_PORTS,
        crossings=(),
        sea=sea_lanes(()),
        services=services,
        trip=trip,
        starts=tuple(starts.index(start) for start in request.starts),
        lanes=lanes,
        has_direct=True,
        at_home=True,
    )


def _yard_network(request: Request, book: RateBook, as_of: date) -> Network:
    return Network(
        exports=(),
        arrivals=NO_PORTS,
        crossings=(),
        sea=sea_lanes(()),
        services=(),
        trip=truck_trip(request, book, (), as_of)[1],
        starts=(0,) * len(request.vehicles),
        lanes=(),
        has_direct=False,
        at_home=is_home(request.to.country, request.to.subdivision),
        in_the_yard=True,
        day=as_of,
    )
