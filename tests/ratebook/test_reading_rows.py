"""Sheets as people keep them: titles above, columns moved, figures typed as text."""

from datetime import date, datetime

import pytest

from shipcalc.ratebook.rows.areas import Area, Season
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.tables import SHEETS
from shipcalc.ratebook.workbook.columns import Kind
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.sheets.reading import Sheet

HEADERS = ("Carrier", "Trailer", "Over (mi)", "Up to (mi)", "Rate ($ per mile)")
OWL = ("Owl and Anchor", "open", 0.0, None, 0.82)


def sheet(*rows, **more):
    width = max(map(len, rows))
    return Sheet("trucking.xlsx", "Per mile", tuple((*row, *[None] * (width - len(row))) for row in rows), **more)


def told(reading):
    return [str(problem) for problem in reading.problems]


def rate_of(cell):
    return read_rows(sheet(HEADERS, (*OWL[:4], cell)), MileBand)


def test_headers_are_found_below_a_title_in_any_order_and_case():
    reading = read_rows(
        sheet(
            ("Our rates", None),
            (),
            ("RATE", "up to (MI)", "  trailer *", "over", "carrier"),
            (0.82, None, "Open", 0, " Owl  and Anchor "),
        ),
        MileBand,
    )

    assert told(reading) == []
    (band,) = reading.rows
    assert (band.carrier, band.trailer, band.from_mi, band.to_mi, band.rate_e4) == (
        "Owl and Anchor",
        "open",
        0,
        None,
        8200,
    )
    assert band.at.cell("rate_e4") == "trucking.xlsx › Per mile!A4"
    assert band.at.cell("carrier") == "trucking.xlsx › Per mile!E4"


def test_a_sheet_without_headers_says_which_it_needs():
    reading = read_rows(sheet(("Dear reader", None), ("see the other workbook", None)), MileBand)

    assert told(reading) == [
        (
            "trucking.xlsx › Per mile!A1: there is no row of headers — "
            "write in row 1 at least: Carrier, Trailer, Over (mi), Rate ($ per mile)"
        )
    ]
    assert (reading.rows, reading.unread) == ((), None)


def test_an_empty_sheet_is_a_sheet_without_headers():
    assert "there is no row of headers" in told(read_rows(Sheet("trucking.xlsx", "Per mile", ()), MileBand))[0]


def test_swapped_columns_are_told_cell_by_cell():
    swapped = read_rows(sheet(HEADERS, ("open", "Owl and Anchor", 0, None, 0.82)), MileBand)

    assert told(swapped) == [
        'trucking.xlsx › Per mile!B2: "Owl and Anchor" is not known in this column — write open, enclosed or driven'
    ]


def test_merged_cells_are_a_fault_since_only_the_first_holds_the_value():
    merged = sheet(HEADERS, OWL, (None, "open", 500, None, 0.7), merged=(((1, 0), (2, 0)),))

    assert told(read_rows(merged, MileBand))[0] == (
        "trucking.xlsx › Per mile!A2: the cells A2:A3 are merged, and only the first of them holds the value — "
        "unmerge them and fill each cell"
    )


def test_a_merged_title_above_the_headers_is_no_fault():
    titled = sheet(("Our rates",), HEADERS, OWL, merged=(((0, 0), (0, 4)),))

    assert told(read_rows(titled, MileBand)) == []


def test_a_hidden_sheet_counts_and_is_said():
    reading = read_rows(sheet(HEADERS, OWL, hidden=True), MileBand)

    assert told(reading) == [
        "trucking.xlsx › Per mile: the sheet is hidden, and counts all the same — show it, or remove it"
    ]
    assert len(reading.rows) == 1


def test_blank_rows_between_others_are_passed_over():
    assert len(read_rows(sheet(HEADERS, OWL, (None, "  ", "\u00a0"), OWL), MileBand).rows) == 2


def test_names_in_rows_that_could_not_be_read_are_remembered():
    assert rate_of("ask Bill").unread == {"owl and anchor"}


@pytest.mark.parametrize(
    ("typed", "rate_e4"),
    [
        (0.82, 8200),
        (1, 10_000),
        ("0.82", 8200),
        (" $ 0.82 ", 8200),
        ("$0.82/mi", 8200),
        ("0.82 USD per mile", 8200),
        ("0,82", 8200),
        ("0,823", 8230),
        ("1.234", 12_340),
        ("12,3456", 123_456),
        (0.1 + 0.2, 3000),
        (0.82 * 1.05, 8610),
    ],
)
def test_a_rate_typed_in_any_clear_way_is_the_same_rate(typed, rate_e4):
    reading = rate_of(typed)

    assert told(reading) == []
    assert reading.rows[0].rate_e4 == rate_e4


@pytest.mark.parametrize(
    ("typed", "cover_minor"),
    [
        (150000, 15_000_000),
        ("150,000", 15_000_000),
        ("$150,000.00", 15_000_000),
        ("150.000,00", 15_000_000),
        ("150 000", 15_000_000),
        ("150'000", 15_000_000),
        (
            "1,234",
            123_400,
        ),  # one thousand two hundred and thirty-four: money has two decimals, so no comma stands before three
        ("12,5", 1_250),
        ("US$ 1,234,567", 123_456_700),
    ],
)
def test_money_typed_in_any_clear_way_is_the_same_money(typed, cover_minor):
    reading = read_rows(sheet(("Carrier", "Trailer", "Cargo cover ($)"), ("Owl and Anchor", "open", typed)), Carrier)

    assert told(reading) == []
    assert reading.rows[0].cover_minor == cover_minor


