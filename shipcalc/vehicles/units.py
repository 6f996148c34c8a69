"""Lengths, weights and engine sizes as people write them.

    196 in   196"   16'4"   16 ft 4 1/2 in   4.98 m   4,98 m   498 cm   4980 mm     → whole millimetres
    3,450 lb   1565 kg   1.565 t                                                    → whole grams
    2.2 l   2199 cc   134 cu in                                                     → whole cubic centimetres

A value may also be a number from a workbook cell; then, as for a text without a unit, the unit is the one named beside it
(the column header's). No unit anywhere is a fault: nothing is guessed. Each function raises WrongInput, ending in the remedy.
"""

import re
from collections.abc import Mapping
from decimal import Decimal
from math import isfinite

from shipcalc.errors import WrongInput
from shipcalc.measures import GRAMS_PER_POUND, MM_PER_FOOT, MM_PER_INCH
from shipcalc.records import dataclass
from shipcalc.sheets.numbers import NotANumber, TwoReadings, corrected, exact, number_from_text, plain, plain_text


class MissingUnit(WrongInput):
    """A bare number where no header names the unit: the remedy belongs in the header, not in the cell."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: how many of the program's own units it has, and to how many decimals it is usually written."""

    factor: float
    decimals: int


@dataclass(frozen=True, slots=True)
class Measure:
    """One kind of measure: its units by the words for them, and the words of a remedy."""

    what: str
    units: Mapping[str, Unit]
    known: str
    example: str


def _by_word(*rows: tuple[str, float, int]) -> dict[str, Unit]:
    """Return units by word; the words of a row are divided by |."""
    return {word: Unit(factor, decimals) for words, factor, decimals in rows for word in words.split("|")}


LENGTH = Measure(
    "length",
    _by_word(
        ("in|ins|inch|inches|\"|''", MM_PER_INCH, 3),
        ("ft|foot|feet|'", MM_PER_FOOT, 3),
        ("mm|millimeter|millimeters|millimetre|millimetres", 1, 0),
        ("cm|centimeter|centimeters|centimetre|centimetres", 10, 1),
        ("m|meter|meters|metre|metres", 1000, 3),
    ),
    known="in, ft, mm, cm or m",
    example="196 in",
)
MASS = Measure(
    "weight",
    _by_word(
        ("lb|lbs|pound|pounds", GRAMS_PER_POUND, 2),
        ("kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes", 1000, 2),
        ("t|tonne|tonnes|metric ton|metric tons", 1_000_000, 3),
    ),
    known="lb, kg or t (1,000 kg)",
    example="3,450 lb",
)
ENGINE = Measure(
    "engine size",
    _by_word(
        ("cc|ccm|cm3|cm³", 1, 0),
        ("l|liter|liters|litre|litres", 1000, 3),
        ("cu in|cuin|ci|cid|in3|in³|cubic in|cubic inch|cubic inches", (MM_PER_INCH / 10) ** 3, 1),
    ),
    known="cc, l or cu in",
    example="2199 cc",
)

