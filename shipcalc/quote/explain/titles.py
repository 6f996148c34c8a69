"""What a way is called as a choice, and the place that its delivery term names."""

from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.price.terms import Term
from shipcalc.quote.request import Request
from shipcalc.trade import CROSSING_BY_MODE


def title_of(one: OneWay, loading: str) -> str:
    """Return what a way is called; `loading` is how the vehicles go aboard, where that needs words."""
    if one.in_the_yard:
        return "Collected at the yard"
    if one.at_home:
        return f"{_of_the_truck(one)}{_to_the_terminal(one.request)}"
    if one.export is None or one.ship is None or one.arrival is None:
        return "By road all the way"
    ports = f"{one.export.row.name} to {one.arrival.row.name}"
    crossing, packing = CROSSING_BY_MODE[one.mode], one.ship.load.packing
    if packing:
        return f"{packing.name} container, {ports}"
    said = f" {loading}" if crossing.is_driven_aboard and loading and "," not in loading else ""
    return f"{crossing.title}{said}, {ports}"


def _of_the_truck(one: OneWay) -> str:
    return f"{one.trailer.capitalize()} trailer" if one.trailer else "Driven by a hired driver"


def _to_the_terminal(request: Request) -> str:
    """Return which terminal it is fetched at and how far that is, as the end of a title; "" for the door."""
    there = request.fetched
    return f" to the {there.terminal}, {there.miles_left:,} miles from you" if there and there.terminal else ""


def term_place(one: OneWay, term: Term) -> str:
    """Return the place that the delivery term names."""
    if term.place == "yard" or (term.place == "port" and one.export is None):
        return one.request.starts[0].name
    if term.place == "port" and one.export is not None:
        return one.export.row.name
    if term.place == "arrival port" and one.arrival is not None:
        return one.arrival.row.name
    return one.request.to.name


def paid_by_seller(one: OneWay, term: Term) -> frozenset[str]:
    """Return what the seller pays of this way: nothing beyond a port where nobody is priced to carry it on, nor from the yard."""
    if one.in_the_yard:
        return frozenset()
    ends_at_port = one.arrival is not None and one.last_leg is None
    return term.seller_pays - ({"on-carriage", "unloading"} if ends_at_port else set())
