"""What a rate book lacks that the program ships: holds, tasks and documents whose rows were removed."""

import tomllib
from collections.abc import Iterator, Sequence

from shipcalc.errors import Problem
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.ratebook.checks.remarks import warning
from shipcalc.ratebook.embargoed import embargoed_countries, embargoes, shipped_holds
from shipcalc.ratebook.rows.paperwork_sheets import (
    COUNTRIES,
    DOCUMENTS,
    ENTRY_RULES,
    FROM_BUYER,
    HOLDS,
    IMPORT_CHARGES,
    PAPERWORK,
    TASKS,
)
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.typed import DATA

_NAMED_AT_MOST = 8
_CALLED = {"from_buyer": "things to ask of the buyer"}


def thinned(tables: Tables) -> Iterator[Problem]:
    """Yield a warning for each sheet that has less than the program ships, and for each row that cannot release anything."""
    yield from _holds(tables)
    yield from _countries(tables)
    for sheet, name, codes in (
        (TASKS.name, "tasks", {row.code.casefold() for row in tables.tasks}),
        (DOCUMENTS.name, "documents", {row.code.casefold() for row in tables.documents}),
        (FROM_BUYER.name, "from_buyer", {row.code.casefold() for row in tables.from_buyer}),
    ):
        shipped = list(dict.fromkeys(_shipped(name, "code")))
        gone = [code for code in shipped if code.casefold() not in codes]
        if gone:
            called = _CALLED.get(name, name)
            message = f"{len(gone)} of the {len(shipped)} {called} that the program ships are not here: {_listed(gone)}"
            yield _about(sheet, message, "bring back those that you did not mean to remove, from shipcalc rates new")


def _holds(tables: Tables) -> Iterator[Problem]:
    own = {row.country.upper() for row in tables.holds}
    refused = [country_name(code) for code in dict.fromkeys(row.country for row in embargoes()) if code not in own]
    if refused:
        message = f"no row for {_listed(refused)}, which the program ships as embargoed: they are refused all the same"
        yield _about(HOLDS.name, message, "bring the rows back, so that everybody sees them")
    held = [country_name(row.country) for row in shipped_holds() if row.country not in own]
    if held:
        message = f"no row for {_listed(held)}, which the program ships as held: they still wait for release"
        yield _about(
            HOLDS.name, message, "to release one, write its row with released under Hold, its reason and source"
        )
    for row in tables.holds:
        if row.hold != "refused" and _is_embargoed(row.country.upper(), row.subdivision or ""):
            where = row.subdivision or country_name(row.country.upper())
            yield warning(row, "hold", f"{where} is embargoed and stays refused, whatever stands here", "write refused")


def _is_embargoed(country: str, part: str) -> bool:
    """Return whether the program refuses a country as a whole, or the part of it that is named."""
    names = {name.casefold() for row in embargoes() if row.country == country for name in row.names}
    return country in embargoed_countries() or part.casefold() in names


def _countries(tables: Tables) -> Iterator[Problem]:
    """Yield a warning for the countries whose rows were all removed: without duty and tax a country looks cheap."""
    for table, name, rows in (
        (COUNTRIES, "countries", tables.countries),
        (IMPORT_CHARGES, "import_charges", tables.import_charges),
        (ENTRY_RULES, "entry_rules", tables.entry_rules),
    ):
        own = {row.country.casefold() for row in rows}
        shipped = dict.fromkeys(_shipped(name, "country"))
        gone = [code for code in shipped if code.casefold() not in own]
        if gone:
            message = f"no row for {_listed([country_name(code) for code in gone])}, which the program ships rows for"
            yield _about(
                table.name, message, "bring back those that you did not mean to remove, from shipcalc rates new"
            )


def _about(sheet: str, message: str, remedy: str) -> Problem:
    return Problem(f"{PAPERWORK} › {sheet}", message, remedy, "warning")


def _shipped(name: str, field: str) -> list[str]:
    return [row[field] for row in tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))["row"]]


def _listed(names: Sequence[str]) -> str:
    more = f" and {len(names) - _NAMED_AT_MOST} more" if len(names) > _NAMED_AT_MOST else ""
    return f"{', '.join(names[:_NAMED_AT_MOST])}{more}"
