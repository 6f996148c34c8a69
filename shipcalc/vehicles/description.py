"""A vehicle described in a line, for one that stands in no stock list:

    1961 roadster, 153 in x 60 in x 49 in, 2030 lb, $38,000, does not run

The pieces are divided by commas and come in any order; a comma between two digits belongs to the number.
"""

import re
from collections.abc import Callable, Mapping
from typing import Any

from shipcalc.errors import WrongInput
from shipcalc.sheets.numbers import plain_text
from shipcalc.vehicles.limits import within_limits
from shipcalc.vehicles.prices import find_currency, is_well_known, money_minor
from shipcalc.vehicles.sizes import find_body
from shipcalc.vehicles.stock_cells import country_name, fuel_name, title_kind
from shipcalc.vehicles.units import ENGINE, LENGTH, MASS, engine_cc, find_unit, length_mm, mass_grams, quoted
from shipcalc.vehicles.vehicle import AS_DESCRIBED, Vehicle

Fields = Mapping[str, Any]

_CURRENCY = "USD"  # of a sum without a sign

EXAMPLE = '"1961 roadster, 153 in x 60 in x 49 in, 2030 lb, $38,000, does not run"'

_PIECES = re.compile(r";|,(?!(?<=\d,)\d)")
_TIMES = re.compile(r"\s*[x×*]\s*(?=[\d.])|\s+by\s+", re.IGNORECASE)
_SIZES_WITHOUT_UNIT = re.compile(r"\d{2}\S*\s*[x×*]\s*\d{2}", re.IGNORECASE)
_WORD_BEFORE_SIZES = re.compile(r"[a-z]{3,} \d.*\d.*[x×*]\s*\d", re.IGNORECASE)
_NO_SIZE = re.compile(r"^\d$|\d \d(?!/)")  # 4x4 is a body
_LABELLED = re.compile(r"(?P<label>[a-z][a-z ]*?)(?:\s*[:=]\s*|\s+)(?P<rest>.+)", re.IGNORECASE)
_ORIGIN = re.compile(r"(?:built|made) in\s*[:=]?\s+(?P<country>.+)", re.IGNORECASE)
_YEAR = re.compile(r"(?<![\w.,])(?:1[89]|20)\d\d(?![\w.,])")
_UNIT_AT_END = re.compile(r"\d\s*(?P<unit>[^\d\s][^\d]*)$")
_NOT_A_STOCK_NUMBER = re.compile(r"[,;]|\d\s*[x×]\s*\d")

# What a piece says about the condition, word by word as people say it.
_CONDITIONS: Mapping[str, Fields] = {
    "runs": {"runs": True},
    "runs and drives": {"runs": True},
    "running": {"runs": True},
    "does not run": {"runs": False},
    "not running": {"runs": False},
    "inoperable": {"runs": False},
    "inop": {"runs": False},
    "rolls": {"rolls": True},
    "does not roll": {"rolls": False},
    "steers": {"steers": True},
    "does not steer": {"steers": False},
    "brakes": {"brakes": True},
    "brakes work": {"brakes": True},
    "does not brake": {"brakes": False},
    "no brakes": {"brakes": False},
    "modified": {"modified": True},
    "not modified": {"modified": False},
    "original": {"original_state": True},
    "original state": {"original_state": True},
    "not original": {"original_state": False},
}
_SIZES = {"long": "length_mm", "length": "length_mm", "wide": "width_mm", "width": "width_mm", "high": "height_mm"} | {
    "tall": "height_mm", "height": "height_mm", "clearance": "clearance_mm", "ground clearance": "clearance_mm",
}  # fmt: skip


def is_description(text: str) -> bool:
    """Return whether a text describes a vehicle rather than naming one of the stock list: it has pieces, sizes, or a body."""
    words = plain_text(text).casefold().split()
    return bool(_NOT_A_STOCK_NUMBER.search(text)) or any(find_body(word) is not None for word in words if len(word) > 2)


