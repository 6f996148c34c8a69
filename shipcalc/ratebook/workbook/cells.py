"""One cell read by its column's kind into the program's own unit."""

import re
from collections.abc import Callable
from datetime import date, datetime

from shipcalc.ratebook.workbook import quantities
from shipcalc.ratebook.workbook.columns import Column, Kind
from shipcalc.ratebook.workbook.dates import day
from shipcalc.ratebook.workbook.ends import end_text
from shipcalc.ratebook.workbook.misread import Doubt, Misread, nearest
from shipcalc.ratebook.workbook.region_codes import COUNTRIES, MISTAKEN_COUNTRIES, SUBDIVISIONS
from shipcalc.ratebook.workbook.shown import shown, write_like
from shipcalc.sheets.numbers import exact, plain, plain_text
from shipcalc.sheets.reading import CellValue

_YES = frozenset(("yes", "y", "true", "1"))
_NO = frozenset(("no", "n", "false", "0"))
_DIVIDERS = re.compile(r"[;,\n]")
_ZIP = re.compile(r"[0-9]{1,5}")
_PLACE = re.compile(r"(?P<country>[A-Z]{2})(?:-(?P<state>[A-Z]{2,3}))?")
LONGEST_TEXT = 500


def value_of(cell: CellValue, column: Column, currency: str) -> object:
    """Return what a cell that is not blank holds, in program units; a Doubt where a warning goes with it.

    Raises Misread where it cannot be used.
    """
    return PARSERS[column.kind](cell, column, currency)


def text(cell: CellValue, column: Column, currency: str) -> str:
    """Return a cell as text: numbers as the sheet shows them, dates as year-month-day, TRUE and FALSE as yes and no."""
    if isinstance(cell, str):
        words = " ".join(cell.split())
        if len(words) > LONGEST_TEXT:
            raise Misread(f"{shown(cell)} is longer than {LONGEST_TEXT} letters", "write it shorter")
        return words
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, (int, float)):
        return plain(exact(float(cell)))
    if isinstance(cell, datetime):
        return cell.date().isoformat()
    if isinstance(cell, date):
        return cell.isoformat()
    return str(cell)


def choice(cell: CellValue, column: Column, currency: str) -> str:
    """Return one of the column's choices, spelt as the program spells it."""
    return _choice(text(cell, column, currency), column, shown(cell))


def _choice(name: str, column: Column, quoted: str) -> str:
    found = next((known for known in column.choices if known.casefold() == name.casefold()), None)
    if found is None:
        near = nearest(name, column.choices)
        if near:
            raise Misread(f"{quoted} is not one of {', '.join(column.choices)}", f"write {near}")
        raise Misread(f"{quoted} is not known in this column", write_like(column))
    return found


def yes_or_no(cell: CellValue, column: Column, currency: str) -> bool:
    """Return True for yes, False for no."""
    word = text(cell, column, currency).casefold()
    if word in _YES or word in _NO:
        return word in _YES
    raise Misread(f"{shown(cell)} is neither yes nor no", write_like(column))


def names(cell: CellValue, column: Column, currency: str) -> tuple[str, ...]:
    """Return the names in a cell, divided by semicolons (commas and line breaks do as well)."""
    whole = cell if isinstance(cell, str) else text(cell, column, currency)
    found = tuple(" ".join(name.split()) for name in _DIVIDERS.split(whole))
    filled = tuple(dict.fromkeys(name for name in found if name))
    if not filled:
        raise Misread(f"{shown(cell)} names nothing", f"{write_like(column)}, or leave the cell blank")
    return tuple(_choice(name, column, f'"{name}"') for name in filled) if column.choices else filled


def zip_digits(cell: CellValue, column: Column, currency: str) -> object:
    """Return the digits of a ZIP or of its beginning. A number has lost its leading zeros: 2139 is taken as 02139."""
    digits = text(cell, column, currency)
    if isinstance(cell, str):
        digits = digits.split("-")[0] if re.fullmatch(r"[0-9]{5}-[0-9]{4}", digits) else digits
        if not _ZIP.fullmatch(digits):
            raise Misread(f"{shown(cell)} is not a ZIP", write_like(column))
        return digits
    if isinstance(cell, (bool, date, datetime)) or not _ZIP.fullmatch(digits):
        raise Misread(f"{shown(cell)} is not a ZIP", write_like(column))
    if len(digits) == 5:
        return digits
    if len(digits) < 3:
        raise Misread(
            f"{digits} is a number and may have lost a leading zero", f"format the cell as text and write {digits:0>3}"
        )
    taken = digits.zfill(5) if len(digits) == 4 else digits
    meaning = f"as ZIP {taken}" if len(taken) == 5 else f"as all ZIPs that begin with {taken}"
    return Doubt(
        taken, f"{digits} is a number, which keeps no leading zero; it is taken {meaning}", "format the cell as text"
    )


def state(cell: CellValue, column: Column, currency: str) -> str:
    """Return a state's letters in capitals; longer names as they are. Whether it is one, the country decides."""
    name = text(cell, column, currency)
    return name.upper() if len(name) <= 3 else name


def country(cell: CellValue, column: Column, currency: str) -> str:
    """Return the two letters of a country."""
    return _country(text(cell, column, currency).upper(), cell, column)


def _country(code: str, cell: CellValue, column: Column) -> str:
    if code in COUNTRIES:
        return code
    meant = MISTAKEN_COUNTRIES.get(code)
    raise Misread(f"{shown(cell)} is not the code of a country", f"write {meant}" if meant else write_like(column))


def place(cell: CellValue, column: Column, currency: str) -> object:
    """Return a country (`US`), a state (`US-WA`), or the digits of a ZIP or of its beginning."""
    if not isinstance(cell, str) or _ZIP.match(plain_text(cell)):
        return zip_digits(cell, column, currency)
    code = plain_text(cell).upper()
    found = _PLACE.fullmatch(code)
    if found is None:
        raise Misread(f"{shown(cell)} is not a country, a state or a ZIP", write_like(column))
    home = _country(found["country"], cell, column)
    known = SUBDIVISIONS.get(home)
    if found["state"] and known is not None and found["state"] not in known:
        raise Misread(f"{shown(cell)} names no state of {home}", write_like(column))
    return code


def end(cell: CellValue, column: Column, currency: str) -> object:
    """Return one end of a lane, as text; figures in a number cell may have lost a zero, as `zip_digits` says."""
    if isinstance(cell, (bool, date, datetime)):
        raise Misread(f"{shown(cell)} is no place", f"format the cell as text and {write_like(column)}")
    return (
        end_text(text(cell, column, currency), cell, column) if isinstance(cell, str) else zip_digits(cell, column, "")
    )


PARSERS: dict[Kind, Callable[[CellValue, Column, str], object]] = {
    **quantities.PARSERS,
    Kind.TEXT: text,
    Kind.CODE: text,
    Kind.CHOICE: choice,
    Kind.YES_NO: yes_or_no,
    Kind.LIST: names,
    Kind.DATE: day,
    Kind.ZIP: zip_digits,
    Kind.STATE: state,
    Kind.COUNTRY: country,
    Kind.PLACE: place,
    Kind.END: end,
}
