"""What must be true of charges that arise when something happens."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.occasions import Occasion
from shipcalc.ratebook.rows.tables import Tables


def occasions_stand_once(tables: Tables) -> Iterator[Problem]:
    """A carrier has one price for what may happen at a time."""
    above: dict[tuple[str, str | None, str], list[Occasion]] = {}
    for row in tables.occasions:
        others = above.setdefault(((row.carrier or "").casefold(), row.trailer, row.name.casefold()), [])
        earlier = next((one for one in others if _share_a_day(one, row)), None)
        others.append(row)
        if earlier is not None:
            message = f'"{row.name}" stands at {short_cell(earlier, "name")} already'
            yield fault(row, "name", message, "remove one of the two, or let one end before the other begins")


def _share_a_day(one: Occasion, other: Occasion) -> bool:
    pairs = ((one.valid_to, other.valid_from), (other.valid_to, one.valid_from))
    return not any(ends is not None and begins is not None and ends < begins for ends, begins in pairs)


def occasions_are_for_services(tables: Tables) -> Iterator[Problem]:
    """A row is for a service that there is, and asks for something."""
    services = {(row.carrier.casefold(), row.trailer) for row in tables.carriers}
    for row in tables.occasions:
        carrier = (row.carrier or "").casefold()
        known = not carrier or row.trailer is None or (carrier, row.trailer) in services
        if not known and not tables.may_stand_in("Carriers", carrier):
            message = f'"{row.carrier}" has no {row.trailer} trailer on the sheet Carriers'
            yield fault(row, "trailer", message, "write its other trailer, or leave it blank")
        if not row.amount_minor:
            yield warning(row, "amount_minor", f'"{row.name}" costs nothing', "write what it costs, or remove the row")


CHECKS = (occasions_stand_once, occasions_are_for_services)
