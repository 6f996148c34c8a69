"""Quotations as forms of labels and values: one or several on a page, by sea and by road, and what is in doubt in them."""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.ratebook.taking.answers import PERCENT, Answers
from shipcalc.ratebook.taking.around import Known
from shipcalc.ratebook.taking.page import read_mail
from shipcalc.ratebook.taking.understanding import understand

from .reading import told, understood, workbook

SENDER = ("Gannet Forwarding GmbH",)
PORTS = [("POL", "Savannah, GA"), ("POD", "Bremerhaven")]
HEAD = [SENDER, ("Quotation no.", "GF-2291"), ("Valid until", date(2026, 12, 31))]
SUMS = [("Ocean freight", "USD 2,850.00"), ("BAF", "12.5 %"), ("THC destination", "EUR 260.00/container")]


def quoted(found):
    return [
        (
            rate.label,
            rate.start.text,
            rate.end.text,
            rate.percent or rate.flat,
            rate.currency,
            rate.basis,
            rate.free_days,
        )
        for rate in found.rates
    ]


def why(found):
    return {item.where.removeprefix("Rates!"): item.why for item in found.left_out}


def test_one_form_gives_the_freight_its_surcharges_days_and_number(tmp_path):
    rows = [*HEAD, *PORTS, ("Equipment", "40' HC"), *SUMS, ("B/L fee", "USD 75 per B/L"), ("Free days", 7)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    ends = ("USSAV", "DEBRV")
    assert quoted(found) == [
        ("", *ends, 2850, "USD", "per 40′HC", 7),
        ("bunker", *ends, Decimal("12.5"), "", "per 40′HC", None),
        ("terminal handling at arrival", *ends, 260, "EUR", "per 40′HC", None),
        ("bill of lading", *ends, 75, "USD", "per shipment", None),
    ]
    assert {(rate.reference, rate.valid_to) for rate in found.rates} == {("GF-2291", date(2026, 12, 31))}
    assert not found.questions


def test_blocks_below_each_other_keep_their_own_ports_and_equipment(tmp_path):
    one = ("1) Savannah to Bremerhaven, 40' HC",)
    other = ("2) New York to Antwerp, 20'",)
    rows = [*HEAD, (), one, *SUMS, ("Free days", 7), (), other, ("Ocean freight", "USD 1,650.00"), ("BAF", "11 %")]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert quoted(found) == [
        ("", "USSAV", "DEBRV", 2850, "USD", "per 40′HC", 7),
        ("bunker", "USSAV", "DEBRV", Decimal("12.5"), "", "per 40′HC", None),
        ("terminal handling at arrival", "USSAV", "DEBRV", 260, "EUR", "per 40′HC", None),
        ("", "USNYC", "BEANR", 1650, "USD", "per 20′", None),
        ("bunker", "USNYC", "BEANR", 11, "", "per 20′", None),
    ]
    assert {rate.reference for rate in found.rates} == {"GF-2291"}


def test_labels_that_begin_again_begin_the_next_quotation(tmp_path):
    second = [("POL", "USNYC"), ("POD", "BEANR"), ("Equipment", "RoRo"), ("Ocean freight", "USD", 62.5, "per W/M")]
    rows = [*HEAD, *PORTS, ("Equipment", "40HC"), *SUMS, (), *second, ("BAF", None, "incl.")]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [(one[1:3], one[5]) for one in quoted(found) if not one[0]] == [
        (("USSAV", "DEBRV"), "per 40′HC"),
        (("USNYC", "BEANR"), "per W/M"),
    ]


def test_a_heading_with_an_unknown_port_takes_none_of_the_quotation_before(tmp_path):
    other = [("2) Savannah to Quillport, 20'",), ("Ocean freight", "USD 1,650.00")]
    found = understood(
        workbook(tmp_path / "a.xlsx", [*HEAD, ("1) Savannah to Bremerhaven, 40' HC",), *SUMS, (), *other])
    )

    assert [one[2] for one in quoted(found) if not one[0]] == ["DEBRV"]
    assert "B10" in why(found)


@pytest.mark.parametrize("port", ["Savannah or Charleston", "Quillport"])
def test_a_port_that_is_not_one_leaves_out_its_freight_and_what_is_on_it(tmp_path, port):
    rows = [*HEAD, ("POL", port), ("POD", "Bremerhaven"), ("Equipment", "40HC"), *SUMS]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert not found.rates
    assert {"B7", "B8", "B9"} <= why(found).keys()


def test_charges_below_two_quotations_are_on_both_only_where_that_is_said(tmp_path):
    offers = [
        ("20' container",),
        ("Ocean freight", "USD 1,450.00"),
        (),
        ("40'HC container",),
        ("Ocean freight", "USD 2,450.00"),
    ]
    handling = ("THC destination", "EUR 260.00 per container")

    both = understood(
        workbook(tmp_path / "a.xlsx", [*HEAD, *PORTS, (), *offers, (), ("Charges for both containers",), handling])
    )
    one = understood(workbook(tmp_path / "b.xlsx", [*HEAD, *PORTS, (), *offers, (), ("Local charges",), handling]))

    assert [row[5] for row in quoted(both) if row[0]] == ["per 20′", "per 40′HC"]
    assert not [row for row in quoted(one) if row[0]]
    assert "B14" in why(one)


def test_a_bare_number_in_a_form_is_asked(tmp_path):
    rows = [*HEAD, *PORTS, ("Equipment", "40HC"), ("Ocean freight", "USD 2,850.00"), ("BAF", 12.5)]
    path = workbook(tmp_path / "a.xlsx", rows)
    answered = understand(read_mail(path), Answers({}, {"BAF": PERCENT}), Known())

    assert [question.key for question in understood(path).questions] == ["columns.BAF"]
    assert [row[3] for row in quoted(answered)] == [2850, Decimal("12.5")]


def test_labels_and_values_in_one_cell_of_a_mail_with_its_own_from_and_to(tmp_path):
    letter = [
        SENDER,
        ("From: Anna Gannet, Gannet Forwarding GmbH",),
        ("To: Hale Classics",),
        ("Date: 1 December 2026",),
        (),
    ]
    form = [
        "Quotation no.: GF-3",
        "Good for 30 days from date of issue",
        "POL: Savannah, GA",
        "POD: Bremerhaven",
        "Equipment: RoRo",
    ]
    form += ["Ocean freight: USD 1,150.00 per vehicle", "BAF: 12.5 %", "Free time: 5 days"]
    found = understood(workbook(tmp_path / "a.xlsx", [*letter, *((line,) for line in form)]))

    assert [row[:6] for row in quoted(found)] == [
        ("", "USSAV", "DEBRV", 1150, "USD", "per vehicle"),
        ("bunker", "USSAV", "DEBRV", Decimal("12.5"), "", ""),
    ]
    assert {rate.valid_to for rate in found.rates} == {date(2026, 12, 31)}  # thirty days after the first of December


def test_what_a_form_says_in_two_ways_or_beside_its_sums_is_named(tmp_path):
    rows = [*HEAD[:2], ("Valid until", "01/02/2027"), *PORTS, ("Equipment", "40HC")]
    rows += [("Ocean freight", "USD 1,450.00", "subject to GRI"), ("Free days", "7 combined, 3 detention")]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert {"B7", "B8"} <= why(found).keys()
    assert [question.key for question in found.questions] == ["dates"]


def test_lanes_by_road_as_forms(tmp_path):
    rows = [("Coastal Wren Carriers LLC",), ("Open transport, fuel included, USD",), ()]
    rows += [("From", "Seattle, WA"), ("To", "Reno, NV"), ("Rate", "$890"), ("Valid until", date(2026, 12, 31)), ()]
    rows += [("From", "Seattle, WA"), ("To", "Boise, ID"), ("Rate", "$690"), ("Valid until", date(2026, 12, 15))]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [(*told(rate), rate.valid_to, rate.fuel_included) for rate in found.rates] == [
        ("B6", "open", "Seattle, WA", "Reno, NV", "890", date(2026, 12, 31), True),
        ("B11", "open", "Seattle, WA", "Boise, ID", "690", date(2026, 12, 15), True),
    ]
    assert not found.questions


def test_trailers_of_a_lane_as_labels(tmp_path):
    rows = [("Coastal Wren Carriers LLC",), ("Quote CW-4 of 12/15/2026, good for 14 days",), ()]
    rows += [("Origin", "Seattle, WA 98108"), ("Destination", "Boise, ID")]
    rows += [("Open transport", "$690"), ("Enclosed transport", "$1,190"), ("Fuel surcharge", "included")]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [(*told(rate)[1:], rate.valid_to, rate.fuel_included) for rate in found.rates] == [
        ("open", "98108", "Boise, ID", "690", date(2026, 12, 29), True),
        ("enclosed", "98108", "Boise, ID", "1190", date(2026, 12, 29), True),
    ]
    assert "A2" in why(found)
