"""Columns that many sheets have: for which trailer, how a source was learnt and when it was read, when a row holds."""

from typing import Any

from shipcalc.ratebook.workbook.columns import Kind, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.trade import TRAILERS

TRUST = ("read", "partly read", "second hand", "memory", "practice", "invented")
READ = TRUST[:2]


def trailer_column(note: str = "Blank: every kind of trailer it runs.", example: str = "open") -> Any:
    """Return the column that says for which kind of trailer a row holds."""
    return column("Trailer", Kind.CHOICE, note, example=example, choices=TRAILERS, theme=Theme.NAME)


def trust_column() -> Any:
    """Return the column that says how the source of a row was learnt."""
    return column(
        "Trust",
        Kind.CHOICE,
        "For the office only. read: somebody read the source; partly read; second hand: a text that tells of it; "
        "memory: nobody looked; practice: there is no source; invented: made up to show how the program works.",
        choices=TRUST,
        example="read",
    )


def office_note_column() -> Any:
    """Return the column that says what of the source was read, and what was not."""
    return column("Office note", Kind.TEXT, "For the office only: what of it was read, and what was not.", example="")


def checked_on_column(example: str = "2026-11-25") -> Any:
    """Return the column that says when the source was read."""
    note = "The day of the copy that somebody read; blank unless it was read."
    return column("Checked on", Kind.DATE, note, example=example)


def address_column() -> Any:
    """Return the column that says where a fact is looked up."""
    note = "For the office only: where to look it up, a page of the authority. Its having one says nothing of whether it was read."
    return column("Web address", Kind.TEXT, note, example="https://www.example.org/tariff")


def pickup_from_column() -> Any:
    """Return the column that says from which day of pickup a price holds; `ratebook/of_day.py` answers it for every sheet."""
    return column("Valid from", Kind.DATE, "First day of pickup that this row holds for. Blank: always.", example="")


def pickup_to_column() -> Any:
    """Return the column that says up to which day of pickup a price holds."""
    return column("Valid to", Kind.DATE, "Last day of pickup that this row holds for. Blank: until further notice.")


def fact_from_column() -> Any:
    """Return the column that says from which day of the quote a fact of a country or a rule of papers holds."""
    note = "First day of this row, counted by the day of the quote: what changes on 1 January is typed today. Blank: always."
    return column("Valid from", Kind.DATE, note, example="", condition=Condition("day", "from"))


def fact_to_column() -> Any:
    """Return the column that says up to which day of the quote a fact or rule holds."""
    note = "Last day of this row, counted by the day of the quote. Blank: until further notice."
    return column("Valid to", Kind.DATE, note, example="", condition=Condition("day", "up to"))


def valid_from_column(example: str = "") -> Any:
    """Return the column that says from which day a row holds."""
    note = "First day of this row. Blank: always."
    return column("Valid from", Kind.DATE, note, example=example, condition=Condition("day", "from"))


def valid_to_column(example: str = "") -> Any:
    """Return the column that says up to which day a row holds."""
    note = "Last day of this row. Blank: until further notice."
    return column("Valid to", Kind.DATE, note, example=example, condition=Condition("day", "up to"))
