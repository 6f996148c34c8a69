"""The dealer's stock as it was read, and finding a vehicle in it."""

import re
import string
import unicodedata
from collections.abc import Iterable

from shipcalc.errors import Problem, WrongInput
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle

_LIKE_A_NUMBER = re.compile(r"[a-z]{0,6}[ -]?[0-9]{1,8}", re.IGNORECASE)
_WORD = re.compile(r"\w+")
_MOST_NEAR = 3
_LETTERS = string.ascii_lowercase
_BETWEEN = re.compile(r"\s*(?:[,;&+]|\band\b)\s*", re.IGNORECASE)


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

    The figures of a stock number are enough, "1042" for HV-1042, where only one vehicle has them.
    Raises WrongInput: for a row that was left out with its fault, for an unknown number with the nearest ones.
    """
    wanted = stock_key(text)
    if not wanted:
        raise WrongInput("no stock number is given", remedy=_another_way(stock, text))
    if vehicle := _numbered(stock, wanted):
        return vehicle
    fault = next((problem for number, problem in stock.unusable if _is_number(number, wanted)), None)
    if fault is not None:
        raise WrongInput(f"{text.strip()} cannot be used: {fault.message}", where=fault.cell, remedy=fault.remedy)
    near = nearest_numbers(stock, text)
    remedy = f"the nearest: {', '.join(near)}" if near else _another_way(stock, text)
    raise WrongInput(f'there is no stock number "{text.strip()}"', where=stock.file, remedy=remedy)


def _numbered(stock: Stock, wanted: str) -> Vehicle | None:
    """Return the vehicle of a stock number, a serial, or of the figures of one stock number alone."""
    for vehicle in stock.vehicles:
        if stock_key(vehicle.stock_number) == wanted:
            return vehicle
    for vehicle in stock.vehicles:
        if vehicle.serial and stock_key(vehicle.serial) == wanted:
            return vehicle
    by_figures = [vehicle for vehicle in stock.vehicles if _is_number(vehicle.stock_number, wanted)]
    others = any(_is_number(number, wanted) for number, _ in stock.unusable)
    return by_figures[0] if len(by_figures) == 1 and not others else None


def _is_number(number: str, wanted: str) -> bool:
    """Return whether a stock number is the wanted key, or has its figures behind letters alone."""
    key = stock_key(number)
    return key == wanted or (wanted.isdecimal() and key.lstrip(_LETTERS) == wanted)


def numbers_in(stock: Stock, text: str) -> tuple[str, ...]:
    """Return the texts of several stock numbers written as one, "HV-1042, HV-1027" or "1042 1027".

    Empty where it is only one, or no part of it is a stock number. A part that only looks like one is returned too, to be told.
    """
    pieces = [piece.strip() for piece in _BETWEEN.split(text) if piece.strip()]
    if len(pieces) == 1:
        pieces = _run_together(stock, text.split())
    alike = len(pieces) > 1 and all(_LIKE_A_NUMBER.fullmatch(piece) for piece in pieces)
    return tuple(pieces) if alike and any(_numbered(stock, stock_key(piece)) for piece in pieces) else ()


def _run_together(stock: Stock, words: list[str]) -> list[str]:
    """Return the stock numbers of words that stand one after the other, "HV 1042 HV 1027"."""
    pieces: list[str] = []
    while words:
        taken = 2 if len(words) > 1 and _numbered(stock, stock_key("".join(words[:2]))) else 1
        pieces.append(" ".join(words[:taken]))
        words = words[taken:]
    return pieces


def _another_way(stock: Stock, text: str) -> str:
    """Return what to give where a text is like no stock number: a vehicle that has these words, or a description."""
    if text.strip() and (meant := search(stock, text) or spelled_nearly(stock, text)):
        numbers = ", ".join(vehicle.stock_number for vehicle in meant[:3])
        return f"shipcalc stock finds {len(meant)} by these words: {numbers}{', …' if len(meant) > 3 else ''}"
    examples = ", ".join(vehicle.stock_number for vehicle in stock.vehicles[:2])
    such = f", such as {examples}" if examples else ""
    return f'give one of the stock list{such}, or describe the vehicle: "1961 roadster, 2030 lb, $38,000"'


def nearest_numbers(stock: Stock, text: str) -> tuple[str, ...]:
    """Return the stock numbers that look most like `text`, the nearest first."""
    from rapidfuzz import fuzz, process

    by_key = {stock_key(vehicle.stock_number): vehicle.stock_number for vehicle in stock.vehicles}
    wanted = stock_key(text)
    ending = [key for key in by_key if len(wanted) >= 2 and key.endswith(wanted)]
    alike = process.extract(wanted, by_key.keys(), scorer=fuzz.ratio, limit=_MOST_NEAR, score_cutoff=60)
    return tuple(by_key[key] for key in dict.fromkeys((*ending, *(found[0] for found in alike))))[:_MOST_NEAR]


def search(stock: Stock, text: str) -> tuple[Vehicle, ...]:
    """Return the vehicles that have every word of `text` in some field, accents and case aside, in the list's order."""
    words = _folded(text).split()
    return tuple(vehicle for vehicle in stock.vehicles if _has_words(_searchable(vehicle), words))


def spelled_nearly(stock: Stock, text: str) -> tuple[Vehicle, ...]:
    """Return the vehicles that have every word of `text` or one that is spelled nearly so: "minow" finds Minnow."""
    words = _folded(text).split()
    if not words:
        return ()
    return tuple(vehicle for vehicle in stock.vehicles if _has_nearly(_searchable(vehicle), words))


def _has_nearly(searchable: str, words: Iterable[str]) -> bool:
    return all(word in searchable or any(_is_nearly(word, own) for own in _WORD.findall(searchable)) for word in words)


def _is_nearly(word: str, own: str) -> bool:
    """Return whether two words are the same but for a slip or two; short words and figures must be exact."""
    from rapidfuzz.distance import OSA

    slips = 0 if len(word) < 4 or not word.isalpha() else 1 if len(word) < 7 else 2
    return slips > 0 and OSA.distance(word, own, score_cutoff=slips) <= slips


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
