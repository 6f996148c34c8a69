"""Which trucks are in time for which ships: ways that differ in nothing but their truck's price stand for one another."""

from collections.abc import Sequence

import numpy as np

from shipcalc.bulk.fleet import Fleet
from shipcalc.money import Int64
from shipcalc.pricing.columns import Bool
from shipcalc.quote.choose.choices import shelter
from shipcalc.quote.edges.kinds import days
from shipcalc.quote.network.columns import Ways, every_way
from shipcalc.quote.price.seasonal import sails_in_season, seasonal_rows
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.trade import Trailer


@dataclass(frozen=True, slots=True, eq=False)
class Together:
    """Trucks of one kind of trailer that reach a port of export in time for the same ship."""

    export: int
    trucks: tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Sailings:
    """Ways from a start to all ports of arrival, as columns (k,): a sea lane, and trucks that are in time for its same sailing.

    `together` is a position in `trucks`, and in `members`, which has the same trucks in rows that -1 fills up; `ways` have the
    first of them. `trailer` is a position in the plan's trailers. Days are ordinals; `in_season` has a row for each charge of a
    season. They stand port by port: those of arrival port a are begins[a] to begins[a + 1].
    `rivals` is a position in `sets`: of what can be had for the same ship, trailer and season, as positions in `trucks`.
    """

    trucks: tuple[Together, ...]
    members: Int64
    together: Int64
    trailer: Int64
    ways: Ways
    released_from: Int64
    released_to: Int64
    shelter: Int64
    in_season: Bool
    begins: Int64
    rivals: Int64
    sets: tuple[tuple[int, ...], ...]

    def of_ports(self, numbers: Sequence[int]) -> tuple[Int64, Int64]:
        """Return the ways that end in some of the ports, and for each which one of them that is."""
        spans = [np.arange(self.begins[number], self.begins[number + 1]) for number in numbers]
        rank = np.repeat(np.arange(len(numbers)), [len(span) for span in spans])
        return np.concatenate([np.zeros(0, dtype=np.int64), *spans]), rank


def sailings(fleet: Fleet, request: Request, book: RateBook, trailers: Sequence[Trailer]) -> Sailings:
    """Return all ways by ship of vehicles that are ready on the request's day, and need as long before the ship as its own."""
    once = fleet.once
    count = len(once.services)
    every = every_way(once.sea, count, has_direct=False)
    when = days(request, book, once, every)

    def table(column: np.ndarray) -> np.ndarray:
        return column.reshape(count, len(once.sea))

    first, last = table(when.sailing.earliest), table(when.sailing.latest)
    _, lane_of_pair, pair_of = np.unique(once.sea.leaves, return_index=True, return_inverse=True)
    trucks: list[Together] = []
    number_of: dict[tuple[int, tuple[int, ...]], int] = {}
    found: list[tuple[int, int, int]] = []  # (pair, trailer, position in trucks)
    kinds = [service.row.trailer for service in once.services]
    possible = table(when.possible)
    for pair, lane in enumerate(lane_of_pair.tolist()):
        export = int(once.sea.export[lane])
        for trailer, name in enumerate(trailers):
            own: dict[tuple[int, int], list[int]] = {}
            for truck in range(count):
                if kinds[truck] == name and possible[truck, lane]:
                    own.setdefault((int(first[truck, lane]), int(last[truck, lane])), []).append(truck)
            for same in own.values():
                number = number_of.setdefault((export, tuple(same)), len(trucks))
                if number == len(trucks):
                    trucks.append(Together(export, tuple(same)))
                found.append((pair, trailer, number))
    return _columns(
        fleet,
        book,
        found,
        trucks,
        pair_of.reshape(-1),
        when_of=(first, last),
        released=(table(when.release.earliest), table(when.release.latest)),
    )


def _columns(
    fleet: Fleet,
    book: RateBook,
    found: Sequence[tuple[int, int, int]],
    trucks: Sequence[Together],
    pair_of: Int64,
    *,
    when_of: tuple[Int64, Int64],
    released: tuple[Int64, Int64],
) -> Sailings:
    """Return what was found of each pair of ship and port for every sea lane of the pair, port by port."""
    network, sea = fleet.network, fleet.network.sea
    pair, trailer, together = np.array(found, dtype=np.int64).reshape(-1, 3).T
    counts = np.bincount(pair, minlength=int(pair_of.max(initial=-1)) + 1)
    begin = np.cumsum(counts) - counts
    by_arrival = np.argsort(sea.arrival, kind="stable")
    own_pair = pair_of[fleet.lane_once[by_arrival]]
    lane = np.repeat(by_arrival, counts[own_pair])
    within = np.arange(len(lane)) - np.repeat(np.cumsum(counts[own_pair]) - counts[own_pair], counts[own_pair])
    row = np.repeat(begin[own_pair], counts[own_pair]) + within
    truck = np.array([one.trucks[0] for one in trucks], dtype=np.int64)[together[row]]
    crossing = sea.crossing[lane]
    taken = Ways(truck, lane, crossing, lane - sea.first[crossing], sea.export[lane], sea.arrival[lane])
    at = (truck, fleet.lane_once[lane])
    in_season = [sails_in_season(each, when_of[0][at], when_of[1][at]) for each in seasonal_rows(book)]
    seasons = np.array(in_season, dtype=np.bool_).reshape(-1, len(lane))
    rivals, sets = _rivals(found, row, seasons)
    return Sailings(
        trucks=tuple(trucks),
        members=_members(trucks),
        together=together[row],
        trailer=trailer[row],
        ways=taken,
        released_from=released[0][at],
        released_to=released[1][at],
        shelter=shelter(network, taken, book),
        in_season=seasons,
        begins=np.searchsorted(sea.arrival[lane], np.arange(len(network.arrivals.ports) + 1)),
        rivals=rivals,
        sets=sets,
    )


def _rivals(
    found: Sequence[tuple[int, int, int]], row: Int64, seasons: Bool
) -> tuple[Int64, tuple[tuple[int, ...], ...]]:
    """Return for each way the set that it is in, and the sets. A ship sails from a port on one day, wherever it goes."""
    rows, first = np.unique(row, return_index=True)
    together: dict[tuple[object, ...], list[int]] = {}
    own: dict[int, tuple[object, ...]] = {}
    for number, flags in zip(rows.tolist(), seasons[:, first].T.tolist(), strict=True):
        pair, trailer, position = found[number]
        own[number] = (pair, trailer, *flags)
        together.setdefault(own[number], []).append(position)
    sets = {key: tuple(positions) for key, positions in together.items()}
    distinct = {positions: number for number, positions in enumerate(dict.fromkeys(sets.values()))}
    of_row = np.zeros(len(found), dtype=np.int64)
    of_row[rows] = [distinct[sets[own[number]]] for number in rows.tolist()]
    return of_row[row], tuple(distinct)


def _members(trucks: Sequence[Together]) -> Int64:
    """Return the trucks of each group in a row of its own."""
    most = max((len(one.trucks) for one in trucks), default=0)
    rows = [[*one.trucks, *[-1] * (most - len(one.trucks))] for one in trucks]
    return np.array(rows, dtype=np.int64).reshape(-1, most)
