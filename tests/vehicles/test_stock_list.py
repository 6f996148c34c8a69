from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from shipcalc.errors import Problem, WrongInput
from shipcalc.vehicles.stock import Stock, find_vehicle, nearest_numbers, numbers_in, search, spelled_nearly
from shipcalc.vehicles.stock_list import read_stock
from shipcalc.vehicles.vehicle import Vehicle

WriteList = Callable[..., Path]

HEADERS = ("Stock No.", "Year", "Make", "Model", "Body", "Length (in)", "Weight (lb)", "Runs", "Value ($)", "Title")
MINNOW_ROW = ("HV-1042", 1961, "Larkspur", "Minnow", "roadster", 153, 2030, "yes", 38000, "clean")
LANDFAHRER_ROW = ("HV-1043", 1962, "Oberlenz", "Landfahrer", "camper", 169, 2650, "no", 44000, "lien")
MINNOW = Vehicle(
    stock_number="HV-1042",
    year=1961,
    make="Larkspur",
    model="Minnow",
    body="roadster",
    length_mm=3886,
    mass_grams=920_793,
    value_minor=3_800_000,
)


def test_a_plain_list_is_read(write_list: WriteList) -> None:
    stock = read_stock(write_list([HEADERS, MINNOW_ROW, LANDFAHRER_ROW]))
    assert stock.vehicles[0] == MINNOW
    assert (stock.vehicles[1].runs, stock.vehicles[1].title) == (False, "lien")
    assert stock.problems == ()


def test_a_csv_file_says_the_same_as_the_workbook(write_list: WriteList) -> None:
    rows = [HEADERS, MINNOW_ROW, LANDFAHRER_ROW]
    assert read_stock(write_list(rows, "stock.csv")).vehicles == read_stock(write_list(rows)).vehicles


def test_headers_come_in_any_order_case_and_punctuation(write_list: WriteList) -> None:
    headers = ("WEIGHT, LBS", "title status", "Asking price", "stock_no", "Marque", "MODEL", "Body-Style", "model year")
    row = (2030, "Clear", "$38,000", "HV-1042", "Larkspur", "Minnow", "roadster", "1961")
    headers_left, row_left = (*headers, "Length in inches", "Inoperable"), (*row, 153, "no")
    assert read_stock(write_list([headers_left, row_left])).vehicles == (MINNOW,)


@pytest.mark.parametrize(
    ("header", "cell"),
    [
        ("Length (in)", 153),
        ("Length [cm]", 388.6),
        ("Length mm", "3,886"),
        ("Overall length (m)", "3,886 mm"),
        ("Length", "153 in"),
        ("length", '153"'),
        ("Length (ft)", 12.75),
        ('Length (")', "153"),
        ("Length, in.", "12'9\""),
    ],
)
def test_the_unit_stands_in_the_header_or_in_the_cell(write_list: WriteList, header: str, cell: object) -> None:
    stock = read_stock(write_list([("Stock", "Body", "Year", header), ("HV-1042", "roadster", 1961, cell)]))
    assert [vehicle.length_mm for vehicle in stock.vehicles] == [3886]
    assert stock.problems == ()


def test_title_rows_blank_rows_and_repeated_headers_do_no_harm(write_list: WriteList) -> None:
    rows = [
        ("Heron & Vale Motors",),
        ("Stock on", date(2026, 11, 23)),
        (),
        HEADERS,
        MINNOW_ROW,
        (),
        HEADERS,
        LANDFAHRER_ROW,
    ]
    stock = read_stock(write_list(rows))
    assert [vehicle.stock_number for vehicle in stock.vehicles] == ["HV-1042", "HV-1043"]
    assert stock.problems == ()


def test_a_title_row_in_a_csv_file_with_semicolons_does_no_harm(tmp_path: Path) -> None:
    path = tmp_path / "stock.csv"
    path.write_text("Heron & Vale Motors, stock list\n\nStock;Year;Make;Weight (kg)\nHV-1042;1961;Larkspur;921,5\n")
    assert [(vehicle.make, vehicle.mass_grams) for vehicle in read_stock(path).vehicles] == [("Larkspur", 921_500)]


