"""Prices, days and headers as people write them; what they mean is common practice, no source."""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.ratebook.taking.days import days_in, order_in
from shipcalc.ratebook.taking.ends import Unclear
from shipcalc.ratebook.taking.figures import Figure, NoFigure, decimal_mark, figure_in
from shipcalc.ratebook.taking.meanings import meaning_of
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.spots import ends_in

PRICES = {
    "$1,250": ("1250", "$", ""),
    "EUR 1.250,00": ("1250", "EUR", ""),
    "1 250,-": ("1250", "", ""),
    "1.250,-": ("1250", "", ""),
    "1'250.00": ("1250", "", ""),
    "USD 980.-": ("980", "USD", ""),
    "980 incl. FSC": ("980", "", ""),
    "$0.82/mile": ("0.82", "$", "mi"),
    "2.10 €/km": ("2.10", "EUR", "km"),
    "$1,450 all-in": ("1450", "$", ""),
    "CAD 2,300": ("2300", "CAD", ""),
    "USD1,150/veh": ("1150", "USD", ""),
    "1250 USD": ("1250", "USD", ""),
}


@pytest.mark.parametrize(("text", "meant"), PRICES.items())
def test_a_price_is_read_however_it_is_written(text, meant):
    found = figure_in(text, "", ".")

    assert isinstance(found, Figure)
    assert (found.number, found.traits.currency, found.traits.unit) == (Decimal(meant[0]), *meant[1:])


@pytest.mark.parametrize(
    "text",
    ["1250-1400", "1,250/1,400", "1.2k", "approx 1250", "under 1,250", "$ 1,100 + $150 tolls", "(120)", "-120", "+150", "95¢/mi", "1,250 one way", "$1,250 (min. 2 cars)", "1250 1300", "12,50,00", "see note 3"],
)  # fmt: skip
def test_what_is_more_or_less_than_one_price_is_none(text):
    found = figure_in(text, "", ".")

    assert isinstance(found, NoFigure)
    assert found.why


@pytest.mark.parametrize("text", ["", "-", "—", "n/a", "none", "no service"])
def test_a_cell_that_says_there_is_no_price_needs_no_word(text):
    assert figure_in(text, "", ".") == NoFigure()


@pytest.mark.parametrize(
    ("text", "mark", "finer", "meant"),
    [
        ("1.250", ",", False, "1250"),
        ("1.250", "", False, None),
        ("1.250", ".", False, None),
        ("1,250", "", False, "1250"),
        ("1,250", ",", False, None),
        ("1,250", "", True, None),
        ("1,250", ",", True, "1.250"),
        ("1.250", ".", True, "1.250"),
        ("0,823", "", True, "0.823"),
    ],
)
def test_one_mark_and_three_digits_are_read_as_the_rest_of_the_mail_has_it_or_not_at_all(text, mark, finer, meant):
    found = figure_in(text, "", mark, finer=finer)

    assert (found.number if isinstance(found, Figure) else None) == (Decimal(meant) if meant else None)


def test_the_mark_of_decimals_is_learnt_from_figures_that_can_be_read_in_one_way():
    assert decimal_mark(["1.250", "980,50"]) == ","
    assert decimal_mark(["1,250", "980.50"]) == "."
    assert decimal_mark(["1.250", "1,250"]) == ""
    assert decimal_mark(["12,5", "12.5"]) is None


def test_a_number_format_says_currency_unit_and_percent():
    assert figure_in(1250.0, "[$€-407] #,##0.00", "").traits.currency == "EUR"
    assert figure_in(1.85, '"$"0.00"/mi"', "").traits.unit == "mi"
    assert figure_in(0.18, "0%", "").percent


DAYS = {
    "valid 12/01/2026 - 12/31/2026": [date(2026, 12, 1), date(2026, 12, 31)],
    "01.12.2026 – 28.02.2027": [date(2026, 12, 1), date(2027, 2, 28)],
    "Dec 1, 2026 through January 31, 2027": [date(2026, 12, 1), date(2027, 1, 31)],
    "1 Dec - 31 Dec 2026": [date(2026, 12, 1), date(2026, 12, 31)],
    "valid 12/1/26-12/31/26": [date(2026, 12, 1), date(2026, 12, 31)],
    "gültig vom 1. März 2027": [date(2027, 3, 1)],
    "effective 2026-12-01": [date(2026, 12, 1)],
    "3/4/27": [None],
    "call 555-12-3456": [],
}


@pytest.mark.parametrize(("text", "meant"), DAYS.items())
def test_days_are_read_however_they_are_written(text, meant):
    assert [said.day for said in days_in(text, order_in([text]))] == meant


HEADERS = {
    "Dest. ZIP": "to_zip",
    "O_ZIP3_LO": "from_zip_low",
    "Destination (ZIP3)": "to_zip",
    "Pick-up": "from_place",
    "Orgin": "from_place",
    "From/To": "lane",
    "Port of Discharge": "pod",
    "Verladehafen": "pol",
    "Seefracht je Fahrzeug": "rate",
    "Open – $/mi (incl. FSC)": "rate",
    "40'HC": "rate",
    "Min. charge": "minimum",
    "FSC %": "fuel",
    "Transit (days)": "skip",
    "Valid Until": "valid_to",
    "Quote #": "reference",
    "B/L fee": "surcharge: bill of lading",
    "Rate A": "",
    "Whatever this is": "",
}


@pytest.mark.parametrize(("header", "field"), HEADERS.items())
def test_a_header_is_known_by_its_words(header, field):
    assert meaning_of(header).field == field


ENDS = {
    "980-994": ["980-994"],
    "980xx": ["980"],
    "98000 – 98499": ["98000-98499"],
    "WA, OR, ID": ["WA", "OR", "ID"],
    "CA (all)": ["CA"],
    "New York, NY": ["New York City, NY"],
    "Savannah GA 31401": ["31401"],
    "Florida": ["FL"],
    "Germany": ["country DE"],
}


@pytest.mark.parametrize(("text", "meant"), ENDS.items())
def test_a_place_is_written_as_the_rate_book_has_it(text, meant):
    assert [end.text for end in ends_in(text)] == meant


@pytest.mark.parametrize("text", ["Springfield", "Portland", "New York", "Washington", "rest", "Zone 4", "994-980"])
def test_a_place_that_can_be_two_or_none_is_not_chosen(text):
    with pytest.raises(Unclear):
        ends_in(text)


@pytest.mark.parametrize(
    ("text", "code"),
    [("Baltimore", "USBAL"), ("Antwerpen", "BEANR"), ("Baltimore (USBAL)", "USBAL"), ("Savannah, GA", "USSAV"), ("Port of Tacoma", "USTIW")],
)  # fmt: skip
def test_a_port_is_found_by_code_or_name(text, code):
    assert port_in(text).text == code
