"""A carrier's bands, minimum and later break, on figures that can be checked in the head."""

from datetime import date, timedelta

import numpy as np
import pytest

from shipcalc.pricing.line import Markup
from shipcalc.pricing.tariff import LONGEST_TRIP_MI, compile_tariffs
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.records import replace

TWO_DOLLARS_THEN_ONE = ((0, 100, 20_000), (100, None, 10_000))
ONE_THEN_TWO = ((0, 100, 10_000), (100, None, 20_000))


def test_a_whole_trip_is_paid_at_the_rate_of_the_band_it_ends_in(make_book, totals) -> None:
    assert totals(make_book(bands=ONE_THEN_TWO), [99, 100, 101, 200]) == [99_00, 100_00, 202_00, 400_00]


def test_a_graduated_trip_pays_each_mile_at_the_rate_of_its_own_band(make_book, totals, teapot) -> None:
    book = make_book(bands=ONE_THEN_TWO, carrier=replace(teapot, bands="graduated"))
    assert totals(book, [99, 100, 101, 200]) == [99_00, 100_00, 102_00, 300_00]


def test_the_mile_on_the_edge_belongs_to_the_lower_band(make_book, price) -> None:
    """`over 0 up to 100` contains mile 100, `over 100` begins with mile 101: the cells of the lines say which was used."""
    book = make_book(bands=ONE_THEN_TWO)
    cells = {miles: [line.cell for line in price(book, [miles]).lines] for miles in (100, 101)}
    assert cells == {100: ["trucking.xlsx › Per mile!E2"], 101: ["trucking.xlsx › Per mile!E3"]}


def test_the_graduated_miles_of_the_bands_add_up_to_the_trip(make_book, price, teapot) -> None:
    book = make_book(
        bands=((0, 7, 30_000), (7, 77, 20_000), (77, None, 10_000)), carrier=replace(teapot, bands="graduated")
    )
    lines = price(book, [500]).lines
    assert [int(line.quantity[0, 0]) for line in lines] == [7, 70, 423]
    assert [line.label for line in lines] == ["Road miles 1 to 7", "Road miles 8 to 77", "Road miles from 78 on"]


def test_a_trip_just_short_of_a_much_lower_rate_is_charged_as_the_longer_one_and_it_is_said(make_book, price) -> None:
    book = make_book(bands=TWO_DOLLARS_THEN_ONE)
    eighty = price(book, [80])
    assert eighty.total.tolist() == [[101_00]]
    assert eighty.lines[0].lane_notes == ("80 miles charged as 101: the lower rate that starts there costs less.",)
    assert int(eighty.lines[0].quantity[0, 0]) == 101


def test_each_of_two_yards_has_its_own_note(make_book, price) -> None:
    notes = price(make_book(bands=TWO_DOLLARS_THEN_ONE), [50, 80]).lines[0].lane_notes
    assert notes == ("", "80 miles charged as 101: the lower rate that starts there costs less.")


def test_a_trip_that_is_cheaper_as_it_is_stays_as_it_is(make_book, price) -> None:
    fifty = price(make_book(bands=TWO_DOLLARS_THEN_ONE), [50])
    assert fifty.total.tolist() == [[100_00]]
    assert fifty.lines[0].lane_notes == ("",)


def test_equal_prices_are_charged_at_the_shorter_trip(make_book, price) -> None:
    """101 miles at 1.00 cost just as much as 50 miles at 2.02."""
    book = make_book(bands=((0, 100, 20_200), (100, None, 10_000)))
    assert price(book, [50]).total.tolist() == [[101_00]]
    assert price(book, [50]).lines[0].lane_notes == ("",)
    assert price(book, [51]).total.tolist() == [[101_00]]
    assert "51 miles charged as 101" in price(book, [51]).lines[0].lane_notes[0]


def test_a_later_break_may_reach_over_a_whole_band(make_book, totals) -> None:
    book = make_book(bands=((0, 100, 50_000), (100, 150, 40_000), (150, None, 5_000)))
    assert totals(book, [10, 15, 16, 100, 150, 151]) == [50_00, 75_00, 75_50, 75_50, 75_50, 75_50]


