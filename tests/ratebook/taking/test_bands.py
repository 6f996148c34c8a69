"""Prices a mile by the length of the trip go into the sheet Per mile. Mails made up here.

That "501-1000" begins where "0-500" ends is common practice, no source; a mile is 1.609344 km (international yard, 1959).
"""

from decimal import Decimal

import pytest

from shipcalc.ratebook.taking.spans import span_said, spans_of

from .reading import understood, workbook

HEAD = [("Coastal Wren Carriers LLC",), ("USD, fuel surcharge extra, valid from 1 January 2027",), ()]


def bands(found):
    return [
        (
            rate.where.removeprefix("Rates!"),
            rate.trailer,
            rate.span.over,
            rate.span.up_to,
            str(rate.per_mile.normalize()),
        )
        for rate in found.rates
    ]


def named(found):
    return {item.where.removeprefix("Rates!"): item.why for item in found.left_out if not item.is_taken}


@pytest.mark.parametrize(
    ("texts", "over", "up_to"),
    [
        (("0–500", "501-1000", "1001+ mi"), (0, 500, 1000), (500, 1000, None)),
        (("up to 500 mi", "501 to 1,000", "over 1,000"), (0, 500, 1000), (500, 1000, None)),
        (("<500", "500-999", "1000 and over"), (0, 499, 999), (499, 999, None)),
        (("0-500", "500-1000", "1,000 miles or more"), (0, 500, 1000), (500, 1000, None)),
        (("bis 300 km", "301-800 km"), (0, 300), (300, 800)),
    ],
)
def test_bands_as_they_are_written(texts, over, up_to):
    spans = spans_of([span_said(text) for text in texts])

    assert tuple(span.over for span in spans) == over
    assert tuple(span.up_to for span in spans) == up_to


@pytest.mark.parametrize("texts", [("900-904", "905-908"), ("0-500", "601-1000"), ("501-1000", "0-500"), ("0-500",)])
def test_what_does_not_follow_from_nought_is_no_run_of_bands(texts):
    assert spans_of([span_said(text) for text in texts]) is None


def test_bands_as_columns_and_trailers_as_rows(tmp_path):
    rows = [
        ("Trailer", "0–500", "501-1000", "1001+ mi", "Min"),
        ("Open", 1.15, 0.95, "$0.82", 300),
        ("Enclosed", 1.95, 1.65, "call", 550),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows]))

    assert bands(found) == [
        ("B5", "open", 0, 500, "1.15"),
        ("C5", "open", 500, 1000, "0.95"),
        ("D5", "open", 1000, None, "0.82"),
        ("B6", "enclosed", 0, 500, "1.95"),
        ("C6", "enclosed", 500, 1000, "1.65"),
    ]
    assert not found.questions
    assert named(found).keys() == {"D6", "E5", "E6"}
    assert {(rate.valid_from.isoformat(), rate.valid_to, rate.currency) for rate in found.rates} == {
        ("2027-01-01", None, "USD")
    }


def test_bands_as_rows_in_one_column(tmp_path):
    rows = [
        ("Distance", "Open $/mi", "Enclosed $/mi"),
        ("up to 250", 1.9, 2.9),
        ("251 - 500", 1.4, 2.2),
        ("over 500", 0.9, 1.6),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows]))

    assert bands(found)[:3] == [
        ("B5", "open", 0, 250, "1.9"),
        ("B6", "open", 250, 500, "1.4"),
        ("B7", "open", 500, None, "0.9"),
    ]
    assert [one[1] for one in bands(found)] == ["open"] * 3 + ["enclosed"] * 3


def test_bands_in_two_columns_below_a_title_for_each_trailer(tmp_path):
    head = ("From mi", "To mi", "Rate per mile")
    open_ = [("OPEN TRAILERS",), head, (0, 250, 1.9), (251, None, 1.4), ()]
    enclosed = [("ENCLOSED",), head, (0, 250, 2.9), (251, None, 2.4)]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *open_, *enclosed]))

    assert bands(found) == [
        ("C6", "open", 0, 250, "1.9"),
        ("C7", "open", 250, None, "1.4"),
        ("C11", "enclosed", 0, 250, "2.9"),
        ("C12", "enclosed", 250, None, "2.4"),
    ]


def test_groups_of_bands_side_by_side_are_for_a_trailer_each(tmp_path):
    rows = [
        (None, "Open", None, "Enclosed", None),
        ("Mileage", "0-500", "501+", "0-500", "501+"),
        ("Rate/mile", 1.2, 1, 2.2, 2),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows], merged=["B4:C4", "D4:E4"]))

    assert [(one[0], one[1]) for one in bands(found)] == [
        ("B6", "open"),
        ("C6", "open"),
        ("D6", "enclosed"),
        ("E6", "enclosed"),
    ]
    assert not named(found)


def test_bands_of_one_state_alone_are_named_and_not_taken_for_all(tmp_path):
    rows = [("Origin state", "0-500", "501+"), ("WA", 1.2, 1), ("OR", 1.3, 1.1)]
    found = understood(workbook(tmp_path / "a.xlsx", [("Coastal Wren LLC, open trailers",), *rows]))

    assert not found.rates
    assert named(found).keys() >= {"B3", "B4"}


def test_sums_by_distance_are_named_and_not_taken_for_prices_a_mile(tmp_path):
    rows = [("Miles", "Open"), ("0-100", 250), ("101-250", 400), ("251-500", "$1.60/mi")]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows]))

    assert bands(found) == [("B7", "open", 250, 500, "1.6")]
    assert named(found).keys() == {"B5", "B6"}


def test_kilometres_are_asked_for_their_price_and_become_whole_miles(tmp_path):
    rows = [
        ("Tern Road BV",),
        ("open, EUR, diesel included",),
        (),
        ("Afstand km", "Open"),
        ("0-250", "2,10"),
        ("> 250", "1,60"),
    ]
    path = workbook(tmp_path / "a.xlsx", rows)
    assert [question.key for question in understood(path).questions] == ["unit"]

    found = understood(path, answers={"unit": "kilometre"})
    assert [(rate.span.over, rate.span.up_to) for rate in found.rates] == [
        (0, 155),
        (155, None),
    ]  # 250 km are 155.34 mi
    assert found.rates[0].per_mile == Decimal("2.10") * Decimal("1.609344")


def test_small_numbers_of_vehicles_are_no_miles(tmp_path):
    rows = [("Load", "1-3", "4+"), ("Rate", 1.2, 1)]
    found = understood(workbook(tmp_path / "a.xlsx", [("Coastal Wren LLC, open, per car",), *rows]))

    assert not found.rates
