"""Mails of harder shapes, each against what a careful person reads in it, cell by cell; and nothing that they state is lost.

The truth of each was written from the mail by hand. Mails made up here.
"""

import re
from decimal import Decimal

import pytest

from shipcalc.ratebook.taking.answers import DEAREST
from shipcalc.ratebook.taking.page import read_mail
from shipcalc.ratebook.taking.stated import says_condition
from shipcalc.records import dataclass, field

from .reading import understood, workbook

SEA = ("Turnstone Ocean Forwarding LLC",)
ROAD = ("Dunlin Car Haul LLC",)
DECEMBER = "valid 1 Dec 2026 - 31 Dec 2026"
MOST_QUESTIONS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A mail and what is in it: each price as cell, from, to, sum (a text for a share or a rate a mile), currency.

    `named` are the cells that must be told; `read` those that are read into all of the prices; `answers` to its questions.
    """

    rows: list[tuple[object, ...]]
    prices: list[tuple[object, ...]]
    named: set[str] = field(default_factory=set)
    read: set[str] = field(default_factory=set)
    answers: dict[str, str] = field(default_factory=dict)
    struck: tuple[str, ...] = ()


CASES = {
    "roro by length in rows": Case(
        rows=[
            SEA,
            (f"RoRo, ocean freight per vehicle in USD, {DECEMBER}",),
            ("POL", "POD", "Length class", "Freight", "BAF"),
            ("Baltimore", "Bremerhaven", "up to 5.0 m", 940, "12 %"),
            ("Baltimore", "Bremerhaven", "5.01–6.0 m", 1120, "12 %"),
            ("Baltimore", "Bremerhaven", "over 6 m per m", 210, "12 %"),
        ],
        prices=[("E4", "USBAL", "DEBRV", "12 %", ""), ("D5", "USBAL", "DEBRV", 1120, "USD")],
        named={"C3", "D4", "D6", "E5"},
        read={"A2"},
        answers={"which": DEAREST},
    ),
    "roro by length in columns": Case(
        rows=[
            SEA,
            (f"RoRo, ocean freight per vehicle in USD, {DECEMBER}",),
            ("POL", "POD", "up to 4.8 m", "4.81–5.9 m", "each further m per m"),
            ("Savannah", "Antwerp", 880, 1015, 190),
            ("Savannah", "Southampton", 905, 1040, 195),
        ],
        prices=[("C4", "USSAV", "BEANR", 880, "USD"), ("C5", "USSAV", "GBSOU", 905, "USD")],
        named={"C3", "D3", "D4", "D5", "E3"},
        read={"A2"},
        answers={"which": "up to 4.8 m"},
    ),
    "struck out": Case(
        rows=[
            SEA,
            ("valid until 30 Nov 2026",),
            ("USD, RoRo, valid until 31 Dec 2026",),
            ("POL", "POD", "Freight per vehicle"),
            ("Baltimore", "Bremerhaven", 940),
            ("Savannah", "Antwerp", 990),
            ("Savannah", "Bremerhaven", 1005),
        ],
        prices=[("C7", "USSAV", "DEBRV", 1005, "USD")],
        named={"A2", "C5", "A6"},
        read={"A3"},
        struck=("A2", "C5", "A6", "B6"),
    ),
    "shares as parts of one": Case(
        rows=[
            SEA,
            (f"RoRo, per vehicle, USD, {DECEMBER}",),
            ("POL", "POD", "Freight", "BAF %", "CAF surcharge", "THC/O", "THC/D"),
            ("Baltimore", "Bremerhaven", 940, 0.12, 0.035, 95, 260),
        ],
        prices=[
            ("C4", "USBAL", "DEBRV", 940, "USD"),
            ("D4", "USBAL", "DEBRV", "12 %", ""),
            ("E4", "USBAL", "DEBRV", "3.5 %", ""),
            ("F4", "USBAL", "DEBRV", 95, "USD"),
            ("G4", "USBAL", "DEBRV", 260, "USD"),
        ],
        named={"D4", "E4"},
        read={"A2"},
    ),
    "days as numbers": Case(
        # 46357 is 1 December 2026 and 46388 is 1 January 2027: days since 30 December 1899 (ECMA-376, 18.17.4.1).
        rows=[
            ROAD,
            ("USD, fuel included, open transport",),
            ("From", "To", "Rate", "Valid from", "Valid until"),
            ("Seattle, WA", "Reno, NV", 900, 46357, 46388),
        ],
        prices=[("C4", "Seattle, WA", "Reno, NV", 900, "USD", "2026-12-01", "2027-01-01")],
        read={"A2"},
    ),
    "exceptions": Case(
        # First three figures: California 900-961, Florida 320-349 without 340, New Jersey 070-089 (U.S. Postal Service, Publication 65).
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("From", "To", "Rate"),
            ("Seattle, WA", "CA (exc. 900-908)", 900),
            ("Seattle, WA", "all FL ZIPs but 330-334", 1900),
            ("Seattle, WA", "NJ except 080–084", 2100),
            ("Seattle, WA", "TX excluding El Paso", 1500),
        ],
        prices=[
            ("C4", "Seattle, WA", "909-961", 900, "USD"),
            ("C5", "Seattle, WA", "320-329", 1900, "USD"),
            ("C5", "Seattle, WA", "335-349", 1900, "USD"),
            ("C6", "Seattle, WA", "070-079", 2100, "USD"),
            ("C6", "Seattle, WA", "085-089", 2100, "USD"),
        ],
        named={"B7"},
        read={"A2"},
    ),
    "letters of countries": Case(
        rows=[
            ("Spedition Kiebitz GmbH",),
            ("Alle Preise in EUR exkl. Treibstoff, zzgl. 19 % MwSt., offener Transport",),
            ("Gültig bis 31.01.2027",),
            ("von", "nach", "Preis"),
            ("Bremerhaven", "CH-8000 Zürich", "1'250.00"),
            ("Bremerhaven", "D-20457 Hamburg", "480.00"),
            ("Bremerhaven", "F 75001", "1'400.00"),
        ],
        prices=[
            ("C5", "DEBRV", "8000 CH", 1250, "EUR"),
            ("C6", "DEBRV", "20457 DE", 480, "EUR"),
            ("C7", "DEBRV", "75001 FR", 1400, "EUR"),
        ],
        named={"A2"},
        read={"A3"},
    ),
    "Canadian codes": Case(
        rows=[
            ROAD,
            (f"CAD, fuel included, open transport, {DECEMBER}",),
            ("From", "Postal code", "Rate"),
            ("Seattle, WA", "V5K–V6Z", 900),
            ("Seattle, WA", "T2A", 1100),
        ],
        prices=[],
        named={"B4", "B5"},
        read={"A2"},
    ),
    "two currencies": Case(
        rows=[
            ROAD,
            (f"Fuel included, open transport, {DECEMBER}",),
            ("From", "To", "USD", "EUR"),
            ("Seattle, WA", "Reno, NV", 900, 830),
            ("Seattle, WA", "Boise, ID", None, 650),
        ],
        prices=[("D4", "Seattle, WA", "Reno, NV", 830, "EUR"), ("D5", "Seattle, WA", "Boise, ID", 650, "EUR")],
        named={"C4"},
        read={"A2"},
        answers={"currency": "EUR"},
    ),
    "French": Case(
        rows=[
            ("Transports Bécasse SARL",),
            ("Prix en EUR, carburant inclus, hors TVA",),
            ("Valable jusqu'au 31/01/2027",),
            ("Départ", "Arrivée", "Camion ouvert", "Camion fermé"),
            ("Seattle, WA", "Reno, NV", "1 250,00 €", "1 890,50 €"),
            ("Seattle, WA", "Boise, ID", "980,00 €", "sur demande"),
        ],
        prices=[
            ("C5", "Seattle, WA", "Reno, NV", 1250, "EUR"),
            ("D5", "Seattle, WA", "Reno, NV", Decimal("1890.5"), "EUR"),
            ("C6", "Seattle, WA", "Boise, ID", 980, "EUR"),
        ],
        named={"A2", "D6"},
        read={"A3"},
    ),
    "Italian": Case(
        rows=[
            ("Autotrasporti Beccaccia Srl",),
            ("Prezzi in EUR, carburante escluso",),
            ("Valido fino al 31.01.2027",),
            ("Partenza", "Arrivo", "Prezzo aperto"),
            ("Seattle, WA", "Reno, NV", "1.250,00"),
        ],
        prices=[("C5", "Seattle, WA", "Reno, NV", 1250, "EUR")],
        read={"A2", "A3"},
    ),
    "limits of rows": Case(
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("From", "To", "Rate", "Max length", "Max weight (lb)"),
            ("Seattle, WA", "Reno, NV", 900, "17 ft", 6500),
            ("Seattle, WA", "Boise, ID", 700, "20 ft", 7000),
        ],
        prices=[("C4", "Seattle, WA", "Reno, NV", 900, "USD"), ("C5", "Seattle, WA", "Boise, ID", 700, "USD")],
        named={"D3", "E3"},
        read={"A2"},
    ),
    "a form with limits": Case(
        rows=[
            SEA,
            ("Quotation no. TO-1188",),
            ("POL", "Savannah"),
            ("POD", "Bremerhaven"),
            ("Equipment", "RoRo, max 2.2 t"),
            ("Ocean freight", "USD 940 per vehicle"),
            ("BAF", 0.12),
            ("THC/D", "EUR 260"),
            ("Valid until", 46388),
            ("Height", "max 1.75 m"),
            ("Note", "Vehicles must run"),
        ],
        prices=[
            ("B6", "USSAV", "DEBRV", 940, "USD", None, "2027-01-01"),
            ("B7", "USSAV", "DEBRV", "12 %", "", None, "2027-01-01"),
            ("B8", "USSAV", "DEBRV", 260, "EUR", None, "2027-01-01"),
        ],
        named={"B5", "B7", "A10", "A11"},
        read={"A2", "B9"},
    ),
    "free days with a sum behind them": Case(
        rows=[
            SEA,
            (f"USD, {DECEMBER}",),
            ("POL", "POD", "40'HC", "Free days"),
            ("Baltimore", "Bremerhaven", 2850, "7 days, then USD 25/day"),
            ("Savannah", "Antwerp", 2900, "7"),
        ],
        prices=[("C4", "USBAL", "DEBRV", 2850, "USD"), ("C5", "USSAV", "BEANR", 2900, "USD")],
        named={"D4"},
        read={"A2"},
    ),
    "lists and spans of German codes": Case(
        rows=[
            ("Spedition Rohrdommel GmbH",),
            ("EUR, offen, ab Bremerhaven, Kraftstoff inkl., gültig bis 31.12.2026",),
            ("Nach", "Preis"),
            ("D-20, D-21, D-22", 385),
            ("D-26000 bis D-28999 ohne 27", 210),
            ("CH-8000-CH-8999", 1480),
        ],
        prices=[
            ("B4", "DEBRV", "20; 21; 22 DE", 385, "EUR"),
            ("B5", "DEBRV", "26; 28 DE", 210, "EUR"),
            ("B6", "DEBRV", "8 CH", 1480, "EUR"),
        ],
        read={"A2"},
    ),
    "equipment by its letter": Case(
        rows=[
            ROAD,
            ("USD, fuel included; weekend pickup +$75",),
            ("From", "To", "Equip", "Rate", "Validity"),
            ("Seattle, WA", "Reno, NV", "O", 900, "Dec 1-31, 2026, Mon-Fri only"),
            ("Seattle, WA", "Reno, NV", "E", 1500, "until 31 Dec 2026"),
            ("Seattle, WA", "Boise, ID", "Q", 700, "until 31 Dec 2026"),
        ],
        prices=[
            ("D4", "Seattle, WA", "Reno, NV", 900, "USD", "2026-12-01", "2026-12-31"),
            ("D5", "Seattle, WA", "Reno, NV", 1500, "USD", None, "2026-12-31"),
        ],
        named={"A2", "E4", "C6"},
    ),
    "sums, comments and headers again": Case(
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("From", "To", "Rate"),
            ("Seattle, WA", "Reno, NV", 900),
            ("# Seattle, WA", "Boise, ID", 700),
            ("Subtotal Nevada", None, 900),
            ("---", "---", "---"),
            ("From", "To", "Rate"),
            ("Seattle, WA", "Salem, OR", 450),
            ("Total", "2 lanes", 1350),
        ],
        prices=[("C4", "Seattle, WA", "Reno, NV", 900, "USD"), ("C9", "Seattle, WA", "Salem, OR", 450, "USD")],
        named={"A5", "A6", "A10"},
        read={"A2"},
    ),
    "ports in the title, lengths in rows": Case(
        rows=[
            ("Godwit Shipping Ltd",),
            ("All rates GBP per car, ex VAT @ 20%",),
            ("Southampton to New York RoRo",),
            ("Vehicle", "Rate"),
            ("Car up to 4.5m", "£895"),
            ("Car 4.51m-5.2m", "£1,050"),
            ("Van / motorhome", "per m3 £48"),
        ],
        prices=[("B6", "GBSOU", "USNYC", 1050, "GBP")],
        named={"A2", "B5", "B7"},
        answers={"which": DEAREST},
    ),
    "a sum with a limit in its cell": Case(
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("Lane", "Rate"),
            ("Seattle, WA → Reno, NV", "$900 (max 17 ft)"),
            ("Seattle, WA → Salem, OR", "$450 + $35 toll"),
        ],
        prices=[("B4", "Seattle, WA", "Reno, NV", 900, "USD")],
        named={"B4", "B5"},
        read={"A2"},
    ),
    "a total with a share of fuel": Case(
        rows=[
            ROAD,
            (f"USD, open transport, {DECEMBER}",),
            ("From", "To", "Linehaul", "FSC %", "Total"),
            ("Seattle, WA", "Reno, NV", 800, 0.125, 900),
            ("Seattle, WA", "Boise, ID", 700, 0.125, 800),
        ],
        prices=[("E4", "Seattle, WA", "Reno, NV", 900, "USD")],
        named={"E5"},
        read={"A2"},
    ),
    "a currency behind each sum": Case(
        rows=[
            SEA,
            ("Valid until 31 Dec 2026",),
            ("POL", "POD", "Equipment", "Freight", "Curr", "BAF", "Curr", "THC/D", "Curr"),
            ("Savannah", "Bremerhaven", "40HC", 2850, "USD", 180, "USD", 260, "EUR"),
        ],
        prices=[
            ("D4", "USSAV", "DEBRV", 2850, "USD", None, "2026-12-31"),
            ("F4", "USSAV", "DEBRV", 180, "USD", None, "2026-12-31"),
            ("H4", "USSAV", "DEBRV", 260, "EUR", None, "2026-12-31"),
        ],
        read={"A2"},
    ),
    "two currencies in a line": Case(
        rows=[
            ROAD,
            ("Prices in CAD, fuel incl, open, valid Dec 2026; USD prices = CAD / 1.36",),
            ("From", "To", "Rate"),
            ("Vancouver, BC", "Calgary, AB", 900),
        ],
        prices=[("C4", "Vancouver, BC", "Calgary, AB", 900, "CAD")],
        named={"A2"},
    ),
    "more than a port": Case(
        rows=[
            SEA,
            (f"USD, RoRo, per vehicle, {DECEMBER}",),
            ("POL", "POD", "Freight"),
            ("Houston +$90", "Bremerhaven", 940),
            ("Charleston (min. 5 units)", "Southampton", 930),
            ("Savannah*", "Antwerp", 910),
        ],
        prices=[
            ("C4", "USHOU", "DEBRV", 940, "USD"),
            ("C5", "USCHS", "GBSOU", 930, "USD"),
            ("C6", "USSAV", "BEANR", 910, "USD"),
        ],
        named={"A4", "A5", "A6"},
        read={"A2"},
    ),
    "parts of a total, and charges for time": Case(
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("From", "To", "Base", "Tolls", "Permit", "All-in", "Detention/hr"),
            ("Seattle, WA", "Reno, NV", 800, 45, 0, 845, 75),
            ("Seattle, WA", "Boise, ID", 700, 25, 10, 735, 75),
        ],
        prices=[("F4", "Seattle, WA", "Reno, NV", 845, "USD"), ("F5", "Seattle, WA", "Boise, ID", 735, "USD")],
        named={"D3", "E3", "G3"},
        read={"A2"},
    ),
    "running or not": Case(
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("From", "To", "Running", "Inop"),
            ("Seattle, WA", "Reno, NV", 800, 950),
            ("I-5 corridor", "Boise, ID", 500, 650),
            ("Seattle, WA", "Salem, OR", "450.00-", "550 EUR/USD"),
        ],
        prices=[("C4", "Seattle, WA", "Reno, NV", 800, "USD")],
        named={"D3", "A5", "C6"},
        read={"A2"},
    ),
    "an agent's tariff with days in its units": Case(
        rows=[
            ("Puffin Port Agency",),
            ("Tariff for Brunswick, GA 2027",),
            ("All amounts USD",),
            ("Service", "Unit", "Rate", "Remark"),
            ("Wharfage", "per vehicle up to 2.5 t", 32, None),
            ("Wharfage", "per vehicle over 2.5 t", 48, None),
            ("THC RoRo", "per W/M", 6.5, "min 40"),
            ("Storage", "days 1-7", "free", None),
            ("Storage", "from day 8, per day", 11, "weekends included"),
        ],
        prices=[
            ("C6", "USSSI", "", 48, "USD"),
            ("C7", "USSSI", "", Decimal("6.5"), "USD"),
            ("C9", "USSSI", "", 11, "USD"),
        ],
        named={"A2", "C5", "B6", "D7", "C9", "D9"},
        read={"C8"},
        answers={"which": DEAREST},
    ),
    "zones with a column of exceptions": Case(
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("Origin: Seattle, WA",),
            ("Zone", "States", "Except"),
            ("1", "CA", "900-908"),
            ("2", "AZ, NV", ""),
            (),
            ("Zone", "Price"),
            ("1", 900),
            ("2", 800),
        ],
        prices=[
            ("B5", "", "909-961", None, ""),
            ("B6", "", "AZ", None, ""),
            ("B6", "", "NV", None, ""),
            ("B9", "Seattle, WA", "Dunlin Car Haul zone 1", 900, "USD"),
            ("B10", "Seattle, WA", "Dunlin Car Haul zone 2", 800, "USD"),
        ],
        read={"A2", "C4"},
    ),
    "a sentence of what lies beyond the zones": Case(
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("Zone", "States"),
            ("1", "WA"),
            ("2", "CA"),
            (),
            ("From / To", "Zone 1", "Zone 2"),
            ("Zone 1", 550, 1090),
            ("Zone 2", 1085, 620),
            (),
            ("Beyond the zones: 0.95 $/mile, minimum $500. Prices in $.",),
        ],
        prices=[
            ("B4", "", "WA", None, ""),
            ("B5", "", "CA", None, ""),
            ("B8", "Dunlin Car Haul zone 1", "Dunlin Car Haul zone 1", 550, "USD"),
            ("C8", "Dunlin Car Haul zone 1", "Dunlin Car Haul zone 2", 1090, "USD"),
            ("B9", "Dunlin Car Haul zone 2", "Dunlin Car Haul zone 1", 1085, "USD"),
            ("C9", "Dunlin Car Haul zone 2", "Dunlin Car Haul zone 2", 620, "USD"),
        ],
        named={"A11"},
        read={"A2"},
    ),
    "a basis that no price of a table can have": Case(
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("Zone", "States"),
            ("1", "WA"),
            ("2", "CA"),
            (),
            ("From / To", "Zone 1", "Zone 2"),
            ("Zone 1", 550, 1090),
            ("Zone 2", 1085, 620),
            (),
            ("Rates are per mile.",),
        ],
        prices=[
            ("B4", "", "WA", None, ""),
            ("B5", "", "CA", None, ""),
            ("B8", "Dunlin Car Haul zone 1", "Dunlin Car Haul zone 1", 550, "USD"),
            ("C8", "Dunlin Car Haul zone 1", "Dunlin Car Haul zone 2", 1090, "USD"),
            ("B9", "Dunlin Car Haul zone 2", "Dunlin Car Haul zone 1", 1085, "USD"),
            ("C9", "Dunlin Car Haul zone 2", "Dunlin Car Haul zone 2", 620, "USD"),
        ],
        named={"A11"},
        read={"A2"},
    ),
    "zones with a town's ZIPs excepted in brackets": Case(
        rows=[
            ROAD,
            (f"USD, fuel included, open transport, {DECEMBER}",),
            ("Origin: Seattle, WA",),
            ("Zone", "States"),
            ("1", "AZ, NV (ex Reno 894-895)"),
            ("2", "CA (except Los Angeles 900-908), OR"),
            (),
            ("Zone", "Price"),
            ("1", 900),
            ("2", 800),
        ],
        prices=[
            ("B5", "", "AZ", None, ""),
            ("B5", "", "889-893", None, ""),
            ("B5", "", "896-898", None, ""),
            ("B6", "", "909-961", None, ""),
            ("B6", "", "OR", None, ""),
            ("B9", "Seattle, WA", "Dunlin Car Haul zone 1", 900, "USD"),
            ("B10", "Seattle, WA", "Dunlin Car Haul zone 2", 800, "USD"),
        ],
        read={"A2"},
    ),
    "an agent's tariff in euros": Case(
        rows=[
            ("Havenagentuur Kluut BV",),
            ("Port of Antwerp, tariff 2027, EUR",),
            ("Charge", "per", "Amount"),
            ("THC/D", "vehicle", 95),
            ("Heavy lift over 3 t", "vehicle", 180),
        ],
        prices=[("C4", "BEANR", "", 95, "EUR"), ("C5", "BEANR", "", 180, "EUR")],
        named={"A2", "C5"},
    ),
}


def told(rate):
    amount = f"{rate.percent:f} %" if rate.percent is not None else rate.flat
    end = f"{rate.end.text} {rate.end.country}".strip() if rate.end else ""
    return (rate.where.removeprefix("Rates!"), rate.start.text if rate.start else "", end, amount, rate.currency)


@pytest.fixture(params=CASES, ids=lambda name: name.replace(" ", "_"))
def case(request):
    return CASES[request.param]


@pytest.fixture
def path(case, tmp_path):
    return workbook(tmp_path / "mail.xlsx", case.rows, struck=case.struck)


def test_each_price_is_what_is_read_in_its_cell(case, path):
    found = understood(path, answers=case.answers)

    assert [told(rate) for rate in found.rates] == [price[:5] for price in case.prices]
    for rate, price in zip(found.rates, case.prices, strict=True):
        days = tuple(day.isoformat() if day else None for day in (rate.valid_from, rate.valid_to))
        assert len(price) == 5 or days == price[5:]


def test_it_asks_at_most_twice_and_what_was_answered_is_all_that_is_open(case, path):
    assert len(understood(path).questions) <= MOST_QUESTIONS
    assert {question.key for question in understood(path).questions} == set(case.answers)
    assert not understood(path, answers=case.answers).questions


def test_what_no_column_takes_is_named(case, path):
    named = {item.where.removeprefix("Rates!") for item in understood(path, answers=case.answers).left_out}

    assert case.named <= named


def test_nothing_that_is_stated_is_lost(case, path):
    found = understood(path, answers=case.answers)
    cells = {one.where.removeprefix("Rates!") for one in (*found.rates, *found.left_out)}
    rows = {re.sub(r"\D", "", cell) for cell in cells}
    heads = {re.sub(r"\d", "", cell) for cell in cells}
    (page,) = read_mail(path).pages
    for (row, column), text in page.texts.items():
        cell = page.short(row, column).removeprefix("Rates!")
        if any(sign.isdigit() for sign in text) or says_condition(text):
            in_a_row = re.sub(r"\D", "", cell) in rows and len(page.row(row)) > 1
            is_header = re.sub(r"\d", "", cell) in heads and len(page.row(row)) > 1
            assert cell in cells | case.read or in_a_row or is_header, (cell, text)
