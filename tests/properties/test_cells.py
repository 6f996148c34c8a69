"""Whatever stands in a cell, the reader either understands it or says so; what it understands is what was written."""

from datetime import date, datetime, time, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.ratebook.rows.tables import SHEETS
from shipcalc.ratebook.workbook.cells import value_of
from shipcalc.ratebook.workbook.columns import Column, Kind, columns_of
from shipcalc.ratebook.workbook.misread import Misread
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.sheets.numbers import NotANumber, TwoReadings, number_from_text
from shipcalc.sheets.reading import Sheet

NUMBER_LIKE = st.text("0123456789.,'- ()$%OlI+e/\u00a0−inmftlbkg", max_size=14)
CELLS = (
    st.none()
    | st.booleans()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.integers(-(10**15), 10**15)
    | st.text(max_size=40)
    | NUMBER_LIKE
    | st.dates()
    | st.datetimes()
    | st.times()
    | st.timedeltas()
)
COLUMNS = [column for sheet in SHEETS for column in columns_of(sheet.row_type).values()]
DECIMALS = st.decimals(min_value=0, max_value=10**7, places=2, allow_nan=False)


def understood_or_told(cell, column, currency):
    """The value, or the refusal with its remedy; anything else that is raised fails the test."""
    try:
        return value_of(cell, column, currency)
    except Misread as misread:
        return misread


def number_or_reason(text, decimals):
    try:
        return number_from_text(text, decimals=decimals)
    except NotANumber as refused:
        return str(refused)


@given(st.sampled_from(COLUMNS), CELLS, st.sampled_from(["USD", "EUR", "JPY"]))
def test_any_cell_is_understood_or_refused_with_a_remedy(column, cell, currency):
    if cell is None or (isinstance(cell, str) and not cell.strip()):
        return
    told = understood_or_told(cell, column, currency)

    assert told is not None
    if isinstance(told, Misread):
        assert told.message
        assert told.remedy
        assert "\n" not in told.message + told.remedy


@given(st.data())
def test_any_sheet_is_read_into_rows_and_problems(data):
    kind = data.draw(st.sampled_from(SHEETS))
    columns = columns_of(kind.row_type)
    headers = data.draw(st.permutations([column.header for column in columns.values()]))
    rows = data.draw(st.lists(st.lists(CELLS, min_size=len(headers), max_size=len(headers)).map(tuple), max_size=3))

    reading = read_rows(Sheet("trucking.xlsx", kind.name, (tuple(headers), *rows)), kind.row_type)

    assert len(reading.rows) <= len(rows)
    assert all(problem.cell.startswith(f"trucking.xlsx › {kind.name}!") for problem in reading.problems)
    assert all(problem.message and problem.remedy for problem in reading.problems)


@given(st.lists(st.lists(CELLS, max_size=6).map(tuple), max_size=5).map(tuple))
def test_a_sheet_of_anything_is_no_surprise(rows):
    for kind in SHEETS[:3]:
        read_rows(Sheet("trucking.xlsx", kind.name, rows), kind.row_type)


@given(DECIMALS)
def test_a_number_grouped_in_any_usual_way_is_the_same_number(number):
    american = f"{number:,.2f}"
    others = (
        american.translate(str.maketrans(",.", ".,")),
        american.replace(",", " "),
        american.replace(",", "\u00a0").replace(".", ","),
        american.replace(",", "'"),
        f"{number:.2f}",
    )

    assert number_from_text(american, decimals=2) == number
    assert all(number_from_text(other, decimals=2) == number for other in others)


@given(st.integers(1, 999), st.integers(0, 999), st.integers(0, 6))
def test_one_mark_before_three_digits_is_read_in_one_way_or_refused(before, after, decimals):
    thousands, fraction = Decimal(before * 1000 + after), Decimal(before) + Decimal(after).scaleb(-3)
    for mark, meant in ((",", thousands), (".", fraction)):
        unclear = (mark == ",") == (decimals >= 3)
        if unclear:
            with pytest.raises(TwoReadings):
                number_from_text(f"{before}{mark}{after:03}", decimals=decimals)
        else:
            assert number_from_text(f"{before}{mark}{after:03}", decimals=decimals) == meant


@given(NUMBER_LIKE, st.integers(0, 6))
def test_text_is_a_finite_number_or_none(text, decimals):
    found = number_or_reason(text, decimals)

    assert found.is_finite() if isinstance(found, Decimal) else found.startswith(("is not a number", "can be read as"))


@given(st.integers(-1_000_000, 1_000_000))
def test_a_rate_kept_in_ten_thousandths_survives_the_workbooks_floating_point(rate_e4):
    column = Column("Rate ($ per mile)", Kind.RATE, "", signed=True)

    assert value_of(rate_e4 / 10_000, column, "USD") == rate_e4


@given(st.integers(-10_000_000_000, 10_000_000_000))
def test_money_kept_in_cents_survives_the_workbooks_floating_point(minor):
    assert value_of(minor / 100, Column("Flat ($)", Kind.MONEY, "", signed=True), "USD") == minor


@pytest.mark.parametrize(
    "cell",
    [
        datetime.max,  # noqa: DTZ901 - a workbook's dates know no time zone
        date.min,
        time.max,
        timedelta.max,
        timedelta.min,
        float("nan"),
        float("inf"),
    ],
)
def test_the_ends_of_what_python_can_count_are_refused_like_the_rest(cell):
    for kind in (Kind.MONEY, Kind.PERCENT, Kind.LENGTH, Kind.DATE, Kind.YES_NO, Kind.ZIP):
        with pytest.raises(Misread):
            value_of(cell, Column("A", kind, "", example="1"), "USD")
