"""Cells that hold numbers: money, rates, percentages, lengths, masses, miles, in the units of the program."""

import re
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from typing import NoReturn

from shipcalc.measures import inches_to_mm, pounds_to_grams
from shipcalc.money import E4, PPM, decimals
from shipcalc.ratebook.workbook.columns import Column, Kind
from shipcalc.ratebook.workbook.misread import Doubt, Misread
from shipcalc.ratebook.workbook.shown import shown, write_like
from shipcalc.sheets.numbers import NotANumber, TwoReadings, corrected, exact, number_from_text, plain, plain_text
from shipcalc.sheets.reading import CellValue

# What a cell may hold at most. Larger figures are slips (millimetres for inches, cents for dollars), and the pricing's
# products stay inside 64 bits below these limits (see shipcalc.money).
LARGEST_MAJOR = 100_000_000
LARGEST_RATE = 100
LARGEST_INCHES = 1_200
LARGEST_POUNDS = 200_000
LARGEST_MILES = 100_000
LARGEST_WHOLE = 100_000
LARGEST_FACTOR = 100_000
FARTHEST = Decimal(10) ** 15
UNLIKELY_SHARE = Decimal("0.5")

# Decimals that a column keeps; decides how a lone comma or point before three digits is read (see numbers).
RATE_DECIMALS = 4
PERCENT_DECIMALS = 4
LENGTH_DECIMALS = 3
MASS_DECIMALS = 1
FACTOR_DECIMALS = 6

_SIGNS = {
    "USD": ("us$", "$"),
    "EUR": ("€",),
    "GBP": ("£",),
    "CAD": ("c$", "ca$", "$"),
    "AUD": ("a$", "$"),
    "JPY": ("¥",),
}
_MM_PER = {"in": None, "ft": Decimal("304.8"), "m": Decimal(1000), "cm": Decimal(10), "mm": Decimal(1)}
_LENGTH_UNITS = {
    **dict.fromkeys(("in", "inch", "inches", '"', "″", "in."), "in"),
    **dict.fromkeys(("ft", "feet", "foot", "'", "ft."), "ft"),
    **{unit: unit for unit in ("m", "cm", "mm")},
}
_MASS_UNITS = {**dict.fromkeys(("lb", "lbs", "pound", "pounds", "lb.", "lbs."), "lb"), "kg": "kg"}
_PLAIN_UNITS = {
    Kind.MILES: ("mi", "mile", "miles", "mi."),
    Kind.WHOLE: ("day", "days"),
    Kind.FACTOR: ("mi", "mile", "miles", "mpg", "x", "×"),
}
_NUMBER_AND_UNIT = re.compile(r"(?P<number>.*[0-9)])\s*(?P<unit>[^0-9()]*)", re.DOTALL)
_PER = re.compile(r"\s*(?:/|per |a )\s*(?:mi|mile|gal|gallon)\.?$", re.IGNORECASE)


def money(cell: CellValue, column: Column, currency: str) -> object:
    """Return minor units of the book's currency."""
    places = decimals(currency)
    amount = _decimal(_without_currency(cell, column, currency), cell, column, currency, places)
    _hold(amount, LARGEST_MAJOR, cell, column, currency)
    return _kept(amount, places, amount.scaleb(places), cell)


def rate(cell: CellValue, column: Column, currency: str) -> object:
    """Return ten-thousandths of the book's currency."""
    bare = _without_currency(cell, column, currency)
    amount = _decimal(bare, cell, column, currency, RATE_DECIMALS)
    _hold(amount, column.largest or LARGEST_RATE, cell, column, currency)
    return _kept(amount, RATE_DECIMALS, amount * E4, cell)


