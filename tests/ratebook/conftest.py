"""A tiny rate book without a fault, and a way to break single cells of it. Everything in it is invented."""

import io
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from openpyxl.utils.datetime import CALENDAR_MAC_1904
from openpyxl.worksheet.filters import FilterColumn, Filters

from shipcalc.ratebook.rows.areas import Area, Season
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.containers import ContainerType
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.imports import Country, EntryRule, Hold, ImportCharge
from shipcalc.ratebook.rows.known_settings import SETTINGS
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.paperwork import DocumentRow, TaskRow
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.ratebook.starter.workbooks import write_workbook
from tests.ratebook.former_order import write_in_former_order

OWL = "Owl and Anchor"
KEYS = {"label": "Over the bridges", "charge": "flat", "amount_minor": 11_000}
MADE = date(2026, 1, 1)

TEST = {"country": "DE", "source": "test"}
SAILS = {"carrier": "Osprey", "from_region": "Georgia", "sails_every_days": 14, "first_sailing": date(2026, 12, 4)}

TRUCKING = {
    "Carriers": (
        Carrier(carrier=OWL, trailer="open", cover_minor=15_000_000, bands="graduated", to_areas=("Northwest", "Keys")),
        Carrier(carrier=OWL, trailer="enclosed", cover_minor=40_000_000, longest_mm=5486, fuel_scheme="Per mile"),
    ),
    "Per mile": (
        MileBand(carrier=OWL, trailer="open", from_mi=0, to_mi=500, rate_e4=10_000),
        MileBand(carrier=OWL, trailer="open", from_mi=500, to_mi=None, rate_e4=8_000),
        MileBand(carrier=OWL, trailer="enclosed", from_mi=0, to_mi=400, rate_e4=16_000),
    ),
    "Extra charges": (
        ExtraCharge(code="low", label="Low car", clearance_up_to_mm=114, charge="flat", amount_minor=8_500),
        ExtraCharge(
            code="express", label="Express", express=True, charge="percent", percent_ppm=120_000, of="linehaul"
        ),
    ),
    "Vehicle sizes": (
        VehicleSize(
            body="roadster",
            also=("spider",),
            length_mm=3900,
            width_mm=1530,
            height_mm=1250,
            clearance_mm=125,
            mass_grams=920_000,
        ),
        VehicleSize(
            body="camper", length_mm=4300, width_mm=1750, height_mm=1950, clearance_mm=180, mass_grams=1_350_000
        ),
    ),
    "Areas": (
        Area(area="Northwest", state="WA"),
        Area(area="Florida", state="FL"),
        Area(area="Keys", zip_from="33036", zip_to="33037", applies_at="both", **KEYS),
    ),
    "Seasons": (
        Season(
            season="Snowbirds",
            label="Autumn, southbound",
            first_day=date(2026, 10, 1),
            last_day=date(2026, 12, 20),
            to_area="Florida",
            percent_ppm=90_000,
        ),
    ),
    "Fuel": (
        FuelScheme(
            scheme="Per mile",
            as_of=date(2026, 11, 23),
            price_e4=38_560,
            method="per mile",
            peg_e4=30_000,
            miles_per_gallon=6.5,
        ),
        FuelScheme(
            scheme="Steps",
            as_of=date(2026, 11, 23),
            price_e4=38_560,
            method="percent steps",
            peg_e4=25_000,
            step_e4=1_300,
            step_percent_ppm=10_000,
        ),
    ),
    "Road factors": (
        RoadFactor(from_place="US", to_place="US", factor=1.2, source="Ballou, Rahardja & Sakai 2002"),
        RoadFactor(from_place="98225", to_place="US-ID", over_mi=100.0, up_to_mi=400.0, factor=1.3, source="own"),
    ),
    "Pricing": tuple(PricingSetting(setting=setting.name, value=setting.example) for setting in SETTINGS),
}
PAPERWORK = {
    "Documents": (DocumentRow(code="title", document="Title, signed over", prepared_by="office", stage="pickup"),),
    "Tasks": (
        TaskRow(code="wash", task="Wash it", owner="yard", stage="ready"),
        TaskRow(code="photographs", task="Take photographs", owner="yard", stage="pickup", after=("wash",)),
        TaskRow(code="report", task="Fill in the report", owner="yard", stage="pickup", after=("photographs",)),
    ),
    "Countries": (
        Country(country="DE", name="Germany", currency="EUR", collector_from_years=30, source="test"),
        Country(country="NL", name="Netherlands", currency="EUR", source="test"),
    ),
    "Import charges": (
        ImportCharge(
            code="duty", label="Duty", treatment="ordinary", kind="duty", percent_ppm=100_000, base="CIF", **TEST
        ),
        ImportCharge(
            code="vat", label="Tax", treatment="ordinary", kind="tax", percent_ppm=190_000, base="CIF and duty", **TEST
        ),
        ImportCharge(
            code="vat", label="Tax", treatment="collector", kind="tax", percent_ppm=70_000, base="CIF", **TEST
        ),
    ),
    "Entry rules": (EntryRule(rule="Ask first", answer="warns", age_from=10, **TEST),),
    "Holds": (Hold(country="KP", hold="refused", reason="Embargoed.", source="test"),),
}
OVERSEAS = {
    "Ports": (
        Port(
            port="USSAV",
            name="Savannah",
            region="Georgia",
            country="US",
            latitude=32.08,
            longitude=-81.08,
            exports=True,
            roro=True,
            container=True,
        ),
        Port(port="DEBRV", name="Bremerhaven", region="Weser", country="DE", latitude=53.53, longitude=8.58, roro=True),
        Port(port="DEHAM", name="Hamburg", region="Elbe", country="DE", latitude=53.55, longitude=9.93, container=True),
    ),
    "Ocean": (
        OceanService(
            service="Osprey RoRo",
            mode="roro",
            to_region="Weser",
            basis="per W/M",
            base_e4=420_000,
            per_nmi_e4=112,
            **SAILS,
        ),
        OceanService(
            service="Osprey box", mode="container", to_region="Elbe", basis="per 40′HC", base_e4=14_000_000, **SAILS
        ),
    ),
    "Containers": (
        ContainerType(
            container="40′HC",
            inside_length_mm=11_998,
            inside_width_mm=2_330,
            inside_height_mm=2_655,
            door_width_mm=2_286,
            door_height_mm=2_566,
            payload_kg=19_000,
        ),
    ),
    "Ways of loading": (
        LoadingWay(
            code="driven",
            mode="roro",
            loading="driven",
            **dict.fromkeys(("runs", "rolls", "steers", "brakes"), True),
            how="driven aboard",
            label="Driven aboard",
        ),
        LoadingWay(
            code="towed", mode="roro", loading="towed", rolls=True, steers=True, how="in tow", label="Towed aboard"
        ),
        LoadingWay(code="packed", mode="container", loading="container", how="packed", label="Packed"),
    ),
    "Stage charges": (
        StageCharge(code="filing", label="Filing", stage="export clearance", per="shipment", amount_minor=8_500),
        StageCharge(
            code="weight",
            label="Weight",
            stage="origin terminal",
            mode="container",
            per="container",
            amount_minor=4_500,
        ),
    ),
    "On-carriage": (OnCarriage(country="DE", trailer="open", rate_e4=27_000),),
    "Marine cover": (MarineCover(conditions="A", rate_ppm=13_500),),
    "Currencies": (Currency(currency="EUR", as_of=date(2026, 11, 23), rate=0.8665),),
}

