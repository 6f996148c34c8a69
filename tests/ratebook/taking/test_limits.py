"""Limits of size and weight, and whatever else is stated: kept as a note and named, asked, or left out by name. Mails made up here."""

import pytest

from shipcalc.ratebook.taking.answers import DEAREST
from shipcalc.ratebook.taking.stated import limits_in, says_condition, without_limits
from shipcalc.ratebook.taking.traits import traits_in

from .reading import understood, workbook

HEAD = [("Dunlin Car Haul LLC",), ("USD, fuel included, open transport, valid 1 Dec 2026 - 31 Dec 2026",)]
FIELDS = ("From", "To", "Rate")
LANES = [("Seattle, WA", "Reno, NV", 900), ("Seattle, WA", "Boise, ID", 700)]
DEARER = [("Seattle, WA", "Reno, NV", 1900), ("Seattle, WA", "Boise, ID", 1700)]


def named(found):
    return {item.where.removeprefix("Rates!"): item.why for item in found.left_out}


def prices(found):
    return [(rate.where.removeprefix("Rates!"), rate.flat, rate.condition) for rate in found.rates]


@pytest.mark.parametrize(
    ("text", "limit"),
    [
        ("Open transport, vehicles up to 5.2 m", "up to 5.2 m"),
        ("max 2,200 kg", "max 2,200 kg"),
        ("max. height 1.75 m", "max. height 1.75 m"),
        ("über 5,00 m bis 6,00 m", "über 5,00 m bis 6,00 m"),
        ("Class 2: 5.01–6.0 m", "5.01–6.0 m"),
        ("vehicles up to 20 ft", "up to 20 ft"),
        ("Jusqu'à 4,50 m", "Jusqu'à 4,50 m"),
        ("Enclosed (GVW up to 3.5 t)", "GVW up to 3.5 t"),
        ("height max. 80 in", "height max. 80 in"),
        ("altezza fino a 1,9 m", "altezza fino a 1,9 m"),
        ("under 4,500 lbs", "under 4,500 lbs"),
    ],
)
def test_a_limit_is_found_in_its_own_words_and_taken_out(text, limit):
    assert limits_in(text) == (limit,)
    assert not any(sign.isdigit() for sign in without_limits(text).removeprefix("Class 2"))


@pytest.mark.parametrize(
    "text",
    ["40' HC", "20ft container", "1 x 40'", "per 100 kg", "590 to 599", "12 in stock", "over 500 mi", "EUR 85 per m"],
)
def test_a_container_a_range_and_a_distance_are_no_limits(text):
    assert limits_in(text) == ()


def test_a_limit_of_twenty_feet_is_no_container():
    assert traits_in("vehicles up to 20 ft")[0].basis == ""
    assert traits_in("per 20 ft container")[0].basis == "per 20′"


@pytest.mark.parametrize(
    "text", ["außer Samstag", "péages en sus", "plus tolls", "excepto islas", "escluse le isole", "12 %"]
)
def test_words_of_conditions_are_known_in_several_languages(text):
    assert says_condition(text)


@pytest.mark.parametrize(
    ("rows", "cell", "limit"),
    [
        ([("Vehicles up to 5.2 m",), FIELDS, *LANES], "A3", "up to 5.2 m"),
        ([FIELDS, *LANES, (), ("Please note: max 2,200 kg",)], "A7", "max 2,200 kg"),
        ([("From", "To", "Rate (max. height 1.75 m)"), *LANES], "C3", "max. height 1.75 m"),
        ([FIELDS, ("Light vehicles, max 1,400 kg",), *LANES], "A4", "max 1,400 kg"),
    ],
    ids=["above", "below", "header", "between"],
)
def test_a_limit_is_kept_as_the_note_of_each_row_and_named_with_its_cell(tmp_path, rows, cell, limit):
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows]))

    assert [(flat, condition) for _, flat, condition in prices(found)] == [(900, limit), (700, limit)]
    assert "no column" in named(found)[cell]
    assert not found.questions


def test_a_limit_at_one_trailer_is_the_note_of_its_row_alone(tmp_path):
    rows = [("From", "To", "Trailer", "Rate"), ("WA", "NV", "Open (max 2.2 t)", 900), ("WA", "ID", "Enclosed", 700)]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows]))

    assert prices(found) == [("D4", 900, "max 2.2 t"), ("D5", 700, "")]
    assert "max 2.2 t" in named(found)["C4"]


def test_a_trailer_for_vehicles_that_do_not_run_is_no_price_for_all(tmp_path):
    rows = [("From", "To", "Trailer", "Rate"), ("WA", "NV", "Enclosed, inop", 900), ("WA", "ID", "Enclosed", 700)]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows]))

    assert prices(found) == [("D5", 700, "")]
    assert "does not run alone" in named(found)["D4"]


