"""The invented dealer's stock and rate book, and plans of them."""

from collections.abc import Callable
from datetime import date

import pytest

from shipcalc.actions.quoting import Books, open_books
from shipcalc.actions.sources import Sources, invented_sources
from shipcalc.actions.starting import start_of
from shipcalc.bulk.destinations import Destinations, find_destinations
from shipcalc.bulk.plan import Plan
from shipcalc.vehicles.sizes import fill_sizes

DAY = date(2026, 12, 18)  # seasons of the book run, and a working day's window reaches over Christmas

MakePlan = Callable[..., Plan]


@pytest.fixture(scope="session")
def sources() -> Sources:
    return invented_sources()


@pytest.fixture(scope="session")
def books(sources: Sources) -> Books:
    return open_books(sources)


@pytest.fixture(scope="session")
def zips(books: Books) -> Destinations:
    return find_destinations("zips", None, books.rates)


@pytest.fixture(scope="session")
def states(books: Books) -> Destinations:
    return find_destinations("states", None, books.rates)


@pytest.fixture(scope="session")
def make_plan(sources: Sources, books: Books) -> MakePlan:
    """Return what makes a plan of some of the vehicles of the list, by number, to some destinations."""

    def made(
        destinations: Destinations,
        vehicles=None,
        trailers=("open", "enclosed"),
        for_office: bool = True,
        by_sea: bool = False,
    ) -> Plan:
        stock = books.stock.vehicles
        numbers = range(len(stock)) if vehicles is None else vehicles
        cars = tuple(fill_sizes(stock[number], books.rates.sizes) for number in numbers)
        return Plan(
            vehicles=cars,
            starts=tuple(start_of(car, "", sources.settings).place for car in cars),
            destinations=destinations,
            trailers=trailers,
            book=books.rates,
            as_of=DAY,
            ready=DAY,
            for_office=for_office,
            by_sea=by_sea,
        )

    return made


@pytest.fixture(scope="session")
def some() -> Callable[[Destinations, list[int]], Destinations]:
    """Return what takes some places of destinations, by number."""

    def taken(destinations: Destinations, numbers: list[int]) -> Destinations:
        return Destinations(
            destinations.kind,
            *(
                tuple(column[n] for n in numbers)
                for column in (destinations.names, destinations.places, destinations.labels)
            ),
        )

    return taken
