"""Days that a spreadsheet keeps as numbers and shows as such: 46388 under "valid until" is a day, not a price."""

from collections.abc import Mapping
from datetime import date, timedelta

from shipcalc.ratebook.taking.meanings import meaning_of
from shipcalc.sheets.reading import CellValue

Spot = tuple[int, int]
# A spreadsheet counts days from 30 December 1899 (ECMA-376 part 1, 18.17.4.1, for days after February 1900): 2010 to 2064.
FIRST, LOWEST, HIGHEST = date(1899, 12, 30), 40179, 60266
_OF_DAYS = frozenset(("valid_from", "valid_to", "validity"))
_WORDS = frozenset(("date", "datum", "fecha", "data", "issued", "quote date", "quotation date", "stand"))


def with_days(values: Mapping[Spot, CellValue]) -> dict[Spot, CellValue]:
    """Return cells in which such numbers are days, where the nearest words above or the words before them speak of days."""
    found = dict(values)
    for (row, column), value in values.items():
        if (
            not isinstance(value, (int, float))
            or isinstance(value, bool)
            or not LOWEST <= value <= HIGHEST
            or value % 1
        ):
            continue
        before = values.get((row, column - 1))
        if _of_days(before) or _of_days(_head(values, row, column)):
            found[row, column] = FIRST + timedelta(days=int(value))
    return found


def _head(values: Mapping[Spot, CellValue], row: int, column: int) -> CellValue:
    """Return the nearest text above a cell."""
    return next(
        (text for above in range(row - 1, -1, -1) if isinstance(text := values.get((above, column)), str)), None
    )


def _of_days(value: CellValue) -> bool:
    if not isinstance(value, str):
        return False
    label = value.strip().rstrip(" :.")
    return meaning_of(label).field in _OF_DAYS or label.casefold() in _WORDS