@pytest.mark.parametrize(
    ("currency", "typed", "minor"),
    [("EUR", "€ 1.500,50", 150_050), ("JPY", "¥120,000", 120_000), ("KWD", 1.5, 1_500), ("EUR", "1500 EUR", 150_000)],
)
def test_money_has_the_decimals_and_the_sign_of_the_books_currency(currency, typed, minor):
    rows = sheet(("Carrier", "Trailer", "Cargo cover ($)"), ("Owl and Anchor", "open", typed))

    assert read_rows(rows, Carrier, currency=currency).rows[0].cover_minor == minor


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        (196, 4978),
        ("196 in", 4978),
        ('196"', 4978),
        ("4.98 m", 4980),
        ("498 cm", 4980),
        ("4980 mm", 4980),
        ("16.5 ft", 5029),
    ],
)
def test_a_length_is_in_inches_unless_its_cell_names_another_unit(typed, mm):
    rows = sheet(("Carrier", "Trailer", "Cargo cover ($)", "Longest (in)"), ("Owl and Anchor", "open", 1, typed))

    assert read_rows(rows, Carrier).rows[0].longest_mm == mm


@pytest.mark.parametrize(
    ("typed", "grams"), [(3450, 1_564_894), ("3,450 lb", 1_564_894), ("3450 lbs", 1_564_894), ("1565 kg", 1_565_000)]
)
def test_a_weight_is_in_pounds_unless_its_cell_names_kilograms(typed, grams):
    rows = sheet(("Carrier", "Trailer", "Cargo cover ($)", "Heaviest (lb)"), ("Owl and Anchor", "open", 1, typed))

    assert read_rows(rows, Carrier).rows[0].heaviest_grams == grams


SEASON = ("Season", "Label", "First day", "Last day", "Percent")


@pytest.mark.parametrize(
    "typed",
    [
        date(2026, 12, 31),
        datetime(2026, 12, 31, 8, 30),  # noqa: DTZ001 - a workbook's dates know no time zone
        "2026-12-31",
        "2026/12/31",
        "12/31/2026",
        "31.12.2026",
        "31 Dec 2026",
        "December 31, 2026",
    ],
)
def test_a_day_typed_in_any_clear_way_is_the_same_day(typed):
    reading = read_rows(sheet(SEASON, ("Snowbirds", "Autumn", date(2026, 10, 1), typed, 0.09)), Season)

    assert told(reading) == []
    assert reading.rows[0].last_day == date(2026, 12, 31)


@pytest.mark.parametrize(
    ("typed", "ppm"),
    [
        (0.18, 180_000),
        ("18 %", 180_000),
        ("18%", 180_000),
        ("0.18", 180_000),
        ("7,5 %", 75_000),
        ("-5 %", -50_000),
        (-0.05, -50_000),
    ],
)
def test_a_percentage_is_a_fraction_or_has_its_sign(typed, ppm):
    reading = read_rows(sheet(SEASON, ("Snowbirds", "Autumn", date(2026, 10, 1), date(2026, 12, 31), typed)), Season)

    assert told(reading) == []
    assert reading.rows[0].percent_ppm == ppm


@pytest.mark.parametrize(
    ("typed", "digits", "warned"),
    [
        ("02139", "02139", False),
        ("02139-4307", "02139", False),
        (98225, "98225", False),
        (2139, "02139", True),
        ("021", "021", False),
        (983, "983", True),
    ],
)
def test_a_zip_keeps_its_zeros_and_says_where_it_lost_one(typed, digits, warned):
    reading = read_rows(sheet(("Area", "State", "ZIP from"), ("Harbour", None, typed)), Area)

    assert reading.rows[0].zip_from == digits
    assert [problem.severity for problem in reading.problems] == ["warning"] * warned


def test_every_sheet_has_headers_that_no_other_column_of_it_could_be_taken_for():
    from shipcalc.ratebook.workbook.columns import columns_of
    from shipcalc.ratebook.workbook.headers import _name_and_unit

    for kind in SHEETS:
        names = [
            _name_and_unit(name)[0]
            for column in columns_of(kind.row_type).values()
            for name in (column.header, *column.synonyms)
        ]
        assert len(names) == len(set(names)), kind.name


def test_every_example_on_a_header_can_be_read_and_every_column_has_a_note():
    from shipcalc.ratebook.workbook.cells import value_of
    from shipcalc.ratebook.workbook.columns import columns_of
    from shipcalc.ratebook.workbook.misread import Doubt

    for kind in SHEETS:
        for column in columns_of(kind.row_type).values():
            assert column.note.strip(), column.header
            if column.example:
                assert not isinstance(value_of(column.example, column, "USD"), Doubt), column
            assert column.kind is not Kind.CHOICE or column.choices, column.header
