"""What must be true of the sheets Ocean quotations and Port charges: whole rows, ports and lines of the book, one price each."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.ocean import LARGEST_BASE_E4
from shipcalc.ratebook.checks.quoted_twice import charges_stand_once, quotations_stand_once
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.ports import Port, names_of
from shipcalc.ratebook.rows.quotations import OceanQuotation, quotation_of, size_of
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.ratebook.workbook.misread import nearest
from shipcalc.ratebook.workbook.shown import in_words
from shipcalc.trade import CROSSING_BY_MODE, LARGEST_BASE

_OF_FREIGHT = ("mode", "from_port", "to_port", "basis", "amount_e4")
_ONLY_FREIGHT = ("includes", "free_days", "transit_days", "cutoff_days")
_MEASURES = ("per W/M", "per m³")


def quotations_are_whole(tables: Tables) -> Iterator[Problem]:
    """Freight has a mode, both ends, a basis and an amount; a surcharge an amount with its basis, or a percentage."""
    for row in tables.quotations:
        headers = {field: column.header for field, column in columns_of(OceanQuotation).items()}
        if row.surcharge is None:
            for field in _OF_FREIGHT:
                if not getattr(row, field):
                    remedy = "fill it, or name the row's Surcharge" if field != "basis" else _WITH_BASIS
                    yield fault(row, field, f'a row of freight has no "{headers[field]}"', remedy)
            if row.percent_ppm is not None:
                yield fault(row, "percent_ppm", "freight is an amount", "clear it, or name the row's Surcharge")
            continue
        if (row.amount_e4 is None) == (row.percent_ppm is None):
            told = "both an amount and a percentage" if row.percent_ppm is not None else "no amount and no percentage"
            yield fault(row, "amount_e4", f"the surcharge has {told}", "fill one of the two")
        elif row.amount_e4 is not None and row.basis is None:
            yield fault(row, "basis", "the amount has no basis", _WITH_BASIS)
        elif row.percent_ppm is not None and row.stage not in (None, "main carriage"):
            message = "a percentage of the freight arises with it, at the main carriage"
            yield fault(row, "stage", message, "clear it, or write an amount")
        if row.percent_ppm is not None and row.minimum_e4 is not None:
            message = "a minimum beside a percentage is never asked for"
            yield warning(row, "minimum_e4", message, "clear it, or write the surcharge as an amount with its basis")
        for field in _ONLY_FREIGHT:
            if getattr(row, field) not in (None, ()):
                message = f'"{headers[field]}" is read from the row of the freight alone'
                yield warning(row, field, message, "write it there")


_WITH_BASIS = "write what the amount is for, e.g. per W/M, per vehicle or per shipment"


def bases_suit_their_mode(tables: Tables) -> Iterator[Problem]:
    """What is counted is what the mode has: containers where they are packed, vehicles and their sizes elsewhere."""
    for row in tables.quotations:
        if row.mode is not None and row.basis is not None and row.basis not in _bases_for(row, row.mode):
            what = "freight" if row.surcharge is None else "a surcharge"
            message = f'"{row.basis}" does not suit {what} by {row.mode}'
            yield fault(row, "basis", message, f"write {in_words(_bases_for(row, row.mode))}")


def _bases_for(row: OceanQuotation, mode: str) -> tuple[str, ...]:
    counted, is_packed = CROSSING_BY_MODE[mode].bases, CROSSING_BY_MODE[mode].is_packed
    if not is_packed:
        return (*counted, "per shipment")
    return counted if row.surcharge is None else (*counted, "per container", "per vehicle", *_MEASURES, "per shipment")


def quotations_name_ports(tables: Tables) -> Iterator[Problem]:
    """Both ends are ports, groups or regions of the sheet Ports; one that ships, the other one to arrive at."""
    by_name: dict[str, list[Port]] = {}
    for port in tables.ports:
        for name in names_of(port):
            by_name.setdefault(name, []).append(port)
    spelt = {name.casefold(): name for port in tables.ports for name in (port.port, port.region, *port.groups)}
    for row in tables.quotations:
        for field, exports in (("from_port", True), ("to_port", False)):
            name = getattr(row, field)
            ports = by_name.get((name or "").casefold(), ())
            if name and not ports and not tables.may_stand_in("Ports", name):
                near = nearest(name, spelt.values())
                remedy = f'write "{near}"' if near else "add it to the sheet Ports, or write one that stands there"
                yield fault(row, field, f'"{name}" is no port, group or region of the sheet Ports', remedy)
            elif ports and not any(port.exports == exports and _handles(port, row.mode) for port in ports):
                told = "ships" if exports else "is one to arrive at"
                message = f'no port of "{name}" {told}{f" and handles {row.mode}" if row.mode else ""}'
                yield fault(row, field, message, "correct the name, or say on the sheet Ports what it does")


def _handles(port: Port, mode: str | None) -> bool:
    return mode is None or bool(getattr(port, CROSSING_BY_MODE[mode].handled))


def quotations_have_a_ship(tables: Tables) -> Iterator[Problem]:
    """The line sails, and a service of the mode leaves and arrives there, or the row is never used."""
    lines = {row.carrier.casefold(): row.carrier for row in tables.ocean}
    regions: dict[tuple[str, bool], set[str]] = {}
    for port in tables.ports:
        for name in names_of(port):
            regions.setdefault((name, port.exports), set()).add(port.region.casefold())
    for row in tables.quotations:
        if row.line and row.line.casefold() not in lines and not tables.may_stand_in("Ocean", row.line):
            near = nearest(row.line, lines.values())
            remedy = f'write "{near}"' if near else "add its service to the sheet Ocean, or leave it blank"
            yield fault(row, "line", f'"{row.line}" is no Carrier of the sheet Ocean', remedy)
            continue
        if row.surcharge is not None or row.mode is None or row.basis not in _bases_for(row, row.mode):
            continue  # a slip that is told elsewhere
        outward = regions.get(((row.from_port or "").casefold(), True))
        inward = regions.get(((row.to_port or "").casefold(), False))
        if outward and inward and not any(_sails(row, tables, outward, inward)):
            message = f"no service of the sheet Ocean goes there by {row.mode}, so the row is never used"
            yield warning(row, "from_port", message, "add the service with its sailings")


def _sails(row: OceanQuotation, tables: Tables, outward: set[str], inward: set[str]) -> Iterator[bool]:
    for service in tables.ocean:
        is_its_own = row.line is None or service.carrier.casefold() == row.line.casefold()
        size = size_of(row.basis)
        if is_its_own and service.mode == row.mode and size in ("", size_of(service.basis)):
            yield service.from_region.casefold() in outward and service.to_region.casefold() in inward


def surcharges_have_freight(tables: Tables) -> Iterator[Problem]:
    """A surcharge belongs to freight of its own quotation, and lasts as long."""
    freight: dict[tuple[str, str], list[OceanQuotation]] = {}
    for row in tables.quotations:
        if row.surcharge is None:
            freight.setdefault(quotation_of(row), []).append(row)
    numbers = {row.quotation for rows in freight.values() for row in rows}
    for row in tables.quotations:
        own = freight.get(quotation_of(row), ())
        if row.surcharge is None or tables.may_stand_in("Ocean quotations", row.quotation):
            continue
        if not own:
            near = nearest(row.quotation, numbers)
            message = f'the quotation "{row.quotation}" of {row.forwarder} has no row of freight'
            yield fault(row, "quotation", message, f'write "{near}"' if near else "add it, with Surcharge left blank")
            continue
        ends = [each.valid_to for each in own]
        if row.valid_to is not None and not any(end is not None and end <= row.valid_to for end in ends):
            message = f"the surcharge ends on {row.valid_to}, before its freight: from then on it is not charged"
            yield warning(row, "valid_to", message, "give it the date of the freight, or leave it blank")


def amounts_are_meant(tables: Tables) -> Iterator[Problem]:
    """An amount is one for its unit in the book's currency, however large the figure is in its own."""
    in_order = sorted(tables.currencies, key=lambda rate: rate.as_of)
    latest = {rate.currency.upper(): rate.rate for rate in in_order if rate.rate}
    rows: tuple[OceanQuotation | PortCharge, ...] = (*tables.quotations, *tables.port_charges)
    for row in rows:
        rate = latest.get((row.currency or "").upper(), 1)
        is_measured = getattr(row, "basis", None) in _MEASURES or getattr(row, "per", None) == "revenue ton"
        most_e4 = LARGEST_BASE_E4 if is_measured else LARGEST_BASE * 10_000
        for field in ("amount_e4", "minimum_e4"):
            amount = getattr(row, field, None)
            own_e4 = most_e4 if field == "amount_e4" else LARGEST_BASE * 10_000
            if amount and amount / rate > own_e4:
                message = f"{amount / 10_000:,.0f} {row.currency or ''}".strip()
                yield fault(row, field, f"{message} is too large here", "correct the amount, its basis or its currency")