def test_merged_cells_downwards_hold_for_all_their_rows_and_merged_headings_are_skipped(write_list: WriteList) -> None:
    rows = [
        ("Yard", "Stock", "Year", "Body"),
        ("Roadsters",),
        ("Savannah", "HV-1", 1961, "roadster"),
        (None, "HV-2", 1962, "roadster"),
        ("Bellingham", "HV-3", 1963, "camper"),
    ]
    stock = read_stock(write_list(rows, merged=("A2:D2", "A3:A4")))
    assert [(vehicle.stock_number, vehicle.yard) for vehicle in stock.vehicles] == [
        ("HV-1", "Savannah"),
        ("HV-2", "Savannah"),
        ("HV-3", "Bellingham"),
    ]
    assert stock.problems == ()


def test_every_visible_sheet_with_the_headers_of_a_list_is_read(write_list: WriteList) -> None:
    path = write_list(
        [("Heron & Vale Motors",), ("keys hang by the door",)],
        more={
            "Bellingham": [HEADERS, MINNOW_ROW],
            "Savannah": [HEADERS, LANDFAHRER_ROW],
            "hidden": [HEADERS, ("HV-9", *MINNOW_ROW[1:])],
        },
    )
    assert [vehicle.stock_number for vehicle in read_stock(path).vehicles] == ["HV-1042", "HV-1043"]


@pytest.mark.parametrize("word", ["yes", "Y", "true", True, 1, "x", "✓", "YES "])
def test_words_for_yes(write_list: WriteList, word: object) -> None:
    stock = read_stock(write_list([("Stock", "Year", "Modified"), ("HV-1", 1961, word)]))
    assert [vehicle.modified for vehicle in stock.vehicles] == [True]


@pytest.mark.parametrize("word", ["no", "N", "false", False, 0, "-", "No."])
def test_words_for_no(write_list: WriteList, word: object) -> None:
    stock = read_stock(write_list([("Stock", "Year", "Runs"), ("HV-1", 1961, word)]))
    assert [vehicle.runs for vehicle in stock.vehicles] == [False]


@pytest.mark.parametrize(
    ("words", "title"),
    [
        ("Clear", "clean"),
        ("financed", "lien"),
        ("Rebuilt", "salvage"),
        ("imported", "foreign"),
        ("BOS", "bill of sale only"),
        ("lost", "missing"),
    ],
)
def test_usual_words_for_titles(write_list: WriteList, words: str, title: str) -> None:
    stock = read_stock(write_list([("Stock", "Year", "Title"), ("HV-1", 1961, words)]))
    assert [vehicle.title for vehicle in stock.vehicles] == [title]


def test_stock_numbers_and_serials_that_are_numbers_lose_nothing(write_list: WriteList) -> None:
    stock = read_stock(write_list([("Stock", "Year", "Model", "Serial"), (1042.0, 1961.0, 500, 16107)]))
    vehicle = stock.vehicles[0]
    assert (vehicle.stock_number, vehicle.year, vehicle.model, vehicle.serial) == ("1042", 1961, "500", "16107")


def test_values_are_in_the_currency_that_is_set(write_list: WriteList) -> None:
    path = write_list([("Stock", "Year", "Price (EUR)"), ("HV-1", 1961, "38.000,00 €")])
    vehicle = read_stock(path, currency="EUR").vehicles[0]
    assert (vehicle.value_minor, vehicle.currency) == (3_800_000, "EUR")
    with pytest.raises(WrongInput, match=r"stock\.xlsx › Stock!C1: the values are in EUR, and USD is expected"):
        read_stock(path)


STOCK = Stock(
    vehicles=(
        Vehicle(stock_number="HV-1042", year=1961, make="Larkspur", model="Minnow", body="roadster", serial="LM-16107"),
        Vehicle(stock_number="HV-1043", year=1950, make="Veyrac", model="Garrigue", yard="Savannah", title="lien"),
        Vehicle(stock_number="HV-1124", make="Oberlenz", runs=False, note="Étienne's; carburettor in a box"),
    ),
    unusable=(("HV-1050", Problem("stock.xlsx › Stock!H9", '"41oo" is not a number', "perhaps it is 4100")),),
    file="stock.xlsx",
)


