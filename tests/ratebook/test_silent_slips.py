"""Slips that leave every cell readable, made in the shipped workbooks as a manager would make them: each is told where it is.

That the shipped workbooks themselves have none of them is the first test; what a slip is, is common practice, no source.
"""

import shutil
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from shipcalc.actions.rates import check_rates
from shipcalc.actions.sources import invented_folder
from shipcalc.ratebook.book import check_rate_book

DAY = date(2026, 12, 1)
Slip = Callable[[Worksheet], None]


@pytest.fixture(scope="module")
def before() -> set[str]:
    """Return what the check says of the shipped book as it is."""
    return {str(problem) for problem in check_rates(invented_folder("rates"), as_of=DAY).problems}


@pytest.fixture
def told(tmp_path: Path, before: set[str]) -> Callable[[str, str, Slip], list[str]]:
    """Do something to a sheet of a copy of the shipped book, and return what the check then says beyond what it said before."""
    folder = Path(shutil.copytree(invented_folder("rates"), tmp_path / "mine"))

    def after(workbook: str, sheet: str, slip: Slip) -> list[str]:
        book = openpyxl.load_workbook(folder / workbook)
        slip(book[sheet])
        book.save(folder / workbook)
        return [str(problem) for problem in check_rates(folder, as_of=DAY).problems if str(problem) not in before]

    return after


def column_of(sheet: Worksheet, header: str) -> int:
    return next(cell.column for cell in sheet[1] if str(cell.value).startswith(header))


def cells_below(sheet: Worksheet, header: str) -> Iterator[openpyxl.cell.Cell]:
    column = column_of(sheet, header)
    last = max(row for row in range(2, sheet.max_row + 1) if sheet.cell(row, 1).value is not None)
    return (sheet.cell(row, column) for row in range(2, last + 1))


def deleted(header: str) -> Slip:
    return lambda sheet: sheet.delete_cols(column_of(sheet, header))


def sorted_alone(header: str, *, falling: bool = False) -> Slip:
    def slip(sheet: Worksheet) -> None:
        cells = list(cells_below(sheet, header))
        for cell, value in zip(cells, sorted((cell.value for cell in cells), reverse=falling), strict=True):
            cell.value = value

    return slip


def typed(address: str, value: object) -> Slip:
    def slip(sheet: Worksheet) -> None:
        sheet[address].value = value

    return slip


def below(header: str, row: int, value: object) -> Slip:
    def slip(sheet: Worksheet) -> None:
        sheet.cell(row, column_of(sheet, header)).value = value

    return slip


def other_year(address: str, years: int) -> Slip:
    def slip(sheet: Worksheet) -> None:
        day = sheet[address].value
        sheet[address].value = day.replace(year=day.year + years)

    return slip


def copied(row: int, **changes: object) -> Slip:
    def slip(sheet: Worksheet) -> None:
        cells = [cell.value for cell in sheet[row]]
        below = max(n for n in range(2, sheet.max_row + 1) if sheet.cell(n, 1).value is not None) + 1
        for column, value in enumerate(cells, 1):
            sheet.cell(below, column).value = changes.get(
                str(sheet.cell(1, column).value).removesuffix("*").strip(), value
            )

    return slip


def test_the_shipped_book_has_no_silent_slip() -> None:
    said = [str(problem) for problem in check_rate_book(invented_folder("rates"), as_of=DAY)]
    (soon,) = [line for line in said if "the program charges the later break" not in line]
    assert "the quotation BR-26-088 of Braith & Rowe Shipping ends on 2026-12-12" in soon  # it is meant to show that


@pytest.mark.parametrize(
    ("workbook", "sheet", "header", "taken"),
    [
        ("trucking.xlsx", "Carriers", "Spare days", "2"),
        ("trucking.xlsx", "Carriers", "Has a lift gate", "no"),
        ("trucking.xlsx", "Carriers", "Fuel scheme", "blank (no fuel surcharge)"),
        ("trucking.xlsx", "Extra charges", "Clearance up to", "blank"),
        ("paperwork.xlsx", "Import charges", "Treatment", "blank"),
    ],
)
def test_a_deleted_column_is_told_and_what_is_taken_instead(told, workbook, sheet, header, taken) -> None:
    said = told(workbook, sheet, deleted(header))
    line = next(line for line in said if "is missing, so every row counts as" in line)
    assert line.startswith(f'{workbook} › {sheet}!A1: the column "{header}')
    assert taken in line
    assert "put it back into row 1" in line


