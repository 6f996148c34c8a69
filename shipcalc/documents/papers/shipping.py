"""What goes with a vehicle over the sea: letter of instruction, dock receipt, dangerous-goods statement, request for delivery.

Nothing is stated here that only a licensed person may state: commodity code, licence and filing are the forwarder's to name,
and the statement of dangerous goods is signed by who looked at the vehicle.
"""

from shipcalc.documents import wording
from shipcalc.documents.papers import layout_key
from shipcalc.documents.papers.facts import (
    Facts,
    commodity_code,
    cubic_metres,
    described,
    kilograms,
    measured,
    price_of,
    setting,
)
from shipcalc.documents.papers.invoices import stock_column
from shipcalc.documents.papers.paper import BY_HAND, Field, Paper, Table
from shipcalc.trade import CROSSING_BY_MODE, SHIP, Called
from shipcalc.vehicles.vehicle import Vehicle

FILING = "15 CFR 30.6(a) names what a filing must hold, 15 CFR 30.3 who may file, 15 CFR 30.4(b)(5) when: 72 hours before export."
AUTHORISED = (
    "We authorize the forwarder named above to file the export of these vehicles for us in the Automated Export "
    "System, to book "
    "the carriage and to sign what the line asks of a shipper for it. This holds for this shipment alone."
)
STATEMENT = (
    "The vehicle named above travels with fuel and battery in it (UN 3166, vehicle, flammable liquid powered, class "
    "9). Whoever "
    "signs has looked at this very vehicle and ticks only what is so:"
)
ON_A_DECK = (
    "☐ It stands on a ro-ro or vehicle deck.",
    "☐ Fuel, oil, coolant, brake fluid and battery: nothing leaks.",
    "☐ The battery is fastened, its terminals are covered against short circuit.",
    "☐ The tank is a quarter full or less; there is no spare can.",
)
IN_A_CONTAINER = (
    "☐ The tank is drained and the engine was run until it stopped for want of fuel.",
    "☐ The battery is disconnected, or its terminals are covered against short circuit.",
    "☐ Fuel, oil, coolant, brake fluid and battery: nothing leaks; there is no spare can.",
    "☐ If one of these is not so, the line is told and the goods are declared as dangerous.",
)
_OTHER_POWER = (
    "Battery or gas powered vehicles fall under other numbers and rules (UN 3171, 3556, 3558 and others): ask the "
    "line first."
)


def shipper_instruction(facts: Facts) -> Paper:
    """Return the letter that tells the forwarder what to do and gives the data of the filing."""
    forwarder = Field("Forwarder", facts.party("forwarder"), setting(facts, "forwarder"))
    filing = (
        (
            Field("Our tax number (EIN) for the filing", "", BY_HAND),
            Field("Where the goods begin their way to the port (no post box)", _start(facts), "shipcalc.toml, [yards]"),
        ),
        (
            Field("Title: number and state that issued it", facts.reference("title"), setting(facts, "title")),
            Field("Commodity code", facts.reference("commodity"), commodity_code(facts)),
        ),
        (
            Field("Export control number and licence, if any", "", "the forwarder names it"),
            Field(f"{_document(facts)}: originals, telex release or sea waybill", "", BY_HAND),
        ),
        (
            Field("Cargo cover", _cover(facts)),
            Field("Freight", "prepaid" if _freight_is_ours(facts) else "collect"),
        ),
    )
    return Paper(
        code="shipper-instruction",
        title="Shipper’s letter of instruction",
        boxes=((forwarder,), *layout_key.head_boxes(facts, numbered="Our reference and date"), *filing),
        table=_goods(facts),
        sentences=(AUTHORISED, FILING),
        cautions=(
            (
                "The shipper answers for what is filed. What customs and line ask for at this port, the forwarder knows: "
                "ask before sending."
            ),
        ),
        signatures=(layout_key.place_and_day(facts),),
        after=layout_key.AFTER,
    )


def dock_receipt(facts: Facts) -> Paper:
    """Return the data of the receipt that the terminal signs."""
    forwarder = Field("Forwarder", facts.party("forwarder"), setting(facts, "forwarder"))
    filing = Field("Export filing (ITN)", facts.reference("itn"), setting(facts, "itn"))
    booking = Field("Booking", facts.reference("booking"), setting(facts, "booking"))
    return Paper(
        code="dock-receipt",
        title="Dock receipt",
        boxes=(
            *layout_key.head_boxes(facts, numbered="Our reference and date"),
            (forwarder, filing),
            (booking, Field("Terminal", wording.place(facts.ship.from_) if facts.ship else "", BY_HAND)),
        ),
        table=_goods(facts),
        sentences=(
            "Received for shipment, in apparent good order unless noted here. Marks, parts that are missing, odometer, keys:",
            "\n\n\n",
        ),
        signatures=("Driver: name, signature", "Terminal: name, signature, day, time"),
        after=layout_key.AFTER,
    )


