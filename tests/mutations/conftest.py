"""Proofs that a change of a cell cannot change a price, a date, a paper or a sentence: each is computed from the rows themselves."""

import ast
from datetime import date
from functools import cache
from pathlib import Path

import numpy as np
import pytest

import shipcalc
from shipcalc.compare.basket_last_leg import place_so_far, ports_for
from shipcalc.compare.trial import towns_of
from shipcalc.places.gazetteer.postal_codes import zip_place
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.places.road.reach import land_of
from shipcalc.places.straight import great_circle_mi
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.fuel import fuel_charges
from shipcalc.pricing.loaded import loads_of
from shipcalc.pricing.ocean import sea_services
from shipcalc.pricing.quotations import quoted_between
from shipcalc.quote.edges.on_carriage import driving_days
from shipcalc.quote.network.ports import arrival_ports
from shipcalc.quote.network.sea_miles import SeaMiles
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.price.exchange import rate_on
from shipcalc.quote.price.lines import ESTIMATED_STAGES
from shipcalc.ratebook.checks.names import naming_field
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.ratebook.rows.quotations import quotation_of
from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.ratebook.workbook.columns import Kind, columns_of
from shipcalc.records import replace
from shipcalc.schedule.voyage import late_days
from shipcalc.vehicles.sizes import BODIES, SIZE_FIELDS, body_keys, find_size
from shipcalc.vehicles.vehicle import WORKS

DAY = date(2026, 12, 1)
PACKAGE = Path(shipcalc.__file__).parent
ROOMS = ("pricing", "quote", "paperwork", "schedule", "places", "vehicles")
OF_A_CROSSING = {"amount_minor", "crossing_nmi", "crossing_hours", "sailings", "extra_days"}
AT_EXPORT = {"free_days", "free_days_count", "storage_first_minor", "storage_first_days", "storage_then_minor",
             "document_hours", "document_hours_count", "cutoff_days", "loading_hours"}  # fmt: skip
MOST_MILES_TRIED = 12
OF_THE_DAY_OF_QUOTE = {kind.rows for kind in WORKBOOKS["paperwork.xlsx"]}
MOST_DAYS_AT_SEA = 80
# A crossing so little elsewhere is at the same gate: no road is a mile longer for it.
SAME_GATE_MI = 0.01
# How its source was learnt is told with a paper and a task (`quote/explain/paper_trail.py`); of prices the office reads it in the sheet.
TOLD_WITH_TRUST = {"documents", "tasks"}
ONLY_WARNINGS = {"fuel price stale after (days)", "source stale after (days)", "currency rate stale after (days)"}


@pytest.fixture(scope="module")
def proved():
    """A function that returns why a change cannot matter, or "": of the rows as they were and are, the fields, both books."""
    return why_not


def why_not(was, is_now, fields, books) -> str:
    rows = [row for found in (was, is_now) for rows in found.values() for row in rows]
    kinds = {kind.rows for kind, _ in fields}
    names = {name for _, name in fields}
    if fields and not any(is_read(kind, name) for kind, name in fields):
        return "cannot: no quote reads it"
    if rows and all(getattr(row, "valid_to", None) is not None and row.valid_to < DAY for row in rows):
        return "cannot: out of force"
    last = min((book.pricing.valid_to for book in books if book.pricing.valid_to), default=date.max)
    if (
        names == {"valid_to"}
        and kinds <= OF_THE_DAY_OF_QUOTE
        and all(row.valid_to is None or row.valid_to >= last for row in rows)
    ):
        return "cannot: no quote is made after the last day of the book"
    if names == {"valid_from"} and all(row.valid_from is None or row.valid_from <= DAY for row in rows):
        return "cannot: in force from today on"
    if kinds != {"settings"} and all(columns_of(kind.row_type)[name].kind is Kind.TEXT for kind, name in fields):
        return "cannot: words alone"
    if all(same_letters(was[kind], is_now[kind]) for kind in kinds):
        return "cannot: the case of letters"
    if len(kinds) != 1:
        return ""
    (kind,) = kinds
    pairs = list(zip(was[kind], is_now[kind], strict=False))
    whole = len(was[kind]) == len(is_now[kind])
    why = PROOFS[kind](names, pairs, books) if whole and kind in PROOFS else ""
    return why and f"cannot: {why}"


