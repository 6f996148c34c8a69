"""What must be true of gateways and of the state of passages."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.checks.stages import countries_in
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.ways import Gateway, PassageState


def gateways_stand_once(tables: Tables) -> Iterator[Problem]:
    """A country names a port once, by codes that there are, and a port where vehicles arrive."""
    leaves = {row.port.upper() for row in tables.ports if row.exports}
    first: dict[tuple[str, str], Gateway] = {}
    for row in tables.gateways:
        yield from countries_in(row, "country", (row.country,))
        earlier = first.setdefault((row.country.upper(), row.port.upper()), row)
        if earlier is not row:
            yield fault(
                row, "port", f"it stands already at {short_cell(earlier, 'port')}", "remove one of the two rows"
            )
        if row.port.upper() in leaves:
            yield fault(row, "port", "vehicles are shipped from this port, not to it", "name a port of arrival")
        if row.source is None and row.trust is None:
            message = "nobody is named who says so"
            yield warning(row, "source", message, "name the source, or say under Trust how it was learnt")


def passages_stand_once(tables: Tables) -> Iterator[Problem]:
    """A passage has one state, and one that is not open says why."""
    first: dict[str, PassageState] = {}
    for row in tables.passages:
        earlier = first.setdefault(row.passage.casefold(), row)
        if earlier is not row:
            yield fault(
                row, "passage", f"it stands already at {short_cell(earlier, 'passage')}", "remove one of the two"
            )
        if row.state != "open" and row.note is None:
            yield warning(row, "note", "nobody is told why", "write the sentence that the buyer reads")


CHECKS = (gateways_stand_once, passages_stand_once)