@pytest.mark.parametrize(
    ("workbook", "sheet", "counts"),
    [
        ("trucking.xlsx", "Ferries", "it counts as empty"),
        ("overseas.xlsx", "Ways of loading", "the usual ways of loading count"),
        ("paperwork.xlsx", "Holds", "it counts as empty"),
    ],
)
def test_a_deleted_sheet_is_told_and_what_counts_in_its_place(told, workbook, sheet, counts) -> None:
    def deleted_whole(page: Worksheet) -> None:
        page.parent.remove(page)

    said = told(workbook, sheet, deleted_whole)
    assert any(line.startswith(f'{workbook} › {sheet}: there is no sheet "{sheet}", so {counts}') for line in said), (
        said
    )


@pytest.mark.parametrize("falling", [True, False])
def test_rates_sorted_alone_are_told(told, falling) -> None:
    said = told("trucking.xlsx", "Per mile", sorted_alone("Rate", falling=falling))
    known = "the rates fall from the first row to the last" if falling else "the rate rises with distance"
    assert any(known in line and "Per mile!E" in line and "sort whole rows" in line for line in said)
    assert any("stand in other rows" in line for line in said)


def test_names_sorted_alone_are_told_at_the_names(told) -> None:
    said = told("trucking.xlsx", "Vehicle sizes", sorted_alone("Body"))
    assert len(said) == 1
    assert (
        'the names under "Body" are those of the workbooks that come with the program, but stand in other rows'
        in said[0]
    )


def test_figures_sorted_alone_are_told(told) -> None:
    said = told("trucking.xlsx", "Vehicle sizes", sorted_alone("Length"))
    assert any('the figures under "Length (in)"' in line and "Vehicle sizes!" in line for line in said)


def test_whole_rows_in_another_order_are_no_slip(told) -> None:
    def turned(sheet: Worksheet) -> None:
        rows = [[cell.value for cell in row] for row in sheet.iter_rows(min_row=2) if row[0].value is not None]
        for number, row in enumerate(reversed(rows), 2):
            for column, value in enumerate(row, 1):
                sheet.cell(number, column).value = value

    assert told("trucking.xlsx", "Vehicle sizes", turned) == []


def test_a_carrier_raised_by_a_tenth_is_no_slip(told) -> None:
    def raised(sheet: Worksheet) -> None:
        for cell in list(cells_below(sheet, "Rate"))[:5]:
            cell.value = round(cell.value * 1.1, 4)

    assert not [line for line in told("trucking.xlsx", "Per mile", raised) if "later break" not in line]


def priced_by_scheme(then: Slip) -> Slip:
    """Type the prices of diesel into each scheme, as older books have them, before another slip."""
    days = (date(2026, 1, 5), date(2026, 6, 1), date(2026, 11, 9), date(2026, 11, 16), date(2026, 11, 23))
    prices = (3.612, 3.745, 3.871, 3.842, 3.856)
    schemes = (
        ("Per mile", "per mile", 3.0, 6.5, None, None),
        ("Per mile, enclosed", "per mile", 3.0, 5.5, None, None),
        ("Percent steps", "percent steps", 2.5, None, 0.13, 0.01),
    )

    def slip(sheet: Worksheet) -> None:
        rows = [(name, day, price, *rest) for name, *rest in schemes for day, price in zip(days, prices, strict=True)]
        for number, row in enumerate(rows, 2):
            for column, value in enumerate(row, 1):
                sheet.cell(number, column).value = value
        then(sheet)

    return slip


def test_a_price_of_diesel_typed_in_one_of_three_schemes_is_told(told) -> None:
    (said,) = (
        line for line in told("trucking.xlsx", "Fuel", priced_by_scheme(typed("C6", 3.956))) if "same day" in line
    )
    assert said.startswith(
        'trucking.xlsx › Fuel!C6: "Per mile, enclosed" has 3.856 for the same day (Fuel!C11) — write one price'
    )


