"""What stands at the head of an offer: for whom, until when, in which currency; the vehicles; what we recommend and why."""

from shipcalc.documents import wording
from shipcalc.quote.model import Quote
from shipcalc.vehicles.vehicle import Vehicle


def under_title(quote: Quote) -> str:
    """Return for whom the offer is, how long it is good, and the currency of its amounts."""
    told = [f"For {quote.buyer}"] if quote.buyer else []
    until = f"Good until {wording.long_day(quote.valid_until)}"
    return "  ·  ".join([*told, until, f"Amounts in {wording.currency_name(quote.currency)}"])


def marks(vehicle: Vehicle) -> str:
    """Return what tells a vehicle from its like: stock number and serial number, as far as they are known."""
    found = [f"Stock number {vehicle.stock_number}"] if vehicle.stock_number != vehicle.name else []
    found += [f"serial number {vehicle.serial}"] if vehicle.serial else []
    return wording.sentence_case(", ".join(found))


def reason(quote: Quote) -> str:
    """Return which choice we recommend, and why."""
    if len(quote.options) == 1:
        return quote.reason
    return f"We recommend {wording.lower_first(wording.choice_name(quote.recommended))}. {quote.reason}"
