"""A small rate book for the sea that a test can change: two export ports, three arrival ports, one country. All of it invented."""

from datetime import date
from pathlib import Path

from shipcalc.places.place import Place
from shipcalc.places.sea.ports import find_port
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Dealer, Quote, Wishes
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.containers import ContainerType
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.imports import Country, ImportCharge
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)
YARD = Place(
    name="Bellingham",
    kind="city",
    country="US",
    subdivision="WA",
    postal_code="98225",
    latitude=48.75,
    longitude=-122.48,
)
BREMEN = Place(name="Bremen", kind="city", country="DE", latitude=53.08, longitude=8.81)
MINNOW = Vehicle(
    stock_number="HV-7", year=1961, make="Larkspur", model="Minnow", body="roadster", length_mm=3_900, width_mm=1_530,
    height_mm=1_245, clearance_mm=130, mass_grams=920_000, value_minor=38_000_00, engine_cc=1_300,
)  # fmt: skip


def at(sheet: str, row: int) -> RowRef:
    """Return where a row stands, so that its figures name a cell."""
    return RowRef("overseas.xlsx", sheet, row, {})


def a_port(code: str, region: str, row: int, **more: object) -> Port:
    place = find_port(code)
    assert place is not None
    given = {"roro": True, "container": True, "gate_minor": 95_00, "wharfage_e4": 3_2000, "thc_minor": 310_00, "free_days": 7,
             "free_days_count": "calendar", "storage_first_minor": 25_00, "storage_first_days": 5, "storage_then_minor": 60_00,
             "days_off": ("Saturday", "Sunday")}  # fmt: skip
    return Port(
        port=code, name=place.name, region=region, country=place.country, latitude=place.latitude,
        longitude=place.longitude, at=at("Ports", row), **(given | more),
    )  # fmt: skip


def a_service(name: str, mode: str, basis: str, row: int, **more: object) -> OceanService:
    given = {"from_region": "Out", "to_region": "In", "base_e4": 28_0000, "per_nmi_e4": 60, "sails_every_days": 14, "knots": 14.0,
             "first_sailing": date(2026, 12, 4), "port_days": 2}  # fmt: skip
    return OceanService(service=name, carrier=name, mode=mode, basis=basis, at=at("Ocean", row), **(given | more))


