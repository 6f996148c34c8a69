"""The dealer's stock as it was read, and finding a vehicle in it."""

import unicodedata
from collections.abc import Iterable

from shipcalc.errors import Problem, WrongInput
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle


@dataclass(frozen=True, slots=True)
class Stock:
    """The usable vehicles in the order of the list, and all problems in the order of its rows.

    `unusable` has the stock numbers of the rows that were left out, each with the fault that did it.
    """

    vehicles: tuple[Vehicle, ...]
    problems: tuple[Problem, ...] = ()
    unusable: tuple[tuple[str, Problem], ...] = ()
    file: str = ""


def find_vehicle(stock: Stock, text: str) -> Vehicle:
    """Return the vehicle with that stock number or serial, without regard to case, blanks and dashes.

    Raises WrongInput: for a row that was left out with its fault, for an unknown number with the nearest ones.
    """
    wanted = stock_key(text)
    if not wanted:
        raise WrongInput("no stock number is given", remedy=_another_way(stock, text))
    by_number = (vehicle for vehicle in stock.vehicles if stock_key(vehicle.stock_number) == wanted)
    by_serial = (vehicle for vehicle in stock.vehicles if vehicle.serial and stock_key(vehicle.serial) == wanted)
    vehicle = next(by_number, None) or next(by_serial, None)
    if vehicle is not None:
        return vehicle
    fault = next((problem for number, problem in stock.unusable if stock_key(number) == wanted), None)
    if fault is not None:
        raise WrongInput(f"{text.strip()} cannot be used: {fault.message}", where=fault.cell, remedy=fault.remedy)
    near = nearest_numbers(stock, text)
    remedy = f"the nearest: {', '.join(near)}" if near else _another_way(stock, text)
    raise WrongInput(f'there is no stock number "{text.strip()}"', where=stock.file, remedy=remedy)


def _another_way(stock: Stock, text: str) -> str:
    """Return what to give where a text is like no stock number: a vehicle that has these words, or a description."""
    if text.strip() and (meant := search(stock, text)):
        numbers = ", ".join(vehicle.stock_number for vehicle in meant[:3])
        return f"shipcalc stock finds {len(meant)} by these words: {numbers}{', …' if len(meant) > 3 else ''}"
    examples = ", ".join(vehicle.stock_number for vehicle in stock.vehicles[:2])
    such = f", such as {examples}" if examples else ""
    return f'give one of the stock list{such}, or describe the vehicle: "1961 roadster, 2030 lb, $38,000"'


def nearest_numbers(stock: Stock, text: str, most: int = 3) -> tuple[str, ...]:
    """Return the stock numbers that look most like `text`, the nearest first."""
    from rapidfuzz import fuzz, process

    by_key = {stock_key(vehicle.stock_number): vehicle.stock_number for vehicle in stock.vehicles}
    wanted = stock_key(text)
    ending = [key for key in by_key if len(wanted) >= 2 and key.endswith(wanted)]
    alike = process.extract(wanted, by_key.keys(), scorer=fuzz.ratio, limit=most, score_cutoff=60)
    return tuple(by_key[key] for key in dict.fromkeys((*ending, *(found[0] for found in alike))))[:most]


def search(stock: Stock, text: str) -> tuple[Vehicle, ...]:
    """Return the vehicles that have every word of `text` in some field, accents and case aside, in the list's order."""
    words = _folded(text).split()
    return tuple(vehicle for vehicle in stock.vehicles if _has_words(_searchable(vehicle), words))


def _has_words(searchable: str, words: Iterable[str]) -> bool:
    return all(word in searchable for word in words)


def _searchable(vehicle: Vehicle) -> str:
    runs = "runs" if vehicle.runs else "does not run"
    fields = (vehicle.stock_number, vehicle.name, vehicle.serial, vehicle.yard, vehicle.title, vehicle.fuel)
    return _folded(" ".join((*fields, vehicle.body, vehicle.built_in, runs, vehicle.note)))


def stock_key(text: str) -> str:
    """Return what a stock number is compared by: its letters and digits."""
    return "".join(character for character in text.casefold() if character.isalnum())


def _folded(text: str) -> str:
    if text.isascii():
        return text.casefold()
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(character for character in apart if not unicodedata.combining(character))