def test_figures_that_two_stock_numbers_share_are_not_one_vehicle() -> None:
    twins = Stock(vehicles=(*STOCK.vehicles, Vehicle(stock_number="WB-1042", make="Whidbey")))
    with pytest.raises(WrongInput, match="the nearest: HV-1042, WB-1042"):
        find_vehicle(twins, "1042")


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("HV-1042, HV-1043", ("HV-1042", "HV-1043")),
        ("1042 1043", ("1042", "1043")),
        ("hv 1042 hv 1124", ("hv 1042", "hv 1124")),
        ("1042, 1043 and 1124", ("1042", "1043", "1124")),
        ("HV-1042, HV-9999", ("HV-1042", "HV-9999")),
        ("HV-1042", ()),
        ("hv 1042", ()),
        ("1961 roadster, 153 in x 60 in x 49 in, 2030 lb, $38,000", ()),
        ("1042 Minnow", ()),
    ],
)
def test_several_stock_numbers_may_be_written_as_one_text(text: str, numbers: tuple[str, ...]) -> None:
    assert numbers_in(STOCK, text) == numbers


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("minow", [0]),
        ("larkspr minnow", [0]),
        ("garigue", [1]),
        ("etiene", [2]),
        ("1O42", []),
        ("1943", []),
        ("lark", [0]),
        ("", []),
    ],
)
def test_a_slip_of_spelling_still_finds_it_but_figures_must_be_exact(text: str, found: list[int]) -> None:
    assert [STOCK.vehicles.index(vehicle) for vehicle in spelled_nearly(STOCK, text)] == found


@pytest.mark.parametrize("text", ["HV-1042", "hv1042", " Hv 1042 ", "lm16107", "1042"])
def test_a_vehicle_is_found_by_number_or_serial_whatever_the_case_blanks_and_dashes(text: str) -> None:
    assert find_vehicle(STOCK, text) is STOCK.vehicles[0]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("HV-1O42", 'stock.xlsx: there is no stock number "HV-1O42" — the nearest: HV-1042'),
        ("9042", 'there is no stock number "9042" — the nearest: HV-1042'),
        ("1050", 'stock.xlsx › Stock!H9: 1050 cannot be used: "41oo" is not a number — perhaps it is 4100'),
        ("zzz", 'give one of the stock list, such as HV-1042, HV-1043, or describe the vehicle: "1961 roadster, '),
        ("minnow", "shipcalc stock finds 1 by these words: HV-1042"),
        ("  ", "no stock number is given"),
        ("hv 1050", 'stock.xlsx › Stock!H9: hv 1050 cannot be used: "41oo" is not a number — perhaps it is 4100'),
    ],
)
def test_a_wrong_stock_number_gets_the_nearest_ones_or_the_fault_of_its_row(text: str, sentence: str) -> None:
    with pytest.raises(WrongInput) as raised:
        find_vehicle(STOCK, text)
    assert sentence in str(raised.value)


def test_the_number_that_ends_as_typed_comes_before_those_that_look_like_it() -> None:
    assert nearest_numbers(STOCK, "124")[0] == "HV-1124"


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("", ["HV-1042", "HV-1043", "HV-1124"]),
        ("minnow ROADSTER", ["HV-1042"]),
        ("savannah lien", ["HV-1043"]),
        ("does not run", ["HV-1124"]),
        ("etienne", ["HV-1124"]),
        ("minnow savannah", []),
    ],
)
def test_a_search_wants_every_word_in_some_field(text: str, numbers: list[str]) -> None:
    assert [vehicle.stock_number for vehicle in search(STOCK, text)] == numbers


def test_a_picture_is_named_in_a_column_of_its_own(write_list: Callable[..., Path]) -> None:
    rows = [
        ("Stock number", "Year", "Model", "Photo"),
        ("HV-1", 1961, "Minnow", "pictures/HV-1.jpg"),
        ("HV-2", 1962, "Tarn", None),
    ]
    assert [vehicle.photo for vehicle in read_stock(write_list(rows)).vehicles] == ["pictures/HV-1.jpg", ""]
