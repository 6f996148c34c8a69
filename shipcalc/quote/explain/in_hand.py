"""What is said of a price in hand: until when it holds, and for the office what is to be settled before it is promised."""

from collections.abc import Iterator, Sequence
from datetime import date

import numpy as np

from shipcalc.money import to_decimal, with_code
from shipcalc.pricing.eligibility import obstacles
from shipcalc.pricing.row_currency import exchanged, rate_of_row
from shipcalc.pricing.tariff import Tariffs, compile_tariffs
from shipcalc.quote.model import Charge, InHand, SpotPrice, Window
from shipcalc.quote.network.in_hand import rows_of
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.time.days_in_words import day_in_words

CODE = "truck.spot"
HOLDS = "Fuel and everything else the carrier charges: the truck goes at a price in hand, which is taken as all in."
COVER_UNKNOWN = (
    "Cargo cover: what this truck's covers is not known yet, and is in no price until its certificate is seen."
)


def price_in_hand(one: OneWay, charges: Sequence[Charge], pickup: Window, as_of: date) -> InHand | None:
    """Return that a way's truck goes at a price in hand, and what to settle first; None for one at the carrier's rates."""
    spot = one.service.spot
    if spot is None:
        return None
    price = one.request.wishes.spot[spot.number]
    paid = (charge.cost.amount for charge in charges if charge.code == CODE and charge.cost is not None)
    return InHand(
        until=price.until,
        carrier=one.service.row.carrier,
        in_book=spot.known,
        amount=sum(paid, start=to_decimal(0, one.currency)),
        reference=price.reference,
        to_check=tuple(_to_check(one, price, compile_tariffs(one.book, as_of), pickup)),
    )


def _to_check(one: OneWay, price: SpotPrice, tariffs: Tariffs, pickup: Window) -> Iterator[str]:
    row, vehicles = one.service.row, one.request.vehicles
    trailer = f"an {row.trailer} trailer"
    if price.carrier.casefold() != row.carrier.casefold():
        yield f'"{price.carrier}" is taken as {row.carrier}.'
    if not rows_of(row.carrier, tariffs):
        yield (
            f"{row.carrier} is not in the rate book: see its operating authority, its certificate of cargo cover and who "
            "answers for it before this price is promised. Its days are taken as a carrier's usual ones."
        )
    elif one.service.spot is not None and not one.service.spot.known:
        yield f"The rate book knows {row.carrier} with no {trailer}: ask what covers the vehicle, and when it comes."
    else:
        yield from _limits(one, tariffs)
    currency = one.currency
    rate = rate_of_row(one.book, price.currency, currency, tariffs.as_of) if price.currency else None
    if rate is not None:
        yield f"It was given in another currency: {exchanged(f'{price.amount:,}', rate)}."
    kinds = {own.trailer for own in rows_of(row.carrier, tariffs)}
    if price.trailer is None and one.request.wishes.trailer is None and len(kinds) != 1:
        yield f"The price does not say what kind of truck comes: taken as {trailer}."
    if len(set(one.request.starts)) > 1 and not price.each:
        yield "It is taken as one price for all vehicles, which stand in several places: ask whether the truck fetches them all."
    values = [vehicle.value_minor or 0 for vehicle in vehicles]
    if 0 < row.cover_minor < max(values):
        yield f"Its cover ends at {with_code(row.cover_minor, one.currency)}: have the rest covered in writing before pickup."
    if pickup[0] > price.until:
        yield (
            f"It holds until {day_in_words(price.until)} and the truck comes from {day_in_words(pickup[0])} on: have it "
            "confirmed in writing for that day."
        )
    described = (
        "the vehicle was described as it is" if len(vehicles) == 1 else "all vehicles were described as they are"
    )
    yield f"Taken as all in: ask whether fuel{_beside(one)} and waiting are in it, and whether {described}."


def _limits(one: OneWay, tariffs: Tariffs) -> Iterator[str]:
    """Yield what the carrier does not take by its row of the rate book, though it gave a price for it."""
    row = one.service.row
    own = [s for s in tariffs.services if (s.row.carrier, s.row.trailer) == (row.carrier, row.trailer)]
    trip = one.network.trip
    for service in own[:1]:
        lane_of = one.network.lane_of(one.end)
        for obstacle in obstacles(service, trip.vehicles, trip.lanes, trip.asked, trip.currency):
            shape = (len(trip.vehicles), len(trip.lanes))
            if any(np.broadcast_to(obstacle.where, shape)[number, lane] for number, lane in enumerate(lane_of)):
                yield f"By the rate book {obstacle.reason}: ask whether the carrier knew of it when it gave the price."


def _beside(one: OneWay) -> str:
    """Return what of this shipment a carrier may ask for besides, for a sentence."""
    wishes, vehicles = one.request.wishes, one.request.vehicles
    told = [
        *(["the lift gate"] if wishes.lift_gate else []),
        *(["the pick-up at short notice"] if wishes.express else []),
        *(["the buyer's narrow road"] if wishes.limited_access else []),
        *(["a vehicle that does not run"] if any(not vehicle.runs for vehicle in vehicles) else []),
        *(["the ferry"] if any(one.network.lanes[lane].crossing for lane in one.network.lane_of(one.end)) else []),
    ]
    return "".join(f", {part}" for part in told)
