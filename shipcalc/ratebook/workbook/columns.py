"""How a sheet of the rate book is described: one dataclass a row, one `column` a field.

The description is the only source of headers, units, drop-downs, notes and examples: the reader, the starter workbooks and
the reference in the documentation are all made from it.
"""

from collections.abc import Mapping
from enum import Enum
from types import MappingProxyType
from typing import Any

from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import MISSING, dataclass, field, fields


class Kind(Enum):
    """What a cell of a column holds, and in which unit it reaches the program."""

    TEXT = "text"
    CODE = "code"  # text that other sheets refer to; compared without regard to case
    CHOICE = "choice"
    YES_NO = "yes or no"
    WHOLE = "whole number"
    MILES = "miles"  # int
    LENGTH = "length"  # written in inches, kept in mm
    MASS = "mass"  # written in pounds, kept in grams
    MONEY = "money"  # minor units of the book's currency
    RATE = "rate"  # ten-thousandths of the book's currency
    PERCENT = "percent"  # an Excel percentage (0.18 shown as 18 %), kept in millionths
    FACTOR = "factor"  # float
    DATE = "date"
    LIST = "list"  # names divided by ; kept as a tuple
    ZIP = "ZIP"  # a ZIP or the beginning of one, kept as text with its leading zeros
    STATE = "state"  # two letters in the United States and Canada, elsewhere as the gazetteer names it
    COUNTRY = "country"  # ISO 3166-1 alpha-2
    PLACE = "place"  # a country (US), a state (US-WA), a ZIP or its beginning
    END = "end of a lane"  # as `lane_ends.py` reads it: ZIPs, a city, a state, an area, a yard, a port, a country


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its header (with the unit), what it holds, and the note the manager sees on the header cell.

    `refers_to` names the sheet whose first column a name must stand in; `signed` says that it may be negative, `over_whole` that
    a percentage may be more than 100 % (up to twice the whole), `largest` that an amount may be larger than its kind allows.
    `condition` is what a cell of a decision table asks. `theme` is among which columns it stands in a new workbook, where that
    does not follow from the rest (`starter/order.py`).
    """

    header: str
    kind: Kind
    note: str
    example: str = ""
    required: bool = False
    choices: tuple[str, ...] = ()
    synonyms: tuple[str, ...] = ()
    refers_to: str = ""
    signed: bool = False
    over_whole: bool = False
    largest: int | None = None
    condition: Condition | None = None
    theme: Theme | None = None


@dataclass(frozen=True, slots=True)
class RowRef:
    """Where a row stands, so that every figure can name its cell. `letters` maps a field to its column's letter."""

    workbook: str
    sheet: str
    row: int
    letters: Mapping[str, str]

    def cell(self, key: str) -> str:
        """Return the address of a field's cell: `trucking.xlsx › Per mile!D14`."""
        place = f"{self.letters.get(key, 'A')}{self.row}"
        return f"{self.workbook} › {self.sheet}!{place}" if self.sheet else f"{self.workbook} › {place}"


NOWHERE = RowRef("", "", 0, {})


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A checked row of the rate book; `at` is where it stands."""

    at: RowRef = NOWHERE


def column(
    header: str,
    kind: Kind,
    note: str,
    *,
    example: str = "",
    required: bool = False,
    choices: tuple[str, ...] = (),
    synonyms: tuple[str, ...] = (),
    refers_to: str = "",
    signed: bool = False,
    over_whole: bool = False,
    largest: int | None = None,
    condition: Condition | None = None,
    theme: Theme | None = None,
    default: Any = MISSING,
) -> Any:
    """Return a dataclass field that describes one column. A column that is not required defaults to None."""
    described = Column(
        header,
        kind,
        note,
        example,
        required,
        choices,
        synonyms,
        refers_to,
        signed,
        over_whole,
        largest,
        condition,
        theme,
    )
    if default is MISSING and not required:
        default = () if kind is Kind.LIST else None
    return field(default=default, metadata={"column": described})


def columns_of(row_type: type[Row]) -> Mapping[str, Column]:
    """Return the columns of a row type by field name, in the order of the sheet."""
    if row_type not in _COLUMNS:
        found = {f.name: f.metadata["column"] for f in fields(row_type) if "column" in f.metadata}
        _COLUMNS[row_type] = MappingProxyType(found)
    return _COLUMNS[row_type]


def conditions_of(row_type: type[Row]) -> tuple[tuple[str, Condition], ...]:
    """Return what the columns of a row type ask, by field name, in the order of the sheet."""
    if row_type not in _CONDITIONS:
        asked = ((name, one.condition) for name, one in columns_of(row_type).items())
        _CONDITIONS[row_type] = tuple((name, condition) for name, condition in asked if condition is not None)
    return _CONDITIONS[row_type]


# Asked for with every row; made once, from what never changes.
_CONDITIONS: dict[type[Row], tuple[tuple[str, Condition], ...]] = {}
_COLUMNS: dict[type[Row], Mapping[str, Column]] = {}
