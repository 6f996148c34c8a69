"""The price to a terminal near the buyer, or to the arrival port, beside the price to the door; the rest is the buyer's way."""

from datetime import date

from shipcalc.errors import NoAnswer
from shipcalc.money import round_up, to_decimal, to_minor
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.place import Place
from shipcalc.places.straight import great_circle_mi
from shipcalc.pricing.lane_prices import lane_prices, priced_terminals
from shipcalc.quote.choose.ways import Found, find_ways
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.model import Also, Option
from shipcalc.quote.network.distances import road_lanes
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.network.trucks import find_trailer
from shipcalc.quote.options import Said, option_of
from shipcalc.quote.price.terms import find_term
from shipcalc.quote.request import Fetched, Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.lane_ends import named_terminal
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.ratebook.rows.yards import Terminal
from shipcalc.records import dataclass, replace
from shipcalc.trade import CROSSING_BY_MODE, OCEAN_MODES, ROUNDING

# Farther away than this in a straight line nobody calls a terminal near; nearer than that it is no use (our own rule).
FARTHEST_MI, NEAREST_MI = 250, 10
TO_PORT = "CIP"


@dataclass(frozen=True, slots=True)
class ToTerminal:
    """The cheapest way to a terminal, how far the buyer is from there by road, and what is said before its price."""

    row: Terminal
    miles_left: int
    found: Found
    way: int
    said: tuple[str, ...]


def nearest_terminal(to: Place, book: RateBook, on: date, as_of: date) -> tuple[Terminal, Place] | None:
    """Return the terminal nearest to the buyer in a straight line, None where none is near."""
    of_day = book_of_day(book, on)
    priced = priced_terminals(lane_prices(of_day, as_of))
    found = [
        (great_circle_mi(place, to), number, row, replace(place, terminal=row.terminal))
        for number, row in enumerate(of_day.terminals)
        if (place := find_place(row.zip_code).place) is not None
    ]
    # However near, a terminal with prices of its own is of use.
    near = (one for one in found if one[0] <= FARTHEST_MI)
    of_use = (one for one in near if one[0] > NEAREST_MI or named_terminal(one[2].terminal) in priced)
    best = min(of_use, key=lambda one: one[:2], default=None)
    return (best[2], best[3]) if best else None


def to_terminal(request: Request, book: RateBook, as_of: date, trailer: str | None) -> ToTerminal | None:
    """Return the cheapest way with that trailer to the nearest terminal, without what only a door asks for."""
    near = nearest_terminal(request.to, book, request.ready, as_of)
    if near is None:
        return None
    row, place = near
    wishes = replace(request.wishes, lift_gate=False, limited_access=False, spot=())
    try:
        fetched = Fetched(row.terminal, road_lanes(book, (place,), request.to)[0].road.miles)
        lead = with_lead(replace(request, to=place, by=None, wishes=wishes, fetched=fetched), book, as_of)
        found = find_ways(lead.request, book, as_of)
    except NoAnswer:
        return None
    services = [found.network.services[number] for number in found.ways.truck.tolist()]
    own = [way for way, service in enumerate(services) if find_trailer(service) == trailer]
    best = min(own, key=lambda way: int(found.sums.total[way]), default=None)
    return None if best is None else ToTerminal(row, fetched.miles_left, found, best, lead.said)


def terminal_option(there: ToTerminal, as_of: date) -> Option:
    """Return the way to the terminal as a choice."""
    return option_of(there.found.one(there.way), there.found, Said(before_price=there.said), as_of=as_of)


def terminal_beside(there: ToTerminal, best: Option) -> Also | None:
    """Return the price to the terminal in one line, None where it is no cheaper than to the door."""
    total = to_decimal(int(there.found.sums.total[there.way]), there.found.book.pricing.currency)
    if total >= best.total:
        return None
    return Also(
        what="terminal",
        title=f"To the {there.row.terminal}",
        total=total,
        difference=total - best.total,
        note=f"{there.miles_left:,} miles from you",
    )


def port_beside(best: Option, request: Request, book: RateBook, as_of: date) -> Also | None:
    """Return the price to the arrival port of the recommended way, None where none goes on from a port at our price."""
    sea = next((number for number, leg in enumerate(best.legs) if leg.mode in OCEAN_MODES), None)
    term = find_term(TO_PORT, "arrival port")
    sold = [charge for charge in best.charges if charge.payer == "seller" and charge.stage != ROUNDING]
    if (
        sea is None
        or term is None
        or sea + 1 == len(best.legs)
        or not best.arrives
        or "on-carriage" not in {charge.stage for charge in sold}
    ):
        return None
    rules = book_of_day(book, with_lead(request, book, as_of).request.ready).pricing
    currency, port, place = rules.currency, best.legs[sea].to, CROSSING_BY_MODE[best.legs[sea].mode].called.place
    paid = [charge for charge in sold if term.payer(charge.stage) == "seller"]
    none = to_decimal(0, currency)
    price_minor, cost_minor = (
        to_minor(sum(amounts, none), currency)
        for amounts in ((one.amount for one in paid), (one.cost.amount for one in paid if one.cost))
    )
    margin_minor = rules.least_abroad_minor * len(request.vehicles)
    least_minor = cost_minor + margin_minor if margin_minor else 0
    total = round_up(max(price_minor, least_minor), max(rules.rounding_step_minor, 1))
    miles = sum(leg.distance for leg in best.legs[sea + 1 :] if leg.unit == "mi")
    price = to_decimal(total, currency)
    if price >= best.total:
        return None
    return Also(
        what="port",
        title=f"To the {place} of {port.name} ({TO_PORT})",
        total=price,
        difference=price - best.total,
        note=f"{_left_to_the_buyer(best.legs[-1].to, miles, place)} yours",
    )


def _left_to_the_buyer(to: Place, miles: int, place: str) -> str:
    """Return what is left to the buyer at the port, with its verb; between two ports of one country there are no customs."""
    beside = [] if is_domestic(to.country) else ["customs"]
    if miles:
        beside.append("the last mile" if miles == 1 else f"the last {miles:,} miles")
    charges = f"{place} charges"
    told = ", ".join([charges, *beside[:-1]])
    return f"{told} and {beside[-1]} are" if beside else f"{charges} are"