def port_charges_can_arise(tables: Tables) -> Iterator[Problem]:
    """What a port charges has an amount and a unit that its mode has; only storage begins on a day."""
    for row in tables.port_charges:
        if row.amount_e4 == 0:
            yield warning(row, "amount_e4", "nothing is charged", "fill the amount, or remove the row")
        if row.from_day is not None and row.per != "vehicle a day":
            yield fault(row, "from_day", f"a charge for a {row.per} begins on no day", "clear it")
        elif row.from_day == 0:
            yield fault(row, "from_day", "the first day after the free ones is day 1", "write 1")
        if row.mode is not None and row.per == "container" and not CROSSING_BY_MODE[row.mode].is_packed:
            message = f"by {row.mode} no container is counted, so this is never charged"
            yield fault(row, "per", message, "write vehicle or revenue ton")


def zones_stand_once(tables: Tables) -> Iterator[Problem]:
    """A town, region or beginning of a postal code has one row of On-carriage for its trailer and port."""
    first: dict[tuple[object, ...], object] = {}
    for row in tables.on_carriage:
        for field in ("towns", "postal_codes", "regions"):
            others = tuple(getattr(row, other) for other in ("towns", "postal_codes", "regions") if other != field)
            for name in getattr(row, field):
                key = row.country, row.trailer, (row.port or "").casefold(), field, name.casefold(), others
                earlier = first.setdefault(key, row)
                if earlier is not row:
                    where = short_cell(earlier, field)  # type: ignore[arg-type]
                    yield fault(row, field, f'"{name}" is already at {where}', "leave it in one of the two rows")


CHECKS = (
    quotations_are_whole,
    bases_suit_their_mode,
    quotations_name_ports,
    quotations_have_a_ship,
    surcharges_have_freight,
    quotations_stand_once,
    amounts_are_meant,
    port_charges_can_arise,
    charges_stand_once,
    zones_stand_once,
)
