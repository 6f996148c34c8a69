"""The columns of a stock list, and how a sheet's header row is understood.

Headers come in any order, with any case and punctuation, under any of their usual words; a unit stands in the header
(`Length (in)`, `Weight lbs`) or in each cell.
"""

import re
import unicodedata
from collections.abc import Mapping
from enum import Enum
from itertools import islice

from shipcalc.errors import Problem, WrongInput
from shipcalc.records import dataclass
from shipcalc.sheets.reading import CellValue, Sheet, is_blank
from shipcalc.vehicles.prices import find_currency
from shipcalc.vehicles.units import ENGINE, LENGTH, MASS, Measure, find_unit


class Kind(Enum):
    """What a column of the stock list holds."""

    TEXT = "text"
    WORD = "words"  # text that is never a number
    STOCK_NUMBER = "stock number"
    YEAR = "year"
    LENGTH = "length"
    MASS = "mass"
    ENGINE = "engine size"
    MONEY = "money"
    YES_NO = "yes or no"
    NO_YES = "no or yes"  # the header asks the opposite of the field (Inoperable)
    TITLE = "title"
    FUEL = "fuel"
    COUNTRY = "country"


@dataclass(frozen=True, slots=True)
class StockColumn:
    """One column: the vehicle's field, the header the program would write, and other headers it goes by."""

    field: str
    header: str
    kind: Kind
    also: str = ""  # divided by |, as _plain makes them


@dataclass(frozen=True, slots=True)
class Found:
    """A column found in a sheet: which, in which column (counted from 0), and the unit its header names, if any."""

    column: StockColumn
    index: int
    unit: str


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the header row is (counted from 0), what its columns hold, and what is to be said about it."""

    header_row: int
    found: tuple[Found, ...]
    problems: tuple[Problem, ...]


LEAST_HEADERS = 3
_ROWS_SEARCHED = 40
_MEASURES: Mapping[Kind, Measure] = {Kind.LENGTH: LENGTH, Kind.MASS: MASS, Kind.ENGINE: ENGINE}
_IN_BRACKETS = re.compile(r"[(\[]([^)\]]*)[)\]]")
_NEAR_ENOUGH = 82


def find_layout(sheet: Sheet, currency: str) -> Layout | None:
    """Return the layout of a sheet that holds a stock list, or None: the first row with a stock number and more headers."""
    for number, row in islice(sheet.filled_rows(), _ROWS_SEARCHED):
        every = _known(row, currency)
        by_field = {found.column.field: found for found in reversed(every)}
        if "stock_number" in by_field and len(by_field) >= LEAST_HEADERS:
            once = tuple(reversed(by_field.values()))
            return Layout(number, once, _remarks(sheet, number, every, once, currency))
    return None


def headers_seen(sheet: Sheet, currency: str) -> tuple[str, ...]:
    """Return the known headers of the row that has the most, as they stand there: for the sentence that no list was found."""
    rows = [row for _, row in islice(sheet.filled_rows(), _ROWS_SEARCHED)]
    best = max(rows, key=lambda row: len(_known(row, currency)), default=())
    return tuple(str(best[entry.index]).strip() for entry in _known(best, currency))


def _known(row: tuple[CellValue, ...], currency: str) -> tuple[Found, ...]:
    named = ((index, _understood(value, currency)) for index, value in enumerate(row) if isinstance(value, str))
    return tuple(Found(found[0], index, found[1]) for index, found in named if found is not None)


def _understood(header: str, currency: str) -> tuple[StockColumn, str] | None:
    """Return the column and the unit of a header: `Length (in)`, `Weight lbs.` and `length in mm` all are understood."""
    brackets = _IN_BRACKETS.search(header)
    outside = _plain(_IN_BRACKETS.sub(" ", header))
    if brackets is not None and outside in _BY_HEADER:
        column = _BY_HEADER[outside]
        return column, _unit(brackets[1], column.kind, currency) or ""
    whole = _plain(header)
    if whole in _BY_HEADER:
        column = _BY_HEADER[whole]
        return column, _unit(whole, column.kind, currency) or _unit(
            header.rsplit(maxsplit=1)[-1], column.kind, currency
        ) or ""
    name, _, last = whole.rpartition(" ")
    for name_alone in (name, name.removesuffix(" in")):
        unit = _unit(last, _BY_HEADER[name_alone].kind, currency) if name_alone in _BY_HEADER else None
        if unit:
            return _BY_HEADER[name_alone], unit
    return None


def _unit(word: str, kind: Kind, currency: str) -> str | None:
    if kind in _MEASURES:
        return find_unit(word, _MEASURES[kind])
    return find_currency(word, currency) if kind is Kind.MONEY else None


def _plain(header: str) -> str:
    """Return a header's words alone: `Stock-No.` → stock no, `VIN / Serial #` → vin serial."""
    apart = header if header.isascii() else unicodedata.normalize("NFKD", header)
    return " ".join(re.findall(r"[a-z0-9]+", apart.casefold()))


