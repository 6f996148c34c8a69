"""What is asked on top of a freight: a percentage where a % stands, money where a currency does, and a question for a bare number."""

from decimal import Decimal

import pytest

from shipcalc.ratebook.taking.answers import LEAVE_OUT, MONEY, PERCENT, Answers
from shipcalc.ratebook.taking.around import Known
from shipcalc.ratebook.taking.page import read_mail
from shipcalc.ratebook.taking.understanding import understand

from .reading import workbook

HEAD = [("Petrel Bay Forwarding Inc.",), ("Quotation PB-771, valid 12/01/2026 - 01/31/2027, RoRo, USD",), ()]


def freights(header, *cells):
    ports = ("USBAL", "USSAV", "USNYC")
    rows = [(port, "DEBRV", 1150 + n, cell) for n, (port, cell) in enumerate(zip(ports, cells, strict=False))]
    return [*HEAD, ("POL", "POD", "Freight per vehicle", header), *rows]


def read(tmp_path, rows, columns=None, **kept):
    path = workbook(tmp_path / "a.xlsx", rows, **kept)
    return understand(read_mail(path), Answers({}, columns or {}), Known())


def surcharges(found):
    return [(rate.label, rate.percent, rate.flat, rate.currency) for rate in found.rates if rate.label]


@pytest.mark.parametrize("header", ["BAF", "Fuel surcharge", "Surcharge", "Bunker", "CAF", "Fuel"])
def test_a_bare_small_number_is_asked_once_for_its_column(tmp_path, header):
    rows = freights(header, 12.5, 14, 9)
    found = read(tmp_path, rows)
    as_share, as_money, left_out = (
        read(tmp_path, rows, columns={header: answer}) for answer in (PERCENT, MONEY, LEAVE_OUT)
    )

    assert ([question.key for question in found.questions], found.rates) == ([f"columns.{header}"], ())
    assert [share for _, share, _, _ in surcharges(as_share)] == [Decimal("12.5"), 14, 9]
    assert [(flat, currency) for _, _, flat, currency in surcharges(as_money)] == [
        (Decimal("12.5"), "USD"),
        (14, "USD"),
        (9, "USD"),
    ]
    assert not surcharges(left_out)
    assert [rate.flat for rate in left_out.rates] == [1150, 1151, 1152]
    assert {"Rates!D5", "Rates!D6", "Rates!D7"} <= {item.where for item in left_out.left_out}


@pytest.mark.parametrize(
    ("header", "cell", "shown"),
    [
        ("BAF %", 12.5, None),
        ("BAF", "12.5 %", None),
        ("BAF", 0.125, {"D5": "0.0%"}),
        ("BAF (percent of freight)", 12.5, None),
        ("BAF pct", 12.5, None),
    ],
)
def test_where_a_percent_sign_or_word_stands_it_is_a_percentage(tmp_path, header, cell, shown):
    found = read(tmp_path, freights(header, cell), formats=shown)

    assert not found.questions
    assert surcharges(found) == [("bunker", Decimal("12.5"), None, "")]


def test_a_percent_sign_in_the_row_of_units_counts(tmp_path):
    rows = freights("BAF", 12.5)
    found = read(tmp_path, [*rows[:4], (None, None, "USD", "%"), *rows[4:]])

    assert surcharges(found) == [("bunker", Decimal("12.5"), None, "")]
    assert not found.questions


@pytest.mark.parametrize(
    ("header", "cells", "shown"),
    [
        ("BAF USD", (12.5,), None),
        ("BAF per vehicle", (12.5,), None),
        ("BAF", ("$12.50",), None),
        ("BAF", (12.5,), {"D5": '"USD" 0.00'}),
        ("BAF", (12.5, 180), None),  # no share of a freight is 180 %
        ("B/L fee", (75,), None),  # common practice, no source: papers are not charged in percent
    ],
)
def test_where_a_currency_or_a_unit_stands_it_is_money(tmp_path, header, cells, shown):
    found = read(tmp_path, freights(header, *cells), formats=shown)

    assert not found.questions
    assert {share for _, share, _, _ in surcharges(found)} == {None}
    assert len(surcharges(found)) == len(cells)


@pytest.mark.parametrize("header", ["BAF %", "BAF", "BAF surcharge"])
def test_a_share_kept_as_a_part_of_one_without_a_sign_is_taken_as_one_and_told(tmp_path, header):
    found = read(tmp_path, freights(header, 0.125))

    assert [share for _, share, _, _ in surcharges(found)] == [Decimal("12.5")]
    assert {item.where: item.why for item in found.left_out}[
        "Rates!D5"
    ] == "is 0.125 in the mail, and is taken as 12.5 %"
    assert not found.questions


def test_a_share_that_may_be_half_of_the_freight_is_named_with_its_freight(tmp_path):
    found = read(tmp_path, freights("BAF %", 0.5))

    assert not found.rates
    assert {"Rates!C5", "Rates!D5"} <= {item.where for item in found.left_out}


def test_a_list_of_charges_with_a_bare_number_is_asked(tmp_path):
    rows = [
        *HEAD,
        ("From Savannah (USSAV) to Bremerhaven (DEBRV)",),
        ("Charge", "Basis", "Currency", "Amount"),
        ("Ocean freight", "per W/M", "USD", 58.5),
        ("BAF", "", "", 12.5),
        ("LSS", "per W/M", "USD", 2.5),
    ]

    assert [question.key for question in read(tmp_path, rows).questions] == ["columns.BAF"]
    assert surcharges(read(tmp_path, rows, columns={"BAF": PERCENT})) == [
        ("bunker", Decimal("12.5"), None, ""),
        ("low sulphur", None, Decimal("2.5"), "USD"),
    ]
    assert [label for label, _, _, _ in surcharges(read(tmp_path, rows, columns={"BAF": LEAVE_OUT}))] == ["low sulphur"]


def test_surcharges_below_the_freights_are_on_all_of_them(tmp_path):
    rows = [*freights("Remarks", None, None), (), ("BAF", "12.5 %"), ("CAF", 4), ("Documentation", "USD 65", "per B/L")]
    found = read(tmp_path, rows, columns={"CAF": PERCENT})

    assert [question.key for question in read(tmp_path, rows).questions] == ["columns.CAF"]
    assert surcharges(found) == [
        ("bunker", Decimal("12.5"), None, ""),
        ("currency adjustment", 4, None, ""),
        ("bill of lading", None, 65, "USD"),
    ]
    assert [rate.basis for rate in found.rates if rate.label] == ["", "", "per shipment"]


def test_a_surcharge_on_a_lane_is_named_by_its_column(tmp_path):
    rows = [("Coastal Wren Carriers LLC",), ("USD, open transport",), (), ("From", "To", "Rate", "Surcharge")]
    found = read(tmp_path, [*rows, ("WA", "CA", 1150, 12.5)])

    assert [rate.flat for rate in found.rates] == [1150]
    assert "Rates!D4" in {item.where for item in found.left_out}
