"""A request becomes the ways to get there, priced, dated and picked from."""

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date

import numpy as np

from shipcalc.errors import NoAnswer, WrongInput, asked
from shipcalc.quote.choose.choices import choices, recommended
from shipcalc.quote.choose.unbeaten import Shown
from shipcalc.quote.edges import truck
from shipcalc.quote.edges.kinds import days, eligible_ways, price_parts
from shipcalc.quote.model import LeftOut
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.reaching import network_for
from shipcalc.quote.network.trucks import MOST_REASONS, NO_CARRIER_REMEDY, find_trailer
from shipcalc.quote.price.paid import Sums
from shipcalc.quote.price.parts import Parts
from shipcalc.quote.price.sums import sums_under
from shipcalc.quote.price.terms import CODES, EX_WORKS, HOME_TERM, Term, find_term
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Days
from shipcalc.quote.time.deadline import check_in_time, late_reason
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.records import dataclass, replace
from shipcalc.trade import called_by

# Where the price ends at the arrival port, the rule that carries and covers as far as that.
TO_PORT_TERM = "CIP"
FULLEST_COVER = "A"


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """All ways to a buyer, priced and dated: everything that the options of a quote are made from.

    `left_out` is what cannot be offered, `notes` what was taken for granted on the way.
    """

    request: Request
    book: RateBook
    network: Network
    parts: Parts
    ways: Ways
    sums: Sums
    days: Days
    left_out: tuple[LeftOut, ...] = ()
    notes: tuple[str, ...] = ()

    def one(self, way: int) -> OneWay:
        """Return one of the ways."""
        return OneWay(way, self.ways, self.network, self.request, self.book)


@dataclass(frozen=True, slots=True)
class Choices:
    """The ways that are shown, cheapest first, the position of the recommended one among them, and why."""

    shown: tuple[Shown, ...]
    recommended: int
    reason: str


def choose(found: Found) -> Choices:
    """Return which of the ways the buyer is shown."""
    network, ways, sums, vehicles = found.network, found.ways, found.sums, found.request.vehicles
    shown = choices(network, ways, sums, found.days, vehicles, found.book)
    index, reason = recommended(shown, network, ways, sums, vehicles, found.book)
    return Choices(shown, index, reason)


def find_ways(request: Request, book: RateBook, as_of: date) -> Found:
    """Return all ways that can be had. Raises NoAnswer where none gets there, WrongInput for a term that there is not."""
    book = book_of_day(book, request.ready)
    network = network_for(request, book, as_of)
    found, idle, refusal = eligible_ways(request, book, network)
    parts = price_parts(request, book, network)
    to_door = network.arrivals.arrive or bool(len(found) and found.by_road.all())
    term, notes = _term(request, book, network, to_door=to_door)
    late: tuple[LeftOut, ...] = ()
    if len(found):
        when = days(request, book, network, found)
        late = _missed_ships(found, when, request, network)
        found, when = _possible(found, when, request, book, network)
    if len(found) and request.by is not None:
        found, when, too_late = _in_time(found, when, request, book, network)
        late = (*late, *too_late)
    if not len(found):
        if not refusal and network.ends and (network.at_home or network.crossings):
            raise NoAnswer(truck.why_none(network), where=request.to.name, remedy=NO_CARRIER_REMEDY)
        remedy = f"leave {asked('ocean')} out" if request.wishes.ocean and not network.left_out else ""
        raise NoAnswer(_nothing(request, network, refusal), where=request.to.name, remedy=remedy)
    seasonal = _seasonal(request, book, network, found, when)
    conditions = cover_conditions(request, book, term)
    sums = sums_under(term, request, book, network, parts, found, conditions=conditions, as_of=as_of, seasonal=seasonal)
    known = request.wishes.sailing
    carriers = " or ".join(called.carrier for called in called_by(one.load.mode for one in network.crossings))
    ship = f"Dated for the {carriers} that leaves on {known.isoformat()} alone." if known else ""
    said = (ship, "" if found.by_road.all() else network.arrivals.note, *notes, *sums.imports.notes)
    return Found(
        request=request,
        book=book,
        network=network,
        parts=parts,
        ways=found,
        sums=sums,
        days=when,
        left_out=(*network.left_out, *idle, *refusal, *late),
        notes=tuple(note for note in said if note),
    )


def _seasonal(request: Request, book: RateBook, network: Network, found: Ways, when: Days) -> tuple[np.ndarray, ...]:
    """Return for each charge of a season for which ways it arises."""
    if not network.leads_abroad:
        return ()
    from shipcalc.quote.price.seasonal import leaves_in_season, seasonal_rows

    sailing = when.sailing.earliest, when.sailing.latest
    return tuple(leaves_in_season(row, request, network, found, *sailing) for row in seasonal_rows(book))


def _term(request: Request, book: RateBook, network: Network, *, to_door: bool) -> tuple[Term, tuple[str, ...]]:
    if network.in_the_yard:
        return EX_WORKS, ()
    return (HOME_TERM, ()) if network.at_home else term_for(request, book, to_door=to_door)


