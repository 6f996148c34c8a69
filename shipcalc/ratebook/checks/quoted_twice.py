"""Rows of Ocean quotations, or of Port charges, that would both price one thing on one day."""

from collections.abc import Iterator, Mapping, Sequence

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.ports import names_of
from shipcalc.ratebook.rows.quotations import OceanQuotation, quotation_of, size_of
from shipcalc.ratebook.rows.tables import Tables

PortsOf = Mapping[str, frozenset[str]]


def quotations_stand_once(tables: Tables) -> Iterator[Problem]:
    """Of two rows that hold for one pair of ports, line and unit on one day one names more, or it would have two prices."""
    ports: dict[str, set[str]] = {}
    for port in tables.ports:
        for name in names_of(port):
            ports.setdefault(name, set()).add(port.port.casefold())
    known = {name: frozenset(codes) for name, codes in ports.items()}
    groups: dict[tuple[object, ...], list[OceanQuotation]] = {}
    for row in tables.quotations:
        groups.setdefault(_rank(row, known), []).append(row)
    for rows in groups.values():
        yield from _twins(rows, known)


def _rank(row: OceanQuotation, known: PortsOf) -> tuple[object, ...]:
    """Return what two rows must agree in to be equals: how much they name, and what for; a pair of ports aside."""
    named = sum(cell is not None for cell in (row.from_port, row.to_port))
    of = (*quotation_of(row), row.surcharge.casefold()) if row.surcharge is not None else ()
    return _ports_named(row, known), named, (row.line or "").casefold(), row.mode, size_of(row.basis), of


def _ports_named(row: OceanQuotation, known: PortsOf) -> int:
    cells = [(cell or "").casefold() for cell in (row.from_port, row.to_port)]
    return sum(known.get(cell) == frozenset({cell}) for cell in cells)


def _twins(rows: Sequence[OceanQuotation], known: PortsOf) -> Iterator[Problem]:
    """Yield a fault for each row that holds where an earlier one of the same rank does."""
    by_ends: dict[tuple[str, str], list[OceanQuotation]] = {}
    for row in rows:
        own = (row.from_port or "").casefold(), (row.to_port or "").casefold()
        others = (other for ends, same in by_ends.items() if _meet(own, ends, known) for other in same)
        twin = next((other for other in others if _share_a_day(row, other)), None)
        if twin is not None:
            field = "surcharge" if row.surcharge is not None else "from_port"
            message = f"the row at {short_cell(twin, field)} holds for the same ports and is as specific"
            remedy = "remove one of the two, let one end before the other begins, or name a port or the line"
            yield fault(row, field, message, remedy)
        by_ends.setdefault(own, []).append(row)


def _meet(one: tuple[str, str], other: tuple[str, str], known: PortsOf) -> bool:
    """Return whether two pairs of ends have a pair of ports in common; a blank end is any port."""
    return one == other or all(
        not a or not b or not known.get(a, frozenset({a})).isdisjoint(known.get(b, frozenset({b})))
        for a, b in zip(one, other, strict=True)
    )


def charges_stand_once(tables: Tables) -> Iterator[Problem]:
    """A charge of a port has one amount on one day."""
    earlier: dict[tuple[object, ...], list[PortCharge]] = {}
    for row in tables.port_charges:
        key = row.port.casefold(), row.label.casefold(), row.mode, row.per, row.from_day or 1
        others = earlier.setdefault(key, [])
        twin = next((other for other in others if _share_a_day(row, other)), None)
        if twin is not None:
            message = f'"{row.label}" is already at {short_cell(twin, "label")}'
            yield fault(row, "label", message, "remove one of the two, or let one end before the other begins")
        others.append(row)


def _share_a_day(one: OceanQuotation | PortCharge, other: OceanQuotation | PortCharge) -> bool:
    pairs = ((one.valid_to, other.valid_from), (other.valid_to, one.valid_from))
    return not any(ends is not None and begins is not None and ends < begins for ends, begins in pairs)