def percent(cell: CellValue, column: Column, currency: str) -> object:
    """Return millionths. `18 %` and 0.18 are eighteen per cent; a bare 18 would be 1,800 % and is refused.

    Where the column may be over the whole, 1.1 is 110 %, as Excel keeps what is typed as 110 %.
    """
    if isinstance(cell, str) and plain_text(cell).endswith("%"):
        bare = plain_text(cell)[:-1].strip()
        hundredths = _decimal(bare, cell, column, currency, PERCENT_DECIMALS)
        _hold(hundredths, 1000, cell, column, currency)
        return _kept(hundredths, PERCENT_DECIMALS, hundredths.scaleb(4), cell)
    share = _decimal(cell, cell, column, currency, PERCENT_DECIMALS + 2)
    number = plain(share)
    typed = f"{plain(share.scaleb(2))} %" if abs(share) < 10_000 else "far too many %"
    largest = 2 if column.over_whole else 1
    if abs(share) > largest:
        raise Misread(f"{shown(cell)} would be {typed}", f"write {number} % or {plain(share.scaleb(-2))}")
    _hold(share, largest, cell, column, currency)
    kept = _kept(share, PERCENT_DECIMALS + 2, share * PPM, cell)
    if abs(share) > UNLIKELY_SHARE and not column.over_whole and not isinstance(kept, Doubt):
        return Doubt(kept, f"{shown(cell)} is read as {typed}", f"if you mean {number} %, write it with the % sign")
    return kept


def length(cell: CellValue, column: Column, currency: str) -> object:
    """Return whole millimetres from inches, or from feet, metres, cm or mm where the cell names them."""
    bare, unit = _unit(cell, _LENGTH_UNITS, column, currency)
    number = _decimal(bare, cell, column, currency, LENGTH_DECIMALS)
    per = _MM_PER[unit or "in"]
    inches = number if per is None else number * per / Decimal("25.4")
    if inches > LARGEST_INCHES:
        raise Misread(
            f"{plain(inches.quantize(Decimal(1)))} inches are longer than a truck",
            "write inches, or name the unit, e.g. 4980 mm",
        )
    _hold(inches, LARGEST_INCHES, cell, column, currency)
    return inches_to_mm(float(number)) if per is None else round(number * per)


def mass(cell: CellValue, column: Column, currency: str) -> object:
    """Return whole grams from pounds, or from kilograms where the cell names them."""
    bare, unit = _unit(cell, _MASS_UNITS, column, currency)
    number = _decimal(bare, cell, column, currency, MASS_DECIMALS)
    _hold(number, LARGEST_POUNDS, cell, column, currency)
    return round(number * 1000) if unit == "kg" else pounds_to_grams(float(number))


def miles(cell: CellValue, column: Column, currency: str) -> object:
    """Return whole miles."""
    return _whole_number(cell, column, currency, LARGEST_MILES)


def whole(cell: CellValue, column: Column, currency: str) -> object:
    """Return a whole number."""
    return _whole_number(cell, column, currency, LARGEST_WHOLE)


def factor(cell: CellValue, column: Column, currency: str) -> object:
    """Return a float: a factor, or a measure that need not be whole."""
    bare, _ = _unit(cell, dict.fromkeys(_PLAIN_UNITS[Kind.FACTOR], ""), column, currency)
    number = _decimal(bare, cell, column, currency, FACTOR_DECIMALS)
    _hold(number, LARGEST_FACTOR, cell, column, currency)
    return float(number)


def _whole_number(cell: CellValue, column: Column, currency: str, largest: int) -> int:
    bare, _ = _unit(cell, dict.fromkeys(_PLAIN_UNITS[column.kind], ""), column, currency)
    number = _decimal(bare, cell, column, currency, 0)
    _hold(number, largest, cell, column, currency)
    if number != int(number):
        raise Misread(f"{shown(cell)} is not a whole number", write_like(column, currency, str(round(number))))
    return int(number)


