"""Rates in the shapes in which carriers and forwarders send them: each mail is made up here, cell by cell, with what it says."""

from datetime import date
from decimal import Decimal

import pytest

from .reading import lanes, told, understood, workbook

HEAD = [("Coastal Wren Carriers LLC",), ("USD, fuel included, open transport, valid December 2026",), ()]


def named(found):
    return {item.where.removeprefix("Rates!"): item.why for item in found.left_out}


def test_blank_and_merged_cells_of_a_group_say_what_stands_above(tmp_path):
    rows = [
        *HEAD,
        ("From", "To", "Rate"),
        ("Seattle, WA", "Los Angeles, CA", 1150),
        (None, "Phoenix, AZ", 1290),
        ("Savannah, GA", "Miami, FL", 650),
        (None, "Atlanta, GA", 425),
    ]
    found, asked = lanes(workbook(tmp_path / "a.xlsx", rows, merged=["A7:A8"]))

    assert found == [
        ("C5", "open", "Seattle, WA", "Los Angeles, CA", "1150"),
        ("C6", "open", "Seattle, WA", "Phoenix, AZ", "1290"),
        ("C7", "open", "Savannah, GA", "Miami, FL", "650"),
        ("C8", "open", "Savannah, GA", "Atlanta, GA", "425"),
    ]
    assert not asked


def test_prices_for_other_vehicles_are_named_and_not_taken(tmp_path):
    rows = [*HEAD, ("From", "To", "Sedan", "SUV/Van", "Pickup"), ("Seattle, WA", "Reno, NV", 900, 990, 1050)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [told(rate) for rate in found.rates] == [("C5", "open", "Seattle, WA", "Reno, NV", "900")]
    assert {"D4", "E4"} <= named(found).keys()


def test_the_price_of_one_vehicle_is_taken_where_several_cost_less(tmp_path):
    rows = [*HEAD, ("From", "To", "1 vehicle", "2-3 vehicles", "Full load"), ("Seattle, WA", "Reno, NV", 900, 800, 700)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [rate.flat for rate in found.rates] == [900]
    assert {"D4", "E4"} <= named(found).keys()


def test_states_by_states_with_arrows_in_the_corner(tmp_path):
    rows = [*HEAD, ("Origin ↓ / Destination →", "CA", "TX"), ("WA", 1900, 2650), ("GA", 3300, "n/a")]
    found, asked = lanes(workbook(tmp_path / "a.xlsx", rows))

    assert found == [
        ("B5", "open", "WA", "CA", "1900"),
        ("C5", "open", "WA", "TX", "2650"),
        ("B6", "open", "GA", "CA", "3300"),
    ]
    assert not asked


def test_a_table_of_places_that_says_not_which_way_is_asked(tmp_path):
    rows = [*HEAD, (None, "Reno, NV", "Boise, ID"), ("Seattle, WA", 900, 700), ("Portland, OR", 800, 650)]
    path = workbook(tmp_path / "a.xlsx", rows)

    assert lanes(path)[1] == ["matrix"]
    found, asked = lanes(path, answers={"matrix": "rows are to"})
    assert found[0] == ("B5", "open", "Reno, NV", "Seattle, WA", "900")
    assert not asked


def test_a_column_for_each_month_gives_dated_rows(tmp_path):
    rows = [
        ("Coastal Wren Carriers",),
        ("Open, USD per vehicle, fuel included",),
        ("Origin", "Destination", "Dec 2026", date(2027, 1, 1)),
        ("Seattle, WA", "Dallas, TX", 1500, 1550),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows)).rates

    assert [(rate.flat, rate.valid_from, rate.valid_to) for rate in found] == [
        (1500, date(2026, 12, 1), date(2026, 12, 31)),
        (1550, date(2027, 1, 1), None),
    ]


def test_a_currency_that_only_the_number_format_shows_counts(tmp_path):
    rows = [("Fjordline Biltransport AB",), ("Prices ex Gothenburg",), ("Destination", "Open"), ("Oslo, Norway", 420)]
    found = understood(workbook(tmp_path / "a.xlsx", rows, formats={"B4": "[$€-2] #,##0"})).rates

    assert [(rate.currency, rate.start.text, rate.end.text) for rate in found] == [("EUR", "SEGOT", "Oslo")]


def test_struck_out_and_suspended_prices_are_not_taken_and_remarks_with_sums_are_named(tmp_path):
    rows = [
        *HEAD,
        ("Pickup", "Drop", "Rate", "Notes"),
        ("Portland, OR", "Boise, ID", 650, "new"),
        ("Portland, OR", "Reno, NV", 840, None),
        ("Portland, OR", "Fresno, CA", 790, "plus $60 bridge toll"),
        ("Portland, OR", "Butte, MT", 905, "suspended"),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows, struck=["C6"]))

    assert [rate.where for rate in found.rates] == ["Rates!C5", "Rates!C7"]
    assert {"C6", "D7", "A8"} <= named(found).keys()


