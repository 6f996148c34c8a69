"""A price by road abroad as a rate of the sheet On-carriage: from a port of arrival, or from any, to places of one country."""

from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.abroad import HOME, country_of, together
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.rate import Rate
from shipcalc.records import replace

FROM_NO_PORT = "is a road to postal codes abroad that begins at no sea port there: no sheet has such roads"
FROM_CODES = "is a road from postal codes or a region abroad: no sheet has such roads"
TO_BOTH = "goes abroad and not abroad"
ANY_PORT = "any port"


def onward_rates(base: Rate, starts: Sequence[End], ends: Sequence[End]) -> tuple[Rate, ...]:
    """Return a price as rates from ports to places abroad, one for each port and kind of place; () for another road.

    Roads between towns abroad, and from home, stay lanes. Raises Unclear for postal codes abroad that no port leads to.
    """
    if not any(country_of(end) for end in ends):
        if any(one.kind in ("postal", "region") for one in (*starts, *ends)):
            raise Unclear(FROM_CODES)
        return ()
    ports = _ports(starts)
    if ports is None and any(end.kind in ("postal", "region") for end in ends):
        raise Unclear(FROM_NO_PORT)
    if ports is None:
        return ()
    if not all(country_of(end) for end in ends):
        raise Unclear(TO_BOTH)
    return tuple(_rates(base, ports, ends))


def _rates(base: Rate, ports: Sequence[End | None], ends: Sequence[End]) -> Iterator[Rate]:
    for port in ports:
        for end in together(ends):
            yield replace(base, target="On-carriage", start=port, end=end)


def _ports(starts: Sequence[End]) -> tuple[End | None, ...] | None:
    """Return the ports abroad that starts are, None alone where there is no start; None where one is no port."""
    try:
        found = tuple(one if one.kind == "port" else port_in(one.text) for one in starts)
    except Unclear:
        return None
    if any(one.text[:2] in HOME for one in found):
        return None
    return found or (None,)