def _decimal(bare: CellValue, cell: CellValue, column: Column, currency: str, places: int) -> Decimal:
    """Return the exact number in a cell; `bare` is the cell without its signs and units."""
    if isinstance(bare, (int, float)) and not isinstance(bare, bool):
        number = Decimal(bare) if isinstance(bare, int) else exact(bare)
        if not number.is_finite():
            _refuse(cell, column, currency)
        return _within_reason(number, cell, column, currency)
    if not isinstance(bare, str):
        _refuse(cell, column, currency)
    try:
        return _within_reason(number_from_text(bare, decimals=places), cell, column, currency)
    except TwoReadings as two:
        thousands, point = (plain(Decimal(reading)) for reading in two.readings)
        remedy = f"write {thousands} or {point}, without a mark for thousands"
        raise Misread(f"{shown(cell)} can be read as {thousands} or as {point}", remedy) from None
    except NotANumber:
        meant = corrected(bare, decimals=places)
        _refuse(cell, column, currency, str(meant) if meant is not None else "")


def _within_reason(number: Decimal, cell: CellValue, column: Column, currency: str) -> Decimal:
    """Return a number that the arithmetic below holds exactly; each kind has its own, lower limit."""
    if abs(number) > FARTHEST:
        raise Misread(f"{shown(cell)} is too large", write_like(column, currency))
    return number


def _refuse(cell: CellValue, column: Column, currency: str, example: str = "") -> NoReturn:
    raise Misread(f"{shown(cell)} is not a number", write_like(column, currency, example))


def _hold(number: Decimal, largest: int, cell: CellValue, column: Column, currency: str) -> None:
    """Refuse what is negative where nothing may be, and what is too large to be meant."""
    if number < 0 and not column.signed:
        raise Misread(f"{shown(cell)} is negative", write_like(column, currency, bound="zero or more"))
    if abs(number) > largest:
        raise Misread(f"{shown(cell)} is too large", write_like(column, currency, bound=f"at most {largest:,}"))


def _kept(number: Decimal, places: int, scaled: Decimal, cell: CellValue) -> object:
    """Return `scaled` as a whole number, half up, with a doubt where decimals are lost."""
    kept = scaled.quantize(Decimal(1), ROUND_HALF_UP)
    if kept == scaled:
        return int(kept)
    used = plain(number.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP))
    lost = "no decimals" if places == 0 else f"at most {places} decimals"
    return Doubt(int(kept), f"{shown(cell)} has more decimals than count; {used} is used", f"write {lost}")


def _without_currency(cell: CellValue, column: Column, currency: str) -> CellValue:
    """Return a typed amount without its `$` or `USD` and its `per mile`; a number cell as it is."""
    if not isinstance(cell, str):
        return cell
    bare = plain_text(cell)
    if column.kind is Kind.RATE:
        bare = _PER.sub("", bare)
    for sign in (currency.lower(), *_SIGNS.get(currency, ())):
        start = re.match(rf"(?P<minus>[-(]?)\s*{re.escape(sign)}\s*(?P<rest>.*)", bare, re.IGNORECASE)
        if start:
            return start["minus"] + start["rest"]
        if bare.lower().endswith(sign):
            return bare[: -len(sign)].strip()
    return bare


def _unit(cell: CellValue, units: dict[str, str], column: Column, currency: str) -> tuple[CellValue, str]:
    """Return a typed measure without its unit, and the unit: `196 in` → `196`, `in`."""
    if not isinstance(cell, str):
        return cell, ""
    found = _NUMBER_AND_UNIT.fullmatch(plain_text(cell))
    if found is None or not found["unit"]:
        return cell, ""
    unit = found["unit"].strip().casefold()
    if unit in units:
        return found["number"], units[unit]
    if corrected(plain_text(cell), decimals=0) is not None:
        return cell, ""
    if not re.fullmatch(r"[-+]?[0-9][0-9., ']*", found["number"]):
        _refuse(cell, column, currency)
    raise Misread(f"{shown(cell)} has a unit that is not understood here", write_like(column, currency))


PARSERS: dict[Kind, Callable[[CellValue, Column, str], object]] = {
    Kind.MONEY: money,
    Kind.RATE: rate,
    Kind.PERCENT: percent,
    Kind.LENGTH: length,
    Kind.MASS: mass,
    Kind.MILES: miles,
    Kind.WHOLE: whole,
    Kind.FACTOR: factor,
}
