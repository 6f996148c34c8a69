"""The register as a whole: where it is, backed up, restored, brought up to date, written out as a table."""

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, asked
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.register.backup import Contents
    from shipcalc.register.finding import Asked, Listed

HEADERS = ("Number", "Revision", "State", "Made", "Holds until", "Buyer", "Vehicles", "To", "Total", "Currency")
KINDS = (".csv", ".xlsx", ".parquet", ".json")
# What a spreadsheet program would take for a formula, were it not for the apostrophe (OWASP, CSV injection).


@dataclass(frozen=True, slots=True)
class Where:
    """Where the register is, the version of its tables, how many quotes it holds."""

    name: str
    version: str
    quotes: int


def where(desk: "Desk") -> Where:
    """Return where the register is and what it holds."""
    from sqlalchemy import func, select

    from shipcalc.register.schema import version_of
    from shipcalc.register.tables import quotes

    with desk.register() as register, register.reading() as connection:
        count = connection.execute(select(func.count()).select_from(quotes)).scalar_one()
        return Where(register.name, version_of(connection) or "", count)


def back_up(file: Path, desk: "Desk") -> "Contents":
    """Write all that is kept into one file."""
    from shipcalc.register.backup import back_up as write

    with desk.register() as register:
        return write(register, file)


def restore(file: Path, desk: "Desk", *, over: bool) -> "Contents":
    """Fill the register from a backup."""
    from shipcalc.register.backup import restore as fill

    with desk.register() as register:
        return fill(register, file, over=over)


def upgrade(desk: "Desk", beside: Path) -> tuple[str, str]:
    """Bring an older register up to date, after backing it up into the folder `beside`; return both versions.

    What was accepted before there were shipments begins here: looking at a register never writes in it.
    """
    from shipcalc.register.backup import back_up as write
    from shipcalc.register.opening import open_register
    from shipcalc.register.schema import NEWEST, upgrade, version_of
    from shipcalc.register.shipments import begin_missing

    register = open_register(desk.url, any_version=True)
    try:
        with register.reading() as connection:
            before = version_of(connection) or ""
        if before < NEWEST:
            write(register, beside / f"register-{before}-{desk.at.replace(':', '')}.zip")
        with register.writing("bringing the register up to date") as connection:
            if before < NEWEST:
                upgrade(connection)
            begin_missing(connection)
        return before, NEWEST
    finally:
        register.close()


def export(wanted: "Asked", file: Path, desk: "Desk") -> int:
    """Write the quotes that are asked for as a table, CSV, Excel, Parquet or JSON by the file's ending; return how many."""
    from shipcalc.actions.kept_quotes import find

    kind = file.suffix.lower()
    if kind not in KINDS:
        raise WrongInput(
            f'"{file.suffix}" is no kind of table', where=asked("out"), remedy=f"end it in {', '.join(KINDS)}"
        )
    found = find(wanted, desk)
    rows = [_row(one) for one in found]
    writer = {".csv": _csv, ".xlsx": _xlsx, ".parquet": _parquet, ".json": _json}[kind]
    writer(rows, file, desk.today)
    return len(found)


Cell = str | int | date | Decimal


def _row(one: "Listed") -> tuple[Cell, ...]:
    return (
        one.number,
        one.revision,
        one.state,
        one.as_of,
        one.valid_until,
        one.buyer,
        one.vehicles,
        one.to,
        one.total,
        one.currency,
    )


def _csv(rows: "list[tuple[Cell, ...]]", file: Path, _today: date) -> None:
    import csv
    import io

    from shipcalc.sheets.plain_csv import as_text
    from shipcalc.sheets.saving import save

    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(HEADERS)
    writer.writerows([[as_text(cell) if isinstance(cell, str) else cell for cell in row] for row in rows])
    save(file, text.getvalue().encode("utf-8-sig"))


def _xlsx(rows: "list[tuple[Cell, ...]]", file: Path, today: date) -> None:
    from shipcalc.sheets import look
    from shipcalc.sheets.reading import letter
    from shipcalc.sheets.writing import Book

    book = Book(title="Kept quotes", creator="shipcalc", made=today)
    page = book.page("Quotes", widths=(15, 9, 11, 13, 13, 24, 40, 26, 14, 10), landscape=True)
    for place, header in enumerate(HEADERS):
        page.put(f"{letter(place)}1", header, look.HEADER_FIGURE if header == "Total" else look.HEADER)
    for number, row in enumerate(rows, 2):
        for place, cell in enumerate(row):
            shown = look.DAY if isinstance(cell, date) else "#,##0.00" if isinstance(cell, Decimal) else ""
            style = look.FIGURE if isinstance(cell, Decimal) else look.TEXT if place in (5, 6, 7) else look.BODY
            page.put(f"{letter(place)}{number}", cell, style, shown)
    page.freeze("A2")
    page.filter(f"A1:{letter(len(HEADERS) - 1)}{len(rows) + 1}")
    page.repeat_rows(1, 1)
    book.save(file)


def _parquet(rows: "list[tuple[Cell, ...]]", file: Path, _today: date) -> None:
    from shipcalc.sheets.saving import whole

    try:
        import pyarrow as pa
        from pyarrow import parquet
    except ModuleNotFoundError:
        remedy = "install it with pip install 'shipcalc[lanes]', or take .csv or .xlsx"
        raise WrongInput("what writes Parquet is not installed", where=asked("out"), remedy=remedy) from None
    names = [header.lower().replace(" ", "_") for header in HEADERS]
    columns = list(zip(*rows, strict=True)) if rows else [()] * len(names)
    table = pa.table({name: list(column) for name, column in zip(names, columns, strict=True)})
    with whole(file) as beside:
        parquet.write_table(table, beside)


def _json(rows: "list[tuple[Cell, ...]]", file: Path, _today: date) -> None:
    import json

    from shipcalc.sheets.saving import save

    names = [header.lower().replace(" ", "_") for header in HEADERS]
    told = [
        dict(zip(names, (cell if isinstance(cell, int) else str(cell) for cell in row), strict=True)) for row in rows
    ]
    save(file, json.dumps({"quotes": told}, ensure_ascii=False, indent=2).encode() + b"\n")
