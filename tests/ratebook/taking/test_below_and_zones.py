"""Charges below a table of freights, legends of zones in tables and in lines, and prices that are good for so many days."""

from datetime import date
from decimal import Decimal

import pytest

from .reading import told, understood, workbook

LETTER = [("Redstart Transport LLC",), ("Open, fuel included, USD. Valid Q1 2027. Origin: Bellingham, WA 98225.",), ()]
SEA = [("Gannet Forwarding GmbH",), ("Quotation GF-1, valid 12/01/2026 - 12/31/2026, RoRo, USD",), ()]
FREIGHTS = [("POL", "POD", "Freight per vehicle"), ("USSAV", "DEBRV", 1150), ("USNYC", "DEBRV", 1250), ()]


def why(found):
    return {item.where.removeprefix("Rates!"): item.why for item in found.left_out}


def lanes(found):
    return [told(rate)[2:] for rate in found.rates if rate.target == "Lanes"]


def test_a_table_of_charges_below_the_freights_is_on_all_of_them(tmp_path):
    charges = [
        ("Charge", "Basis", "Amount"),
        ("BAF", "%", 12.5),
        ("B/L fee", "per B/L", "USD 75"),
        ("Clearance", "per entry", 120),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", [*SEA, *FREIGHTS, *charges]))

    below = [
        (rate.label, rate.percent or rate.flat, rate.basis, rate.start, rate.end) for rate in found.rates if rate.label
    ]
    assert below == [("bunker", Decimal("12.5"), "", None, None), ("bill of lading", 75, "per shipment", None, None)]
    assert "C11" in why(found)
    assert not found.questions


def test_charges_below_lanes_are_named_and_cost_no_question(tmp_path):
    charges = [("Additional charges", "Amount"), ("Inoperable vehicle", "$150"), ("Waiting time per hour", "$75")]
    found = understood(
        workbook(tmp_path / "a.xlsx", [*LETTER, ("From", "To", "Rate"), ("WA", "CA", 1150), (), *charges])
    )

    assert lanes(found) == [("WA", "CA", "1150")]
    assert {"A8", "A9"} <= why(found).keys()
    assert not found.questions


@pytest.mark.parametrize("zone", ["AZ, NV (excl. Reno area)", "NV ex Reno", "NV without 980", "NV except Reno"])
def test_a_zone_with_an_exception_that_is_not_understood_is_left_out_alone(tmp_path, zone):
    rows = [*LETTER, ("Zone", "States"), ("A", "WA, OR"), ("B", zone), (), ("Zone", "Price"), ("A", 450), ("B", 900)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert lanes(found) == [("98225", "Redstart Transport zone A", "450")]
    assert {"B6", "A10"} <= why(found).keys()
    assert not found.questions


def test_a_table_of_zones_that_is_the_same_both_ways_needs_no_question(tmp_path):
    rows = [*LETTER, ("Zone A: WA, OR",), ("Zone B: ID, MT",), (), ("", "Zone A", "Zone B"), ("Zone A", 300, 500)]
    same = understood(workbook(tmp_path / "a.xlsx", [*rows, ("Zone B", 500, 350)]))
    other = understood(workbook(tmp_path / "b.xlsx", [*rows, ("Zone B", 520, 350)]))

    assert [question.key for question in same.questions] == []
    assert [question.key for question in other.questions] == ["matrix"]
    assert len(lanes(same)) == 4


def test_a_legend_below_the_prices_is_no_row_of_theirs(tmp_path):
    rows = [*LETTER, ("From zone", "To zone", "Price"), ("A", "B", 500), ("B", "A", 520), ()]
    found = understood(workbook(tmp_path / "a.xlsx", [*rows, ("Zone legend",), ("A", "WA, OR"), ("B", "ID, MT")]))

    zones = ("Redstart Transport zone A", "Redstart Transport zone B")
    assert lanes(found) == [(*zones, "500"), (*zones[::-1], "520")]
    assert [rate.end.text for rate in found.rates if rate.target == "Areas"] == ["WA", "OR", "ID", "MT"]
    assert not why(found)


def test_days_from_a_day_of_issue_are_counted_and_shown_and_without_one_asked(tmp_path):
    head = [("Coastal Wren Carriers LLC",), ("Open, fuel included, USD",)]
    table = [(), ("From", "To", "Rate"), ("WA", "CA", 1150)]
    dated = understood(
        workbook(tmp_path / "a.xlsx", [*head, ("December 1, 2026",), ("Rates are good for 30 days",), *table])
    )
    path = workbook(tmp_path / "b.xlsx", [*head, ("Rates are good for 30 days",), *table])
    answered = understood(path, answers={"issued": "2026-12-10"})

    assert [rate.valid_to for rate in dated.rates] == [date(2026, 12, 31)]
    assert "2026-12-31" in why(dated)["A4"]
    assert [question.key for question in understood(path).questions] == ["issued"]
    assert ([rate.valid_to for rate in answered.rates], answered.questions) == ([date(2027, 1, 9)], ())
