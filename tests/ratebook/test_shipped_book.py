"""The workbooks that come with the program."""

from datetime import date
from pathlib import Path
from zipfile import ZipFile

import pytest

from shipcalc.ratebook.book import read_rate_book
from shipcalc.ratebook.changes.fingerprint import fingerprint_of
from shipcalc.ratebook.making import build_overseas, build_paperwork, build_trucking
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.pricing_settings import spelt
from shipcalc.ratebook.rows.sourced import READ
from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.ratebook.rows.trucking_sheets import TRUCKING
from shipcalc.ratebook.workbook.columns import NOWHERE
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.ratebook.workbook.region_codes import CONTIGUOUS_STATES
from shipcalc.records import replace
from shipcalc.sheets.reading import read_workbook

RATES = Path(__file__).parents[2] / "rates"
ORDINARY_VEHICLE_MM = 4_600


@pytest.fixture(scope="module")
def book():
    return read_rate_book(RATES)


def regions_of(book, state):
    return {area.area for area in book.areas if area.state == state and area.zip_from is None}


def services(book, trailer, start, to):
    """The carriers of a kind of trailer that bring an ordinary vehicle from one state to another."""
    return [
        carrier
        for carrier in book.carriers
        if carrier.trailer == trailer
        and (carrier.longest_mm is None or carrier.longest_mm > ORDINARY_VEHICLE_MM)
        and (not carrier.from_areas or regions_of(book, start) & set(carrier.from_areas))
        and (not carrier.to_areas or regions_of(book, to) & set(carrier.to_areas))
    ]


def test_its_only_warnings_are_later_breaks(book):
    assert {warning.cell.split("!")[0] for warning in book.warnings} == {"trucking.xlsx › Per mile"}
    assert all("the program charges the later break" in warning.remedy for warning in book.warnings)


def test_it_says_that_its_prices_are_invented():
    notes = read_workbook(RATES / TRUCKING).find_sheet("Notes")

    assert any("invented" in str(cell) for row in notes.rows for cell in row)


ROWS = {
    "trucking.xlsx": build_trucking.invented_rows,
    "overseas.xlsx": build_overseas.invented_rows,
    "paperwork.xlsx": build_paperwork.written_rows,
}


@pytest.mark.parametrize("workbook", WORKBOOKS)
def test_a_workbook_holds_the_rows_it_is_built_from(workbook):
    file, rows = read_workbook(RATES / workbook), ROWS[workbook]()

    for kind in WORKBOOKS[workbook]:
        read = read_rows(file.find_sheet(kind.name), kind.row_type).rows
        read = tuple(spelt(row) for row in read) if kind.row_type is PricingSetting else read
        assert tuple(replace(row, at=NOWHERE) for row in read) == rows.get(kind.name, ()), kind.name


@pytest.mark.parametrize("build", [build_trucking, build_overseas, build_paperwork])
def test_building_a_workbook_again_gives_the_same_parts(build, tmp_path):
    """Compared unpacked: programs that pack differ between machines, what they pack does not."""
    build.main(tmp_path)

    (made,) = tmp_path.iterdir()
    with ZipFile(made) as again, ZipFile(RATES / made.name) as shipped:
        assert again.namelist() == shipped.namelist()
        assert [name for name in again.namelist() if again.read(name) != shipped.read(name)] == []


def test_every_contiguous_state_lies_in_one_region(book):
    assert {state: len(regions_of(book, state)) for state in CONTIGUOUS_STATES} == dict.fromkeys(CONTIGUOUS_STATES, 1)


@pytest.mark.parametrize("start", ["WA", "GA"])
@pytest.mark.parametrize("trailer", ["open", "enclosed"])
def test_every_contiguous_state_is_served_from_both_yards(book, start, trailer):
    assert [state for state in CONTIGUOUS_STATES if not services(book, trailer, start, state)] == []


def test_its_carriers_differ_as_carriers_do(book):
    carriers = book.carriers
    assert len({carrier.carrier for carrier in carriers}) >= 6
    assert {carrier.bands for carrier in carriers} == {"whole trip", "graduated"}
    assert any(carrier.winch for carrier in carriers)
    assert {carrier.trailer for carrier in carriers if carrier.lift_gate} == {"enclosed"}
    assert any(carrier.from_areas == ("Northwest", "West", "Mountain") for carrier in carriers)
    assert any(carrier.from_areas == ("Southeast", "Florida", "South") for carrier in carriers)
    assert min(carrier.cover_minor for carrier in carriers if carrier.trailer == "open") <= 7_500_000
    assert max(carrier.cover_minor for carrier in carriers) >= 100_000_000
    assert any(carrier.longest_mm < 3_200 and carrier.heaviest_grams < 700_000 for carrier in carriers)


def test_a_road_factor_names_its_source(book):
    home = next(row for row in book.road_factors if (row.from_place, row.to_place) == ("US", "US"))

    assert home.factor == 1.20  # Ballou, Rahardja & Sakai 2002, table 1, United States
    assert all(row.source for row in book.road_factors)
    assert all((row.checked_on is not None) == (row.trust in READ) for row in book.road_factors)


def test_it_holds_for_two_years(book):
    assert (book.pricing.valid_from, book.pricing.valid_to) == (date(2026, 1, 1), date(2027, 12, 31))


def test_another_spreadsheet_program_saves_it_without_changing_what_it_says(book, recalculate):
    """LibreOffice opens both workbooks, computes, and saves them in its own way."""
    saved = recalculate([RATES / name for name in WORKBOOKS])

    assert fingerprint_of(saved) == book.fingerprint