SHEETS = {"trucking.xlsx": {*TRUCKING}, "overseas.xlsx": {*OVERSEAS}, "paperwork.xlsx": {*PAPERWORK}}
Break = Callable[[Mapping[str, Mapping[str, object]]], Path]


@pytest.fixture(scope="session")
def sound_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a rate book with nothing wrong in it, its columns in their former order: read it, never write to it."""
    folder = tmp_path_factory.mktemp("sound")
    with pytest.MonkeyPatch.context() as patch:
        write_in_former_order(patch)
        write_workbook(folder / "trucking.xlsx", TRUCKING, made=MADE)
        write_workbook(folder / "overseas.xlsx", OVERSEAS, made=MADE)
        write_workbook(folder / "paperwork.xlsx", PAPERWORK, made=MADE)
    return folder


@pytest.fixture(scope="session")
def sound_bytes(sound_book: Path) -> dict[str, bytes]:
    """The workbooks of the sound rate book by name."""
    return {path.name: path.read_bytes() for path in sound_book.iterdir()}


@pytest.fixture
def broken(sound_bytes: dict[str, bytes], tmp_path: Path) -> Break:
    """A function that writes the rate book with some cells changed, by sheet and cell ("" empties one)."""

    def write(changes: Mapping[str, Mapping[str, object]]) -> Path:
        for name, content in sound_bytes.items():
            (tmp_path / name).write_bytes(_changed(name, content, changes))
        return tmp_path

    return write


def _changed(name: str, content: bytes, changes: Mapping[str, Mapping[str, object]]) -> bytes:
    if SHEETS[name].isdisjoint(changes):
        return content
    book = openpyxl.load_workbook(io.BytesIO(content))
    for sheet in changes.keys() & set(book.sheetnames):
        for cell, value in changes[sheet].items():
            book[sheet][cell].value = None if value == "" else value
    saved = io.BytesIO()
    book.save(saved)
    return saved.getvalue()


@pytest.fixture
def shaped(sound_bytes: dict[str, bytes], tmp_path: Path) -> Callable[[Mapping[str, Any]], Path]:
    """A function that writes the sound book with one sheet done to as a case of shapes.toml says."""

    def write(shape: Mapping[str, Any]) -> Path:
        write_shape(shape, sound_bytes, tmp_path)
        return tmp_path

    return write


def write_shape(shape: Mapping[str, Any], sound: Mapping[str, bytes], folder: Path) -> None:
    """Write the sound book into a folder, changed as the case says."""
    for name, content in sound.items():
        if shape["sheet"] in SHEETS[name]:
            book = openpyxl.load_workbook(io.BytesIO(content))
            _do_to(book, shape)
            book.save(folder / name)
        else:
            (folder / name).write_bytes(content)


def _do_to(book: openpyxl.Workbook, shape: Mapping[str, Any]) -> None:
    sheet = book[shape["sheet"]]
    if shape.get("from_1904"):
        book.epoch = CALENDAR_MAC_1904
    for cell, value in shape.get("cells", {}).items():
        sheet[cell].value = value
    for cells in shape.get("more_rows", ()):
        row = next(n for n in range(2, 999) if all(cell.value is None for cell in sheet[n]))
        for column, value in enumerate(cells, 1):
            sheet.cell(row, column).value = None if value == "" else value
    if "merge" in shape:
        sheet.merge_cells(shape["merge"])
    for row in shape.get("hide_rows", ()):
        sheet.row_dimensions[row].hidden = True
    for column in shape.get("hide_columns", ()):
        sheet.column_dimensions[column].hidden = True
    if "filter" in shape:
        sheet.auto_filter.ref = shape["filter"]
        sheet.auto_filter.filterColumn.append(FilterColumn(colId=0, filters=Filters(filter=["nobody"])))
    if shape.get("hide_sheet"):
        sheet.sheet_state = "hidden"
