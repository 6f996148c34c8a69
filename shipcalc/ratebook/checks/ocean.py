"""What must be true of ports, ocean services and containers."""

from collections.abc import Iterator
from datetime import date
from itertools import pairwise

from shipcalc.errors import Problem
from shipcalc.places.sea.ports import find_port, is_port_code
from shipcalc.places.straight import great_circle_mi_columns
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.containers import ContainerType
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.misread import nearest
from shipcalc.ratebook.workbook.shown import in_words
from shipcalc.trade import CROSSING_BY_MODE

FARTHEST_FROM_TABLE_MI = 60
FASTEST_KNOTS = 40
MOST_DAYS_BETWEEN_SHIPS = 366
# A base for a revenue ton or a cubic metre; more is meant for a vehicle or a container.
LARGEST_BASE_E4 = 1_000 * 10_000
# What a port that handles it is said to handle, and the column that says so.
_HANDLED = {"roro": ("RoRo", "RoRo"), "container": ("containers", "Container")}


def ports_have_codes(tables: Tables) -> Iterator[Problem]:
    """A port is named by its UN/LOCODE, whose first two letters are its country."""
    for row in tables.ports:
        if not is_port_code(row.port):
            wrong = f'"{row.port}" is not a UN/LOCODE'
            remedy = "write two letters for the country and three letters or figures from 2 to 9, e.g. USSAV"
            yield fault(row, "port", wrong, remedy)
        elif row.port[:2].upper() != row.country:
            wrong = f"{row.port} is a port of {row.port[:2].upper()}, not of {row.country}"
            yield fault(row, "country", wrong, f"write {row.port[:2].upper()}, or correct the code")


def ports_stand_once(tables: Tables) -> Iterator[Problem]:
    """A port stands in one row, or the program would not know which of its charges hold."""
    first: dict[str, Port] = {}
    for row in tables.ports:
        earlier = first.setdefault(row.port.upper().replace(" ", ""), row)
        if earlier is not row:
            yield fault(
                row, "port", f'"{row.port}" is already at {short_cell(earlier, "port")}', "remove one of the two"
            )


def ports_stand_where_they_are(tables: Tables) -> Iterator[Problem]:
    """A port lies where the table of ports has it, or miles by sea and road are counted from elsewhere."""
    for row in tables.ports:
        if abs(row.latitude) > 90 or abs(row.longitude) > 180:
            field = "latitude" if abs(row.latitude) > 90 else "longitude"
            yield fault(
                row, field, f"{getattr(row, field):g} degrees are beyond the globe", "write degrees, e.g. 32.08"
            )
            continue
        known = find_port(row.port) if is_port_code(row.port) else None
        if known is None:
            if is_port_code(row.port):
                message = f"{row.port} does not stand in the program's table of ports, so its place was not compared"
                yield warning(row, "port", message, "check the code, and the coordinates by a map")
            continue
        here = {"latitude_a": row.latitude, "longitude_a": row.longitude}
        away = float(
            great_circle_mi_columns(**here, latitude_b=known.latitude, longitude_b=known.longitude)  # one pair
        )
        if away > FARTHEST_FROM_TABLE_MI:
            message = f"this is {away:,.0f} miles from where {known.name} ({row.port}) lies"
            remedy = f"write {known.latitude:.2f} and {known.longitude:.2f}, or correct the code"
            yield warning(row, "latitude", message, remedy)


def ports_handle_something(tables: Tables) -> Iterator[Problem]:
    """A port takes vehicles that are driven aboard, or containers, or it is of no use."""
    for row in tables.ports:
        if not (row.roro or row.container):
            yield warning(row, "roro", f"{row.name} handles neither RoRo nor containers", "write yes in one of the two")


def services_sail_between_regions(tables: Tables) -> Iterator[Problem]:
    """Both regions of a service have a port that handles its mode, and the first has one that ships."""
    regions: dict[str, list[Port]] = {}
    for port in tables.ports:
        regions.setdefault(port.region.casefold(), []).append(port)
    names = {port.region.casefold(): port.region for port in tables.ports}
    for row in tables.ocean:
        handled = CROSSING_BY_MODE[row.mode].handled
        for field, region in (("from_region", row.from_region), ("to_region", row.to_region)):
            ports = regions.get(region.casefold(), [])
            if not ports and not tables.may_stand_in("Ports", region):
                near = nearest(region, names.values())
                remedy = f'write "{near}"' if near else "give the region to a port, or write one that stands there"
                yield fault(row, field, f'no port of the sheet Ports lies in "{region}"', remedy)
            elif ports and not any(getattr(port, handled) for port in ports):
                what, header = _HANDLED[handled]
                yield fault(row, field, f'no port in "{region}" handles {what}', f"say yes under {header} for one")
            elif ports and field == "from_region" and not any(p.exports and getattr(p, handled) for p in ports):
                yield fault(
                    row, field, f'nothing ships from "{region}" this way', "say yes under Ships from here for a port"
                )