def test_a_limit_in_the_name_of_a_sheet_is_named(tmp_path):
    found = understood(workbook(tmp_path / "a.xlsx", HEAD, more={"Up to 5.2m": [FIELDS, *LANES]}))

    assert {rate.condition for rate in found.rates} == {"Up to 5.2m"}
    assert any("Up to 5.2m" in item.why for item in found.left_out)


BY_LENGTH = [("Up to 5.0 m",), FIELDS, *LANES, (), ("Over 5.0 m",), FIELDS, *DEARER]


def test_two_tables_that_differ_by_a_limit_are_asked_once_and_the_dearest_can_be_taken(tmp_path):
    path = workbook(tmp_path / "a.xlsx", [*HEAD, *BY_LENGTH])
    (question,) = understood(path).questions

    assert question.choices[:3] == ("Up to 5.0 m", "Over 5.0 m", DEAREST)
    assert not understood(path).rates
    assert prices(understood(path, answers={"which": DEAREST})) == [
        ("C10", 1900, "Over 5.0 m"),
        ("C11", 1700, "Over 5.0 m"),
    ]
    assert [cell for cell, _, _ in prices(understood(path, answers={"which": "Up to 5.0 m"}))] == ["C5", "C6"]


def test_columns_by_length_are_asked_and_never_one_taken_for_the_other(tmp_path):
    head = ("From", "To", "up to 17 ft", "over 17 ft")
    rows = [head, ("WA", "NV", 900, 1000), ("WA", "ID", 700, 800)]
    path = workbook(tmp_path / "a.xlsx", [*HEAD, *rows])

    assert [question.key for question in understood(path).questions] == ["which"]
    assert [flat for _, flat, _ in prices(understood(path, answers={"which": DEAREST}))] == [1000, 800]
    assert [flat for _, flat, _ in prices(understood(path, answers={"which": "up to 17 ft"}))] == [900, 700]


def test_a_price_for_a_metre_is_none_for_a_vehicle(tmp_path):
    head = ("POL", "POD", "Length", "Freight per vehicle, roro")
    rows = [head, ("USBAL", "DEBRV", "up to 5 m", 940), ("USBAL", "DEBRV", "over 6 m per m", 210)]
    path = workbook(tmp_path / "a.xlsx", [*HEAD, *rows])
    found = understood(path, answers={"which": DEAREST})

    assert [flat for _, flat, _ in prices(found)] == [940]
    assert "for a metre" in named(found)["D5"]
    assert not understood(path, answers={"which": "over 6 m per m"}).rates


def test_a_header_of_a_price_for_a_weight_is_named_and_not_taken(tmp_path):
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, ("From", "To", "Rate per cwt"), *LANES]))

    assert not found.rates
    assert {"C4", "C5"} <= named(found).keys()


@pytest.mark.parametrize(
    "line",
    [
        "Deliveries on weekends only by appointment",
        "Prices exclude tolls over the bridges",
        "Brokerage EUR 45 per shipment",
        "Payment 14 days net",
        "Within 50 miles of an interstate",
        "zzgl. 19 % MwSt",
        "Péages en sus",
    ],
)
def test_a_line_that_states_something_and_is_not_understood_is_named(tmp_path, line):
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, (line,), FIELDS, *LANES]))

    assert "A3" in named(found)
    assert [flat for _, flat, _ in prices(found)] == [900, 700]


@pytest.mark.parametrize(
    "line",
    [
        "4210 Harbor Way, Suite 5, Tacoma, WA 98421",
        "Thank you for your business",
        "USDOT 1234567",
        "Page 1 of 2",
        "Quote no. DC-118",
    ],
)
def test_an_address_and_thanks_are_not(tmp_path, line):
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, (line,), FIELDS, *LANES]))

    assert "A3" not in named(found)


def test_a_cell_beside_a_table_that_states_something_is_named(tmp_path):
    rows = [(*FIELDS, None, "Our best"), (*LANES[0], None, "except Saturdays"), (*LANES[1], None, "see above")]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows]))

    assert "except Saturdays" in named(found)["E3"]


def test_what_is_struck_out_beside_a_price_is_named(tmp_path):
    rows = [("From", "To", "Rate", "Trailer"), ("WA", "NV", 900, "open"), ("WA", "ID", 700, "open")]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows], struck=("C4", "D4")))

    assert prices(found) == [("C5", 700, "")]
    assert "struck out" in named(found)["C4"]