def term_for(request: Request, book: RateBook, *, to_door: bool) -> tuple[Term, tuple[str, ...]]:
    """Return the delivery term as it can be had, and what must be said about it."""
    wanted = request.wishes.term
    code = wanted or book.pricing.overseas_term
    term = find_term(code)
    if term is None:
        raise WrongInput(
            f"{code} is not a delivery term", where=asked("term"), remedy=f"one of {', '.join(CODES)} (Incoterms 2020)"
        )
    notes = []
    if not to_door and term.place == "door":
        term = find_term(code, "arrival port") or find_term(TO_PORT_TERM, "arrival port")
        assert term is not None
        if wanted and term.code != wanted:
            notes.append(
                f"{wanted} would need the way on to {request.to.name}; {term.code} to the port is quoted instead."
            )
    return term, tuple(notes)


def cover_conditions(request: Request, book: RateBook, term: Term) -> str:
    """Return the conditions of cover: as wished, or as the rate book sets, never less than the term asks for."""
    wanted = request.wishes.cover or book.pricing.cover_conditions
    return FULLEST_COVER if term.must_insure == FULLEST_COVER else wanted


def _missed_ships(found: Ways, when: Days, request: Request, network: Network) -> tuple[LeftOut, ...]:
    """Return how many ways do not reach the ship that is meant, if one is. Raises NoAnswer where none does."""
    if request.wishes.sailing is None:
        return ()
    # Late: only who names a ship needs it.
    from shipcalc.quote.time.known_ship import missed_by, nobody_reaches_it

    if not when.possible.any():
        raise nobody_reaches_it(request, network, found, when)
    return missed_by(network, found, when)


def _possible(found: Ways, when: Days, request: Request, book: RateBook, network: Network) -> tuple[Ways, Days]:
    """Return the ways whose services still sail, with their days."""
    if when.possible.all():
        return found, when
    kept = found.only(when.possible)
    return kept, days(request, book, network, kept) if len(kept) else when


def _in_time(
    found: Ways, when: Days, request: Request, book: RateBook, network: Network
) -> tuple[Ways, Days, tuple[LeftOut, ...]]:
    """Return the ways that are there by the day that is asked for, and how many are not. Raises NoAnswer where none is."""
    assert request.by is not None, "asked for only with a day"
    soonest = date.fromordinal(int(when.delivery.latest.min()))
    check_in_time(request, soonest)
    kept = found.only(when.delivery.latest <= request.by.toordinal())
    if len(kept) == len(found):
        return found, when, ()
    return kept, days(request, book, network, kept), tuple(_late(found, kept, when, request, network))


def _late(found: Ways, kept: Ways, when: Days, request: Request, network: Network) -> Iterator[LeftOut]:
    """Yield what comes too late: each truck that is never there in time, else how many ways of others."""
    left = len(found) - len(kept)
    for number in sorted({*found.truck.tolist()} - {*kept.truck.tolist()}):
        service, own = network.services[number], found.truck == number
        reason = late_reason(request, date.fromordinal(int(when.delivery.latest[own].min())))
        left -= int(own.sum())
        yield LeftOut(carrier=service.row.carrier, trailer=find_trailer(service), reason=reason)
    if left:
        reason = f"there only after {request.by.isoformat()} at the latest" if request.by else ""
        yield LeftOut(carrier=f"{left} other ways", reason=reason)


def why_nothing_sails(request: Request, book: RateBook, network: Network, as_of: date) -> str:
    """Return what `find_ways` says where no ship between the ports of a network takes the vehicles and no truck goes to the door.

    Neither roads nor trucks are asked again; the book is that of the day of pickup.
    """
    # Late: only lists of places abroad ask for it.
    from shipcalc.quote.network.beyond import ships_between

    found, left_out = ships_between(network.exports, network.arrivals, request, book, as_of)
    return _nothing(request, replace(network, crossings=found, left_out=left_out), ())


def _nothing(request: Request, network: Network, refusal: Sequence[LeftOut]) -> str:
    """Return why there is no way at all, in one sentence: the delivery term, the ports or the ships."""
    if refusal:
        return refusal[0].reason
    if network.arrivals.none or not network.exports:
        return network.arrivals.none or "no port of the rate book that ships is reached from the yard (overseas.xlsx)"
    ports = ", ".join(port.row.name for port in network.arrivals.ports)
    if not network.crossings and not network.left_out:
        ship = {None: "sea service", "roro": "RoRo ship", "container": "container ship"}[request.wishes.ocean]
        return f"no {ship} of the rate book runs to {ports}"
    what = f"nothing sails to {ports} with this request" if not network.crossings else "no truck reaches a port"
    counts = Counter(out.reason for out in network.left_out)
    told = "; ".join(reason for reason, _ in counts.most_common(MOST_REASONS))
    return f"{what}. What rules it out: {told}" if told else what