def vehicle_from_text(text: str) -> Vehicle:
    """Return the vehicle that a line describes, its stock number "as described".

    Raises WrongInput for a piece that is not understood, for a thing said twice, and where neither body nor sizes are said.
    """
    fields: dict[str, Any] = {}
    for piece in filter(None, map(str.strip, _PIECES.split(plain_text(text)))):
        said = _understood(piece)
        twice = next((field for field in said if field in fields and said[field] != fields[field]), None)
        if twice is not None:
            raise WrongInput(f"{quoted(piece)} repeats what was said before", where=_WHERE, remedy="say it once")
        fields |= said
    if "body" not in fields and not {"length_mm", "width_mm", "height_mm", "mass_grams"} <= fields.keys():
        raise WrongInput(
            f"{quoted(text)} says neither a body nor all sizes and the weight",
            where=_WHERE,
            remedy=f"name the body, e.g. {EXAMPLE}",
        )
    return Vehicle(stock_number=AS_DESCRIBED, currency=_CURRENCY, **fields)


def _understood(piece: str) -> Fields:
    try:
        for read in READERS:
            said = read(piece)
            if said is not None:
                return said
    except WrongInput as error:
        raise WrongInput(error.what, where=_WHERE, remedy=error.remedy) from None
    raise WrongInput(f"{quoted(piece)} is not understood", where=_WHERE, remedy=f"divide by commas, as in {EXAMPLE}")


def _condition(piece: str) -> Fields | None:
    return _CONDITIONS.get(piece.casefold().replace("doesn't", "does not"))


def _sizes_in_a_row(piece: str) -> Fields | None:
    """`153 in x 60 in x 49 in`, or `153 x 60 x 49 in`: length, width, height."""
    if _WORD_BEFORE_SIZES.search(piece):
        raise _not_divided(piece)
    parts = _TIMES.split(piece)
    if len(parts) == 1 or not piece[:1].isdigit() or _NO_SIZE.search(parts[0]):
        return None
    if len(parts) != 3:
        raise WrongInput(f"{quoted(piece)} has {len(parts)} sizes", remedy="write length x width x height")
    last = _UNIT_AT_END.search(parts[2])
    unit = find_unit(last["unit"], LENGTH) if last is not None else None
    fields = ("length_mm", "width_mm", "height_mm")
    return {field: _size(field, part, unit or "") for field, part in zip(fields, parts, strict=True)}


def _labelled_size(piece: str) -> Fields | None:
    """`153 in long`, `length 153 in`, `clearance 5 in`."""
    for word, field in sorted(_SIZES.items(), key=lambda entry: -len(entry[0])):
        folded = piece.casefold()
        bare = folded.removesuffix(word) if folded.endswith(f" {word}") else folded.removeprefix(word)
        if bare != folded and bare[:1] in " :=" + "0123456789":
            return {field: _size(field, bare.strip(" :="), "")}
    return None


def _labelled(piece: str) -> Fields | None:
    """`value 38,000`, `engine 2.2 l`, `yard Savannah`, `VIN 1G4AH59H45G118341`, `title lien`, `built in Italy`."""
    origin = _ORIGIN.fullmatch(piece)
    if origin is not None:
        return _built_in(origin["country"])
    found = _LABELLED.fullmatch(piece)
    read = LABELS.get(found["label"].casefold()) if found is not None else None
    return read(found["rest"]) if read is not None and found is not None else None


def _weight_engine_or_value(piece: str) -> Fields | None:
    """`2030 lb`, `2199 cc`, `$38,000`: told apart by the unit."""
    last = _UNIT_AT_END.search(piece)
    unit = last["unit"] if last is not None else ""
    if unit and find_unit(unit, MASS):
        return _weight(piece)
    if unit and find_unit(unit, ENGINE):
        return _engine(piece)
    if unit and (find_unit(unit, LENGTH) or "'" in piece) and piece[:1].isdigit():
        raise WrongInput(
            f"{quoted(piece)} could be any size", remedy="say which, e.g. 153 in long, or all: 153 x 60 x 49 in"
        )
    if _is_year_and_word(piece):
        return None
    before = piece.rstrip("0123456789.,' k").rstrip("-")
    is_money = bool(before) and len(before) < len(piece) and find_currency(before, _CURRENCY) is not None
    if is_money or (unit and piece[:1].isdigit() and (find_currency(unit, _CURRENCY) or unit.casefold() == "k")):
        return _value(piece)
    return None