def ports_are_served(tables: Tables) -> Iterator[Problem]:
    """A region has a service that leaves from its ports that ship, and one that goes to the others, or they are never used."""
    sides: dict[str, dict[str, str]] = {"leaves from": {}, "goes to": {}}
    for service in tables.ocean:
        sides["leaves from"].setdefault(service.from_region.casefold(), service.from_region)
        sides["goes to"].setdefault(service.to_region.casefold(), service.to_region)
    lie_in = {port.region.casefold() for port in tables.ports}
    told: set[tuple[str, str]] = set()
    for row in tables.ports if tables.ocean else ():
        side = "leaves from" if row.exports else "goes to"
        served, region = sides[side], row.region.casefold()
        if region in served or (side, region) in told or tables.may_stand_in("Ocean", row.region):
            continue
        told.add((side, region))
        near = nearest(row.region, served.values())
        # A region that only Ocean writes so is told there.
        if near is None or near.casefold() in lie_in:
            message = f'no service of the sheet Ocean {side} "{row.region}", so {row.name} is never used'
            yield warning(row, "region", message, f'write "{near}"' if near else "name the region in a row of Ocean")


def services_have_a_price(tables: Tables) -> Iterator[Problem]:
    """A service has a base or a rate, counted by a unit that its mode has."""
    for row in tables.ocean:
        if row.base_e4 == 0 and row.per_nmi_e4 == 0:
            yield fault(row, "base_e4", "the service has neither a base nor a rate", "fill one of the two")
        bases = CROSSING_BY_MODE[row.mode].bases
        if row.basis not in bases:
            yield fault(row, "basis", f'"{row.basis}" does not suit {row.mode}', f"write {in_words(bases)}")
        elif row.basis in ("per W/M", "per m³") and row.base_e4 > LARGEST_BASE_E4:
            remedy = "correct the base, or count it per vehicle"
            yield fault(row, "base_e4", f"{row.base_e4 / 10_000:,.0f} is too large for one {row.basis[4:]}", remedy)


def only_ships_tow(tables: Tables) -> Iterator[Problem]:
    """What a vehicle that does not run costs more is asked where it is driven or lifted aboard by itself, not in a container."""
    for row in tables.ocean:
        if CROSSING_BY_MODE[row.mode].is_packed and row.inoperable_minor:
            message = "a container costs the same whether its vehicles run, so this is never charged"
            remedy = 'clear the cell, or charge it on the sheet Stage charges, "no" under Runs'
            yield warning(row, "inoperable_minor", message, remedy)


def containers_have_sizes(tables: Tables) -> Iterator[Problem]:
    """A container that a service prices has a row of sizes, and no size is zero."""
    known = {row.container for row in tables.containers}
    are_unread = tables.unread.get("Containers") != frozenset()
    for service in tables.ocean if known and not are_unread else ():
        size, crossing = service.basis.removeprefix("per "), CROSSING_BY_MODE[service.mode]
        if crossing.is_packed and service.basis in crossing.bases and size not in known:
            message = f"the sheet Containers has no row for {size}, so nothing is packed into it"
            yield fault(service, "basis", message, "add the row")
    first: dict[str, ContainerType] = {}
    for row in tables.containers:
        earlier = first.setdefault(row.container, row)
        if earlier is not row:
            message = f"{row.container} is already at {short_cell(earlier, 'container')}"
            yield fault(row, "container", message, "remove one of the two")
        for field in _SIZES:
            if getattr(row, field) == 0:
                yield fault(row, field, "a container of no size holds nothing", "write the size")


def ships_sail(tables: Tables) -> Iterator[Problem]:
    """A service sails again after some days, at a ship's speed; listed sailings are days."""
    for row in tables.ocean:
        if row.sails_every_days == 0:
            yield fault(
                row, "sails_every_days", "the ship sails every 0 days", "write the days between sailings, e.g. 14"
            )
        if not 0 < row.knots <= FASTEST_KNOTS:
            yield fault(row, "knots", f"{row.knots:g} knots are not the speed of a ship", "write its knots, e.g. 14.3")
        for day in row.sailings:
            if not _is_day(day):
                yield fault(row, "sailings", f'"{day}" is not a day', "write days as 2026-12-04, divided by ;")
        yield from _far_apart(row)


def _far_apart(row: OceanService) -> Iterator[Problem]:
    """Listed sailings follow each other; one more than a year from its neighbours was typed with another year than was meant."""
    days = sorted(date.fromisoformat(day) for day in row.sailings if _is_day(day))
    for first, following in pairwise(days):
        if (following - first).days > MOST_DAYS_BETWEEN_SHIPS:
            message = f"the listed sailings of {first} and {following} are more than a year apart, and the later is not planned"
            yield warning(row, "sailings", message, "correct the year, or leave out the day that is not meant")


def services_stand_once(tables: Tables) -> Iterator[Problem]:
    """A service has a name of its own, by which the office finds its row."""
    first: dict[str, OceanService] = {}
    for row in tables.ocean:
        earlier = first.setdefault(row.service.casefold(), row)
        if earlier is not row:
            message = f'"{row.service}" is already at {short_cell(earlier, "service")}'
            yield fault(row, "service", message, "give one of the two another name")


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


_SIZES = (
    "inside_length_mm",
    "inside_width_mm",
    "inside_height_mm",
    "door_width_mm",
    "door_height_mm",
    "payload_kg",
)

CHECKS = (
    ports_have_codes,
    ports_stand_once,
    ports_stand_where_they_are,
    ports_handle_something,
    services_stand_once,
    services_sail_between_regions,
    ports_are_served,
    services_have_a_price,
    only_ships_tow,
    containers_have_sizes,
    ships_sail,
)
