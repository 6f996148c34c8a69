"""What is said with every quote: where somebody could be hurt, lose money or break a rule."""

from shipcalc.quote.network.territory import is_domestic, is_home
from shipcalc.quote.request import Request

SECURING = (
    "Loading and securing are the carrier's work under the rules in force where the truck drives (in the United States "
    "49 CFR 393); nobody else should tie down, loosen or ride in a vehicle on a trailer."
)
HANDING_OVER = (
    "Hand the vehicle over with {energy}, no leaks, the battery secured, the alarm off and nothing "
    "loose inside; tell the carrier about anything that may move, drip or catch fire."
)
COVER_ENDS = (
    "Cargo cover ends at the sum named and has exclusions. Ask for the carrier's certificate, and ask your own insurer "
    "whether it is enough for this vehicle."
)
RECEIPT = "Note any damage on the delivery receipt before you sign it; a clean receipt makes a claim hard to prove."
WINDOWS = "Dates are windows, not promises: weather, roads and the carrier's other stops move them."
RULES_OF_THE_STATE = (
    "Title, registration and tax rules are the state's: ask your motor vehicle office or a licensed adviser."
)
ESTIMATES_AT_HOME = "Port and delivery figures on the buyer's side are estimates: what is charged there counts."
ESTIMATES_ABROAD = (
    "Duty, tax, port and delivery figures on the buyer's side are estimates. Customs in that country decide; ask a "
    "licensed customs broker there before you agree."
)
HANDING_TO_A_SHIP = (
    "Hand the vehicle over with {energy}; free of leaks, the battery secured or disconnected, the alarm off. Fuel and "
    "batteries are dangerous goods (UN 3166, UN 3171): the line's own rules apply."
)
NO_GOODS_INSIDE = (
    "Nothing but the vehicle and its own tools travels in it: personal goods can have the whole shipment held."
)
GENERAL_AVERAGE = (
    "In general average every owner of cargo pays a share, whatever was agreed; the marine cover answers for it."
)
RULES_OF_THE_COUNTRY = (
    "Registration, tax and the rules of the road are your country's: ask its authorities or a licensed adviser."
)
KEPT_AT_THE_YARD = "Kept at the yard: ask whose insurance covers fire, theft and damage there, and have it in writing."


def cautions(request: Request, *, by_sea: bool) -> tuple[str, ...]:
    """Return the cautions of a quote; `by_sea`: a ship is among the choices."""
    to = request.to
    within = is_domestic(to.country)
    estimates = () if is_home(to.country, to.subdivision) else (ESTIMATES_AT_HOME if within else ESTIMATES_ABROAD,)
    return (
        *estimates,
        _handing_to_a_ship(request) if by_sea else handing_over(request),
        *((NO_GOODS_INSIDE,) if estimates else ()),
        *((GENERAL_AVERAGE,) if by_sea else ()),
        SECURING,
        COVER_ENDS,
        RECEIPT,
        WINDOWS,
        RULES_OF_THE_STATE if within else RULES_OF_THE_COUNTRY,
        *((KEPT_AT_THE_YARD,) if request.kept_from is not None else ()),
    )


def _handing_to_a_ship(request: Request) -> str:
    charge = "no more charge than the line allows"
    fuel = "at most a quarter tank of fuel, for a container drained by a workshop"
    return HANDING_TO_A_SHIP.format(energy=charge if is_all_electric(request) else fuel)


def handing_over(request: Request) -> str:
    """Return in which state a vehicle is given to a truck."""
    charge = "no more charge than the carrier asks"
    return HANDING_OVER.format(energy=charge if is_all_electric(request) else "about a quarter tank of fuel")


def is_all_electric(request: Request) -> bool:
    """Return whether nothing of the shipment has a tank."""
    return all(vehicle.fuel == "electric" for vehicle in request.vehicles)