@cache
def is_read(kind, field: str) -> bool:
    """Return whether any room that makes a quote reads a field of a row: its name stands in the program outside the rate book.

    A row's own name, which no other sheet refers to, is read only as an attribute: in quotes it is a code of a line.
    """
    attributes, quoted = names_in_the_program()
    if field == "trust":
        return kind.rows in TOLD_WITH_TRUST
    if field in attributes or any(
        field.startswith(stem) for stem in ("length_", "width_", "height_", "mass_", "value_")
    ):
        return True
    return field in quoted and field != naming_field(kind.row_type)


@cache
def names_in_the_program() -> tuple[set[str], set[str]]:
    """Return the attributes that are read, and the words in quotes."""
    attributes, quoted = set(), set()
    for file in (file for room in ROOMS for file in (PACKAGE / room).rglob("*.py") if "basket" not in file.name):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Attribute):
                attributes.add(node.attr)
            elif isinstance(node, ast.Constant) and isinstance(node.value, str):
                quoted.add(node.value)
    return attributes, quoted


def of_settings(names, pairs, books) -> str:
    if names <= {"unit", "note"}:
        return "words alone"
    if replace(books[0].pricing, cells={}) == replace(books[1].pricing, cells={}):
        return "read as the same"
    only = all(row.setting.casefold() in ONLY_WARNINGS for pair in pairs for row in pair)
    return "only when a warning is given" if only else ""


def of_extras(names, pairs, books) -> str:
    """What is charged on the value above a carrier's cover is nothing for a value that no carrier's cover is below."""
    rows = [row for pair in pairs for row in pair]
    if names <= set(WORKS) and all(
        row.trailer == "driven" and all(getattr(row, n) is not False for n in names) for row in rows
    ):
        return "what is driven works"
    if names != {"value_over_minor"} or any(row.of != "value above cover" for row in rows):
        return ""
    least = min(carrier.cover_minor for book in books for carrier in book.carriers)
    return "below every carrier's cover" if all((row.value_over_minor or 0) <= least for row in rows) else ""


def of_ports(names, pairs, books) -> str:
    if names <= AT_EXPORT and not any(row.exports for pair in pairs for row in pair):
        return "only asked of ports that are left from"
    if names == {"groups"} and all(same_offers(*pair, *books) for pair in pairs):
        return "no ship that calls there is quoted otherwise"
    rows = [row for pair in pairs for row in pair]
    if names <= {"gate_minor", "wharfage_e4"} and not any(
        row.roro and is_called_at(row, "roro", books) for row in rows
    ):
        return "nothing is driven on or off there"
    boxes = ("container", "shared container")
    if names <= {"thc_minor"} and not any(
        row.container and is_called_at(row, mode, books) for row in rows for mode in boxes
    ):
        return "no container is handled there"
    return "storage and cut-off days, in no price" if names <= AT_EXPORT | {"days_off"} else ""


def same_offers(was, is_now, old, new) -> bool:
    """Return whether what is quoted for every ship from or to a port is the same by its groups then and now."""

    def quoted(port, book):
        for service in sea_services(book_of_day(book, DAY).ocean):
            ends = [service.row.from_region.casefold(), service.row.to_region.casefold()]
            for far in book.ports if port.region.casefold() == ends[not port.exports] else ():
                if far.exports != port.exports and far.region.casefold() == ends[port.exports]:
                    pair = (port, far) if port.exports else (far, port)
                    offers = quoted_between(book, DAY, service, *pair)
                    yield offers and [row.at.row for offer in offers.by_size.values() for row in offer.rows]

    return list(quoted(was, old)) == list(quoted(is_now, new))


def is_called_at(port, mode: str, books) -> bool:
    """Return whether a ship of that mode sails from or to the port's region, as the port asks."""
    ends = [(row.from_region if port.exports else row.to_region, row.mode) for book in books for row in book.ocean]
    return any(region.casefold() == port.region.casefold() and own == mode for region, own in ends)


