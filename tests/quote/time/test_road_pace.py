"""How far a truck comes in a day with its other stops (common practice, no source): its own row says it, else Pricing."""

import shutil
from datetime import date
from pathlib import Path

import openpyxl

from shipcalc.ratebook.book import read_rate_book
from shipcalc.ratebook.rows.rules import PricingRules

RATES = Path(__file__).parents[3] / "rates"


def on_the_road(quote) -> int:
    (option,) = quote.options
    return (option.dates.delivery[0] - option.dates.pickup[0]).days


def test_a_carriers_own_row_goes_before_the_setting(make_book, carrier, small_quote):
    """331 miles from noon, by hand: at 450 a day 225 and 106; at 100 a day 50, 100, 100, 81; at 700 all on the first day."""
    for own, setting, days in ((None, 450, 1), (None, 100, 3), (700, 100, 0), (100, 450, 3)):
        book = make_book([(carrier("Owl", miles_a_day=own), 8_200)], rules=PricingRules(miles_a_day=setting))
        assert on_the_road(small_quote(book, ready=date(2026, 12, 1))) == days


def test_of_equal_prices_the_one_that_comes_farther_a_day_is_shown(make_book, carrier, small_quote):
    slow, fast = carrier("Owl"), carrier("Newt", miles_a_day=700)
    (option,) = small_quote(make_book([(slow, 8_200), (fast, 8_200)]), ready=date(2026, 12, 1)).options
    assert option.legs[0].carrier == "Newt"


def test_a_workbook_without_the_column_and_the_setting_is_read(tmp_path):
    shutil.copytree(RATES, tmp_path / "rates")
    path = tmp_path / "rates" / "trucking.xlsx"
    book = openpyxl.load_workbook(path)
    for sheet, cells in (("Carriers", 1), ("Pricing", 0)):
        found = [cell for row in book[sheet] for cell in row if cell.value == "Miles a day"]
        assert len(found) == 1, sheet
        book[sheet].delete_cols(found[0].column) if cells else book[sheet].delete_rows(found[0].row)
    book.save(path)
    read = read_rate_book(tmp_path / "rates")
    assert read.pricing.miles_a_day == 450
    assert {row.miles_a_day for row in read.carriers} == {None}