def test_a_week_that_is_added_to_one_of_three_schemes_is_told_in_the_others(told) -> None:
    week = copied(6, **{"As of": date(2026, 11, 30), "Price ($ per gallon)": 3.9})
    said = [line for line in told("trucking.xlsx", "Fuel", priced_by_scheme(week)) if "the last price here" in line]
    assert [line.split(":")[0] for line in said] == ["trucking.xlsx › Fuel!B11", "trucking.xlsx › Fuel!B16"]
    assert all("add a row of 2026-11-30 for this scheme as well" in line for line in said)


def test_a_price_typed_in_one_scheme_where_the_others_go_by_the_sheet_diesel_is_told(told) -> None:
    def slip(sheet: Worksheet) -> None:
        sheet.cell(2, column_of(sheet, "As of")).value = date(2026, 11, 30)
        sheet.cell(2, column_of(sheet, "Price ($ per gallon)")).value = 3.99

    (said,) = (line for line in told("trucking.xlsx", "Fuel", slip) if "by the sheet Diesel" in line)
    assert said == (
        'trucking.xlsx › Fuel!C2: this scheme alone goes by 3.99 of 2026-11-30, and "Per mile, enclosed" by the sheet Diesel, '
        "3.856 of 2026-11-23 (Diesel!C6) — leave price and day blank, if it goes by the same"
    )


@pytest.mark.parametrize(
    ("workbook", "sheet", "cell", "years"),
    [
        ("trucking.xlsx", "Diesel", "B6", -1),
        ("trucking.xlsx", "Diesel", "B6", 1),
        ("trucking.xlsx", "Diesel", "B4", -1),
        ("trucking.xlsx", "Diesel", "B11", 10),
        ("overseas.xlsx", "Currencies", "B3", -1),
        ("overseas.xlsx", "Currencies", "B3", 1),
        ("trucking.xlsx", "Pricing", "Valid to", 36),
    ],
)
def test_a_day_of_another_year_is_told(told, workbook, sheet, cell, years) -> None:
    def slip(page: Worksheet) -> None:
        row = next((n for n in range(2, page.max_row + 1) if page.cell(n, 1).value == cell), 0)
        at = f"B{row}" if row else cell
        day = page[at].value
        day = date.fromisoformat(day) if isinstance(day, str) else day
        page[at].value = day.replace(year=day.year + years)

    said = told(workbook, sheet, slip)
    assert any("year" in line and sheet in line for line in said), said


@pytest.mark.parametrize(("cell", "years"), [("B6", -1), ("B6", 1), ("B4", -1), ("B16", 10)])
def test_a_day_of_another_year_in_a_price_by_scheme_is_told(told, cell, years) -> None:
    said = told("trucking.xlsx", "Fuel", priced_by_scheme(other_year(cell, years)))
    assert any("year" in line and "Fuel!" in line for line in said), said


@pytest.mark.parametrize(
    ("slip", "cell", "says"),
    [
        (typed("A7", "West Cost"), "A7", 'no scheme of the sheet Fuel goes by the price of "West Cost"'),
        (typed("A11", None), "B11", "there is a price of 2026-11-23 already at Diesel!B6"),
        (typed("C6", 38.56), "C6", "is about ten times what stands beside it"),
        (typed("B6", date(2026, 11, 16)), "B6", "there is a price of 2026-11-16 already at Diesel!B5"),
        (
            copied(6, **{"Week of": date(2026, 11, 30), "Price": 3.9}),
            "B11",
            "add a row of 2026-11-30 for this region as well",
        ),
    ],
)
def test_a_slip_in_the_one_price_of_diesel_is_told(told, slip, cell, says) -> None:
    said = told("trucking.xlsx", "Diesel", slip)
    assert any(f"Diesel!{cell}" in line and says in line for line in said), said