def test_a_total_is_taken_where_its_parts_come_to_it(tmp_path):
    rows = [
        ("Turnstone Logistics",),
        ("Enclosed. Valid December 2026.",),
        ("Origin City", "Origin ST", "Dest City", "Dest ST", "Miles", "Linehaul", "FSC", "Total"),
        ("Bellingham", "WA", "Los Angeles", "CA", 1230, 1800, 216, 2016),
        ("Savannah", "GA", "Miami", "FL", 486, 900, 108, 1010),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [(rate.where, rate.flat, rate.fuel_included) for rate in found.rates] == [("Rates!H4", 2016, True)]
    assert "H5" in named(found)


def test_headers_below_each_other_are_read_as_well(tmp_path):
    rows = [*HEAD, ("From", "Seattle, WA", "Savannah, GA"), ("To", "Reno, NV", "Miami, FL"), ("Open", 890, 700)]
    rows = [
        ("Dotterel Haulers",),
        ("USD, fuel included, valid 12/1/26-12/31/26",),
        (),
        *rows[3:],
        ("Enclosed", 1500, 1180),
    ]
    found, asked = lanes(workbook(tmp_path / "a.xlsx", rows))

    assert sorted(found) == [
        ("B6", "open", "Seattle, WA", "Reno, NV", "890"),
        ("B7", "enclosed", "Seattle, WA", "Reno, NV", "1500"),
        ("C6", "open", "Savannah, GA", "Miami, FL", "700"),
        ("C7", "enclosed", "Savannah, GA", "Miami, FL", "1180"),
    ]
    assert not asked


def test_kilometres_become_miles(tmp_path):
    rows = [*HEAD, ("From", "To", "$ per km"), ("WA", "CA", 1.0)]
    found = understood(workbook(tmp_path / "a.xlsx", rows)).rates

    assert found[0].per_mile == Decimal("1.609344")  # the international mile, exactly 1.609344 km


def test_lanes_in_one_cell_and_both_ways(tmp_path):
    rows = [
        *HEAD,
        ("Lane", "Price"),
        ("Seattle, WA <> Portland, OR", "$350"),
        ("Los Angeles, CA to Phoenix, AZ", "$590 (v.v. $640)"),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [told(rate)[2:] for rate in found.rates] == [
        ("Seattle, WA", "Portland, OR", "350"),
        ("Portland, OR", "Seattle, WA", "350"),
    ]
    assert "B6" in named(found)


def test_days_that_can_be_two_are_asked(tmp_path):
    rows = [
        ("Godwit Carriers",),
        ("Open, USD, fuel included. Valid 01/02/2027 to 03/04/2027",),
        ("From", "To", "Rate"),
        ("WA", "ID", 700),
    ]
    path = workbook(tmp_path / "a.xlsx", rows)

    assert [question.key for question in understood(path).questions] == ["dates"]
    rate = understood(path, answers={"dates": "day first"}).rates[0]
    assert (rate.valid_from, rate.valid_to) == (date(2027, 2, 1), date(2027, 4, 3))


def test_columns_that_nobody_knows_are_asked(tmp_path):
    rows = [*HEAD, ("From", "To", "Tier A", "Tier B"), ("WA", "ID", 700, 1100)]
    path = workbook(tmp_path / "a.xlsx", rows)

    assert lanes(path) == ([], ["columns.Tier A", "columns.Tier B"])


def test_a_quotation_that_lists_its_charges(tmp_path):
    rows = [
        ("Gannet Forwarding Inc.",),
        ("Quotation GF-2291, valid 12/01/2026 - 01/31/2027",),
        ("From Savannah, GA (USSAV) to Bremerhaven, Germany (DEBRV), RoRo",),
        (),
        ("Charge", "Basis", "Currency", "Amount"),
        ("Ocean freight", "per W/M", "USD", 58.5),
        ("CAF", "% of freight", "", 4),
        ("B/L fee", "per B/L", "USD", 75),
        ("Weighing", "per vehicle", "USD", 20),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [(rate.label, rate.flat, rate.percent, rate.basis, rate.reference) for rate in found.rates] == [
        ("", Decimal("58.5"), None, "per W/M", "GF-2291"),
        ("currency adjustment", None, 4, "", "GF-2291"),
        ("bill of lading", 75, None, "per shipment", "GF-2291"),
    ]
    assert {(rate.start.text, rate.end.text) for rate in found.rates} == {("USSAV", "DEBRV")}
    assert [rate.mode for rate in found.rates] == ["roro", "", ""]
    assert "D9" in named(found)


def test_a_quotation_as_a_form(tmp_path):
    rows = [
        ("Pelican Reach Shipping Ltd",),
        ("Quote No.:", "PR-4471"),
        ("Valid until:", date(2026, 12, 31)),
        ("POL:", "Baltimore, MD"),
        ("POD:", "Southampton, UK"),
        ("Mode:", "RoRo"),
        ("Ocean freight:", "USD 1,150.00 per vehicle"),
        ("BAF:", "12 %"),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows)).rates

    assert [(rate.flat, rate.percent, rate.start.text, rate.end.text) for rate in found] == [
        (Decimal("1150.00"), None, "USBAL", "GBSOU"),
        (None, 12, "USBAL", "GBSOU"),
    ]


@pytest.mark.parametrize("said", ["Add $100 for the following lanes", "Lanes below: plus $100 per vehicle"])
def test_what_is_said_between_the_prices_is_named(tmp_path, said):
    rows = [*HEAD, ("From", "To", "Rate"), ("WA", "ID", 700), (said,), ("WA", "MT", 900)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert "A6" in named(found)


def test_two_prices_for_one_lane_are_named_and_neither_is_taken(tmp_path):
    rows = [*HEAD, ("From", "To", "Rate"), ("WA", "ID", 700), ("WA", "MT", 900), ("WA", "ID", 720)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [rate.where for rate in found.rates] == ["Rates!C6"]
    assert {"C5", "C7"} <= named(found).keys()


def test_a_formula_whose_result_was_not_saved_is_named(tmp_path):
    rows = [*HEAD, ("From", "To", "Rate"), ("WA", "ID", "=600+100"), ("WA", "MT", 900)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [rate.where for rate in found.rates] == ["Rates!C6"]
    assert "C5" in named(found)


def test_a_sheet_and_rows_that_are_hidden_are_named(tmp_path):
    from openpyxl import load_workbook

    path = workbook(
        tmp_path / "a.xlsx",
        [*HEAD, ("From", "To", "Rate"), ("WA", "ID", 700), ("WA", "MT", 900)],
        more={"Old": [("From", "To", "Rate"), ("WA", "ID", 1)]},
    )
    book = load_workbook(path)
    book["Old"].sheet_state = "hidden"
    book["Rates"].row_dimensions[6].hidden = True
    book.save(path)
    found = understood(path)

    assert [rate.where for rate in found.rates] == ["Rates!C5"]
    assert {"Old!A1", "A6"} <= named(found).keys()


def test_zones_are_what_the_mail_says_they_are(tmp_path):
    rows = [
        ("Redstart Transport",),
        ("Open, fuel included, USD. Valid Q1 2027. Origin: Bellingham, WA 98225.",),
        (),
        ("Zone", "States"),
        ("A", "WA, OR"),
        ("B", "ID"),
        (),
        ("Zone", "Price"),
        ("A", 450),
        ("B", 900),
        ("C", 990),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [(rate.label, rate.end.text) for rate in found.rates if rate.target == "Areas"] == [
        ("Redstart Transport zone A", "WA"),
        ("Redstart Transport zone A", "OR"),
        ("Redstart Transport zone B", "ID"),
    ]
    assert [told(rate)[2:] for rate in found.rates if rate.target == "Lanes"] == [
        ("98225", "Redstart Transport zone A", "450"),
        ("98225", "Redstart Transport zone B", "900"),
    ]
    assert "A11" in named(found)


@pytest.mark.parametrize("header", ["PLZ", "Postcode", "Code postal"])
def test_a_postal_code_abroad_is_never_taken_for_a_zip(tmp_path, header):
    rows = [*HEAD, ("From", f"{header}", "Rate"), ("Bremerhaven, Germany", "80331", 700)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert not found.rates
    assert "B5" in named(found)


def test_prices_without_a_currency_are_the_rate_books_and_it_is_said(tmp_path):
    rows = [("Coastal Wren Carriers",), ("Open, fuel included",), (), ("From", "To", "Rate"), ("WA", "ID", 700)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [rate.currency for rate in found.rates] == ["USD"]
    assert found.assumed_currency


def test_prices_written_with_a_comma_and_no_currency_are_asked(tmp_path):
    path = tmp_path / "a.csv"
    path.write_text("From;To;Open;Fuel incl.\nWA;ID;700,50;yes\n", encoding="utf-8")
    found = understood(path, carrier="Coastal Wren Carriers")

    assert [question.key for question in found.questions] == ["currency"]


@pytest.mark.parametrize("said", ["We are open Mon-Fri 8-5", "Cargo covered up to $100,000", "Office closed Dec 24"])
def test_an_office_that_is_open_is_no_trailer(tmp_path, said):
    rows = [("Coastal Wren Carriers",), ("USD, fuel included",), (said,), (), ("From", "To", "Rate"), ("WA", "ID", 700)]

    assert lanes(workbook(tmp_path / "a.xlsx", rows))[1] == ["trailer"]


@pytest.mark.parametrize("header", ["Rate per load", "Rate per truck", "Round trip"])
def test_a_price_for_something_else_than_a_vehicle_is_asked(tmp_path, header):
    rows = [*HEAD, ("From", "To", header), ("WA", "ID", 4700)]

    assert len(lanes(workbook(tmp_path / "a.xlsx", rows))[1]) == 1


def test_figures_shown_in_thousands_are_not_taken(tmp_path):
    rows = [*HEAD, ("From", "To", "Rate"), ("WA", "ID", 700), ("WA", "MT", 900)]
    found = understood(workbook(tmp_path / "a.xlsx", rows, formats={"C5": "#,##0,"}))

    assert [rate.where for rate in found.rates] == ["Rates!C6"]
    assert "C5" in named(found)


@pytest.mark.parametrize(
    ("which", "taken"),
    [("up to 5 m", [700, 900]), ("over 5 m", [800, 990]), ("the dearest", [800, 990]), ("leave out", [])],
)
def test_prices_by_length_are_asked_and_those_that_are_wanted_taken(tmp_path, which, taken):
    rows = [
        *HEAD,
        ("From", "To", "Length", "Rate"),
        ("WA", "ID", "up to 5 m", 700),
        ("WA", "ID", "over 5 m", 800),
        ("WA", "MT", "up to 5 m", 900),
        ("WA", "MT", "over 5 m", 990),
    ]
    path = workbook(tmp_path / "a.xlsx", rows)

    assert lanes(path)[1] == ["which"]
    assert [rate.flat for rate in understood(path, answers={"which": which}).rates] == taken


def test_what_a_total_holds_is_not_asked_on_top_of_it(tmp_path):
    rows = [
        ("Smew Ocean Forwarding",),
        ("Quote SM-301, valid through Jan 31, 2027. RoRo, per vehicle, USD",),
        (),
        ("POL", "POD", "Ocean freight", "BAF", "THC", "Total"),
        ("Baltimore", "Bremerhaven", 900, 110, 85, 1095),
        ("Savannah", "Bremerhaven", 950, 115, 80, 1150),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [(rate.where, rate.label, rate.flat) for rate in found.rates] == [("Rates!F5", "", 1095)]
    assert "F6" in named(found)  # 950 + 115 + 80 is 1,145


def test_bunker_that_is_included_is_not_asked_on_top(tmp_path):
    rows = [
        ("Smew Ocean Forwarding",),
        ("Quote SM-301, valid through Jan 31, 2027. RoRo, per vehicle, USD, BAF included",),
        (),
        ("POL", "POD", "Freight", "BAF", "THC"),
        ("Baltimore", "Bremerhaven", 1010, 110, 85),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [(rate.label, rate.flat) for rate in found.rates] == [("", 1010), ("terminal handling", 85)]


def test_a_rate_a_mile_that_is_the_price_over_the_miles_is_not_a_second_price(tmp_path):
    rows = [*HEAD, ("From", "To", "Miles", "Rate/mile", "Total"), ("Seattle, WA", "Boise, ID", 500, 1.8, 900)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [(rate.flat, rate.per_mile) for rate in found.rates] == [(900, None)]