def _remarks(
    sheet: Sheet, at: int, every: tuple[Found, ...], once: tuple[Found, ...], currency: str
) -> tuple[Problem, ...]:
    """Return what is to be said about the headers: a second column for one thing, and a header that is perhaps misspelt.

    Raises WrongInput where the values are kept in another currency.
    """
    problems = []
    for entry in every:
        where = sheet.cell(at, entry.index)
        if entry.column.kind is Kind.MONEY and entry.unit not in ("", currency):
            remedy = f"convert the column, or set the currency to {entry.unit}"
            raise WrongInput(f"the values are in {entry.unit}, and {currency} is expected", where=where, remedy=remedy)
        if entry not in once:
            first = next(other for other in once if other.column.field == entry.column.field)
            message = (
                f'"{_told(sheet, at, entry.index)}" says the same as "{_told(sheet, at, first.index)}" and is not read'
            )
            problems.append(Problem(where, message, "keep one of the two columns", "warning"))
    read = {entry.index for entry in every}
    for index, value in enumerate(sheet.rows[at]):
        if index not in read and isinstance(value, str) and not is_blank(value):
            near = _nearest(value, {entry.column.field for entry in once})
            if near is not None:
                message = f'"{value.strip()}" is not a header the program knows, and its column is not read'
                problems.append(Problem(sheet.cell(at, index), message, f"perhaps it is {near.header}", "warning"))
    return tuple(problems)


def _nearest(header: str, taken: set[str]) -> StockColumn | None:
    """Return the column that a misspelt header means, if one comes near that the sheet does not have already."""
    from rapidfuzz import fuzz, process

    free = {name: column for name, column in _BY_HEADER.items() if column.field not in taken and len(name) >= 4}
    found = process.extractOne(_plain(header), free.keys(), scorer=fuzz.ratio, score_cutoff=_NEAR_ENOUGH)
    if found is None:
        outside = _plain(_IN_BRACKETS.sub(" ", header))
        found = process.extractOne(outside, free.keys(), scorer=fuzz.ratio, score_cutoff=_NEAR_ENOUGH)
    return free[found[0]] if found is not None else None


def _told(sheet: Sheet, row: int, column: int) -> str:
    return str(sheet.rows[row][column]).strip()


COLUMNS = (
    StockColumn(
        "stock_number",
        "Stock number",
        Kind.STOCK_NUMBER,
        "stock|stock no|stock nr|stock num|stock id|stock code|stk|stk no|stockno|inventory number|inventory no",
    ),
    StockColumn("year", "Year", Kind.YEAR, "model year|yr|my|year built|year of manufacture|built year"),
    StockColumn("make", "Make", Kind.WORD, "marque|manufacturer|brand|maker"),
    StockColumn("model", "Model", Kind.TEXT, "model name|model and version|version"),
    StockColumn("body", "Body", Kind.WORD, "body style|body type|bodywork|style|type|vehicle type|kind"),
    StockColumn(
        "serial",
        "VIN or serial",
        Kind.TEXT,
        "vin|vin serial|vin chassis|vin no|vin number|serial|serial no|serial number|chassis|chassis no|chassis number"
        "|frame no|frame number|vin serial no|vin serial number|vin chassis no|vin chassis number",
    ),
    StockColumn("length_mm", "Length (in)", Kind.LENGTH, "length|overall length|length overall|len"),
    StockColumn("width_mm", "Width (in)", Kind.LENGTH, "width|overall width|width overall"),
    StockColumn("height_mm", "Height (in)", Kind.LENGTH, "height|overall height|height overall"),
    StockColumn("clearance_mm", "Clearance (in)", Kind.LENGTH, "clearance|ground clearance"),
    StockColumn(
        "mass_grams",
        "Weight (lb)",
        Kind.MASS,
        "weight|mass|curb weight|kerb weight|wt|shipping weight|weight empty|empty weight",
    ),
    StockColumn(
        "runs", "Runs", Kind.YES_NO, "running|runner|drives|runs and drives|runs drives|does it run|operable|operates"
    ),
    StockColumn("runs", "Inoperable", Kind.NO_YES, "inop|not running|non runner|nonrunner|non running|does not run"),
    StockColumn("rolls", "Rolls", Kind.YES_NO, "rolling|does it roll"),
    StockColumn("steers", "Steers", Kind.YES_NO, "steering|steering works|does it steer"),
    StockColumn("brakes", "Brakes", Kind.YES_NO, "braking|brakes work|does it brake"),
    StockColumn("modified", "Modified", Kind.YES_NO, "altered|modifications|customised|customized"),
    StockColumn(
        "original_state", "Original state", Kind.YES_NO, "original|original condition|as built|in original state"
    ),
    StockColumn(
        "value_minor",
        "Value ($)",
        Kind.MONEY,
        "value|declared value|price|asking price|sale price|selling price|list price|ask",
    ),
    StockColumn("yard", "Yard", Kind.WORD, "location|site|where|stored at|stands at"),
    StockColumn("title", "Title", Kind.TITLE, "title status|title kind|title type"),
    StockColumn(
        "engine_cc",
        "Engine (cc)",
        Kind.ENGINE,
        "engine|engine size|engine capacity|displacement|capacity|cubic capacity|cc",
    ),
    StockColumn("fuel", "Fuel", Kind.FUEL, "fuel type|fuel kind"),
    StockColumn(
        "built_in",
        "Built in",
        Kind.COUNTRY,
        "country|country of build|country built|country of origin|country of manufacture|origin|made in",
    ),
    StockColumn("photo", "Photo", Kind.WORD, "photograph|photos|picture|image|photo file|picture file"),
    StockColumn("note", "Notes", Kind.TEXT, "note|remarks|remark|comments|comment"),
)
_BY_HEADER = {
    name: column
    for column in COLUMNS
    for name in (_plain(_IN_BRACKETS.sub("", column.header)), *filter(None, column.also.split("|")))
}
