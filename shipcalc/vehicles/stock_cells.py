"""One cell of a stock list → one field of a vehicle. Every reader raises WrongInput, ending in the remedy."""

from collections.abc import Callable, Mapping
from datetime import date, time, timedelta
from functools import cache

from shipcalc.errors import WrongInput
from shipcalc.sheets.numbers import exact, plain
from shipcalc.sheets.reading import CellValue
from shipcalc.vehicles.limits import LIMITS, within_limits
from shipcalc.vehicles.prices import money_minor
from shipcalc.vehicles.stock_columns import Found, Kind
from shipcalc.vehicles.units import engine_cc, length_mm, mass_grams, quoted
from shipcalc.vehicles.vehicle import TitleKind

Read = Callable[[CellValue], object]

_YES = ("yes", "y", "true", "t", "1", "x", "✓", "✔", "ok", "okay", "works", "working")
_NO = ("no", "n", "false", "f", "0", "-", "–", "—", "none", "not")
_YES_NO = dict.fromkeys(_YES, True) | dict.fromkeys(_NO, False)
_TITLES: Mapping[TitleKind, str] = {
    "clean": "clean|clear|free|ok|in hand|clean title|clear title|free and clear|yes|y",
    "lien": "lien|with lien|lienholder|bank|loan|financed|finance|open lien|lien on title",
    "salvage": "salvage|salvage title|rebuilt|rebuilt salvage|reconstructed|junk|branded|total loss|flood",
    "foreign": "foreign|foreign title|imported|import|overseas|foreign registration",
    "bill of sale only": "bill of sale only|bill of sale|bos|bos only|no title bill of sale",
    "missing": "missing|none|no title|lost|no|n|applied for|pending|duplicate applied for",
}
_TITLE_BY_WORD: dict[str, TitleKind] = {word: kind for kind, words in _TITLES.items() for word in words.split("|")}
_FUELS = {
    "gasoline": "gasoline|gas|petrol|benzine|benzin|super|unleaded|leaded|premium",
    "diesel": "diesel|derv",
    "electric": "electric|electricity|battery|ev|bev",
    "hybrid": "hybrid|gasoline hybrid|petrol hybrid|plug-in hybrid",
    "diesel hybrid": "diesel hybrid",
    "gas": "lpg|cng|natural gas|propane|autogas",
    "steam": "steam",
    "none": "none",
}
_FUEL_BY_WORD = {word: fuel for fuel, words in _FUELS.items() for word in words.split("|")}
# ISO 3166-1 says GB and US; countries that are no more count as those whose goods theirs became.
_COUNTRIES = {"UK": "GB", "USA": "US", "U.S.": "US", "U.S.A.": "US", "U.K.": "GB", "UNITED STATES OF AMERICA": "US"} | {
    "AMERICA": "US", "ENGLAND": "GB", "SCOTLAND": "GB", "GREAT BRITAIN": "GB", "BRITAIN": "GB", "WEST GERMANY": "DE",
    "EAST GERMANY": "DE", "HOLLAND": "NL",
}  # fmt: skip
_MOST_EXACT_DIGITS = 10**15  # a workbook keeps 15 digits of a number (IEEE 754 double precision)


def reader(found: Found, currency: str) -> Read:
    """Return the function that reads the cells of a column. It is given cells that are not blank."""
    kind = found.column.kind
    if kind in _MEASURED:
        return _size_reader(found.column.field, _MEASURED[kind], found.unit)
    if kind is Kind.MONEY:
        return lambda value: money_minor(_measurable(value), currency)
    return _READERS[kind]


def _size_reader(field: str, measured: Callable[[str | float, str], int], unit: str) -> Read:
    limit = LIMITS[field]

    def size(value: CellValue) -> int:
        whole = measured(_measurable(value), unit)
        return whole if limit.least <= whole <= limit.most else within_limits(field, whole, _told(value, unit))

    return size


def year_number(value: CellValue) -> int:
    """Return a model year of four digits."""
    remedy = "write the model year with four digits, e.g. 1961"
    if isinstance(value, date):
        raise WrongInput(
            f"{_of_date(value)} is a date, not a year", remedy=f"format the cell as a number, and {remedy}"
        )
    text = _bare(value)
    if not (text.isascii() and text.isdigit()):
        raise WrongInput(f"{quoted(text)} is not a year", remedy=remedy)
    if len(text) != 4:
        raise WrongInput(f"{quoted(text)} is not a year of four digits", remedy=remedy)
    return within_limits("year", int(text), text)


