"""An earlier quote asked for once more: its vehicles, places and wishes as a request."""

from datetime import date

from shipcalc.places.place import Place
from shipcalc.quote.model import Quote
from shipcalc.quote.request import Request
from shipcalc.vehicles.vehicle import Vehicle


def request_again(quote: Quote, as_of: date) -> Request:
    """Return the request that an earlier quote answered, as it would be asked on a day; what was ready before is ready then."""
    return Request(
        vehicles=quote.vehicles,
        starts=tuple(start_in(quote, vehicle) for vehicle in quote.vehicles),
        to=quote.to,
        ready=max(quote.ready, as_of),
        wishes=quote.wishes,
        buyer=quote.buyer,
    )


def start_in(quote: Quote, vehicle: Vehicle) -> Place:
    """Return where a vehicle of a quote starts: the beginning of its first leg."""
    legs = quote.options[quote.recommended].legs
    own = (leg.from_ for leg in legs if vehicle.stock_number in leg.vehicles)
    return next(own, quote.from_)
