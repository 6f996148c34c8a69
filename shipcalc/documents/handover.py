"""What is looked at, marked, photographed and signed at pickup and at delivery, on paper and in the workbook."""

from shipcalc.documents.offer.first_answer import ship
from shipcalc.places.place import Place
from shipcalc.quote.model import Option, Quote
from shipcalc.vehicles.vehicle import Vehicle

READINGS = (
    ("Day and time", ""),
    ("Odometer", "miles / km"),
    ("Fuel: ring it", "E    ¼    ½    ¾    F"),
    ("Keys handed over", "number:"),
    ("Light: ring it", "dry    wet    dark    dirty"),
    ("What works: ring it", "runs    rolls    steers    brakes"),
)
MARKS = "S scratch · D dent · C chip · R rust · T tear · K crack · M missing · L leak"
PHOTOGRAPHS = (
    "front", "rear", "left side", "right side",
    "corner, front left", "corner, front right", "corner, rear left", "corner, rear right",
    "roof or top", "hood, closed", "engine", "trunk",
    "front seats", "rear or bunks", "dashboard", "odometer",
    "VIN plate", "wheels, all", "underside, front", "underside, rear",
    "glass and lamps", "every mark, near", "keys and papers",
)  # fmt: skip
TIED_DOWN = "on the truck, tied down"
NEW_MARKS = (
    "Write every new mark above and on {receipt} before signing. A signature says what was seen; it does not say that nothing is "
    "hidden."
)
BY_TRUCK = "The carrier loads and secures the vehicle and answers for both."
SIGNATURES = ("Yard, at pickup", "Driver, at pickup", "Driver, at delivery", "Receiver, at delivery")


def course(quote: Quote, option: Option, vehicle: Vehicle) -> tuple[Place, Place, str]:
    """Return from where to where one driver brings a vehicle, and who: by sea, as far as the terminal."""
    legs = [leg for leg in option.legs if vehicle.stock_number in leg.vehicles] or option.legs
    start = legs[0].from_ if legs else quote.from_
    sails = ship(option) is not None
    to = legs[0].to if sails else quote.to
    by = legs[:1] if sails else legs
    return start, to, ", ".join(dict.fromkeys(leg.carrier for leg in by))
