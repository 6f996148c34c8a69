"""One wrong cell each, with the sentence that is expected for it."""

from collections.abc import Callable
from datetime import date, datetime, time
from pathlib import Path

import pytest

from shipcalc.errors import WrongInput
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.vehicles.stock_list import read_stock

WriteList = Callable[..., Path]

HEADERS = (
    "Stock",
    "Year",
    "Make",
    "Body",
    "Length (in)",
    "Width (in)",
    "Weight (lb)",
    "Runs",
    "Value ($)",
    "Title",
    "VIN",
)
GOOD = ("HV-1", 1961, "Larkspur", "roadster", 153, 60, 2030, "yes", 38000, "clean", "LM16107")


def one_wrong(header: str, value: object) -> tuple[object, ...]:
    """Return a good row with one cell replaced and a number of its own."""
    row = ("HV-2", *GOOD[1:])
    at = HEADERS.index(header)
    return (*row[:at], value, *row[at + 1 :])


@pytest.mark.parametrize(
    ("header", "value", "cell", "sentence"),
    [
        ("Stock", None, "A3", "there is no stock number — give the vehicle one, or delete the row"),
        ("Stock", date(2026, 3, 12), "A3", '"2026-03-12" was kept as a date or time — format the column as text'),
        ("Year", "Larkspur", "B3", '"Larkspur" is not a year — write the model year with four digits, e.g. 1961'),
        ("Year", 61, "B3", '"61" is not a year of four digits'),
        ("Year", "1961-05-01", "B3", '"1961-05-01" is not a year'),
        (
            "Year",
            datetime.fromisoformat("1961-05-01"),
            "B3",
            '"1961-05-01" is a date, not a year — format the cell as a number',
        ),
        ("Year", 1029, "B3", '"1029" is less than the model year of any vehicle (1885 to 2100)'),
        ("Year", 1961.5, "B3", '"1961.5" is not a year'),
        (
            "Make",
            1961,
            "C3",
            '"1961" is a number where words are expected — it looks like a year: are two columns swapped?',
        ),
        ("Body", 38000, "D3", '"38000" is a number where words are expected'),
        ("Length (in)", "15e", "E3", '"15e" has the unit "e", which is no unit of length here'),
        ("Length (in)", "1S3", "E3", "no unit of length here"),
        ("Length (in)", "l53", "E3", '"l53" is not a length'),
        ("Length (in)", -153, "E3", '"-153 in" is negative, which no length is — remove the minus sign'),
        ("Length (in)", 0, "E3", '"0 in" is less than the length of any vehicle'),
        ("Length (in)", "49 m", "E3", '"49 m" is more than the length of any vehicle (40 in to 65 ft, 1 m to 20 m)'),
        ("Length (in)", True, "E3", '"yes" is not a number — write digits: are two columns swapped?'),
        ("Length (in)", date(2026, 5, 6), "E3", '"2026-05-06" is a date or time, not a number'),
        ("Length (in)", time(5, 6), "E3", "is a date or time, not a number"),
        (
            "Length (in)",
            "=1/0",
            "E3",
            "the result of the formula was not saved — open the workbook in Excel and save it",
        ),
        ("Length (in)", "#N/A", "E3", "the formula gives the error #N/A — correct it, or type the value in its place"),
        ("Width (in)", 138, "F3", None),
        ("Width (in)", 139, "F3", '"139 in" is more than the width of any vehicle'),
        ("Weight (lb)", "24oo", "G3", '"24oo" is not a number — perhaps it is 2400'),
        ("Weight (lb)", "3 kg", "G3", '"3 kg" is less than the weight of any vehicle'),
        ("Weight (lb)", "2 stone", "G3", 'has the unit "stone", which is no unit of weight here — write lb, kg or t'),
        ("Weight (lb)", 153000, "G3", '"153000 lb" is more than the weight of any vehicle'),
        ("Runs", "sometimes", "H3", '"sometimes" is neither yes nor no — write yes or no'),
        ("Value ($)", "38.000,00 €", "I3", '"38.000,00 €" is in EUR; values here are in USD — convert it'),
        ("Value ($)", "sold", "I3", '"sold" is not a sum of money'),
        ("Value ($)", -500, "I3", '"-500" is negative, which no value is'),
        ("Title", "pink", "J3", '"pink" is not a kind of title the program knows — write one of: clean, lien, salvage'),
        ("VIN", 12345678901234567.0, "K3", "was kept as a number and has lost its last digits"),
    ],
)
def test_a_faulty_cell_is_named_and_the_good_row_stays(
    write_list: WriteList, header: str, value: object, cell: str, sentence: str | None
) -> None:
    stock = read_stock(write_list([HEADERS, GOOD, one_wrong(header, value)]))
    if sentence is None:  # just within the limits
        assert len(stock.vehicles) == 2
        return
    assert [vehicle.stock_number for vehicle in stock.vehicles] == ["HV-1"]
    assert [(problem.severity, problem.cell) for problem in stock.problems] == [("fault", f"stock.xlsx › Stock!{cell}")]
    assert sentence in str(stock.problems[0])


def test_a_width_just_within_the_limit_is_taken(write_list: WriteList) -> None:
    assert len(read_stock(write_list([HEADERS, one_wrong("Width (in)", 138)])).vehicles) == 1


def test_a_vehicle_wider_than_long_has_swapped_columns(write_list: WriteList) -> None:
    stock = read_stock(write_list([HEADERS, one_wrong("Length (in)", 58)]))
    assert [str(problem) for problem in stock.problems] == [
        "stock.xlsx › Stock!F2: the vehicle is wider than long — are the length and the width swapped?"
    ]
    assert stock.vehicles == ()


