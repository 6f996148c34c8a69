"""Two directions in one table, tables that begin anywhere, further languages, ports and days said in lines. Mails made up here."""

from datetime import date

from .reading import lanes, understood, workbook

HEAD = [("Coastal Wren Carriers LLC",), ("USD, fuel included, open transport, valid December 2026",), ()]


def test_head_haul_and_back_haul_are_two_directions_wherever_the_table_begins(tmp_path):
    table = [
        ("Origin", "Destination", "Sell head-haul", "Sell back-haul", "Eq."),
        ("Seattle, WA", "Reno, NV", 900, 700, "Open"),
        ("Seattle, WA", "Boise, ID", 800, 650, "Enclosed"),
    ]
    rows = [*HEAD, *[()] * 8, *((None, None, None, *row) for row in table)]
    found, asked = lanes(workbook(tmp_path / "a.xlsx", rows))

    assert found == [
        ("F13", "open", "Seattle, WA", "Reno, NV", "900"),
        ("G13", "open", "Reno, NV", "Seattle, WA", "700"),
        ("F14", "enclosed", "Seattle, WA", "Boise, ID", "800"),
        ("G14", "enclosed", "Boise, ID", "Seattle, WA", "650"),
    ]
    assert not asked


def test_a_swiss_list_of_places_and_trailers(tmp_path):
    rows = [
        ("Zaunkönig Transporte GmbH",),
        ("Preise in CHF ab Basel, Treibstoff inklusive",),
        ("Bestimmungsort", "offener Transporter", "geschlossener Transporter"),
        ("Genf", "1'250.00", "1'920.-"),
    ]
    found = understood(workbook(tmp_path / "a.xlsx", rows)).rates

    assert [(rate.trailer, rate.flat, rate.currency, rate.start.text) for rate in found] == [
        ("open", 1250, "CHF", "Basel, CH"),
        ("enclosed", 1920, "CHF", "Basel, CH"),
    ]


def quotation(path, *lines):
    freight, bunker = ("Ocean freight RoRo", 940, "USD", "per vehicle"), ("BAF", 85, "USD", "per vehicle")
    table = [("Charge", "Amount", "Currency", "Basis"), freight, bunker]
    rows = [("Turnstone Ocean Lines",), *((line,) for line in lines), (), *table, ("Free time", "7 days", None, None)]
    return understood(workbook(path, rows))


def test_ports_in_lines_a_sheets_number_and_days_from_the_letters_date(tmp_path):
    lines = ("Pricing sheet no. TS-4411", "Tacoma, 1 December 2026", "Good for 60 days", "From: Baltimore")
    rate, bunker = quotation(tmp_path / "a.xlsx", *lines, "To: Bremerhaven").rates

    assert (rate.start.text, rate.end.text, rate.flat, rate.reference) == ("USBAL", "DEBRV", 940, "TS-4411")
    assert (bunker.label, bunker.flat) == ("bunker", 85)
    # 60 days from 1 December: 30 are left of December (to the 31st), the 30th of January is the 60th.
    assert rate.valid_to == date(2027, 1, 30)


def test_days_without_a_letters_date_give_no_end(tmp_path):
    rate, _ = quotation(tmp_path / "a.xlsx", "Good for 60 days", "POL Baltimore / POD Bremerhaven").rates

    assert (rate.start.text, rate.end.text, rate.valid_to) == ("USBAL", "DEBRV", None)
