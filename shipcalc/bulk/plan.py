"""What is to be priced, cut into blocks: a plan and its block's number determine the rows of that block, on any machine."""

import hashlib
from collections.abc import Sequence
from datetime import date
from functools import lru_cache

from shipcalc import __version__
from shipcalc.bulk.destinations import Destinations
from shipcalc.places.place import Place
from shipcalc.quote.network.territory import is_home
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.records import dataclass, replace
from shipcalc.trade import Trailer
from shipcalc.vehicles.vehicle import Vehicle

# Raise it when the same plan comes to other rows, or to other kinds of columns.
ROWS = 3

# Rows of one block: enough that numpy's calls do not count, and a block with all its columns takes some 100 MB.
MOST_ROWS = 2_000_000
MOST_PLACES = 65_536
# Abroad every vehicle is priced for every way to a place: what is worked out once for a block should serve many rows of it.
MOST_PLACES_OVERSEAS = 256
MOST_ROWS_OVERSEAS = 100_000


@dataclass(frozen=True, slots=True)
class Block:
    """Some vehicles × some places, by number."""

    number: int
    vehicles: range
    places: range

    def rows(self, trailers: int) -> int:
        """Return how many rows the block has."""
        return len(self.vehicles) * len(self.places) * trailers


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Every vehicle, from its own start, to every destination, on every kind of trailer that is wanted."""

    vehicles: tuple[Vehicle, ...]
    starts: tuple[Place, ...]
    destinations: Destinations
    trailers: tuple[Trailer, ...]
    book: RateBook
    as_of: date
    ready: date
    for_office: bool
    by_sea: bool = False

    def __post_init__(self) -> None:
        assert len(self.vehicles) == len(self.starts), "one start for each vehicle"

    @property
    def rows(self) -> int:
        """Return how many rows the table will have."""
        return len(self.vehicles) * len(self.destinations) * len(self.trailers)

    @property
    def crosses_the_sea(self) -> bool:
        """Return whether places beyond the home roads are priced: ZIPs there only `by_sea`."""
        return (self.by_sea or self.destinations.kind != "zips") and not all(map(_is_home, self.destinations.places))


class Same:
    """A plan as the key of a cache: the plan itself, not one that looks like it."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and other.plan is self.plan

    def __hash__(self) -> int:
        return id(self.plan)


@lru_cache(maxsize=64)
def dated(same: Same, pickup: date) -> Plan:
    """Return a plan whose rate book is that of a day of pickup: the plan itself where all its rows hold on that day."""
    book = book_of_day(same.plan.book, pickup)
    return same.plan if book is same.plan.book else _with_book(same, book)


@lru_cache(maxsize=64)
def _with_book(same: Same, book: RateBook) -> Plan:
    return replace(same.plan, book=book)


def blocks_of(plan: Plan) -> tuple[Block, ...]:
    """Return the blocks: vehicles in the order of the list; many places first in parts, then some vehicles at a time."""
    blocks: list[Block] = []
    for places in _places_together(plan):
        most = (
            MOST_ROWS_OVERSEAS
            if plan.crosses_the_sea and not _is_home(plan.destinations.places[places[0]])
            else MOST_ROWS
        )
        at_once = max(1, most // max(1, len(places) * len(plan.trailers)))
        for first in range(0, len(plan.vehicles), at_once):
            vehicles = range(first, min(first + at_once, len(plan.vehicles)))
            blocks.append(Block(len(blocks), vehicles, places))
    return tuple(blocks)


def key_of(plan: Plan) -> str:
    """Return a name for all that the rows depend on: the same inputs on another day or another version are others."""
    digest = hashlib.sha256()
    parts = (
        f"{__version__} {ROWS} {MOST_ROWS} {MOST_PLACES} {MOST_ROWS_OVERSEAS} {MOST_PLACES_OVERSEAS}",
        f"{plan.as_of} {plan.ready} {plan.trailers} {plan.for_office} {plan.by_sea}",
        plan.book.fingerprint,
        _lane_factors(),
        repr(plan.vehicles),
        repr(plan.starts),
        f"{plan.destinations.kind}\n" + "\n".join(map(_told, plan.destinations.names, plan.destinations.places)),
    )
    for part in parts:
        digest.update(part.encode() + b"\0")
    return digest.hexdigest()[:16]


def _places_together(plan: Plan) -> Sequence[range]:
    """Return the places in runs that are priced alike: home or overseas, no run too long."""
    homes = [_is_home(place) or not plan.crosses_the_sea for place in plan.destinations.places]
    runs: list[range] = []
    begin = 0
    for number in range(1, len(homes) + 1):
        most = MOST_PLACES if homes[begin] else MOST_PLACES_OVERSEAS
        if number == len(homes) or homes[number] != homes[begin] or number - begin == most:
            runs.append(range(begin, number))
            begin = number
    return runs


def _told(name: str, place: Place) -> str:
    """Return all of a place that its price or its row depends on."""
    where = (place.kind, place.name, place.country, place.subdivision, place.postal_code, place.found_by)
    return "\t".join((name, *where, repr(place.latitude), repr(place.longitude)))


def _is_home(place: Place) -> bool:
    return is_home(place.country, place.subdivision)


def _lane_factors() -> str:
    """Return a hash of the table of road factors inside the program."""
    from shipcalc.places.road.lanes_table import FOLDER

    digest = hashlib.sha256()
    for path in sorted(FOLDER.glob("*.npy")):
        digest.update(path.read_bytes())
    return digest.hexdigest()