PORTS = (
    a_port("USTIW", "Out", 2, exports=True),
    a_port("USNYC", "Out", 3, exports=True, container=False),
    a_port("DEBRV", "In", 4),
    a_port("BEANR", "In", 5),
    a_port("NZAKL", "Far", 6),
)
OCEAN = (
    a_service("Tideway", "roro", "per W/M", 2, minimum_minor=650_00, bunker_ppm=120_000, security_minor=15_00, bill_minor=65_00),
    a_service("Boxline", "container", "per 40′HC", 3, base_e4=900_0000, per_nmi_e4=2500, currency_ppm=40_000, sails_every_days=7,
              takes_inoperable=True),
    a_service("Boxline", "container", "per 20′", 4, base_e4=700_0000, per_nmi_e4=1800, currency_ppm=40_000, sails_every_days=7,
              takes_inoperable=True),
    a_service("Sharebox", "shared container", "per m³", 5, base_e4=45_0000, sails_every_days=21, takes_inoperable=True),
)  # fmt: skip
# Least sizes of ISO 1496-1 (read at second hand).
CONTAINERS = (
    ContainerType(
        container="20′", inside_length_mm=5_867, inside_width_mm=2_330, inside_height_mm=2_350, door_width_mm=2_286,
        door_height_mm=2_261, payload_kg=17_000, drayage_minor=380_00, loading_minor=425_00, materials_minor=90_00,
        unloading_minor=250_00, at=at("Containers", 2),
    ),
    ContainerType(
        container="40′HC", inside_length_mm=11_998, inside_width_mm=2_330, inside_height_mm=2_655, door_width_mm=2_286,
        door_height_mm=2_566, payload_kg=19_000, drayage_minor=480_00, loading_minor=425_00, materials_minor=120_00,
        unloading_minor=250_00, at=at("Containers", 3),
    ),
)  # fmt: skip
STAGES = (
    StageCharge(code="packing", label="Photographs and packing", stage="export packing", per="vehicle", amount_minor=40_00, at=at("Stage charges", 2)),
    StageCharge(code="filing", label="Export declaration filed", stage="export clearance", per="shipment", amount_minor=85_00, at=at("Stage charges", 3)),
    StageCharge(code="aboard", label="Driven aboard", stage="loading on vessel", mode="roro", per="vehicle", amount_minor=30_00, at=at("Stage charges", 4)),
    StageCharge(code="off", label="Taken off the truck", stage="unloading", per="vehicle", amount_minor=70_00, at=at("Stage charges", 5)),
    StageCharge(code="broker", label="Customs broker", stage="import clearance", per="shipment", amount_minor=240_00, estimate=True, at=at("Stage charges", 6)),
)  # fmt: skip
LAST_LEG = tuple(
    OnCarriage(country="DE", trailer=trailer, base_minor=180_00, rate_e4=rate, minimum_minor=300_00, miles_a_day=300, spare_days=4, at=at("On-carriage", row))
    for row, trailer, rate in ((2, "open", 2_4000), (3, "enclosed", 4_1000))
)  # fmt: skip
COVER = tuple(
    MarineCover(conditions=conditions, rate_ppm=rate, minimum_minor=150_00, at=at("Marine cover", row))
    for row, conditions, rate in ((2, "A", 13_500), (3, "B", 9_000), (4, "C", 6_000))
)
CURRENCIES = (
    Currency(currency="EUR", as_of=date(2026, 11, 23), rate=0.9215, buffer_ppm=15_000, at=at("Currencies", 2)),
    Currency(currency="JPY", as_of=date(2026, 11, 23), rate=151.27, at=at("Currencies", 3)),
    Currency(currency="KWD", as_of=date(2026, 11, 23), rate=0.3071, at=at("Currencies", 4)),
)
COUNTRIES = (
    Country(country="DE", name="Germany", currency="EUR", collector_from_years=30, collector_criteria="original state"),
)
CHARGES = (
    ImportCharge(country="DE", code="duty", label="Customs duty", kind="duty", treatment="ordinary", percent_ppm=100_000, base="CIF", source="test"),
    ImportCharge(country="DE", code="vat", label="Import VAT", kind="tax", treatment="ordinary", percent_ppm=190_000, base="CIF, duty and onward carriage", source="test"),
    ImportCharge(country="DE", code="low-vat", label="Import VAT", kind="tax", treatment="collector", percent_ppm=70_000, base="CIF, duty and onward carriage", source="test"),
)  # fmt: skip
CARRIERS = tuple(
    Carrier(carrier=name, trailer=trailer, cover_minor=100_000_00, pickup_from_days=1, pickup_to_days=days, spare_days=2,
            takes_inoperable=True, winch=True, at=RowRef("trucking.xlsx", "Carriers", row, {}))
    for row, (name, trailer, days) in enumerate((("Plover", "open", 6), ("Dunlin", "open", 3), ("Wren", "enclosed", 5)), 2)
)  # fmt: skip
MILES = tuple(
    MileBand(carrier=row.carrier, trailer=row.trailer, from_mi=0, rate_e4=rate, at=RowRef("trucking.xlsx", "Per mile", number, {}))
    for number, (row, rate) in enumerate(zip(CARRIERS, (9000, 1_1000, 1_7000), strict=True), 2)
)  # fmt: skip
ROADS = (RoadFactor(from_place=None, to_place=None, factor=1.25),)


def a_sea_book(**parts: object) -> RateBook:
    """Return the small rate book with some of its parts exchanged."""
    rules = PricingRules(
        markup_ocean_ppm=120_000, markup_port_ppm=100_000, markup_linehaul_ppm=140_000, rounding_step_minor=5_00
    )
    given = {
        "pricing": rules, "carriers": CARRIERS, "bands": MILES, "road_factors": ROADS, "ports": PORTS, "ocean": OCEAN,
        "containers": CONTAINERS, "stage_charges": STAGES, "on_carriage": LAST_LEG, "marine_cover": COVER,
        "currencies": CURRENCIES, "countries": COUNTRIES, "import_charges": CHARGES,
    }  # fmt: skip
    return RateBook(folder=Path("rates"), fingerprint="0", **(given | parts))


def sea_quote(
    *vehicles: Vehicle,
    to: Place = BREMEN,
    book: RateBook | None = None,
    ready: date = DAY,
    by: date | None = None,
    **wishes: object,
) -> Quote:
    """Return the quote of the small rate book for vehicles that stand in Bellingham."""
    cars = vehicles or (MINNOW,)
    request = Request(vehicles=cars, starts=(YARD,) * len(cars), to=to, ready=ready, by=by, wishes=Wishes(**wishes))
    return make_quote(request, book or a_sea_book(), as_of=DAY, dealer=Dealer(name="Heron & Vale Motors (invented)"))