def _is_year_and_word(piece: str) -> bool:
    """Return whether a piece is a year and a word, as `1972 bus` is, where any three letters could be a currency."""
    year = _YEAR.search(piece)
    if year is None:
        return False
    word = f"{piece[: year.start()]}{piece[year.end() :]}".strip()
    return word.isalpha() and not is_well_known(word, _CURRENCY)


def _title(piece: str) -> Fields | None:
    words = piece.casefold().removeprefix("with ").removeprefix("a ")
    try:
        return {"title": title_kind(words)} if "title" in words or words in _TITLES_ALONE else None
    except WrongInput:
        return {"title": title_kind(words.replace("title", "").strip())}


def _fuel(piece: str) -> Fields | None:
    try:
        return {"fuel": fuel_name(piece)}
    except WrongInput:
        return None


def _name(piece: str) -> Fields | None:
    """`1961 Larkspur Minnow roadster`: a year, a body, and between them the make and the model."""
    said: dict[str, Any] = {}
    year = _YEAR.search(piece)
    if year is not None:
        said["year"] = within_limits("year", int(year[0]), year[0])
        piece = f"{piece[: year.start()]} {piece[year.end() :]}"
    if _SIZES_WITHOUT_UNIT.search(piece):
        raise _not_divided(piece)
    words = [word for word in piece.split() if word.casefold() not in ("a", "an", "the")]
    for count in range(min(3, len(words)), 0, -1):  # the longest body that the piece ends or begins with
        for body, rest in ((words[-count:], words[:-count]), (words[:count], words[count:])):
            if "body" not in said and find_body(" ".join(body)) is not None:
                said["body"], words = find_body(" ".join(body)), rest
    fuels = [word for word in words if word.casefold() in _DRIVES]
    if "body" in said and fuels:
        said["fuel"] = fuel_name(fuels[0])
    if not said or any(not any(character.isalnum() for character in word) for word in words):
        return None
    if words:
        said["make"], said["model"] = words[0], " ".join(words[1:])
    return said


def _not_divided(piece: str) -> WrongInput:
    return WrongInput(
        f"{quoted(piece)} has sizes beside other words", remedy=f"divide by commas and name the unit, as in {EXAMPLE}"
    )


def _size(field: str, text: str, unit: str) -> int:
    told = f"{text} {unit}" if unit and text[-1:].isdigit() else text
    return within_limits(field, length_mm(text, unit), told)


def _weight(text: str) -> Fields:
    return {"mass_grams": within_limits("mass_grams", mass_grams(text), text)}


def _engine(text: str) -> Fields:
    return {"engine_cc": within_limits("engine_cc", engine_cc(text), text)}


def _value(text: str) -> Fields:
    return {"value_minor": money_minor(text, _CURRENCY)}


def _built_in(text: str) -> Fields:
    country = country_name(text.strip())
    if len(country) != 2:
        raise WrongInput(
            f"{quoted(text)} is no country that is known", remedy="write its two letters, e.g. built in US"
        )
    return {"built_in": country}


def _text(field: str) -> Callable[[str], Fields]:
    return lambda text: {field: text.strip()}


_WHERE = "the description"
_DRIVES = frozenset(("electric", "hybrid", "diesel", "steam"))  # said within the name: a 2019 electric saloon
_TITLES_ALONE = frozenset(("lien", "salvage", "bill of sale only", "bill of sale"))
LABELS: Mapping[str, Callable[[str], Fields]] = {
    "weight": _weight,
    "mass": _weight,
    "value": _value,
    "worth": _value,
    "price": _value,
    "engine": _engine,
    "yard": _text("yard"),
    "at": _text("yard"),
    "make": _text("make"),
    "model": _text("model"),
    "body": lambda text: {"body": find_body(text) or text},
    "vin": _text("serial"),
    "serial": _text("serial"),
    "chassis": _text("serial"),
    "note": _text("note"),
    "fuel": lambda text: {"fuel": fuel_name(text)},
    "title": lambda text: {"title": title_kind(text)},
}
READERS: tuple[Callable[[str], Fields | None], ...] = (
    _condition,
    _sizes_in_a_row,
    _labelled_size,
    _labelled,
    _weight_engine_or_value,
    _title,
    _fuel,
    _name,
)