def test_graduated_bands_need_no_later_break(make_book, teapot) -> None:
    book = make_book(bands=TWO_DOLLARS_THEN_ONE, carrier=replace(teapot, bands="graduated"))
    service = compile_tariffs(book, date(2026, 12, 1)).services[0]
    assert service.charged_mi.tolist() == list(range(LONGEST_TRIP_MI + 1))


def test_beyond_the_last_band_there_is_no_price_but_a_reason(make_book, price) -> None:
    book = make_book(bands=((0, 1_200, 10_000),))
    both = price(book, [1_200, 1_201])
    assert both.eligible.tolist() == [[True, False]]
    only = price(book, [1_201])
    assert [o.reason for o in only.obstacles if o.where.any()] == ["its prices end at 1,200 miles"]
    assert only.lines == ()


def test_a_carrier_without_bands_has_no_prices_and_says_so(make_book, price) -> None:
    found = price(make_book(bands=()), [10])
    assert [o.reason for o in found.obstacles if o.where.any()] == ["it has no prices per mile"]


def test_what_is_missing_to_the_minimum_is_a_line_of_its_own(make_book, price, teapot) -> None:
    book = make_book(carrier=replace(teapot, base_minor=40_00, minimum_minor=300_00))
    short = price(book, [160])
    assert [(line.label, int(line.amount[0, 0])) for line in short.lines] == [
        ("Base fee", 40_00),
        ("Road miles", 160_00),
        ("Top-up to the trip minimum", 100_00),
    ]
    assert price(book, [260, 261]).total.tolist() == [[300_00, 301_00]]


def test_a_longer_trip_has_nothing_added_once_the_minimum_is_reached(make_book, price, teapot) -> None:
    book = make_book(carrier=replace(teapot, minimum_minor=300_00))
    assert sum(int(line.amount.sum()) for line in price(book, [300]).lines if line.code == "truck.minimum") == 0


def test_a_marked_up_rate_a_mile_is_exact_and_rounded_once(make_book, price) -> None:
    """0.8215 marked up by 14.35 % is 0.93938525; 1,237 miles are 1,162.0195…, so 1,162.02."""
    sold = price(make_book(bands=((0, None, 8_215),)), [1_237], markup=Markup(linehaul_ppm=143_500))
    assert sold.lines[0].rate == 8_215 * 1_143_500
    assert sold.total.tolist() == [[1_162_02]]


def test_base_and_minimum_are_marked_up_with_the_miles(make_book, price, teapot) -> None:
    book = make_book(carrier=replace(teapot, base_minor=40_00, minimum_minor=300_00))
    sold = price(book, [100], markup=Markup(linehaul_ppm=100_000))
    assert [int(line.amount[0, 0]) for line in sold.lines] == [44_00, 110_00, 176_00]


def test_the_cost_has_a_minimum_line_wherever_the_carrier_asks_for_it(make_book, price, teapot) -> None:
    """The selling lines may round up to the minimum while the cost lines stay a cent below: that cent is the carrier's."""
    book = make_book(
        bands=((0, 1, 10_040), (1, None, 10_040)), carrier=replace(teapot, bands="graduated", minimum_minor=2_01)
    )
    cost, sold = price(book, [2]), price(book, [2], markup=Markup(linehaul_ppm=5_000))
    assert (cost.total.tolist(), sold.total.tolist()) == ([[2_01]], [[2_02]])
    assert {line.code for line in cost.lines} == {line.code for line in sold.lines}


@pytest.mark.parametrize("miles", [1, 99, 100, 101, 8_999, 9_000])
def test_one_lane_alone_and_the_same_lane_among_others_cost_the_same(make_book, price, miles: int) -> None:
    book = make_book(bands=TWO_DOLLARS_THEN_ONE)
    among = price(book, [3, miles, 4_321]).total[0, 1]
    assert np.array_equal(price(book, [miles]).total, [[among]])


def test_a_carriers_row_counts_on_its_first_and_on_its_last_day(make_book, teapot) -> None:
    first, last = date(2026, 12, 24), date(2027, 1, 6)
    book = make_book(carrier=replace(teapot, valid_from=first, valid_to=last))
    days = [first - timedelta(1), first, date(2027, 1, 1), last, last + timedelta(1)]
    assert [len(compile_tariffs(book_of_day(book, day), day).services) for day in days] == [0, 1, 1, 1, 0]