def test_swapped_columns_are_told_at_both_cells(write_list: WriteList) -> None:
    stock = read_stock(write_list([("Stock", "Make", "Year"), ("HV-1", 1961, "Larkspur")]))
    assert [problem.cell for problem in stock.problems] == ["stock.xlsx › Stock!B2", "stock.xlsx › Stock!C2"]
    assert "are two columns swapped?" in str(stock.problems[0])


def test_a_stock_number_twice_makes_both_rows_unusable_and_each_names_the_other(write_list: WriteList) -> None:
    stock = read_stock(write_list([HEADERS, GOOD, ("HV-2", *GOOD[1:]), ("hv 1", *GOOD[1:])]))
    assert [vehicle.stock_number for vehicle in stock.vehicles] == ["HV-2"]
    assert [str(problem) for problem in stock.problems] == [
        "stock.xlsx › Stock!A2: the stock number HV-1 stands in stock.xlsx › Stock!A4 too — give each vehicle a number of its own",
        "stock.xlsx › Stock!A4: the stock number hv 1 stands in stock.xlsx › Stock!A2 too — give each vehicle a number of its own",
    ]


@pytest.mark.parametrize("row", [("Total", None, None, None, None, None, None, None, 76000), ("* all measured by us",)])
def test_a_line_of_totals_or_remarks_is_no_vehicle(write_list: WriteList, row: tuple[object, ...]) -> None:
    stock = read_stock(write_list([HEADERS, GOOD, row]))
    assert len(stock.vehicles) == 1
    assert "has neither year nor make, model or body — complete the row, or delete it" in str(stock.problems[0])


def test_all_faults_of_a_row_are_told_at_once(write_list: WriteList) -> None:
    row = ("HV-2", "old", "Larkspur", "roadster", -1, 60, "heavy", "maybe", 38000, "clean", None)
    stock = read_stock(write_list([HEADERS, row]))
    assert [problem.cell[-2:] for problem in stock.problems] == ["B2", "E2", "G2", "H2"]
    assert stock.unusable[0][0] == "HV-2"
    assert stock.unusable[0][1] == stock.problems[0]


def test_an_unknown_body_is_a_warning_unless_the_table_of_sizes_has_it(write_list: WriteList) -> None:
    path = write_list([HEADERS, one_wrong("Body", "landaulet")])
    (problem,) = read_stock(path).problems
    assert (problem.severity, problem.cell) == ("warning", "stock.xlsx › Stock!D2")
    assert '"landaulet" is not a body the program knows' in problem.message
    landaulet = VehicleSize(
        body="Landaulet", also=(), length_mm=4600, width_mm=1700, height_mm=1600, clearance_mm=160, mass_grams=1_300_000
    )
    assert read_stock(path, sizes=(landaulet,)).problems == ()


def test_a_doubtful_serial_is_a_warning_and_its_vehicle_can_be_quoted(write_list: WriteList) -> None:
    stock = read_stock(write_list([HEADERS, (*GOOD[:1], 1987, *GOOD[2:10], "1J9JR49R0HAH7VO68")]))
    assert len(stock.vehicles) == 1
    assert [str(problem) for problem in stock.problems] == [
        'stock.xlsx › Stock!K2: "1J9JR49R0HAH7VO68" contains the letter O, which a VIN never does — perhaps it is a zero'
    ]
    assert stock.problems[0].severity == "warning"


def test_a_title_that_is_not_named_is_said(write_list: WriteList) -> None:
    stock = read_stock(write_list([HEADERS, one_wrong("Title", None)]))
    assert len(stock.vehicles) == 1
    assert "no title is named, so it is taken to be clean" in stock.problems[0].message


def test_a_missing_unit_is_told_once_at_the_header(write_list: WriteList) -> None:
    stock = read_stock(
        write_list([("Stock", "Year", "Length"), ("HV-1", 1961, 153), ("HV-2", 1961, 155), ("HV-3", 1961, "153 in")])
    )
    assert [vehicle.stock_number for vehicle in stock.vehicles] == ["HV-3"]
    (problem,) = stock.problems
    assert problem.cell == "stock.xlsx › Stock!C1"
    assert problem.message == '2 numbers have no unit below the header "Length"'
    assert problem.remedy == "write the unit into the header, e.g. Length (in)"


def test_a_second_column_for_one_thing_and_a_misspelt_header_are_said(write_list: WriteList) -> None:
    stock = read_stock(
        write_list(
            [("Stock", "Year", "Value", "Price", "Lenght (in)", "Colour"), ("HV-1", 1961, 38000, 39000, 153, "red")]
        )
    )
    assert stock.vehicles[0].value_minor == 3_800_000
    second, misspelt = map(str, stock.problems)
    assert second == (
        'stock.xlsx › Stock!D1: "Price" says the same as "Value" and is not read — keep one of the two columns'
    )
    assert misspelt == (
        'stock.xlsx › Stock!E1: "Lenght (in)" is not a header the program knows, and its column is not read'
        " — perhaps it is Length (in)"
    )


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        ([("Year", "Make", "Model"), (1961, "Larkspur", "Minnow")], "only the headers Year, Make, Model were found"),
        ([("Stock", "Colour"), ("HV-1", "red")], "only the headers Stock were found"),
        ([("HV-1", "red"), ("HV-2", "blue")], "no headers were found that the program knows"),
        ([], "no headers were found that the program knows"),
    ],
)
def test_a_file_without_the_headers_of_a_list_says_which_it_has_and_which_it_needs(
    write_list: WriteList, rows: list[tuple[object, ...]], sentence: str
) -> None:
    for name in ("stock.xlsx", "stock.csv"):
        with pytest.raises(WrongInput) as raised:
            read_stock(write_list(rows, name))
        assert sentence in str(raised.value)
        assert "a row of headers needs Stock number and at least 2 more" in str(raised.value)
