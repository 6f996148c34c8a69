"""Settings with days held to a slow reading: on any day of pickup the price is that of a book that says just that day's value."""

from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.places.gazetteer.postal_codes import zip_place
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.markups import selling_markup
from shipcalc.pricing.tariff import compile_tariffs
from shipcalc.pricing.truck import trip_of, truck_price
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.pricing_settings import read_settings
from shipcalc.ratebook.workbook.columns import RowRef, columns_of
from shipcalc.vehicles.vehicle import Vehicle

DAY, LAST = date(2026, 12, 1), date(2027, 12, 31)
CENT = Decimal("0.01")
LETTERS = dict(zip(columns_of(PricingSetting), "ABCDEF", strict=True))
BOUNDS = {"Currency": "USD", "Valid from": "2026-01-01", "Valid to": LAST.isoformat()}


def row(number: int, setting: str, value: str, first: date | None = None, last: date | None = None) -> PricingSetting:
    at = RowRef("trucking.xlsx", "Pricing", number, LETTERS)
    return PricingSetting(at=at, setting=setting, value=value, valid_from=first, valid_to=last)


def settings(*markups: tuple[str, date | None, date | None]) -> tuple[PricingSetting, ...]:
    fixed = [row(number, name, value) for number, (name, value) in enumerate(BOUNDS.items(), 2)]
    own = [row(number, "Markup on linehaul", *cells) for number, cells in enumerate(markups, 5)]
    others = ("Markup on fuel", "Markup on extra charges")
    return (*fixed, *own, *(row(number, name, "0 %") for number, name in enumerate(others, 40)))


def told(*markups: tuple[str, date | None, date | None]) -> list[str]:
    _, problems = read_settings(settings(*markups))
    return [f"{one.severity} {one.cell.partition('!')[2]}: {one.message}" for one in problems]


@st.composite
def stretches(draw: st.DrawFn) -> list[tuple[str, date | None, date | None]]:
    """Draw a markup for every stretch of days, in any order of the rows: the first without a beginning, the last without an end."""
    begins = sorted(draw(st.sets(st.dates(date(2026, 12, 2), LAST), max_size=5)))
    ends = [day - timedelta(days=1) for day in begins]
    values = [f"{draw(st.integers(0, 400))} %" for _ in range(len(begins) + 1)]
    return draw(st.permutations(list(zip(values, [None, *begins], [*ends, None], strict=True))))


def book_with(rows: tuple[PricingSetting, ...]) -> RateBook:
    rules, problems = read_settings(rows)
    assert not problems
    return RateBook(
        folder=Path("rates"),
        fingerprint="0",
        pricing=rules,
        settings=rows,
        carriers=(Carrier(carrier="Plover", trailer="open", cover_minor=0),),
        bands=(MileBand(carrier="Plover", trailer="open", from_mi=0, rate_e4=10_101),),
    )


def price_on(book: RateBook, day: date, miles: int) -> Decimal:
    place = zip_place("98225").place
    assert place is not None
    of_day = book_of_day(book, day)
    columns = PlaceColumns.of([place])
    tariffs = compile_tariffs(of_day, DAY)
    lanes = lane_columns(columns, columns, np.array([miles], dtype=np.int64), of_day.areas)
    trip = trip_of(tariffs, vehicle_columns([Vehicle(stock_number="HV-1")]), lanes, Asked(pickup_day=day))
    return Decimal(int(truck_price(tariffs.services[0], trip, selling_markup(of_day)).total[0, 0])) / 100


@given(stretches(), st.dates(DAY, LAST), st.integers(1, 3_000))
def test_a_price_has_the_markup_of_its_day_of_pickup(
    rows: list[tuple[str, date | None, date | None]], day: date, miles: int
) -> None:
    (percent,) = (value for value, first, last in rows if (first or DAY) <= day <= (last or LAST))
    expected = Decimal("1.0101") * (1 + Decimal(percent.rstrip(" %")) / 100) * miles
    assert price_on(book_with(settings(*rows)), day, miles) == expected.quantize(CENT, ROUND_HALF_UP)


@given(stretches(), st.dates(DAY, LAST))
def test_of_two_values_for_one_day_the_second_is_a_fault(
    rows: list[tuple[str, date | None, date | None]], day: date
) -> None:
    assert told(*rows) == []
    assert told(*rows, ("9 %", day, day)) == [f'fault A{5 + len(rows)}: "Markup on linehaul" is set twice']


def test_days_without_a_value_are_told_whether_they_are_first_between_or_last() -> None:
    new_year, spring = date(2027, 1, 1), date(2027, 3, 1)
    message = '"Markup on linehaul" has no value for pickups'
    assert told(("14 %", new_year, None)) == [f"warning E5: {message} from 2026-01-01 to 2026-12-31"]
    assert told(("14 %", None, date(2026, 12, 30)), ("15 %", new_year, None)) == [
        f"warning E6: {message} from 2026-12-31 to 2026-12-31"
    ]
    assert told(("14 %", None, spring)) == [f"warning F5: {message} from 2027-03-02 to 2027-12-31"]


def test_what_makes_no_price_has_one_value_for_all_days() -> None:
    later = row(50, "Days valid", "14", first=date(2027, 1, 1))
    _, problems = read_settings((*settings(("14 %", None, None)), later))
    assert [(one.cell.partition("!")[2], one.message) for one in problems] == [
        ("E50", '"Days valid" has one value for all days')
    ]


def test_a_book_without_days_is_its_own_book_of_any_day() -> None:
    book = book_with(settings(("14 %", None, None)))
    assert book.pricing.later == ()
    assert book_of_day(book, date(2027, 5, 5)) is book
