"""Writes the invented `trucking.xlsx` that comes with the program: python -m shipcalc.ratebook.making.build_trucking FOLDER."""

import sys
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

from shipcalc.ratebook.making import invented_carriers as carriers
from shipcalc.ratebook.making import invented_ferries as ferries
from shipcalc.ratebook.making import invented_lanes as lanes
from shipcalc.ratebook.making import invented_yards as yards
from shipcalc.ratebook.rows.areas import Area, Season
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.diesel import DieselPrice
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.fuel_steps import FuelStep
from shipcalc.ratebook.rows.known_settings import SETTINGS
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.rows.markups import MarkupRow
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.occasions import Occasion
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.service_classes import ServiceClass
from shipcalc.ratebook.rows.trucking_sheets import TRUCKING
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.ratebook.rows.vehicles_loaded import VehiclesLoaded
from shipcalc.ratebook.rows.yards import Storage, Terminal
from shipcalc.ratebook.starter.workbooks import write_workbook
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.ratebook.workbook.typed import lines, row
from shipcalc.records import replace

CHECKED_ON = "2026-11-25"
ABOUT = """\
Everything here is invented: the carriers, their names and their prices are made up to show how the program works.
Replace them by your own before you quote anybody.""".splitlines()


def invented_rows() -> dict[str, tuple[Row, ...]]:
    """Return the rows of every sheet of the invented workbook, by the sheet's name."""
    return {
        "Carriers": tuple(_carriers()),
        "Per mile": tuple(row(MileBand, cells) for cells in lines(carriers.BAND_FIELDS, carriers.BANDS)),
        "Lanes": tuple(_lanes()),
        "Extra charges": tuple(_extra_charges()),
        "Vehicle sizes": tuple(
            row(VehicleSize, {**cells, **lanes.SIZES_SOURCE}) for cells in lines(lanes.SIZE_FIELDS, lanes.SIZES)
        ),
        "Areas": tuple(_areas()),
        "Seasons": tuple(row(Season, cells) for cells in lines(lanes.SEASON_FIELDS, lanes.SEASONS)),
        "Diesel": tuple(_diesel()),
        "Fuel": tuple(
            row(FuelScheme, {**cells, "trust": "invented"}) for cells in lines(lanes.FUEL_FIELDS, lanes.FUEL_SCHEMES)
        ),
        "Fuel steps": tuple(row(FuelStep, cells) for cells in lines(lanes.FUEL_STEP_FIELDS, lanes.FUEL_STEPS)),
        "Road factors": tuple(_road_factors()),
        "Ferries": tuple(_ferries()),
        "Storage": tuple(row(Storage, cells) for cells in lines(yards.STORAGE_FIELDS, yards.STORAGE)),
        "Terminals": tuple(row(Terminal, cells) for cells in lines(yards.TERMINAL_FIELDS, yards.TERMINALS)),
        "Vehicles loaded": tuple(
            row(VehiclesLoaded, cells) for cells in lines(carriers.LOADED_FIELDS, carriers.LOADED)
        ),
        "Service classes": tuple(row(ServiceClass, cells) for cells in lines(carriers.CLASS_FIELDS, carriers.CLASSES)),
        "When it happens": tuple(row(Occasion, cells) for cells in lines(carriers.OCCASION_FIELDS, carriers.OCCASIONS)),
        "Markups": tuple(row(MarkupRow, cells) for cells in lines(lanes.MARKUP_FIELDS, lanes.MARKUPS)),
        "Pricing": tuple(_settings()),
    }


def _carriers() -> Iterator[Carrier]:
    parts = (
        lines(carriers.CARRIER_FIELDS, carriers.CARRIERS),
        lines(carriers.LIMIT_FIELDS, carriers.LIMITS),
        lines(carriers.REGION_FIELDS, carriers.REGIONS),
    )
    for services in zip(*parts, strict=True):
        assert len({(cells["carrier"], cells["trailer"]) for cells in services}) == 1, services
        yield row(Carrier, {field: cell for cells in services for field, cell in cells.items()})


def _extra_charges() -> Iterator[ExtraCharge]:
    written = carriers.EXTRA_CHARGES.strip().splitlines()
    for title, terms in zip(written[::2], written[1::2], strict=True):
        (named,) = lines("code label", title)
        yield row(ExtraCharge, {**named, **dict(term.strip().split(": ") for term in terms.split(","))})


def _lanes() -> Iterator[LaneRow]:
    parts = lines(carriers.LANE_FIELDS, carriers.LANES), lines(carriers.LANE_TERM_FIELDS, carriers.LANE_TERMS)
    for prices, terms in zip(*parts, strict=True):
        yield row(LaneRow, {**prices, **terms, "trust": "invented"})


