"""Quoted ocean freight held to a slow, obvious reading of the sheet in Decimal arithmetic, and to what must always be true.

The revenue ton is the greater of cubic metres and tonnes, as the tariffs of conference lines print it (common practice).
"""

from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

from hypothesis import assume, given
from hypothesis import strategies as st

from shipcalc.money import PPM
from shipcalc.pricing.fit import Packing
from shipcalc.pricing.loads import Load, freight_of
from shipcalc.pricing.ocean import SeaService
from shipcalc.pricing.quotations import quoted_between
from shipcalc.pricing.quoted import quoted_lines
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.checks.quoted_twice import quotations_stand_once
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.ratebook.rows.containers import ContainerType
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.quotations import OceanQuotation
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)
CENT, FOUR = Decimal("0.01"), Decimal("0.0001")
RATES = {"EUR": 0.8665, "JPY": 151.6}
MARKUP_PPM = 125_000


def a_port(code: str, region: str, *groups: str, exports: bool = False) -> Port:
    place = {"country": code[:2], "latitude": 0.0, "longitude": 0.0}
    return Port(port=code, name=code, region=region, groups=groups, exports=exports, roro=True, container=True, **place)


OUT = (
    a_port("USBAL", "Out", "Bay", exports=True),
    a_port("USNYC", "Out", exports=True),
    a_port("USLGB", "West", "Bay", exports=True),
)
IN = (a_port("DEBRV", "In", "Weser"), a_port("NLRTM", "In", "Range"), a_port("JPYOK", "Far", "Weser", "Range"))
NAMES = {port.port: {port.port, port.region, *port.groups} for port in (*OUT, *IN)}


def a_service(line: str, mode: str, *bases: str) -> SeaService:
    same = {
        "carrier": line,
        "mode": mode,
        "sails_every_days": 7,
        "first_sailing": DAY,
        "from_region": "Out",
        "to_region": "In",
    }
    return SeaService(tuple(OceanService(service=f"{line} {basis}", basis=basis, base_e4=1, **same) for basis in bases))


SERVICES = (
    a_service("Tideway", "roro", "per W/M"),
    a_service("Halcyon", "roro", "per vehicle"),
    a_service("Boxline", "container", "per 20′", "per 40′HC"),
)
SIZES = {"20′": (5_867, 2_350), "40′HC": (11_998, 2_655)}
BOXES = {
    size: ContainerType(
        container=size, inside_length_mm=length, inside_width_mm=2_330, inside_height_mm=height, door_width_mm=2_286,
        door_height_mm=2_261, payload_kg=17_000,
    )
    for size, (length, height) in SIZES.items()
}  # fmt: skip

amounts = st.integers(1, 900_0000)
currencies = st.sampled_from([None, "EUR", "JPY"])
days = st.one_of(st.none(), st.integers(-40, 40).map(lambda number: DAY + timedelta(days=number)))
outward = st.sampled_from(["USBAL", "USNYC", "USLGB", "Out", "West", "Bay"])
inward = st.sampled_from(["DEBRV", "NLRTM", "JPYOK", "In", "Far", "Weser", "Range"])


@st.composite
def freights(draw: st.DrawFn) -> OceanQuotation:
    mode = draw(st.sampled_from(["roro", "container"]))
    bases = ["per W/M", "per m³", "per vehicle", "per shipment"] if mode == "roro" else ["per 20′", "per 40′HC"]
    return OceanQuotation(
        quotation=draw(st.sampled_from(["1", "2"])), forwarder="Harrow Quay", mode=mode, basis=draw(st.sampled_from(bases)),
        line=draw(st.sampled_from([None, "Tideway", "Halcyon", "boxline"])), from_port=draw(outward), to_port=draw(inward),
        amount_e4=draw(amounts), currency=draw(currencies), minimum_e4=draw(st.one_of(st.none(), amounts)),
        valid_from=draw(days), valid_to=draw(days),
    )  # fmt: skip


@st.composite
def surcharges(draw: st.DrawFn) -> OceanQuotation:
    basis = draw(st.sampled_from([None, "per W/M", "per vehicle", "per shipment", "per container", "per 20′"]))
    mode = "container" if basis in ("per container", "per 20′") else draw(st.sampled_from([None, "roro"]))
    own = (
        {"percent_ppm": draw(st.integers(0, 400_000))}
        if basis is None
        else {"amount_e4": draw(amounts), "currency": draw(currencies)}
    )
    return OceanQuotation(
        quotation=draw(st.sampled_from(["1", "2"])), forwarder="harrow quay", surcharge=draw(st.sampled_from(["BAF", "CAF"])),
        mode=mode, from_port=draw(st.one_of(st.none(), outward)), to_port=draw(st.one_of(st.none(), inward)), basis=basis, **own,
    )  # fmt: skip


