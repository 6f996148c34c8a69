"""What must be true of the sheet Lanes: each row says one price between ends that the rate book knows, and no two the same."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.gone import has_currencies
from shipcalc.ratebook.checks.remarks import fault, short_cell
from shipcalc.ratebook.lane_ends import (
    AT_TERMINAL,
    YARD,
    ZIP,
    End,
    areas_by_name,
    find_end,
    named_terminal,
    rank_of,
)
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.lanes import LaneRow, says
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.pricing_settings import currency_of
from shipcalc.ratebook.rows.quotations import OceanQuotation
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.misread import nearest

_WHOLE_PPM = 1_000_000
_ENDS = ("from_end", "to_end")


def lanes_say_one_price(tables: Tables) -> Iterator[Problem]:
    """A row says a sum, a rate a mile (with its minimum), a percentage, or a minimum: one of them, or it could be read twice."""
    for row in tables.lanes:
        given = [field for field in ("flat_minor", "rate_e4", "percent_ppm") if getattr(row, field) is not None]
        if not given and row.minimum_minor is None:
            yield fault(row, "flat_minor", "the row has no price", "fill Flat, Per mile, Percent or Minimum")
        elif len(given) > 1:
            yield fault(row, given[1], "the row has two kinds of price", "clear one of them, or make two rows of it")
        elif given and given[0] != "rate_e4" and row.minimum_minor is not None:
            message = "a minimum beside a sum or a percentage is never asked for"
            yield fault(row, "minimum_minor", message, "clear it; a minimum alone has a row of its own")
        elif row.percent_ppm is not None and row.percent_ppm <= -_WHOLE_PPM:
            yield fault(row, "percent_ppm", "nothing would be left of the price", "write less, e.g. -15 %")
        if row.fuel_included and not says(row, "price"):
            message = "only a price of its own can include the fuel: this row changes the carrier's prices a mile"
            yield fault(row, "fuel_included", message, "write no, or leave it blank")


def lanes_have_known_ends(tables: Tables) -> Iterator[Problem]:
    """An end is a place that the rate book knows, or the row would never be met and nobody would see it."""
    areas = areas_by_name(tables.areas)
    told = {text for row in tables.lanes for text in (row.from_end, row.to_end)}
    unknown = {text for text in told if find_end(text, areas) is None}
    for row in tables.lanes if unknown else ():
        for field in _ENDS:
            text = getattr(row, field)
            if text in unknown and not tables.may_stand_in("Areas", text):
                near = nearest(text, {area.area for area in tables.areas})
                remedy = (
                    f'write "{near}" if that is meant' if near else f'write "{YARD}{text}" if it is a yard, or a ZIP'
                )
                message = (
                    f'"{text}" is no area of the sheet Areas, and no ZIP, city with its state, state, port or country'
                )
                yield fault(row, field, message, remedy)


def terminals_are_served(tables: Tables) -> Iterator[Problem]:
    """A terminal at an end stands on the sheet Terminals, and the row's carrier goes there."""
    rows = [
        row for row in tables.lanes if any("terminal" in (text or "").casefold() for text in (row.from_end, row.to_end))
    ]
    terminals = {named_terminal(terminal.terminal): terminal for terminal in tables.terminals}
    areas = areas_by_name(tables.areas) if rows else {}
    for row in rows:
        for field in _ENDS:
            text = getattr(row, field)
            end = find_end(text, areas)
            if end is None or end.pieces[0][0] != AT_TERMINAL or tables.may_stand_in("Terminals", text):
                continue
            terminal = terminals.get(end.pieces[0][1])
            if terminal is None:
                near = nearest(text, {one.terminal for one in tables.terminals})
                remedy = f'write "{near}" if that is meant, or add it there' if near else "add it there, with its ZIP"
                yield fault(row, field, f'there is no "{text}" on the sheet Terminals', remedy)
            elif terminal.carriers and row.carrier.casefold() not in map(str.casefold, terminal.carriers):
                message = f'{row.carrier} does not go to "{terminal.terminal}": {short_cell(terminal, "carriers")}'
                yield fault(row, field, message, "add it there, or write another terminal")


def lanes_have_carriers(tables: Tables) -> Iterator[Problem]:
    """Every row belongs to a carrier's row with that kind of trailer."""
    services = {(row.carrier.casefold(), row.trailer) for row in tables.carriers}
    names = {name for name, _ in services}
    for row in tables.lanes:
        name = row.carrier.casefold()
        if row.trailer is None or (name, row.trailer) in services or name not in names:
            continue  # a name that stands nowhere is told by names.references_are_known
        if not tables.may_stand_in("Carriers", row.carrier):
            message = f'"{row.carrier}" has no {row.trailer} trailer on the sheet Carriers'
            yield fault(row, "trailer", message, "write its other trailer, leave it blank, or add the row there")


