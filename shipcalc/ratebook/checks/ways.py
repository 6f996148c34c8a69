"""What must be true of gateways, of the state of passages, and of the hours of border crossings."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.checks.stages import countries_in
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.ways import BorderPort, Gateway, PassageState, hours_in


def gateways_stand_once(tables: Tables) -> Iterator[Problem]:
    """A country names a port once, by codes that there are, and a port where vehicles arrive."""
    leaves = {row.port.upper() for row in tables.ports if row.exports}
    first: dict[tuple[str, str], Gateway] = {}
    for row in tables.gateways:
        yield from countries_in(row, "country", (row.country,))
        earlier = first.setdefault((row.country.upper(), row.port.upper()), row)
        if earlier is not row:
            yield fault(row, "port", f"it is already at {short_cell(earlier, 'port')}", "remove one of the two rows")
        if row.port.upper() in leaves:
            yield fault(row, "port", "vehicles are shipped from this port, not to it", "name a port of arrival")
        if row.source is None and row.trust is None:
            message = "no source is named"
            yield warning(row, "source", message, "name the source, or say under Trust how it was learnt")


def passages_stand_once(tables: Tables) -> Iterator[Problem]:
    """A passage has one state, and one that is not open says why."""
    first: dict[str, PassageState] = {}
    for row in tables.passages:
        earlier = first.setdefault(row.passage.casefold(), row)
        if earlier is not row:
            yield fault(row, "passage", f"it is already at {short_cell(earlier, 'passage')}", "remove one of the two")
        if row.state != "open" and row.note is None:
            yield warning(row, "note", "no reason is given", "write the sentence that the buyer reads")


def border_hours_can_be_read(tables: Tables) -> Iterator[Problem]:
    """Hours say from when until when, in whole hours of a day, and a crossing stands once."""
    first: dict[str, BorderPort] = {}
    for row in tables.border_ports:
        yield from countries_in(row, "country", (row.country,))
        for field in ("weekdays", "saturday", "sunday"):
            text = getattr(row, field)
            if text is not None and hours_in(text) is None:
                yield fault(
                    row, field, f'"{text}" says no hours', "write from and until, as 7 to 24, or leave it blank"
                )
        earlier = first.setdefault(row.crossing.casefold(), row)
        if earlier is not row:
            yield fault(
                row, "crossing", f"it is already at {short_cell(earlier, 'crossing')}", "remove one of the two rows"
            )
        if row.source is None and row.trust is None:
            message = "no source is named"
            yield warning(row, "source", message, "name the source, or say under Trust how it was learnt")


CHECKS = (gateways_stand_once, passages_stand_once, border_hours_can_be_read)