sheets = st.tuples(st.lists(freights(), max_size=6), st.lists(surcharges(), max_size=5)).map(
    lambda rows: (*rows[0], *rows[1])
)
vehicles = st.builds(
    Vehicle, stock_number=st.just("A"), make=st.just("Larkspur"), model=st.just("Minnow"), length_mm=st.integers(2_500, 5_500),
    width_mm=st.integers(1_300, 2_000), height_mm=st.integers(1_000, 2_000), mass_grams=st.integers(400_000, 9_000_000),
)  # fmt: skip


def a_book(rows: tuple[OceanQuotation, ...]) -> RateBook:
    assume(not list(quotations_stand_once(Tables(ports=(*OUT, *IN), quotations=rows))))
    rates = tuple(Currency(currency=code, as_of=DAY, rate=rate) for code, rate in RATES.items())
    return RateBook(
        folder=Path("rates"),
        fingerprint="0",
        pricing=PricingRules(),
        ports=(*OUT, *IN),
        quotations=rows,
        currencies=rates,
    )


def compiled(
    book: RateBook, service: SeaService, start: Port, end: Port, load: Load, cars: tuple[Vehicle, ...]
) -> Decimal | None:
    """Return the freight of a load with its surcharges as the program sells it; None where nothing is quoted."""
    offers = quoted_between(book_of_day(book, DAY), DAY, service, start, end)
    own = offers.of(load.sizes) if offers else ()
    if not own:
        return None
    lines = quoted_lines(own, load, freight_of(cars), markup_ppm=MARKUP_PPM, currency="USD")
    minor = sum(
        int(line.amount.sum()) * (1 if line.shared or len(line.amount) == len(cars) else len(cars)) for line in lines
    )
    return Decimal(minor) / 100


def holds(row: OceanQuotation, line: str, mode: str, size: str, start: Port, end: Port) -> bool:
    """Read one row plainly: everything that it says is so."""
    if (row.valid_from and row.valid_from > DAY) or (row.valid_to and row.valid_to < DAY):
        return False
    if (row.line and row.line.lower() != line.lower()) or (row.mode and row.mode != mode):
        return False
    if (row.from_port and row.from_port not in NAMES[start.port]) or (
        row.to_port and row.to_port not in NAMES[end.port]
    ):
        return False
    named = row.basis.removeprefix("per ") if row.basis and row.basis.removeprefix("per ") in SIZES else ""
    return named == size if row.surcharge is None else named in ("", size)


def closest(rows: list[OceanQuotation], start: Port, end: Port) -> OceanQuotation | None:
    """The row that names most ports, then most ends, its line, its mode, a size."""

    def names(row: OceanQuotation) -> tuple[int, ...]:
        sized = bool(row.basis) and row.basis.removeprefix("per ") in SIZES
        ports = (row.from_port == start.port) + (row.to_port == end.port)
        return ports, bool(row.from_port) + bool(row.to_port), bool(row.line), bool(row.mode), sized

    return max(rows, key=names, default=None)


def sold(amount_e4: int, currency: str | None, places: Decimal) -> Decimal:
    """An amount in dollars with the markup on it, as it is printed."""
    own = Decimal(amount_e4)
    if currency:
        own = (own / Decimal(str(RATES[currency]))).quantize(Decimal(1), ROUND_HALF_UP)
    return (own / 10_000 * (PPM + MARKUP_PPM) / PPM).quantize(places, ROUND_HALF_UP)


def in_minor(amount_e4: int, currency: str | None) -> Decimal:
    own = Decimal(amount_e4)
    if currency:
        own = (own / Decimal(str(RATES[currency]))).quantize(Decimal(1), ROUND_HALF_UP)
    return (own / 10_000).quantize(CENT, ROUND_HALF_UP)


def marked_up(sum_: Decimal) -> Decimal:
    return sum_ + (sum_ * MARKUP_PPM / PPM).quantize(CENT, ROUND_HALF_UP)