@pytest.mark.parametrize(
    ("sheet", "slip", "says"),
    [
        (
            "Fuel",
            below("Diesel region", 4, "West Cost"),
            '"West Cost" is no region of the sheet Diesel — write "West Coast"',
        ),
        ("Fuel", typed("C4", 4.588), "Fuel!B4: the price has no day"),
        ("Fuel", typed("D6", "per mile"), "Fuel!E6: the method per mile needs"),
        ("Fuel steps", typed("A2", "Per mile"), 'Fuel steps!A2: "Per mile" goes by the method per mile'),
        ("Fuel steps", typed("B4", 2.9), "Fuel steps!B4: this price begins a step already at Fuel steps!B3"),
        ("Fuel steps", typed("D4", 0.016), "Fuel steps!D4"),
        ("Fuel steps", typed("D4", 0.09), "Fuel steps!D4: the surcharge is lower than at the lower price"),
        ("Fuel steps", typed("C4", 0.1), "Fuel steps!C4: the row says a percentage and dollars a mile"),
        ("Fuel steps", typed("D4", None), "Fuel steps!C4: the row says neither a percentage nor dollars a mile"),
    ],
)
def test_a_slip_in_a_scheme_or_its_table_is_told(told, sheet, slip, says) -> None:
    said = told("trucking.xlsx", sheet, slip)
    assert any(says in line for line in said), said


@pytest.mark.parametrize(
    ("sheet", "slip", "says"),
    [
        ("Vehicles loaded", typed("C4", 1), "Vehicles loaded!C4: one vehicle pays what the carrier's other rows say"),
        ("Vehicles loaded", typed("D4", 0.06), "Vehicles loaded!D5: each pays more than where fewer are loaded"),
        ("Vehicles loaded", typed("D4", 9.4), "Vehicles loaded!D4"),
        ("Vehicles loaded", typed("C5", 2), "Vehicles loaded!C5: 2 vehicles stand at Vehicles loaded!C4 already"),
        (
            "Vehicles loaded",
            typed("B4", "enclosed"),
            'Vehicles loaded!B4: "Magpie and Compass" has no enclosed trailer',
        ),
        ("Vehicles loaded", typed("E4", 50), "Vehicles loaded!D4: the row says a share and a sum"),
        ("Vehicles loaded", typed("D4", None), "Vehicles loaded!D4: the row says neither a share nor a sum"),
        ("Service classes", typed("D2", 12), "Service classes!D2: the ordinary service picks up within 6 days already"),
        ("Service classes", typed("E2", None), "Service classes!E2: the class says no surcharge"),
        ("Service classes", typed("F2", 0.1), "Service classes!E2: the class says a sum and a percentage"),
        ("Service classes", typed("E2", 0), "Service classes!E2: the class costs nothing more"),
        (
            "Service classes",
            typed("C2", "enclosed"),
            'Service classes!C2: "Magpie and Compass" has no enclosed trailer',
        ),
        ("Markups", typed("D2", 0.9), "Markups!D2: 90 % on linehaul, where the sheet Pricing has 14 %"),
        ("Markups", typed("A3", None), "Markups!"),
        ("Markups", typed("D3", None), "Markups!D3: the row says no markup"),
    ],
)
def test_a_slip_in_a_table_of_vehicles_or_of_markups_is_told(told, sheet, slip, says) -> None:
    said = told("trucking.xlsx", sheet, slip)
    assert any(says in line for line in said), said


def test_a_reduction_that_is_taken_twice_is_told(told) -> None:
    def reduced(sheet: Worksheet) -> None:
        row = sheet.max_row + 1
        for header, value in (
            ("Code", "two"),
            ("Label", "Two at once"),
            ("Charge", "percent"),
            ("Percent", "-5 %"),
            ("Of", "linehaul"),
            ("Vehicles over", 1),
        ):
            sheet.cell(row, column_of(sheet, header)).value = value

    assert any("takes something off as well" in line for line in told("trucking.xlsx", "Extra charges", reduced))