def of_import_charges(names, pairs, books) -> str:
    """Without an age from which a vehicle is a collector's piece, every one of the country is treated as ordinary.

    Duty and tax differ where a later row of the country counts on them.
    """
    rows = [row for pair in pairs for row in pair]
    if names == {"kind"}:
        return (
            "no later row counts on it"
            if not any(counts_on_earlier(row, book) for row in rows for book in books)
            else ""
        )
    if names != {"treatment"} or any(row.treatment == "collector" for row in rows):
        return ""
    treated = {row.country.upper() for row in rows}
    ages = [c.collector_from_years for book in books for c in book.countries if c.country.upper() in treated]
    return "nothing is a collector's piece there" if not any(ages) else ""


def counts_on_earlier(row, book) -> bool:
    """Return whether a row below this one, of its country, is a share of duty or tax."""
    below = [r for r in book.import_charges if r.country.upper() == row.country.upper() and r.at.row > row.at.row]
    treated = [r for r in below if None in (r.treatment, row.treatment) or r.treatment == row.treatment]
    return any(word in (r.base or "").casefold() for r in treated for word in ("duty", "tax"))


def of_seasons(names, pairs, books) -> str:
    """A season's own name stands in its row alone: a quote says its label."""
    return "a name that no quote reads" if names == {"season"} else ""


def of_areas(names, pairs, books) -> str:
    """A name is read where others name it, and where a charge of the area has no label."""
    if names == {"area"} and all(row.label or not row.charge for pair in pairs for row in pair):
        same = extents_named(books[0]) == extents_named(books[1])
        return "whoever names areas means the same places" if same else ""
    return of_zips(names, pairs)


def extents_named(book) -> list[frozenset]:
    """Return what each list of areas that carriers and seasons name comes to, as the extents of its rows."""
    lists = [areas for row in book.carriers for areas in (row.from_areas, row.to_areas)]
    lists += [(name,) if name else () for row in book.seasons for name in (row.from_area, row.to_area)]
    wanted = [{name.casefold() for name in names} for names in lists]
    return [
        frozenset((a.country, a.state, a.zip_from, a.zip_to) for a in book.areas if a.area.casefold() in names)
        for names in wanted
    ]


def of_zips(names, pairs) -> str:
    """Both rows hold the same of all codes that five digits can be."""
    if not names <= {"zip_from", "zip_to"} or any(row.zip_from is None for pair in pairs for row in pair):
        return ""
    held = [{frozenset(codes_held(row)) for row in pair} for pair in pairs]
    return "the same ZIPs" if all(len(told) == 1 for told in held) else ""


def codes_held(area):
    codes = np.array([f"{number:05}" for number in range(100_000)])
    country, state = (np.full(len(codes), text) for text in (area.country, area.state or ""))
    nowhere = np.zeros(len(codes))
    places = PlaceColumns(country=country, subdivision=state, postal_code=codes, latitude=nowhere, longitude=nowhere)
    return codes[lane_columns(places, places, nowhere.astype(np.int64), (area,)).at_pickup[:, 0]].tolist()


def of_fuel(names, pairs, books) -> str:
    return "the same surcharges on every day that a price has" if same_surcharges(*books) else ""


def same_surcharges(*books) -> bool:
    """Return whether all schemes ask the same by both books, whenever a price of either begins; what nobody sees left out."""
    days = {row.as_of for book in books for row in (*book.diesel, *book.fuel) if row.as_of}
    told = [
        [
            {
                name: (one.rate_e4, one.percent_ppm, one.label)
                for name, one in fuel_charges(b.fuel, day, b.diesel, b.fuel_steps).items()
            }
            for day in sorted(days)
        ]
        for b in books
    ]
    return all(one == told[0] for one in told)


def of_loaded(names, pairs, books) -> str:
    """Every service of either book pays the same for as many vehicles: a trailer that the carrier alone runs need not be named."""
    services = {(row.carrier, row.trailer) for book in books for row in book.carriers}
    told = [
        [
            [(r.vehicles, r.percent_ppm, r.less_minor, r.valid_from, r.valid_to) for r in loads_of(b.loaded, *s)]
            for s in sorted(services)
        ]
        for b in books
    ]
    return "the same for every service" if told[0] == told[1] else ""


