"""Which vehicle is meant: a stock number, or a description of one that is not in stock."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from shipcalc.actions.sources import Sources
from shipcalc.errors import WrongInput, asked
from shipcalc.records import replace

if TYPE_CHECKING:
    from shipcalc.vehicles.sizes import BodySize
    from shipcalc.vehicles.stock import Stock
    from shipcalc.vehicles.vehicle import Vehicle


def vehicles_meant(texts: Sequence[str], stock: "Stock", sizes: "Sequence[BodySize]") -> "tuple[Vehicle, ...]":
    """Return the vehicles that are meant, with missing sizes filled from the table of typical sizes.

    Raises WrongInput for a text that is neither a stock number nor a description, and for a stock number given twice.
    """
    from shipcalc.vehicles.sizes import fill_sizes

    each = [one for text in texts for one in texts_of_each(text, stock)]
    return _told_apart([fill_sizes(vehicle_meant(text, stock), sizes) for text in each])


def texts_of_each(text: str, stock: "Stock") -> tuple[str, ...]:
    """Return a text with several stock numbers, "HV-1042, HV-1027", as one text for each; any other as it is."""
    from shipcalc.vehicles.stock import numbers_in

    return numbers_in(stock, text) or (text,)


def read_stock_of(sources: Sources, sizes: "Sequence[BodySize]" = ()) -> "Stock":
    """Return the stock list, empty where there is none: a vehicle can be described without one."""
    from shipcalc.vehicles.stock import Stock
    from shipcalc.vehicles.stock_kept import stock_of

    return stock_of(sources.stock.path, sizes=sizes) if sources.stock is not None else Stock(vehicles=())


def vehicle_meant(text: str, stock: "Stock") -> "Vehicle":
    """Return the vehicle of a stock number, a serial or a description. Raises WrongInput where it is none of them."""
    from shipcalc.vehicles.stock import find_vehicle

    try:
        return find_vehicle(stock, text)
    except WrongInput:
        from shipcalc.vehicles.description import is_description, vehicle_from_text

        # What has a body or sizes in it was meant as a description, and its own fault is the one to tell.
        if not is_description(text):
            raise
    return vehicle_from_text(text)


def _told_apart(vehicles: "Sequence[Vehicle]") -> "tuple[Vehicle, ...]":
    """Return the vehicles with a number each, since the lines of a quote go by it: "as described", "as described 2" …"""
    from shipcalc.vehicles.vehicle import AS_DESCRIBED

    told: dict[str, Vehicle] = {}
    for vehicle in vehicles:
        number = vehicle.stock_number
        if number == AS_DESCRIBED and number in told:
            count = sum(known.startswith(AS_DESCRIBED) for known in told) + 1
            number = f"{AS_DESCRIBED} {count}"
        if number in told:
            raise WrongInput(f"{number} was given twice", where=asked("vehicle"), remedy="give every vehicle once")
        told[number] = replace(vehicle, stock_number=number)
    return tuple(told.values())
