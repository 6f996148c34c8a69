"""What goes with a truck: the order to the carrier, and the word that somebody may fetch the vehicle."""

from shipcalc.documents import wording
from shipcalc.documents.papers import layout_key
from shipcalc.documents.papers.facts import Facts, address_of, described, kilograms, measured, price_of, setting
from shipcalc.documents.papers.invoices import stock_column
from shipcalc.documents.papers.paper import BY_HAND, Field, Paper, Table
from shipcalc.vehicles.vehicle import Vehicle, what_fails

TERMS = (
    "Windows are windows and not appointments: please call both sides the day before.",
    "No other carrier takes the vehicle over without our word in writing.",
    "Both sides walk round the vehicle at pickup and at delivery, write every mark on the condition report, and sign.",
    "Please confirm this order in writing, with driver, truck and the certificate of your cargo cover.",
)
CAUTION = (
    "Before keys change hands: the driver’s name, the truck and the USDOT number are those of this order, called back at the "
    "carrier’s number in the public register, not at the one in a message."
)


def transport_order(facts: Facts) -> Paper:
    """Return the order to the carrier that fetches the vehicle from the yard."""
    option, leg = facts.option, facts.first_truck
    carrier = facts.party("carrier") or (leg.carrier if leg else "")
    start, end = (leg.from_, leg.to) if leg else (facts.quote.from_, facts.quote.to)
    ends_at_port = facts.ship is not None
    receiver = (
        Field("Deliver to", f"{wording.place(end)}\n{facts.party('agent')}".strip())
        if ends_at_port
        else layout_key.someone("Deliver to", facts.consignee, address_of("buyer", facts.consignee.name))
    )
    booking = [Field("Booking and gate", facts.reference("booking"), setting(facts, "booking"))] if ends_at_port else []
    window = () if ends_at_port else (Field("Delivery window", wording.window(option.dates.delivery)),)
    return Paper(
        code="transport-order",
        title="Order to the carrier",
        to=(carrier or "To the carrier",),
        boxes=(
            (
                Field("Our reference and date", f"{facts.number}\n{wording.day(facts.day)}"),
                Field("Trailer", wording.trailer(option)),
            ),
            (Field("Fetch from", f"{facts.seller.told()}\n{wording.place(start)}"), receiver),
            (Field("Pickup window", wording.window(option.dates.pickup)), *window),
            (*booking, Field("Agreed price", "", BY_HAND)),
        ),
        table=Table(columns=_COLUMNS, rows=tuple(_carried(vehicle) for vehicle in facts.quote.vehicles)),
        sentences=TERMS,
        cautions=(CAUTION, "The carrier loads and secures, and answers for both; local rules count."),
        signatures=(layout_key.place_and_day(facts), "Carrier: name, signature, day"),
    )


_COLUMNS = (("Vehicle", False), ("Works", False), ("Kg", True), ("L × W × H, cm", True), ("Declared value", True))


def _carried(vehicle: Vehicle) -> tuple[Field, ...]:
    price = price_of(vehicle)
    return (
        Field("Serial number", described(vehicle) if vehicle.serial else "", stock_column("VIN", vehicle)),
        Field("Works", what_fails(vehicle) or "runs, rolls, steers, brakes"),
        Field("Weight", kilograms(vehicle), stock_column("Weight", vehicle)),
        Field("Sizes", measured(vehicle), stock_column("Length, Width, Height", vehicle)),
        Field("Value", "" if price is None else f"{price:,} {vehicle.currency}", stock_column("Value", vehicle)),
    )


def pickup_authorisation(facts: Facts) -> Paper:
    """Return the word to the yard that one carrier, and nobody else, may fetch the vehicle."""
    leg = facts.first_truck
    carrier = facts.party("carrier") or (leg.carrier if leg else "")
    listed = tuple((Field("Vehicle", described(vehicle)), Field("Keys", "", "")) for vehicle in facts.quote.vehicles)
    return Paper(
        code="pickup-authorisation",
        title="Authority to fetch the vehicle",
        opening=(
            (
                "The yard may hand what is listed here to the person and truck named below, on the days named below, and "
                "to nobody else. "
                "Who fetches it shows an identity document with a photograph; the yard keeps a copy of this paper, signed."
            ),
        ),
        boxes=(
            (
                Field("Our reference and date", f"{facts.number}\n{wording.day(facts.day)}"),
                Field("Days", wording.window(facts.option.dates.pickup)),
            ),
            (
                Field("Carrier, or who fetches it", carrier, setting(facts, "carrier")),
                Field("Driver", facts.reference("driver"), setting(facts, "driver")),
            ),
            (
                Field("Truck and trailer: plate, USDOT number", "", BY_HAND),
                Field("Yard", wording.place(facts.quote.from_)),
            ),
        ),
        table=Table(columns=(("Vehicle", False), ("Keys handed over", False)), rows=listed),
        cautions=(CAUTION,),
        signatures=(layout_key.place_and_day(facts), "Who fetched it: name, signature, day, time"),
    )
