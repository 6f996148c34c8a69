"""Numbers at their ends: the largest sums, nought and the longest miles, currencies without decimals and with three, odd days.

Held to: ISO 4217 for decimals (by babel's data of the Unicode CLDR), a slow reading in Decimal for sums, the time zones of IANA
(zoneinfo) for the clocks, two's complement of 64 bits for what a column holds.
"""

from datetime import UTC, date, datetime, time, timedelta
from decimal import ROUND_HALF_UP, Decimal
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from babel.numbers import get_currency_precision
from hypothesis import example, given, settings
from hypothesis import strategies as st

from shipcalc.actions.quoting import open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.money import LARGEST_MINOR, PPM, half_up, share, to_decimal
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.workbook.quantities import LARGEST_MILES, LARGEST_RATE
from shipcalc.records import fields, replace
from shipcalc.schedule.cutoff import latest_time_before
from shipcalc.schedule.voyage import Terminal, cutoff_day, days_at_sea, late_days
from shipcalc.schedule.working_days import Calendar
from shipcalc.vehicles.prices import money_minor
from tests.quote.conftest import a_book, a_carrier, a_quote
from tests.quote.sea_book import MINNOW

FULL = 2**63 - 1
CURRENCIES = ("USD", "JPY", "KWD")


def priced(currency: str, miles: int, rate_e4: int, markup_ppm: int = 0) -> RateBook:
    """Return a book of one carrier with one rate, and the road as long as asked."""
    rules = PricingRules(currency=currency, markup_linehaul_ppm=markup_ppm)
    book = a_book([(a_carrier("Tern"), rate_e4)], rules=rules)
    own = {field.name: getattr(book, field.name) for field in fields(RateBook)}
    return RateBook(**own | {"road_factors": (RoadFactor(from_place="98225", to_place="99362", road_mi=miles),)})


@pytest.mark.parametrize("currency", CURRENCIES)
@pytest.mark.parametrize("miles", [0, 1, 3, 9_000])
@pytest.mark.parametrize(
    "rate_e4", [1, 5, 100, LARGEST_RATE * 10_000]
)  # a hundredth of a cent, half of one, a cent, the dearest
@pytest.mark.parametrize("markup_ppm", [0, PPM])
def test_miles_times_rate_in_every_kind_of_currency(currency, miles, rate_e4, markup_ppm):
    total = a_quote(priced(currency, miles, rate_e4, markup_ppm), MINNOW).options[0].total
    exact = Decimal(miles) * Decimal(rate_e4) / 10_000 * (1 + Decimal(markup_ppm) / PPM)
    unit = Decimal(1).scaleb(-get_currency_precision(currency))
    assert total == exact.quantize(unit, ROUND_HALF_UP)
    assert total.as_tuple().exponent == unit.as_tuple().exponent


def test_twelve_thousand_miles_by_road_are_answered_with_a_sentence():
    """No road is as long: the longest great circle is 12,451 miles (half of the meridian, WGS84)."""
    with pytest.raises(NoAnswer, match="its prices end at 9,000 miles"):
        a_quote(priced("USD", 12_000, 100), MINNOW)


@pytest.mark.parametrize(
    ("currency", "most"), [("USD", "10000000000.00"), ("JPY", "1000000000000"), ("KWD", "1000000000.000")]
)
def test_the_largest_value_has_as_many_minor_units_in_every_currency(currency, most):
    assert money_minor(most, currency) == LARGEST_MINOR
    more = str(Decimal(most) + to_decimal(1, currency) * (1 if currency != "KWD" else 10))
    with pytest.raises(WrongInput, match="more than any vehicle is worth"):
        money_minor(more, currency)


@given(st.integers(0, 2 * LARGEST_MINOR), st.integers(0, 2 * PPM))
@example(2 * LARGEST_MINOR, 2 * PPM)
def test_no_percentage_of_what_may_be_asked_leaves_a_column(amount, ppm):
    """A base is worth, carriage and duty: below twice the largest worth; a percentage is at most 200 (`over_whole`)."""
    assert 2 * amount * ppm + PPM <= FULL
    column = share(np.array([amount, -amount], dtype=np.int64), ppm)
    slow = int((Decimal(amount) * ppm / PPM).quantize(Decimal(1), ROUND_HALF_UP))
    assert column.tolist() == [slow, -slow]


