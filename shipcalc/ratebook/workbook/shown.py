"""How cells and columns are named in the sentences a manager reads."""

from datetime import date, datetime, time, timedelta

from shipcalc.ratebook.workbook.columns import Column, Kind
from shipcalc.sheets.numbers import exact, plain
from shipcalc.sheets.reading import CellValue

_LONGEST_SHOWN = 40
_LONGEST_FIGURES = 20

_WANTED = {
    Kind.TEXT: "some text",
    Kind.CODE: "a name",
    Kind.YES_NO: "yes or no",
    Kind.WHOLE: "a whole number",
    Kind.MILES: "whole miles",
    Kind.LENGTH: "a length in inches",
    Kind.MASS: "a weight in pounds",
    Kind.PERCENT: "a percentage",
    Kind.FACTOR: "a number",
    Kind.DATE: "a date as year-month-day",
    Kind.LIST: "names divided by ;",
    Kind.ZIP: "a ZIP or its first digits, as text",
    Kind.STATE: "the two letters of a state",
    Kind.COUNTRY: "the two letters of a country (ISO 3166-1)",
    Kind.PLACE: "a country, a state, a ZIP or its first digits",
    Kind.END: "a ZIP, its first digits, a range of them, a city, a state, an area, a yard, a port or a country",
}
_EXAMPLES = {
    Kind.TEXT: "invented",
    Kind.CODE: "Northwest",
    Kind.YES_NO: "yes",
    Kind.WHOLE: "2",
    Kind.MILES: "500",
    Kind.LENGTH: "72",
    Kind.MASS: "5000",
    Kind.MONEY: "125.00",
    Kind.RATE: "0.82",
    Kind.PERCENT: "10 %",
    Kind.FACTOR: "1.20",
    Kind.DATE: "2026-01-01",
    Kind.LIST: "Northwest; Southeast",
    Kind.ZIP: "98225",
    Kind.STATE: "WA",
    Kind.COUNTRY: "US",
    Kind.PLACE: "US-WA",
    Kind.END: "590-599",
}


def shown(cell: CellValue) -> str:
    """Return a cell as a sentence quotes it: text in quotation marks, numbers and dates as the sheet shows them."""
    if isinstance(cell, bool):
        return "TRUE" if cell else "FALSE"
    if isinstance(cell, (int, float)):
        figures = plain(exact(float(cell)))
        return figures if len(figures) <= _LONGEST_FIGURES else f"{float(cell):g}"
    if isinstance(cell, (date, datetime, time)):
        return cell.isoformat()
    if isinstance(cell, timedelta):
        return str(cell)
    text = " ".join(str(cell or "").split())
    clean = "".join(letter for letter in text if letter.isprintable())
    return f'"{clean if len(clean) <= _LONGEST_SHOWN else clean[: _LONGEST_SHOWN - 1] + "…"}"'


def in_words(names: tuple[str, ...], last: str = "or") -> str:
    """Return names as a sentence lists them: `flat, percent or per mile`."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}"


def wanted(column: Column, currency: str = "USD") -> str:
    """Return what belongs in a column's cell: `a rate in dollars per mile`."""
    if column.choices:
        return in_words(column.choices)
    major = "dollars" if currency == "USD" else currency
    if column.kind is Kind.MONEY:
        return f"an amount in {major}"
    if column.kind is Kind.RATE:
        _, per, what = column.header.partition("$ per ")
        return f"a rate in {major} per {what.rstrip(')')}" if per else f"an amount in {major}"
    return _WANTED[column.kind]


def write_like(column: Column, currency: str = "USD", example: str = "", *, bound: str = "") -> str:
    """Return the remedy for a cell: `write a rate in dollars per mile, at most 100, e.g. 1.90`."""
    told = f"write {wanted(column, currency)}"
    if column.choices or column.kind is Kind.YES_NO:
        return told
    within = f", {bound}" if bound else ""
    return f"{told}{within}, e.g. {example or column.example or _EXAMPLES[column.kind]}"
