"""What must be true of storage and terminals."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.places.gazetteer.pages import postal_code
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.yards import Storage


def terminals_are_known_places(tables: Tables) -> Iterator[Problem]:
    """A terminal stands at a ZIP that there is, or it would be left out unseen."""
    for row in tables.terminals:
        if len(row.zip_code) != 5 or postal_code(row.zip_code) is None:
            yield fault(
                row, "zip_code", f"there is no ZIP {row.zip_code}", "write the terminal's five digits, e.g. 99224"
            )


def terminals_stand_once(tables: Tables) -> Iterator[Problem]:
    """Two rows at one ZIP are one terminal: the first alone would count."""
    first: dict[str, str] = {}
    for row in tables.terminals:
        earlier = first.setdefault(row.zip_code, short_cell(row, "zip_code"))
        if earlier != short_cell(row, "zip_code"):
            yield warning(
                row, "zip_code", f"a terminal at this ZIP is already at {earlier}", "remove one of the two rows"
            )


def storage_is_reached(tables: Tables) -> Iterator[Problem]:
    """Of two rows for one yard that hold on the same days the second would never count."""
    seen: list[Storage] = []
    for row in tables.storage:
        earlier = next((one for one in seen if _same_yard(one, row) and _overlap(one, row)), None)
        if earlier is not None:
            message = (
                f"storage at {row.yard or 'any yard'} is already at {short_cell(earlier, 'amount_minor')}, which counts"
            )
            yield warning(row, "yard", message, "remove one of the two rows, or part their dates")
        seen.append(row)


def _same_yard(one: Storage, other: Storage) -> bool:
    return (one.yard or "").casefold() == (other.yard or "").casefold()


def _overlap(one: Storage, other: Storage) -> bool:
    starts_in_time = other.valid_from is None or one.valid_to is None or other.valid_from <= one.valid_to
    return starts_in_time and (one.valid_from is None or other.valid_to is None or one.valid_from <= other.valid_to)


CHECKS = (terminals_are_known_places, terminals_stand_once, storage_is_reached)
