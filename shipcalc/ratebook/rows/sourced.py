"""How a source was learnt, as two columns that many sheets have: for the office only, never in what a buyer gets."""

from typing import Any

from shipcalc.ratebook.workbook.columns import Kind, column

TRUST = ("read", "partly read", "second hand", "memory", "practice", "invented")
READ = TRUST[:2]


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
