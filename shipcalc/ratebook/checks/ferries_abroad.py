"""What must be true of ferries abroad."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.places.sea.ports import find_port
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
from shipcalc.ratebook.rows.tables import Tables


def ferry_ports_are_known(tables: Tables) -> Iterator[Problem]:
    """Both ends are ports of the program's table, or nobody knows where the ferry goes."""
    for row in tables.ferries_abroad:
        for field in ("from_port", "to_port"):
            code = getattr(row, field)
            if find_port(code) is None:
                message = f'"{code}" does not stand in the program\'s table of ports'
                yield fault(row, field, message, "write the UN/LOCODE of a sea port near the terminal, e.g. SEVBY")


def ferries_abroad_stand_once(tables: Tables) -> Iterator[Problem]:
    """Two ports have one ferry, which leads from one to the other."""
    first: dict[tuple[str, ...], FerryAbroad] = {}
    for row in tables.ferries_abroad:
        ends = tuple(sorted((row.from_port.upper(), row.to_port.upper())))
        if ends[0] == ends[1]:
            yield fault(row, "to_port", "the ferry ends where it begins", "write the port on the island")
            continue
        earlier = first.setdefault(ends, row)
        if earlier is not row:
            message = f"the same ports stand already at {short_cell(earlier, 'ferry')}"
            yield fault(row, "ferry", message, "remove one of the two rows")


def ferries_abroad_have_sources(tables: Tables) -> Iterator[Problem]:
    """A figure that decides a price says where it is from."""
    for row in tables.ferries_abroad:
        if row.source is None:
            yield warning(row, "source", "the ferry has no source", 'name it; "own estimate" is one too')


CHECKS = (ferry_ports_are_known, ferries_abroad_stand_once, ferries_abroad_have_sources)
