"""The rows of a day: which count, when that changes, and what a check says of days with two rows or none."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.actions.sources import invented_folder
from shipcalc.ratebook.book import RateBook, read_rate_book
from shipcalc.ratebook.changes.following import rows_follow_each_other
from shipcalc.ratebook.checks.by_day import of_every_day
from shipcalc.ratebook.days import BEYOND, DATED, changes_in, tables_of_day
from shipcalc.ratebook.drafting import GAPS, ON_EVERY_DAY
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import SHEETS, Tables
from shipcalc.ratebook.workbook.columns import RowRef, columns_of
from shipcalc.records import replace

FIRST, LAST = date(2026, 1, 1), date(2027, 12, 31)
NEW_YEAR, EVE = date(2027, 1, 1), date(2026, 12, 31)
RULES = PricingRules(currency="USD", valid_from=FIRST, valid_to=LAST)
days = st.dates(date(2026, 11, 1), date(2027, 3, 1))


def at(sheet, row, row_type):
    letters = dict(zip(columns_of(row_type), "ABCDEFGHIJKLMNOPQRSTUVWXYZ", strict=False))
    return RowRef("trucking.xlsx", sheet, row, letters)


def band(number, low, high, **cells):
    where = at("Per mile", number, MileBand)
    return MileBand(at=where, carrier="Tern", trailer="open", from_mi=low, to_mi=high, **({"rate_e4": 10_000} | cells))


CARRIER = Carrier(at=at("Carriers", 2, Carrier), carrier="Tern", trailer="open", cover_minor=1, fuel_scheme="Mile")
SCHEME = FuelScheme(
    at=at("Fuel", 2, FuelScheme), scheme="Mile", as_of=FIRST, price_e4=38_000, method="per mile", peg_e4=25_000, miles_per_gallon=6.0,
)  # fmt: skip


def tables(*bands, carriers=(CARRIER,), fuel=(SCHEME,)):
    return Tables(carriers=carriers, bands=bands, fuel=fuel)


def told(rows):
    checks = [check for check in ON_EVERY_DAY if check not in GAPS]
    found = [*of_every_day(rows, RULES, checks, GAPS), *rows_follow_each_other(rows)]
    return [f"{one.severity} {one.cell.partition('› ')[2]}: {one.message}" for one in found]


def test_next_months_price_typed_today_is_sound():
    assert told(tables(band(2, 0, None, valid_to=EVE), band(3, 0, None, valid_from=NEW_YEAR, rate_e4=12_000))) == []


def test_two_rows_for_one_day_are_a_fault_by_the_second_cell():
    rows = tables(band(2, 0, None, valid_to=NEW_YEAR), band(3, 0, None, valid_from=NEW_YEAR))
    assert told(rows) == [
        "fault Per mile!C3: the band before it, at Per mile!D2, has no end, so both hold from 0 miles on"
    ]


def test_days_without_a_row_are_told_with_both_their_ends():
    rows = tables(band(2, 0, None, valid_to=EVE), band(3, 0, None, valid_from=date(2027, 1, 4)))
    assert told(rows) == [
        'warning Carriers!A2: "Tern" with an open trailer has no band on the sheet Per mile, for pickups from 2027-01-01 up to 2027-01-03',
        "warning Per mile!F3: no row of this name holds from 2027-01-01 to 2027-01-03",
    ]


def test_a_mile_without_a_price_on_some_days_is_a_fault():
    rows = tables(band(2, 0, 500), band(3, 500, None, valid_to=EVE), band(4, 600, None, valid_from=NEW_YEAR))
    assert told(rows) == ["fault Per mile!C4: no band holds from 500 to 600 miles"]


def test_a_scheme_that_ends_before_its_carrier_is_told():
    rows = tables(band(2, 0, None), fuel=(replace(SCHEME, valid_to=EVE),))
    message = 'no row of the sheet Fuel holds for "Mile", so that no surcharge is charged'
    assert told(rows) == [f"warning Carriers!S2: {message}, for pickups from 2027-01-01 on"]


def test_a_carrier_without_any_price_is_a_fault():
    assert told(tables()) == ['fault Carriers!A2: "Tern" with an open trailer has no band on the sheet Per mile']


def test_one_ferry_in_two_rows_is_a_fault_only_while_both_hold():
    def ferry(number, **cells):
        where = at("Ferries", number, Ferry)
        return Ferry(at=where, ferry=f"F{number}", from_zip="02601", to_zip="02554", amount_minor=1, **cells)

    apart = ferry(2, valid_to=EVE), ferry(3, valid_from=NEW_YEAR)
    assert told(replace(tables(band(2, 0, None)), ferries=apart)) == []
    assert [line[:5] for line in told(replace(tables(band(2, 0, None)), ferries=(ferry(2), ferry(3))))] == ["fault"]


@pytest.mark.parametrize("kind", [kind for kind in SHEETS if kind.rows in DATED], ids=lambda kind: kind.name)
def test_every_sheet_of_prices_has_a_first_and_a_last_day(kind):
    assert {"valid_from", "valid_to"} <= set(columns_of(kind.row_type))


dated_bands = st.lists(st.tuples(st.none() | days, st.none() | days), max_size=6).map(
    lambda spans: tuple(
        band(number, 0, None, valid_from=first, valid_to=last, rate_e4=number + 1)
        for number, (first, last) in enumerate(spans, 2)
    )
)


@given(dated_bands, days)
def test_the_rows_of_a_day_are_those_that_have_begun_and_not_ended(bands, day):
    book = a_book(bands)
    wanted = [row for row in bands if (row.valid_from or day) <= day and not (row.valid_to and row.valid_to < day)]
    assert list(book_of_day(book, day).bands) == wanted
    assert list(tables_of_day(book, day).bands) == wanted


@given(dated_bands, days, st.integers(1, 40))
def test_between_two_changes_the_book_of_a_day_is_one_and_the_same(bands, day, later):
    book, then = a_book(bands), day + timedelta(days=later)
    changed = any(day < change <= then for change in changes_in(book))
    same = book_of_day(book, day) is book_of_day(book, then)
    assert same or changed
    assert book_of_day(book_of_day(book, day), day) is book_of_day(book, day)


def a_book(bands):
    return RateBook(folder=invented_folder("rates"), fingerprint="0", pricing=RULES, bands=bands)


def test_a_book_whose_rows_all_hold_is_itself():
    book = a_book((band(2, 0, None),))
    assert book_of_day(book, NEW_YEAR) is book


def test_a_kept_book_makes_its_overseas_rows_when_one_is_asked_for():
    day = date(2027, 6, 1)
    read = read_rate_book(invented_folder("rates"))
    then = book_of_day(read_rate_book(invented_folder("rates")), day)
    assert then.overseas is not None, "the second reading comes from the cache"
    for field in BEYOND:
        held = [row for row in getattr(read, field) if not (row.valid_to and row.valid_to < day)]
        held = [row for row in held if not (row.valid_from and row.valid_from > day)]
        assert [row.at for row in getattr(then, field)] == [row.at for row in held]
