"""What a rate book lacks that the program ships: holds, tasks and documents whose rows were removed."""

import tomllib
from collections.abc import Iterator, Sequence

from shipcalc.errors import Problem
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.ratebook.checks.remarks import warning
from shipcalc.ratebook.embargoed import embargoed_countries, embargoes, shipped_holds
from shipcalc.ratebook.rows.tables import DOCUMENTS, HOLDS, PAPERWORK, TASKS, Tables
from shipcalc.ratebook.workbook.typed import DATA

_NAMED_AT_MOST = 8


def thinned(tables: Tables) -> Iterator[Problem]:
    """Yield a warning for each sheet that has less than the program ships, and for each row that cannot release anything."""
    yield from _holds(tables)
    for sheet, name, codes in (
        (TASKS.name, "tasks", {row.code.casefold() for row in tables.tasks}),
        (DOCUMENTS.name, "documents", {row.code.casefold() for row in tables.documents}),
    ):
        shipped = list(dict.fromkeys(_codes(name)))
        gone = [code for code in shipped if code.casefold() not in codes]
        if gone:
            message = f"{len(gone)} of the {len(shipped)} {name} that the program ships are not here: {_listed(gone)}"
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
        if row.country.upper() in embargoed_countries() and row.hold != "refused" and not row.subdivision:
            message = f"{country_name(row.country.upper())} is embargoed and stays refused, whatever stands here"
            yield warning(row, "hold", message, "write refused")


def _about(sheet: str, message: str, remedy: str) -> Problem:
    return Problem(f"{PAPERWORK} › {sheet}", message, remedy, "warning")


def _codes(name: str) -> list[str]:
    return [row["code"] for row in tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))["row"]]


def _listed(names: Sequence[str]) -> str:
    more = f" and {len(names) - _NAMED_AT_MOST} more" if len(names) > _NAMED_AT_MOST else ""
    return f"{', '.join(names[:_NAMED_AT_MOST])}{more}"