def test_the_longest_way_at_the_dearest_rate_stays_in_a_column():
    """Miles × ten-thousandths × minor units of a currency with three decimals, doubled for the rounding."""
    product = LARGEST_MILES * LARGEST_RATE * 10_000 * 1_000
    assert 2 * product + 10_000 <= FULL
    assert half_up(np.array([product], dtype=np.int64), 10_000).tolist() == [product // 10_000]


@pytest.mark.parametrize(("count", "is_answered"), [(1, True), (2, False)])
def test_vehicles_that_no_column_can_hold_are_refused_with_a_sentence(count, is_answered):
    book = priced("USD", 300, 8_000)
    dear = replace(book.carriers[0], cover_minor=2 * LARGEST_MINOR)
    own = {field.name: getattr(book, field.name) for field in fields(RateBook)}
    book = RateBook(**own | {"carriers": (dear,)})
    cars = [replace(MINNOW, stock_number=f"N{n}", value_minor=LARGEST_MINOR) for n in range(count)]
    if is_answered:
        assert a_quote(book, *cars).options[0].total > 0
    else:
        with pytest.raises(WrongInput, match=r"together they are worth more than 10,000,000,000 USD"):
            a_quote(book, *cars)


def test_a_million_dollars_are_covered_to_the_cent():
    book = priced("USD", 300, 8_000)
    own = {field.name: getattr(book, field.name) for field in fields(RateBook)}
    dear = replace(MINNOW, value_minor=12_345_678_99)
    quote = a_quote(RateBook(**own | {"carriers": (replace(book.carriers[0], cover_minor=12_345_678_99),)}), dear)
    assert quote.options[0].cover == Decimal("12345678.99")
    with pytest.raises(NoAnswer):
        a_quote(RateBook(**own | {"carriers": (replace(book.carriers[0], cover_minor=12_345_678_98),)}), dear)


@pytest.mark.parametrize(
    ("day", "until"),
    [
        (date(2028, 2, 28), date(2028, 3, 13)),  # a leap year: divisible by 4 (the Gregorian rule, ISO 8601)
        (date(2028, 2, 29), date(2028, 3, 14)),
        (date(2027, 2, 28), date(2027, 3, 14)),
        (date(2026, 12, 25), date(2027, 1, 8)),
        (date(2026, 12, 31), date(2027, 1, 14)),
    ],
)
def test_a_quote_holds_fourteen_days_over_leap_day_and_new_year(day, until):
    quote = a_quote(priced("USD", 300, 8_000), MINNOW, day=day)
    assert quote.valid_until == until
    assert all(first <= last for first, last in (quote.options[0].dates.pickup, quote.options[0].dates.delivery))


NEW_YORK = ZoneInfo("America/New_York")


@pytest.mark.parametrize(
    ("departure", "latest"),
    [
        # Clocks go back on the first Sunday of November and forward on the second of March: 15 USC 260a (from memory).
        (datetime(2026, 11, 2, 12, tzinfo=NEW_YORK), datetime(2026, 10, 30, 13, tzinfo=NEW_YORK)),
        (datetime(2027, 3, 15, 12, tzinfo=NEW_YORK), datetime(2027, 3, 12, 11, tzinfo=NEW_YORK)),
        (datetime(2027, 3, 15, 0, tzinfo=NEW_YORK), datetime(2027, 3, 11, 23, tzinfo=NEW_YORK)),
    ],
)
def test_seventy_two_hours_are_seventy_two_where_the_clocks_change(departure, latest):
    found = latest_time_before(departure)
    assert found == latest
    assert departure.astimezone(UTC) - found.astimezone(UTC) == timedelta(hours=72)


EVERY_DAY = Calendar(weekdays=frozenset(range(7)), country="")


@settings(max_examples=150)
@given(
    st.dates(date(2026, 10, 25), date(2027, 3, 25)),
    st.integers(0, 48),
    st.integers(24, 120),
    st.sampled_from(["America/New_York", "America/Los_Angeles", "America/Chicago"]),
)
@example(date(2027, 3, 15), 24, 59, "America/New_York")
def test_a_cut_off_is_never_told_later_than_the_clocks_allow(sailing, loading_hours, document_hours, zone):
    """By IANA's zones: hours before a loading at noon, counted in UTC; what must be there by midnight, on the day before."""
    terminal = Terminal(calendar=EVERY_DAY, cutoff_days=0, loading_hours=loading_hours, document_hours=document_hours)
    noon = datetime.combine(sailing, time(12), ZoneInfo(zone)).astimezone(UTC)
    told = (noon - timedelta(hours=loading_hours + document_hours)).astimezone(ZoneInfo(zone))
    last = (told.replace(tzinfo=None) - timedelta(microseconds=1)).date()
    found = cutoff_day(sailing, terminal)
    assert found <= last
    assert (last - found).days <= 1


@pytest.mark.parametrize("zone", ["Asia/Tokyo", "Australia/Sydney", "Pacific/Auckland"])
@pytest.mark.parametrize("sailing", [date(2026, 12, 30), date(2027, 2, 27), date(2028, 2, 28)])
def test_a_ship_over_the_date_line_comes_within_its_window(zone, sailing):
    """It leaves Los Angeles at noon; over the line the calendar is a day on. By the zones of IANA, for every shipped service."""
    services = [row for row in open_books(invented_sources()).rates.ocean if row.knots]
    for row in services:
        for nmi in (4_800, 5_658, 6_511):  # Yokohama, Auckland and Sydney from there: Pub. 151, rounded
            hours = nmi / row.knots + 24 * row.port_days
            leaves = datetime.combine(sailing, time(12), ZoneInfo("America/Los_Angeles"))
            comes = (leaves.astimezone(UTC) + timedelta(hours=hours)).astimezone(ZoneInfo(zone)).date()
            at_sea = days_at_sea(np.array([nmi]), knots=row.knots, port_days=row.port_days, canals=np.array([0]))
            late = late_days(at_sea, row.late_ppm)
            first = sailing + timedelta(days=int(at_sea[0]))
            assert first <= comes <= first + timedelta(days=int(late[0])), (row.service, nmi)


@pytest.mark.parametrize("currency", CURRENCIES)
@pytest.mark.parametrize("value", [1e300, "1" + "0" * 40])
def test_a_value_beyond_all_decimals_is_refused_with_a_sentence(currency, value):
    """28 November 2026: counted into minor units first, 10^300 ended in decimal.InvalidOperation."""
    with pytest.raises(WrongInput):
        money_minor(value, currency)