def yes_or_no(value: CellValue) -> bool:
    """Return what a yes or a no says, in any of the usual ways."""
    word = _bare(value).rstrip(".!").casefold()
    if word in _YES_NO:
        return _YES_NO[word]
    raise WrongInput(f"{quoted(value)} is neither yes nor no", remedy="write yes or no, and anything else under Notes")


def title_kind(value: CellValue) -> TitleKind:
    """Return the kind of title that the usual words name."""
    word = " ".join(_bare(value).casefold().replace(",", " ").split())
    if word in _TITLE_BY_WORD:
        return _TITLE_BY_WORD[word]
    remedy = f"write one of: {', '.join(_TITLES)}"
    raise WrongInput(f"{quoted(value)} is not a kind of title the program knows", remedy=remedy)


def fuel_name(value: CellValue) -> str:
    """Return the fuel: gasoline, diesel, electric, hybrid, diesel hybrid, gas (liquefied or natural), steam or none."""
    word = _bare(value).casefold()
    if word in _FUEL_BY_WORD:
        return _FUEL_BY_WORD[word]
    raise WrongInput(f"{quoted(value)} is not a fuel the program knows", remedy=f"write one of: {', '.join(_FUELS)}")


def text_of(value: CellValue) -> str:
    """Return a cell's text; a number is written out."""
    if isinstance(value, str):
        return value.strip()
    if isinstance(value, float) and abs(value) >= _MOST_EXACT_DIGITS:
        remedy = "format the column as text and type it again"
        raise WrongInput(f"{quoted(value)} was kept as a number and has lost its last digits", remedy=remedy)
    if isinstance(value, (date, time, timedelta)):
        shown = _of_date(value) if isinstance(value, date) else str(value)
        raise WrongInput(f"{shown} was kept as a date or time", remedy="format the column as text and type it again")
    return _bare(value)


def word_of(value: CellValue) -> str:
    """Return a cell's text, which is no number: a year in the column of makes is seen here."""
    text = text_of(value)
    if not (text.isascii() and text.replace(".", "", 1).isdigit()):
        return text
    looks = len(text) == 4 and text.isdigit() and LIMITS["year"].least <= int(text) <= LIMITS["year"].most
    remedy = (
        "it looks like a year: are two columns swapped?" if looks else "write it in words: are two columns swapped?"
    )
    raise WrongInput(f"{quoted(text)} is a number where words are expected", remedy=remedy)


def country_name(value: CellValue) -> str:
    """Return a country by its two letters (ISO 3166-1; UK → GB, Italy → IT); as it is written where nobody knows it."""
    text = word_of(value)
    upper = text.upper().removeprefix("THE ")
    return _COUNTRIES.get(upper) or (upper if len(text) == 2 else _by_name().get(upper, text))


@cache
def _by_name() -> dict[str, str]:
    from shipcalc.places.gazetteer.pages import countries

    return {country.name.upper().removeprefix("THE "): code for code, country in countries().items()}


def _measurable(value: CellValue) -> str | float:
    """Return what can be a measure or a sum. A date or a tick cannot."""
    if isinstance(value, bool):
        raise WrongInput(
            f"{quoted('yes' if value else 'no')} is not a number", remedy="write digits: are two columns swapped?"
        )
    if isinstance(value, (str, int, float)):
        return value
    shown = _of_date(value) if isinstance(value, date) else str(value)
    raise WrongInput(f"{shown} is a date or time, not a number", remedy="format the cell as a number and type it again")


def _told(value: CellValue, unit: str) -> str:
    text = _bare(value)
    return f"{text} {unit}" if unit and text[-1:].isdigit() else text


def _bare(value: CellValue) -> str:
    """Return a cell as text: a whole number without its `.0`, a text without outer blanks."""
    if isinstance(value, str):
        return value.strip()
    if isinstance(value, float):
        return plain(exact(value))
    return str(value)


def _of_date(value: date) -> str:
    return f'"{value:%Y-%m-%d}"'


_MEASURED = {Kind.LENGTH: length_mm, Kind.MASS: mass_grams, Kind.ENGINE: engine_cc}
_READERS: Mapping[Kind, Read] = {
    Kind.TEXT: text_of,
    Kind.WORD: word_of,
    Kind.STOCK_NUMBER: text_of,
    Kind.YEAR: year_number,
    Kind.YES_NO: yes_or_no,
    Kind.NO_YES: lambda value: not yes_or_no(value),
    Kind.TITLE: title_kind,
    Kind.FUEL: fuel_name,
    Kind.COUNTRY: country_name,
}