def test_a_part_of_a_country_that_is_embargoed_stays_refused_and_that_is_told(told) -> None:
    """Crimea: 15 CFR 746.6(a)(1), as the row itself cites it."""

    def slip(sheet: Worksheet) -> None:
        row = next(cell.row for cell in cells_below(sheet, "Region or city") if cell.value == "Crimea")
        sheet.cell(row, column_of(sheet, "Hold")).value = "to be released"

    said = told("paperwork.xlsx", "Holds", slip)
    assert any("Crimea is embargoed and stays refused, whatever stands here — write refused" in line for line in said)


@pytest.mark.parametrize("years", [-1, 1, 10])
@pytest.mark.parametrize("header", ["Valid from", "Valid to"])
def test_a_row_valid_in_another_year_is_told(told, header, years) -> None:
    def slip(sheet: Worksheet) -> None:
        cell = next(cell for cell in cells_below(sheet, header) if cell.value is not None)
        cell.value = cell.value.replace(year=cell.value.year + years)

    said = told("trucking.xlsx", "Extra charges", slip)
    assert any("Extra charges!" in line and ("year" in line or "date" in line) for line in said), said


@pytest.mark.parametrize("years", [-1, 1])
def test_a_first_sailing_of_another_year_is_told(told, years) -> None:
    def slip(sheet: Worksheet) -> None:
        cell = next(cells_below(sheet, "A sailing on"))
        cell.value = cell.value.replace(year=cell.value.year + years)

    said = told("overseas.xlsx", "Ocean", slip)
    assert any("does not go with what stands beside it" in line and "Ocean!" in line for line in said)


@pytest.mark.parametrize(
    ("workbook", "sheet", "name"),
    [
        ("trucking.xlsx", "Extra charges", "Code"),
        ("overseas.xlsx", "Stage charges", "Code"),
        ("trucking.xlsx", "Seasons", "Season"),
    ],
)
def test_a_charge_in_two_rows_is_told(told, workbook, sheet, name) -> None:
    said = told(workbook, sheet, copied(3, **{name: "second"}))
    assert any(f"{workbook} › {sheet}!A" in line and "a shipment pays both" in line for line in said), said


def test_a_charge_with_another_condition_is_no_second_one(told) -> None:
    said = told("trucking.xlsx", "Extra charges", copied(3, Code="second", **{"Length over (in)": 333}))
    assert not any("pays both" in line for line in said)


def test_a_csv_beside_the_workbooks_is_told_as_not_read(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(invented_folder("rates"), tmp_path / "mine"))
    (folder / "trucking.csv").write_text("Carrier;Trailer\n", encoding="utf-8")
    first = str(check_rates(folder, as_of=DAY).problems[0])
    assert first.startswith(
        f"{folder / 'trucking.csv'}: is not read: what counts is trucking.xlsx — a .csv holds one sheet only"
    )
    assert "Excel Workbook (*.xlsx)" in first


def test_a_csv_in_the_place_of_a_workbook_is_told(tmp_path: Path) -> None:
    (tmp_path / "trucking.csv").write_text("Carrier;Trailer\n", encoding="utf-8")
    (said,) = check_rate_book(tmp_path)
    assert "there is no trucking.xlsx in this folder — trucking.csv holds one sheet only" in str(said)
    assert "Excel Workbook (*.xlsx)" in str(said)


def test_a_csv_under_the_name_of_a_workbook_is_told(tmp_path: Path) -> None:
    (tmp_path / "trucking.xlsx").write_text("Carrier;Trailer\n", encoding="utf-8")
    (said,) = check_rate_book(tmp_path)
    assert str(said) == (
        "trucking.xlsx: is text (CSV) under the name of a workbook — open it in Excel and save it as Excel Workbook (*.xlsx)"
    )


def test_a_workbook_with_a_password_is_told(tmp_path: Path) -> None:
    """The file was encrypted by msoffcrypto-tool as ECMA-376 and MS-OFFCRYPTO tell; its password is `heron`."""
    locked = Path(__file__).parent.parent / "sheets" / "data" / "with_password.xlsx"
    shutil.copy(locked, tmp_path / "trucking.xlsx")
    (said,) = check_rate_book(tmp_path)
    assert str(said).startswith(
        "trucking.xlsx: is protected by a password, so nothing in it can be read — open it in Excel"
    )
