"""The mail that books a truck: what, from where to where, in which days, what works, what it is worth, what to confirm.

The carrier gets what it needs to drive and to load, and nothing of the buyer's price; at a port it gets nothing of the buyer.
"""

from collections.abc import Iterator, Mapping

from shipcalc.documents import wording
from shipcalc.documents.letter import Letter, Part, greeting, signed_by
from shipcalc.documents.papers.facts import Facts, address_of, kilograms, measured, price_of, setting
from shipcalc.documents.papers.invoices import stock_column
from shipcalc.quote.model import Window
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle, what_fails

WORKS = "it runs, rolls, steers and brakes"
CONFIRM = (
    "The driver's name and mobile number.",
    "The plates of truck and trailer, and the USDOT number that they run under.",
    "The certificate of your cargo insurance, sent by the insurer, with its limit for each vehicle, and its excess.",
    "The day and time of pickup and of delivery within these windows, and your price for all of it, in writing.",
)
TERMS = (
    "Please call both sides the day before.",
    "No other carrier takes the vehicle over without our word in writing.",
    "Both sides walk round each vehicle at pickup and at delivery, write every mark on the condition report, and sign it.",
)
# For who sends it, and not in the mail.
CAUTION = (
    "Call back at the number in the public register of carriers, not at the one in a message, and hold the USDOT number, the "
    "authority and the insurance to what the register says, before a driver gets the keys."
)


@dataclass(frozen=True, slots=True)
class Wanting:
    """What the carrier will ask for and nobody has filled in yet, and how it is filled in."""

    what: str
    where: str


def booking_letter(facts: Facts, moments: Mapping[str, Window]) -> Letter:
    """Return the mail to the carrier that fetches the vehicles; `moments` are the days as they stand now."""
    leg = facts.first_truck
    assert leg is not None, "nothing is booked where no truck comes"
    named = facts.parties.get("carrier")
    carrier = named.name if named else facts.reference("carrier") or leg.carrier
    pickup = moments.get("pickup", facts.option.dates.pickup)
    count = f"{wording.number(len(facts.quote.vehicles))} vehicles" if len(facts.quote.vehicles) > 1 else "one vehicle"
    way = f"{wording.place(leg.from_)} to {wording.place(leg.to)}"
    return Letter(
        subject=f"Booking {facts.number}: {count}, {way}, pickup {wording.window(pickup)}",
        greeting=greeting(carrier),
        parts=(
            Part(sentences=tuple(_opening(facts, count, way))),
            Part(title="What travels", points=tuple(_vehicle(vehicle) for vehicle in facts.quote.vehicles)),
            Part(title="Pickup", sentences=tuple(_pickup(facts, pickup))),
            Part(title="Delivery", sentences=tuple(_delivery(facts, moments))),
            Part(title="Please confirm by reply", points=CONFIRM),
            Part(sentences=TERMS),
        ),
        signature=signed_by(facts.quote.dealer, f"Our reference: {facts.number}"),
    )


def wanting(facts: Facts) -> tuple[Wanting, ...]:
    """Return what is missing for the mail, each with how it is filled in."""
    found = []
    if "carrier" not in facts.references:
        found.append(Wanting("the carrier that was booked", setting(facts, "carrier")))
    if facts.ship is not None:
        found += [
            Wanting(f"the {name} number", setting(facts, name)) for name in ("booking",) if not facts.reference(name)
        ]
    elif not (facts.consignee.address and facts.consignee.telephone):
        found.append(Wanting("the receiver's address and telephone", address_of("buyer", facts.consignee.name)))
    for vehicle in facts.quote.vehicles:
        lacking = [name for name, told in (("sizes", measured(vehicle)), ("weight", kilograms(vehicle))) if not told]
        if lacking:
            columns = stock_column("Length, Width, Height, Weight", vehicle)
            found.append(Wanting(f"{wording.listed(lacking)} of {vehicle.name}", columns))
    return tuple(found)


def _opening(facts: Facts, count: str, way: str) -> Iterator[str]:
    yield f"Please book {count} from {way} for us, under our reference {facts.number}."
    if facts.option.trailer:
        yield f"We need an {facts.option.trailer} trailer."
    if facts.option.service_class:
        yield "Please guarantee the last day of pickup, as agreed."
    held = facts.option.in_hand
    if held is not None and held.amount is not None:
        price = wording.money(held.amount, facts.quote.currency)
        under = f" under your reference {held.reference}" if held.reference else ""
        yield f"You gave us a price of {price}{under}, which holds until {wording.day(held.until)}."


def _vehicle(vehicle: Vehicle) -> str:
    """Return a vehicle as a carrier asks for it, in one sentence."""
    price = price_of(vehicle)
    worth = "" if price is None else f"; its declared value is {wording.money(price, vehicle.currency)}"
    serial = f", serial number {vehicle.serial}" if vehicle.serial else ""
    sizes = f"{measured(vehicle)} cm (length, width, height)" if measured(vehicle) else "sizes to follow"
    mass = f"{kilograms(vehicle)} kg" if kilograms(vehicle) else "weight to follow"
    fails = what_fails(vehicle)
    return f"{vehicle.name}{serial}: {sizes}, {mass}; {f'it {fails}' if fails else WORKS}{worth}."


def _pickup(facts: Facts, pickup: Window) -> Iterator[str]:
    several, seller = len(facts.quote.vehicles) > 1, facts.seller
    stand = "The vehicles stand" if several else "It stands"
    yard = _yard_address(facts)
    yield f"{stand} in our yard in {wording.place(facts.quote.from_)}{f': {seller.name}, {yard}' if yard else ''}."
    if not yard:
        yield "The street address follows."
    if seller.telephone:
        yield f"Call {seller.telephone} before you come."
    yield f"Please fetch {'them' if several else 'it'} {wording.within(pickup)}."
    if facts.quote.wishes.lift_gate:
        yield "A lift gate is needed to load and to unload."


def _yard_address(facts: Facts) -> str:
    """Return the dealer's address where the vehicles stand in that town; "" where they stand in another yard."""
    address = " ".join(facts.seller.address.split())
    return address if facts.quote.from_.name.casefold() in address.casefold() else ""


def _delivery(facts: Facts, moments: Mapping[str, Window]) -> Iterator[str]:
    leg = facts.first_truck
    called = wording.called_on(facts.option)
    if facts.ship is not None and leg is not None:
        yield f"Please deliver to the terminal at {wording.stop(leg.to, called)}."
        booking = facts.reference("booking")
        yield f"The booking number at the gate is {booking}." if booking else "The booking number for the gate follows."
        if "cut-off" in moments:
            yield f"The terminal takes it until {wording.day(moments['cut-off'][0])} at the latest, so it must be there before."
        return
    receiver = facts.consignee
    address = " ".join(receiver.address.split())
    where = address or f"{wording.place(facts.quote.to)}; the street address follows"
    yield f"Please deliver to {receiver.name or 'our buyer'}, {where}."
    if receiver.telephone:
        yield f"Call {receiver.telephone} the day before."
    yield f"We told the buyer to expect the delivery {wording.within(moments.get('delivery', facts.option.dates.delivery))}."
    if facts.quote.wishes.limited_access:
        yield "A long truck cannot reach the door: please agree a meeting place or bring a smaller one."