def prices_have_rates_of_exchange(tables: Tables) -> Iterator[Problem]:
    """A price in another currency has a rate, or it could not be added to others."""
    if not has_currencies(tables):
        return
    own, known = currency_of(tables.settings), {row.currency.upper() for row in tables.currencies}
    rows: tuple[Carrier | LaneRow | OceanQuotation | PortCharge | OnCarriage, ...] = (
        *tables.carriers,
        *tables.lanes,
        *tables.quotations,
        *tables.port_charges,
        *tables.on_carriage,
    )
    for row in rows:
        if not row.currency or row.currency.upper() in (own, *known) or tables.may_stand_in("Currencies", row.currency):
            continue
        message = f'there is no rate for "{row.currency}" on the sheet Currencies (overseas.xlsx)'
        yield fault(row, "currency", message, f"add it there, or write the price in {own} and leave this blank")


def lanes_stand_once(tables: Tables) -> Iterator[Problem]:
    """Of two rows that meet one shipment one is more specific, or it would have two prices."""
    areas = areas_by_name(tables.areas)
    ends = {text: find_end(text, areas) for text in {t for row in tables.lanes for t in (row.from_end, row.to_end)}}
    groups: dict[tuple[object, ...], list[_Way]] = {}
    for row in tables.lanes:
        what = next((what for what in ("price", "percent", "minimum") if says(row, what)), "")
        ways = (row.from_end, row.to_end), (row.to_end, row.from_end)
        for begin, end in ways[: 2 if row.both_ways and row.from_end != row.to_end else 1]:
            first, last = ends[begin], ends[end]
            if first is not None and last is not None:
                key = row.carrier.casefold(), what, rank_of(row, first, last), row.trailer
                groups.setdefault(key, []).append((row, begin, end))
    told: set[int] = set()
    for ways_alike in groups.values():
        for row, twin in _twins(ways_alike, ends) if len(ways_alike) > 1 else ():
            if row.at.row not in told:
                told.add(row.at.row)
                message = f"the row at {short_cell(twin, 'carrier')} meets the same shipments and is as specific"
                remedy = "remove one of the two, let one end before the other begins, or name its ends more closely"
                yield fault(row, "carrier", message, remedy)


_Way = tuple[LaneRow, str | None, str | None]


def _twins(ways: Sequence[_Way], ends: Mapping[str | None, End | None]) -> Iterator[tuple[LaneRow, LaneRow]]:
    """Yield each row that meets what an earlier one meets, on a common day, with that one."""
    shared = _sharing({text: held for _, *both in ways for text in both if (held := ends[text])})
    earlier: dict[tuple[str | None, str | None], list[LaneRow]] = {}
    for row, begin, end in ways:
        others = (earlier.get((one, other), ()) for one in shared[begin] for other in shared[end])
        twin = next((one for one in chain.from_iterable(others) if one is not row and _share_a_day(row, one)), None)
        if twin is not None:
            yield (row, twin) if row.at.row > twin.at.row else (twin, row)
        earlier.setdefault((begin, end), []).append(row)


def _sharing(ends: Mapping[str | None, End]) -> dict[str | None, list[str | None]]:
    """Return for each end those that have a place in common with it, itself among them."""
    holders: dict[tuple[str, str], list[str | None]] = {}
    for text, end in ends.items():
        for piece in end.pieces:
            holders.setdefault(piece, []).append(text)
    found: dict[str | None, dict[str | None, None]] = {text: {} for text in ends}
    for text, end in ends.items():
        for level, told in end.pieces:
            wider = (told[:count] for count in range(1, len(told))) if level.startswith(ZIP) else ()
            for holder in chain(holders[level, told], *(holders.get((level, one), ()) for one in wider)):
                found[text][holder] = None
                found[holder][text] = None
    return {text: list(others) for text, others in found.items()}


def _share_a_day(one: LaneRow, other: LaneRow) -> bool:
    pairs = ((one.valid_to, other.valid_from), (other.valid_to, one.valid_from))
    return not any(ends is not None and begins is not None and ends < begins for ends, begins in pairs)


def areas_with_cities(tables: Tables) -> Iterator[Problem]:
    """A city is told with its state where states have letters, and not with ZIPs beside it."""
    for row in tables.areas:
        if row.city and row.zip_from:
            message = "the row names a city and ZIPs"
            yield fault(row, "city", message, "clear one of them: each row is one piece of the area")
        elif row.city and row.state is None and row.country in ("US", "CA"):
            yield fault(row, "city", f'"{row.city}" may lie in many states', "write its state under State")


CHECKS = (
    lanes_say_one_price,
    lanes_have_known_ends,
    terminals_are_served,
    lanes_have_carriers,
    prices_have_rates_of_exchange,
    lanes_stand_once,
    areas_with_cities,
)