def of_classes(names, pairs, books) -> str:
    """A trailer that the carrier alone runs need not be named."""
    runs = {(row.carrier.casefold(), row.trailer) for book in books for row in book.carriers}
    alone = all(len({trailer for name, trailer in runs if name == row.carrier.casefold()}) == 1 for row, _ in pairs)
    return "the carrier runs no other trailer" if names == {"trailer"} and alone else ""


def of_markups(names, pairs, books) -> str:
    """What is added to the least linehaul of any truck, at the least markup there is, is more than the least margin."""
    if names != {"least_minor"}:
        return ""
    sums = [row.minimum_minor for book in books for row in book.carriers]
    sums += [minor for book in books for row in book.lanes for minor in (row.flat_minor, row.minimum_minor) if minor]
    shares = [row.linehaul_ppm for book in books for row in book.markups if row.linehaul_ppm is not None]
    markup = min([*shares, *(book.pricing.markup_linehaul_ppm for book in books)])
    loaded = [(row.percent_ppm or 1_000_000, row.less_minor or 0) for book in books for row in book.loaded]
    together = [(least * ppm // 1_000_000 - less) * markup // 1_000_000 for least in sums for ppm, less in loaded]
    told = [row.least_minor for pair in pairs for row in pair if row.least_minor is not None]
    alone = min(sums) * markup // 1_000_000
    return "every truck brings more" if min([alone, *together]) > max(told) else ""


def of_ferries(names, pairs, books) -> str:
    """Miles on the water are told in whole ones. By a ferry that takes no vehicles none goes: it is asked which lands it joins."""
    rows = [row for pair in pairs for row in pair]
    if not any(row.takes_vehicles for row in rows) and names <= {"from_zip", "to_zip", *OF_A_CROSSING}:
        lands = [
            {frozenset(land_of(zip_place(code).place) for code in (row.from_zip, row.to_zip)) for row in pair}
            for pair in pairs
        ]
        return "no vehicle goes by it, and it joins the same lands" if all(len(told) == 1 for told in lands) else ""
    told = [[None if row.crossing_nmi is None else max(1, round(row.crossing_nmi)) for row in pair] for pair in pairs]
    return "the same whole miles" if names == {"crossing_nmi"} and all(a == b for a, b in told) else ""


def of_sizes(names, pairs, books) -> str:
    """Every word that either book, or the trade, has for a body leads to the same sizes in both."""
    if not names <= {"also"} or body_keys(books[0].sizes) != body_keys(books[1].sizes):
        return ""
    own = {word for book in books for row in book.sizes for word in (row.body, *row.also)}
    words = own | {word for words in BODIES for word in words}
    return (
        "every word leads to the same sizes" if all(len({found(w, book) for book in books}) == 1 for w in words) else ""
    )


def found(word: str, book):
    size = find_size(word, book.sizes)
    return None if size is None else (size.body, *(getattr(size, field) for field in SIZE_FIELDS))


def of_containers(names, pairs, books) -> str:
    """What is wider than the door does not come in, however wide it is inside."""
    widths = {"inside_width_mm", "door_width_mm"}
    narrowest = [[min(row.inside_width_mm, row.door_width_mm) for row in pair] for pair in pairs]
    return "the door is narrower" if names <= widths and all(a == b for a, b in narrowest) else ""


def of_loading(names, pairs, books) -> str:
    """The code of a way stands in the codes of its lines; that taking off is not priced is said of what cannot be driven."""
    sums = ("loading_minor", "equipment_minor", "unloading_minor")
    unnamed = all(
        not any(getattr(row, field) for field in sums) for a, b in pairs if a.code != b.code for row in (a, b)
    )
    if names == {"code"} and unnamed:
        return "names no line"
    drives = all(
        row.runs and row.rolls and row.steers and row.brakes for pair in pairs for row in pair if pair[0] != pair[1]
    )
    free = not any(row.unloading_minor for a, b in pairs if a.unloading_minor != b.unloading_minor for row in (a, b))
    return "what drives off is not asked about" if names == {"unloading_minor"} and drives and free else ""


def of_ocean(names, pairs, books) -> str:
    """The base alone, without a mile, is more than the minimum of a whole unit; tons of a vehicle may be less than one."""
    rows = [row for pair in pairs for row in pair]
    if names == {"first_sailing"} and all(not row.sailings for row in rows):
        rhythm = [{row.first_sailing.toordinal() % row.sails_every_days for row in pair} for pair in pairs]
        return "any sailing tells the same days" if all(len(told) == 1 for told in rhythm) else ""
    if names == {"late_ppm"}:
        at_sea = np.arange(1, MOST_DAYS_AT_SEA)
        late = [[late_days(at_sea, row.late_ppm).tolist() for row in pair] for pair in pairs]
        return "the same whole days" if all(a == b for a, b in late) else ""
    if names == {"avoids"}:
        return "every way at sea is the same" if all(same_ways_at_sea(*pair, books[0]) for pair in pairs) else ""
    if names != {"minimum_minor"} or books[0].pricing.currency != "USD":
        return ""
    whole = all(row.basis not in ("per W/M", "per m³") for row in rows)
    return "the base is above the minimum" if whole and all(r.minimum_minor * 100 <= r.base_e4 for r in rows) else ""


def same_ways_at_sea(was, is_now, book) -> bool:
    """Return whether all lanes of a service are as long, by the same passages, with what it avoids now as before."""
    begins, ends = (
        [port for port in book.ports if port.exports == exports and port.region.casefold() == region.casefold()]
        for exports, region in ((True, was.from_region), (False, was.to_region))
    )
    miles = SeaMiles(book.ports)
    return all(miles.between(a, b, was.avoids) == miles.between(a, b, is_now.avoids) for a in begins for b in ends)


def of_stage_charges(names, pairs, books) -> str:
    """Some stages are estimates, whatever their rows say."""
    always = all(row.stage in ESTIMATED_STAGES for pair in pairs for row in pair)
    return "the whole stage is an estimate" if names == {"estimate"} and always else ""


def of_quotations(names, pairs, books) -> str:
    """A surcharge is only charged with the freight of its quotation: what this says already need not be said again."""
    rows = [row for pair in pairs for row in pair]
    each = all(row.basis == "per vehicle" and row.amount_e4 is not None for row in rows)
    if names == {"minimum_e4"} and each and all((row.minimum_e4 or 0) <= row.amount_e4 for row in rows):
        return "one vehicle is dearer than the minimum"
    if not names <= {"line", "mode", "from_port", "to_port"} or any(row.surcharge is None for row in rows):
        return ""
    freight = [row for book in books for row in book.quotations if row.surcharge is None]
    (name,) = names if len(names) == 1 else ("",)
    said = [(row, other) for row in rows for other in freight if quotation_of(row) == quotation_of(other)]
    same = name and all(getattr(row, name) in (None, getattr(other, name)) for row, other in said)
    return "its freight says so already" if same else ""


def of_port_charges(names, pairs, books) -> str:
    rows = [row for pair in pairs for row in pair]
    if names == {"mode"} and all(row.per == "container" and row.mode in (None, "container") for row in rows):
        return "only containers are counted"
    return ""


def of_on_carriage(names, pairs, books) -> str:
    """Roads to every town of the country that the gazetteer leads to, and a quarter more and half as much, or none by a port."""
    country = pairs[0][0].country.upper()
    miles = sorted(miles_on_from_ports(country, books[0]))
    # Most of the United States is home, where nothing arrives by sea.
    if country == "US" or not towns_of(country):
        return ""
    has_port = any(port.country.upper() == country for port in books[0].ports)
    if not miles:
        return "" if has_port else "no road leads there from a port"
    least, most = 0 if has_port else miles[0] // 2, miles[-1] * 5 // 4
    if names == {"miles_a_day"}:
        days = [{driving_days(row, Port(mi)) for row in pair} for pair in pairs for mi in range(least, most + 1)]
        if all(len(told) == 1 for told in days):
            return "the same days to every town"
        return nowhere_so_far(pairs, range(least, most + 1), books[0])
    if names == {"minimum_minor"} and books[0].pricing.currency == "USD":
        rows = [row for pair in pairs for row in pair]
        above = all((row.base_minor * 100 + row.rate_e4 * least) >= row.minimum_minor * 100 for row in rows)
        if above or has_port:
            return "every town is dearer than the minimum" if above else ""
        counts_to = max((row.minimum_minor - row.base_minor) * 100 // row.rate_e4 for row in rows)
        tried = range(counts_to, 0, -max(1, counts_to // MOST_MILES_TRIED))
        near = (place_so_far(port, country, mi, books[0]) for port in ports_for(country, books[0]) for mi in tried)
        return "" if any(near) else "no place of the country is so near the port of another that the minimum counts"
    return ""


def nowhere_so_far(pairs, miles, book) -> str:
    """No place of the country lies as far from a port as the days differ for."""
    country = pairs[0][0].country
    differing = [mi for mi in miles if any(driving_days(a, Port(mi)) != driving_days(b, Port(mi)) for a, b in pairs)]
    places = (place_so_far(port, country, mi, book) for port in ports_for(country, book) for mi in differing)
    return "" if len(differing) > MOST_MILES_TRIED or any(places) else "no place is as far as the days differ for"


class Port:
    """A port with a road of so many miles."""

    def __init__(self, miles: int) -> None:
        self.miles, self.road = miles, self


def miles_on_from_ports(country: str, book) -> tuple[int, ...]:
    return tuple(p.road.miles for to in towns_of(country) for p in arrival_ports(book, to).ports if p.road)


def of_border_ports(names, pairs, books) -> str:
    """Coordinates moved by less than a gate is wide."""
    if not names <= {"latitude", "longitude"}:
        return ""
    return "at the same gate" if all(great_circle_mi(a, b) < SAME_GATE_MI for a, b in pairs) else ""


def of_countries(names, pairs, books) -> str:
    """A currency counts where a sum of its country is written in it; beside that only the age of its rate is told."""
    if names != {"currency"}:
        return ""
    country = pairs[0][0].country.upper()
    sums = [row for book in books for row in book.import_charges if row.country.upper() == country]
    if any(row.flat is not None or row.above is not None for row in sums):
        return ""
    rates = [rate_on(books[0], row.currency.upper(), DAY) for pair in pairs for row in pair]
    fresh = all(r is None or (DAY - r.as_of).days <= books[0].pricing.currency_stale_after_days for r in rates)
    return "no sum is in its currency" if fresh else ""


def of_papers(names, pairs, books) -> str:
    """Whatever goes to other countries is overseas, and its export is filed; a collector's piece is of a certain age."""
    rows = [row for pair in pairs for row in pair]
    due = {book.pricing.balance_due for book in books}
    if all(row.balance_due and not due & set(row.balance_due) for row in rows):
        return "the balance is due otherwise"
    ages = [c.collector_from_years for book in books for c in book.countries if c.collector_from_years is not None]
    if names == {"age_from"} and all(row.treatment == "collector" and (row.age_from or 0) <= min(ages) for row in rows):
        return "every collector's piece is older"
    implied = names <= {"overseas", "export_filing"} and not any(
        False in (row.overseas, row.export_filing) for row in rows
    )
    abroad = all(row.to_country and not any(is_domestic(code.upper()) for code in row.to_country) for row in rows)
    return "its countries say so already" if implied and abroad else ""


PROOFS = {
    "seasons": of_seasons,
    "documents": of_papers,
    "tasks": of_papers,
    "from_buyer": of_papers,
    "settings": of_settings,
    "extras": of_extras,
    "ports": of_ports,
    "areas": of_areas,
    "import_charges": of_import_charges,
    "diesel": of_fuel,
    "fuel": of_fuel,
    "loaded": of_loaded,
    "fuel_steps": of_fuel,
    "classes": of_classes,
    "markups": of_markups,
    "ferries": of_ferries,
    "ferries_abroad": of_ferries,
    "sizes": of_sizes,
    "containers": of_containers,
    "loading_ways": of_loading,
    "ocean": of_ocean,
    "quotations": of_quotations,
    "port_charges": of_port_charges,
    "stage_charges": of_stage_charges,
    "on_carriage": of_on_carriage,
    "border_ports": of_border_ports,
    "countries": of_countries,
}


def same_letters(was, is_now) -> bool:
    def told(rows):
        return [str([getattr(row, name) for name in columns_of(type(row))]).casefold() for row in rows]

    return told(was) == told(is_now)