def dangerous_goods(facts: Facts, vehicle: Vehicle) -> Paper:
    """Return the statement of fuel and battery for one vehicle, as it travels."""
    ship = facts.ship
    on_deck = ship is not None and CROSSING_BY_MODE[ship.mode].is_driven_aboard
    powered = () if vehicle.fuel in ("", "gasoline", "diesel") else (_OTHER_POWER,)
    return Paper(
        code="dangerous-goods",
        title="Statement of fuel and battery",
        vehicle=vehicle.stock_number,
        boxes=(
            (layout_key.consignor(facts), Field("Our reference and date", f"{facts.number}\n{wording.day(facts.day)}")),
            (Field("Vehicle", described(vehicle)), Field("Fuel", vehicle.fuel, stock_column("Fuel", vehicle))),
            (
                Field("Booking", facts.reference("booking"), setting(facts, "booking")),
                Field(_called(facts).carrier.capitalize(), _vessel(facts), setting(facts, "vessel")),
            ),
        ),
        sentences=(STATEMENT, *(ON_A_DECK if on_deck else IN_A_CONTAINER)),
        cautions=(
            *powered,
            (
                "The rules change every two years and lines ask for more than the rules do: the line and the port have the "
                "last word. "
                "Drain fuel outdoors, away from sparks, by somebody who is trained for it."
            ),
        ),
        signatures=("Who looked at the vehicle: name, signature, day", layout_key.place_and_day(facts)),
        after="International Maritime Dangerous Goods Code, UN 3166, special provision 961; 49 CFR 176.905. Both as they "
        "are commonly "
        "explained: the text in force counts.",
    )


def delivery_order_request(facts: Facts) -> Paper:
    """Return the letter that asks the line's agent to let the vehicle go."""
    broker = Field("To be given to (customs broker, haulier)", facts.party("broker"), setting(facts, "broker"))
    return Paper(
        code="delivery-order-request",
        title="Request for the delivery order",
        to=(facts.party("agent") or "To the line’s agent at the port of arrival",),
        opening=(
            (
                f"Please release the vehicle below against the {_called(facts).document} and send the delivery order, its "
                "number and the last free "
                "day to those named here. Please tell us all charges that are to be paid before it is released."
            ),
        ),
        boxes=(
            (
                Field(_document(facts), facts.reference("bill"), setting(facts, "bill")),
                Field(_called(facts).carrier.capitalize(), _vessel(facts), setting(facts, "vessel")),
            ),
            (layout_key.consignee(facts), layout_key.notify(facts)),
            (broker, *([Field("Release", facts.reference("release"))] if facts.reference("release") else [])),
        ),
        table=_goods(facts),
        signatures=(layout_key.place_and_day(facts),),
        cautions=("Storage and demurrage run from the end of the free days, whoever is late.",),
    )


def _start(facts: Facts) -> str:
    return wording.place(facts.quote.from_)


def _vessel(facts: Facts) -> str:
    return " ".join(part for part in (facts.reference("vessel"), facts.reference("voyage")) if part)


def _cover(facts: Facts) -> str:
    option = facts.option
    if not option.cover_conditions:
        return "not by us"
    sum_told = wording.money(option.cover, facts.quote.currency)
    return f"{sum_told}, conditions {option.cover_conditions}, to be in force before the vehicle leaves"


def _freight_is_ours(facts: Facts) -> bool:
    return any(one.payer == "seller" for one in facts.option.charges if one.stage == "main carriage")


_COLUMNS = (
    ("Goods", False),
    ("Pieces", True),
    ("Gross kg", True),
    ("L × W × H, cm", True),
    ("m³", True),
    ("Value", True),
)


def _goods(facts: Facts) -> Table:
    return Table(columns=_COLUMNS, rows=tuple(_shipped(vehicle) for vehicle in facts.quote.vehicles))


def _shipped(vehicle: Vehicle) -> tuple[Field, ...]:
    price = price_of(vehicle)
    sizes = stock_column("Length, Width, Height", vehicle)
    return (
        Field("Serial number", described(vehicle) if vehicle.serial else "", stock_column("VIN", vehicle)),
        Field("Pieces", "1"),
        Field("Weight", kilograms(vehicle), stock_column("Weight", vehicle)),
        Field("Sizes", measured(vehicle), sizes),
        Field("m³", cubic_metres(vehicle), sizes),
        Field("Value", "" if price is None else f"{price:,} {vehicle.currency}", stock_column("Value", vehicle)),
    )


def _called(facts: Facts) -> Called:
    """Return how what carries it over the longest leg is spoken of."""
    return CROSSING_BY_MODE[facts.ship.mode].called if facts.ship else SHIP


def _document(facts: Facts) -> str:
    return _called(facts).document.capitalize()
