"""Stock: what the dealer has, and which rows of the list need a look."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import NoAnswer

if TYPE_CHECKING:
    from shipcalc.errors import Problem
    from shipcalc.vehicles.vehicle import Vehicle


@dataclass(frozen=True, slots=True)
class StockAnswer:
    """The vehicles that match, how many there are in all, and the problems of the whole list."""

    vehicles: "tuple[Vehicle, ...]"
    in_all: int
    problems: "tuple[Problem, ...]"


def look_through_stock(path: Path, text: str = "") -> StockAnswer:
    """Return the vehicles that have every word of `text` somewhere in what people say of them.

    Raises WrongInput for a list that cannot be read, NoAnswer where no vehicle matches.
    """
    from shipcalc.vehicles.stock_list import read_stock

    stock = read_stock(path)
    words = text.casefold().split()
    found = tuple(vehicle for vehicle in stock.vehicles if all(word in _said_of(vehicle) for word in words))
    if words and not found:
        raise NoAnswer(
            f'no vehicle has "{text.strip()}" in its number, name, body, yard or note',
            where=path.name,
            remedy="shipcalc stock lists them all",
        )
    return StockAnswer(found, len(stock.vehicles), stock.problems)


def _said_of(vehicle: "Vehicle") -> str:
    parts = (vehicle.stock_number, vehicle.name, vehicle.body, vehicle.yard, vehicle.serial, vehicle.note)
    state = "" if vehicle.runs else "does not run"
    return " ".join((*parts, vehicle.title, state)).casefold()