def _areas() -> Iterator[Area]:
    for country, regions in (("US", lanes.HOME_REGIONS), ("CA", lanes.CANADIAN_REGIONS)):
        for area, states in regions.items():
            for state in states.split():
                yield row(Area, {"area": area, "country": country, "state": state})
    yield row(Area, {"area": "Mexico", "country": "MX"})
    for cells in lines(lanes.CHARGED_FIELDS, lanes.CHARGED_AREAS):
        yield row(Area, {**cells, "applies_at": "both", "charge": "flat"})


def _diesel() -> Iterator[DieselPrice]:
    for region, prices in lanes.DIESEL_PRICES.items():
        for day, price in prices.items():
            yield row(DieselPrice, {"region": region, "as_of": day, "price_e4": price, "trust": "invented"})


SECOND_HAND = {"trust": "second hand"}


def _road_factors() -> Iterator[RoadFactor]:
    table = "Ballou, Rahardja & Sakai 2002, Transportation Research Part A 36(9), table 1"
    at_home = {"source": f"{table}: n = 299, standard deviation 0.17", **SECOND_HAND}
    yield row(RoadFactor, {"from_place": "US", "to_place": "US", "factor": "1.20", **at_home})
    for cells in lines(lanes.KNOWN_LANE_FIELDS, lanes.KNOWN_LANES):
        yield row(RoadFactor, {**cells, **SECOND_HAND})
    for country, factor in lanes.COUNTRY_FACTORS.items():
        small = "; a small sample, unfit for single cities" if country in lanes.SMALL_SAMPLES else ""
        source = f"{table}{small}"
        ends = {"from_place": country, "to_place": country}
        yield row(RoadFactor, {**ends, "factor": factor, "source": source, **SECOND_HAND})
    yield from _road_factors_abroad(table)


def _road_factors_abroad(table: str) -> Iterator[RoadFactor]:
    """Yield rows for countries that the published table has no row for, each saying what stands in for it."""
    for countries, factor, why in (
        (lanes.ENGLAND, "1.40", f"{table}: the row of England stands in"),
        (lanes.EUROPE.split(), lanes.EUROPE_FACTOR, f"{table}: the row of Europe stands in"),
        (lanes.ELSEWHERE.split(), lanes.MEDIAN_FACTOR, f"The median of the 26 countries of {table} stands in"),
    ):
        for country in countries:
            ends = {"from_place": country, "to_place": country}
            yield row(RoadFactor, {**ends, "factor": factor, "source": why, **SECOND_HAND})
    for country in lanes.ACROSS_EUROPE.split():
        why = f"{table}: the row of Europe stands in for roads across its borders"
        cells = {"from_place": country, "factor": lanes.EUROPE_FACTOR, "source": why, **SECOND_HAND}
        yield row(RoadFactor, cells)
    for country in lanes.ACROSS_ELSEWHERE.split():
        why = f"The median of the 26 countries of {table} stands in for roads across its borders"
        yield row(RoadFactor, {"from_place": country, "factor": lanes.MEDIAN_FACTOR, "source": why, **SECOND_HAND})


def _ferries() -> Iterator[Ferry]:
    for cells in lines(ferries.FERRY_FIELDS, ferries.FERRIES):
        yield row(Ferry, {**cells, **ferries.SOURCE})
    for cells in lines(ferries.FARE_FIELDS, ferries.FARES):
        yield row(Ferry, {**cells, **ferries.FARE_SOURCE})
    for cells in lines(ferries.CLOSED_FIELDS, ferries.CLOSED):
        yield row(Ferry, {**cells, "takes_vehicles": "no", **ferries.CLOSED_SOURCE})


def _settings() -> Iterator[PricingSetting]:
    known = {setting.name: setting for setting in SETTINGS}
    for name, value in lanes.SETTINGS.items():
        told = PricingSetting(setting=name, value=value, unit=known[name].unit, note=known[name].note)
        day, then = lanes.LATER_SETTINGS.get(name, ("", ""))
        if not day:
            yield told
            continue
        begins = date.fromisoformat(day)
        yield replace(told, valid_to=begins - timedelta(days=1))
        yield replace(told, value=then, valid_from=begins)


def main(folder: Path) -> None:
    """Write `trucking.xlsx` into a folder."""
    write_workbook(folder / TRUCKING, invented_rows(), about=ABOUT, made=date.fromisoformat(CHECKED_ON))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