NUMBER = r"[-+]? ?(?:[0-9][0-9 .,']*[0-9]|[.,]?[0-9]+)"
_EASY = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,2})?")  # nothing to decide
_SPLIT = re.compile(rf"(?P<number>\({NUMBER}\)|{NUMBER}) ?(?P<unit>.*)")
_FEET_INCHES = re.compile(
    r"(?P<feet>\d+) ?(?:'|ft|foot|feet)\.? ?(?:(?P<inches>\d[\d.,]*) ?(?:in|ins|inch|inches|\"|'')?\.?)?"
)
_FRACTION = re.compile(r"(?:(?P<whole>\d+)[ -])?(?P<over>\d{1,3})/(?P<under>[1-9]\d?)(?!\d)")
_MARKS = str.maketrans(
    {"′": "'", "″": '"', "”": '"', "“": '"'}
    | {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
)
_LONGEST_QUOTED = 40
_BEYOND_REASON = 1e12


def length_mm(value: str | float, unit: str = "") -> int:
    """Return whole millimetres; a value without a unit of its own is in `unit`."""
    if not isinstance(value, str) or _EASY.fullmatch(value):
        return _measured(value, unit, LENGTH)
    text = _FRACTION.sub(_decimal, _folded(value))
    feet = _FEET_INCHES.fullmatch(text)
    if feet is None:
        return _measured(text, unit, LENGTH, told=value)
    inches = number_in(feet["inches"] or "0", decimals=3, remedy=_remedy(LENGTH))
    if inches >= 12:
        raise WrongInput(
            f"{quoted(value)} has 12 or more inches beside its feet", remedy="write it as inches, e.g. 196 in"
        )
    return round(int(feet["feet"]) * MM_PER_FOOT + float(inches) * MM_PER_INCH)


def mass_grams(value: str | float, unit: str = "") -> int:
    """Return whole grams; a value without a unit of its own is in `unit`."""
    return _measured(value, unit, MASS)


def engine_cc(value: str | float, unit: str = "") -> int:
    """Return whole cubic centimetres; a value without a unit of its own is in `unit`."""
    return _measured(value, unit, ENGINE)


def find_unit(word: str, measure: Measure) -> str | None:
    """Return the unit as the measure knows it, or None: `Lbs.` → lbs."""
    folded = _folded(word).replace(".", " ")
    known = " ".join(folded.split())
    return known if known in measure.units else None


def number_in(value: str | float, *, decimals: int, remedy: str) -> Decimal:
    """Return the number that a cell or a text holds. Raises WrongInput, with `remedy` where it holds none."""
    try:
        return number_from_text(value, decimals=decimals) if isinstance(value, str) else exact(float(value))
    except TwoReadings as error:
        thousands, decimal = (plain(Decimal(reading)) for reading in error.readings)
        unlike = f"{decimal}0" if len(decimal.partition(".")[2]) == 3 else decimal  # three decimals look like thousands
        raise WrongInput(
            f"{quoted(value)} can be read as {thousands} or as {decimal}", remedy=f"write {thousands} or {unlike}"
        ) from None
    except NotANumber:
        meant = corrected(str(value), decimals=decimals)
        hint = f"perhaps it is {plain(meant)}" if meant is not None else remedy
        raise WrongInput(f"{quoted(value)} is not a number", remedy=hint) from None


def quoted(value: object) -> str:
    """Return what stood in a cell or was typed, between quotes, cut where it is long."""
    text = plain(exact(value)) if isinstance(value, float) and isfinite(value) else str(value).strip()
    return f'"{text}"' if len(text) <= _LONGEST_QUOTED else f'"{text[:_LONGEST_QUOTED]}…"'


def _measured(value: str | float, unit: str, measure: Measure, *, told: str = "") -> int:
    if isinstance(value, str) and _EASY.fullmatch(value):
        value = float(value)
    told = told or str(value)
    if not isinstance(value, str):
        if not abs(value) < _BEYOND_REASON:
            raise WrongInput(f"{quoted(value)} is not a {measure.what}", remedy=_remedy(measure))
        return round(value * _unit(unit, value, measure).factor)
    found = _SPLIT.fullmatch(plain_text(value))
    if found is None:
        raise WrongInput(f"{quoted(told)} is not a {measure.what}", remedy=_remedy(measure))
    number, word = found["number"], found["unit"]
    if word and find_unit(word, measure) is None:
        # A letter for a digit (24oo lb) is told as such, not as a strange unit.
        bare, _, last = value.rpartition(" ") if find_unit(value.rpartition(" ")[2], measure) else (value, "", "")
        if corrected(bare, decimals=0) is None:
            raise WrongInput(
                f'{quoted(told)} has the unit "{word}", which is no unit of {measure.what} here',
                remedy=f"write {measure.known}, e.g. {measure.example}",
            )
        number, word = bare, last
    one = _unit(find_unit(word, measure) or unit, told, measure)
    return round(float(number_in(number, decimals=one.decimals, remedy=_remedy(measure))) * one.factor)


def _unit(unit: str, value: object, measure: Measure) -> Unit:
    if not unit:
        raise MissingUnit(f"{quoted(value)} has no unit", remedy=f"write {measure.known}, e.g. {measure.example}")
    return measure.units[unit]


def _remedy(measure: Measure) -> str:
    return f"write digits and a unit, e.g. {measure.example}"


def _folded(text: str) -> str:
    return plain_text(text.translate(_MARKS)).casefold()


def _decimal(fraction: re.Match[str]) -> str:
    """Return `4 1/2` as `4.5000`: four decimals, which no reader takes for thousands."""
    value = int(fraction["whole"] or 0) + Decimal(int(fraction["over"])) / int(fraction["under"])
    return f"{value:.4f}"