def read_amount(row: OceanQuotation, cars: tuple[Vehicle, ...], containers: int) -> list[Decimal]:
    """What a row comes to: for each vehicle, or once for containers and for the shipment; never under its minimum."""
    if row.basis == "per shipment":
        sums, units = [marked_up(in_minor(row.amount_e4, row.currency))], [1]
    elif row.basis in ("per container", "per 20′", "per 40′HC"):
        sums, units = [sold(row.amount_e4, row.currency, CENT) * containers], [containers]
    elif row.basis == "per vehicle":
        sums, units = [sold(row.amount_e4, row.currency, CENT)] * len(cars), [1] * len(cars)
    else:
        rate = sold(row.amount_e4, row.currency, FOUR)
        sums, units = [(rate * measure(car, row.basis)).quantize(CENT, ROUND_HALF_UP) for car in cars], [1] * len(cars)
    if row.minimum_e4:
        least = marked_up(in_minor(row.minimum_e4, row.currency))
        sums = [max(own, least * unit) for own, unit in zip(sums, units, strict=True)]
    return sums


def measure(car: Vehicle, basis: str) -> Decimal:
    volume = (Decimal(car.length_mm) * car.width_mm * car.height_mm / 10**9).quantize(Decimal("0.001"), ROUND_HALF_UP)
    tonnes = (Decimal(car.mass_grams) / 10**6).quantize(Decimal("0.001"), ROUND_HALF_UP)
    return volume if basis == "per m³" else max(volume, tonnes)


def read(
    rows: tuple[OceanQuotation, ...],
    line: str,
    mode: str,
    size: str,
    start: Port,
    end: Port,
    cars: tuple[Vehicle, ...],
    containers: int,
) -> Decimal | None:
    """The slow reading: the closest row of freight, then of each surcharge of its quotation the closest row."""
    held = [row for row in rows if holds(row, line, mode, size, start, end)]
    freight = closest([row for row in held if row.surcharge is None], start, end)
    if freight is None:
        return None
    parts = read_amount(freight, cars, containers)
    total = sum(parts)
    for name in ("BAF", "CAF"):
        own = [row for row in held if row.surcharge == name and row.quotation == freight.quotation]
        row = closest(own, start, end)
        if row is not None and row.percent_ppm is not None:
            total += sum((part * row.percent_ppm / PPM).quantize(CENT, ROUND_HALF_UP) for part in parts)
        elif row is not None:
            total += sum(read_amount(row, cars, containers))
    return total


@given(sheets, st.lists(vehicles, min_size=1, max_size=3).map(tuple))
def test_the_quoted_price_is_the_slow_reading_to_the_cent(rows, cars):
    book = a_book(rows)
    for service in SERVICES:
        mode = service.row.mode
        for size in ("20′", "40′HC") if mode == "container" else ("",):
            load = Load(mode, Packing(tuple((BOXES[size], (number,)) for number in range(len(cars)))) if size else None)
            for start in OUT:
                for end in IN:
                    slow = read(rows, service.row.carrier, mode, size, start, end, cars, len(cars))
                    assert compiled(book, service, start, end, load, cars) == slow, (
                        service.row.carrier,
                        size,
                        start.port,
                        end.port,
                    )


@given(sheets, freights(), vehicles)
def test_a_quotation_for_one_pair_of_ports_changes_no_other_pair(rows, more, car):
    pair = replace(more, mode="roro", basis="per W/M", from_port="USBAL", to_port="DEBRV", quotation="new")
    before, after = a_book(rows), a_book((*rows, pair))
    for service in SERVICES:
        size = "20′" if service.row.mode == "container" else ""
        load = Load(service.row.mode, Packing(((BOXES[size], (0,)),)) if size else None)
        for start in OUT:
            for end in IN:
                if (start.port, end.port) != ("USBAL", "DEBRV"):
                    ways = [compiled(book, service, start, end, load, (car,)) for book in (before, after)]
                    assert ways[0] == ways[1]


@given(st.lists(st.tuples(st.integers(1, 90), amounts), min_size=1, max_size=5), st.integers(-10, 500), vehicles)
def test_every_day_takes_the_row_of_that_day(periods, number, car):
    """Periods follow each other, each with its own amount; outside of them nothing is quoted."""
    rows, first = [], DAY
    for length, amount in periods:
        last = first + timedelta(days=length - 1)
        same = {"quotation": "1", "forwarder": "Harrow Quay", "mode": "roro", "from_port": "USBAL", "to_port": "DEBRV"}
        rows.append(OceanQuotation(**same, basis="per vehicle", amount_e4=amount, valid_from=first, valid_to=last))
        first = last + timedelta(days=1)
    day, book = DAY + timedelta(days=number), a_book(tuple(rows))
    offers = quoted_between(book_of_day(book, day), day, SERVICES[0], OUT[0], IN[0])
    meant = [row for row in rows if row.valid_from <= day <= row.valid_to]
    assert [offer.freight.row for _, offer in offers.of(("",))] == meant if offers else not meant
