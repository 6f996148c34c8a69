"""Prices in hand as truck services: each takes the vehicles of this one request to the buyer, or to the port it is for.

A carrier of the rate book keeps its own days, cover and name; of any other nothing is known, so that it covers nothing and is
named to no buyer.
"""

from collections.abc import Sequence

import numpy as np

from shipcalc.errors import WrongInput, asked
from shipcalc.money import to_minor
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.row_currency import in_book_currency, rate_of_row
from shipcalc.pricing.spot import Spot
from shipcalc.pricing.tariff import Service, Tariffs
from shipcalc.quote.model import SpotPrice
from shipcalc.quote.network.distances import Lane
from shipcalc.quote.request import Request
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.records import replace
from shipcalc.trade import DRIVEN, Trailer

MOST_PORTS_NAMED = 4


def services_in_hand(request: Request, tariffs: Tariffs, lanes: Sequence[Lane]) -> tuple[Service, ...]:
    """Return a service for each price in hand. Raises WrongInput for one that has ended, or that is not for this shipment."""
    return tuple(_service(number, price, request, tariffs, lanes) for number, price in enumerate(request.wishes.spot))


def _service(number: int, price: SpotPrice, request: Request, tariffs: Tariffs, lanes: Sequence[Lane]) -> Service:
    _check(price, request, tariffs)
    own = rows_of(price.carrier, tariffs)
    trailer = trailer_of_price(price, request, own)
    row = next((row for row in own if row.trailer == trailer), None)
    currency = tariffs.book.pricing.currency
    rate = rate_of_row(tariffs.book, price.currency, currency, tariffs.as_of) if price.currency else None
    reference = f", ref {price.reference}" if price.reference else ""
    return Service(
        row=_row(price, trailer, row, own),
        bands=(),
        charged_mi=np.zeros(1, dtype=np.int64),
        last_mi=0,
        fuel=None,
        from_rows=(),
        to_rows=(),
        spot=Spot(
            number=number,
            amount_minor=in_book_currency(to_minor(price.amount, currency), rate),
            each=price.each,
            lanes=_lanes_of(price, request, tariffs, lanes),
            source=f"price in hand, until {price.until.isoformat()}{reference}",
            note="" if price.each or len(request.vehicles) == 1 else "One price for all vehicles, shared out evenly.",
            known=row is not None,
        ),
    )


def _check(price: SpotPrice, request: Request, tariffs: Tariffs) -> None:
    currency = tariffs.book.pricing.currency
    if price.until < tariffs.as_of:
        raise WrongInput(
            f"the price in hand from {price.carrier} ended on {price.until.isoformat()}",
            where=asked("spot"),
            remedy="ask the carrier whether it still holds, and give the new day",
        )
    if price.currency not in (None, currency, *(row.currency.upper() for row in tariffs.book.currencies)):
        raise WrongInput(
            f"the price in hand from {price.carrier} is in {price.currency}, which the rate book has no rate for",
            where=asked("spot"),
            remedy=f"give what it comes to in {currency}, or add the rate to the sheet Currencies (overseas.xlsx)",
        )
    if request.wishes.trailer is not None and price.trailer not in (None, request.wishes.trailer):
        raise WrongInput(
            f"the price in hand from {price.carrier} is for an {price.trailer} trailer, and only {request.wishes.trailer} "
            "is asked for",
            where=asked("spot"),
            remedy=f"leave one of the two out, or leave {asked('trailer')} out",
        )


def rows_of(carrier: str, tariffs: Tariffs) -> tuple[Carrier, ...]:
    """Return the rows of today of the carrier that is meant: by its name, else by how a single carrier's name begins."""
    trucks = [service.row for service in tariffs.services if service.row.trailer != DRIVEN]
    said = " ".join(carrier.casefold().split())
    exact = tuple(row for row in trucks if row.carrier.casefold() == said)
    begun = tuple(row for row in trucks if row.carrier.casefold().startswith(said))
    return exact or (begun if len({row.carrier.casefold() for row in begun}) == 1 else ())


def trailer_of_price(price: SpotPrice, request: Request, own: Sequence[Carrier]) -> Trailer:
    """Return which trailer a price is for: as it says, as the buyer asks, the carrier's only kind, else open."""
    said = price.trailer or request.wishes.trailer
    if said is not None:
        return said
    kinds = {row.trailer for row in own}
    return "enclosed" if kinds == {"enclosed"} else "open"


def _row(price: SpotPrice, trailer: Trailer, row: Carrier | None, own: Sequence[Carrier]) -> Carrier:
    """Return who drives: the carrier's row, until the price ends; a row that promises nothing for anybody else."""
    if row is not None:
        return replace(row, valid_to=price.until)
    name, private = (own[0].carrier, own[0].private) if own else (price.carrier, True)
    return Carrier(carrier=name, trailer=trailer, private=private, cover_minor=0, valid_to=price.until)


def _lanes_of(price: SpotPrice, request: Request, tariffs: Tariffs, lanes: Sequence[Lane]) -> Bool:
    """Return over which lanes a price holds (m,): to the buyer where trucks go there, else to the port that it names."""
    ends = [lane.to for lane in lanes]
    said = price.to.casefold().removeprefix("the ").removeprefix("port of ").strip()
    names = [{end.name.casefold()} for end in ends]
    if not said:
        found = [end == request.to for end in ends]
    else:
        codes = [row.name.casefold() for row in tariffs.book.ports if row.port.casefold() == said]
        to_buyer = {request.to.postal_code.casefold(), "the door", "door"}
        found = [
            said in (own | to_buyer if end == request.to else own) or bool(own.intersection(codes))
            for end, own in zip(ends, names, strict=True)
        ]
    if not any(found):
        raise _for_no_end(price, request, lanes)
    return np.array(found, dtype=np.bool_)


def _for_no_end(price: SpotPrice, request: Request, lanes: Sequence[Lane]) -> WrongInput:
    nearest = sorted((lane for lane in lanes if lane.to != request.to), key=lambda lane: lane.road.miles)
    ports = list(dict.fromkeys(lane.to.name for lane in nearest))[:MOST_PORTS_NAMED]
    if price.to:
        told = f"the price in hand from {price.carrier} is for {price.to}, where no truck of this shipment goes"
    else:
        told = (
            f"{request.to.name} is not reached by road alone: a price in hand counts for the truck of the first leg, "
            f"and that from {price.carrier} does not say to which port"
        )
    remedy = (
        f'say it behind the price, as ", to {ports[0]}"; the nearest are {", ".join(ports)}'
        if ports
        else "leave it out"
    )
    return WrongInput(told, where=asked("spot"), remedy=remedy)
