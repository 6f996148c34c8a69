"""Which ports serve a country: its own first, then its customary gateways, then whatever roads join to the buyer."""

from collections.abc import Collection, Sequence

from shipcalc.places.place import Place
from shipcalc.places.road.borders import countries_on_the_way
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.ports import Port

# Countries whose goods pass each other's ports without a customs border, or with one that hauliers cross every day: the
# European Union, and those joined to it by the free movement of goods (from memory, not checked).
ONE_MARKET = frozenset(
    "AD AT BE BG CH CY CZ DE DK EE ES FI FR GR HR HU IE IS IT LI LT LU LV MC MT NL NO PL PT RO SE SI SK SM VA".split()
)


def customary_ports(book: RateBook, to: Place, ports: Sequence[Port]) -> tuple[tuple[Port, ...], ...]:
    """Return the ports to try for a buyer, in groups: the customary ones, and all. Where a country names none of its own and no
    gateway, all are one group.
    """
    country = to.country
    gateways = {row.port.upper() for row in book.gateways if row.country.upper() == country}
    own = {port.port for port in ports if port.country.upper() == country}
    market = {port.port for port in ports if country in ONE_MARKET and port.country.upper() in ONE_MARKET}
    chosen = tuple(port for port in ports if port.port in own | market or port.port.upper() in gateways)
    return (chosen, tuple(ports)) if chosen else (tuple(ports),)


def is_passable(start: str, to: str, shut: Collection[str]) -> bool:
    """Return whether a way by road from one country to another keeps out of those that are shut."""
    return start not in shut and bool(countries_on_the_way(start, to, without=shut))


def in_the_way(start: str, to: str, shut: Collection[str]) -> tuple[str, ...]:
    """Return the countries that are shut on the shortest way by road."""
    return tuple(country for country in countries_on_the_way(start, to) if country in shut and country != to)
