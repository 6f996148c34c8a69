"""Duty and tax as the shipped rows ask them, by worked examples from outside. Each names its source and how it was learnt."""

from datetime import date
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from shipcalc.pricing.landed import Landed, age_in_years, applying_import_charges, import_lines, in_currency
from shipcalc.ratebook.book import RateBook, read_rate_book
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 11, 25)


@cache
def shipped() -> RateBook:
    return read_rate_book(Path(__file__).parents[2] / "rates")


def asked(
    country: str,
    *,
    treatment: str = "ordinary",
    year: int = 2010,
    built_in: str = "",
    body: str = "coupe",
    engine_cc: int = 3000,
    fob: int = 0,
    freight: int = 0,
    insurance: int = 0,
    onward: int = 0,
) -> dict[str, int]:
    """Return what the shipped rows ask, by code, in hundredths of the country's own currency; sums are in whole units of it."""
    vehicle = Vehicle(stock_number="X", year=year, built_in=built_in, body=body, engine_cc=engine_cc)
    rows = applying_import_charges(shipped().import_charges, vehicle, country=country, treatment=treatment, day=DAY)
    columns = (np.array([units * 100], dtype=np.int64) for units in (fob, freight, insurance, onward))
    landed = Landed(**dict(zip(("fob", "freight", "insurance", "onward"), columns, strict=True)))
    sums = {row.code: row.flat if row.percent_ppm is None else row.above for row in rows}
    local = {code: in_currency(value, 1.0, 2) for code, value in sums.items() if value is not None}
    lines = import_lines(rows, landed, local_minor=local)
    return {line.code.removeprefix("import."): int(line.amount[0, 0]) for line in lines}


def test_united_kingdom_ordinary_car() -> None:
    """Car 20,000; carriage and cover 800 to the border, 1,000 to the door: duty 2,080, VAT 4,616. A published worked example
    (gov.uk: VAT on cost, delivery and duty), read at second hand."""
    assert asked("GB", fob=20_000, freight=800, onward=200) == {"duty": 2_080_00, "vat": 4_616_00}


def test_united_kingdom_collectors_piece_under_9705() -> None:
    """No duty and an effective 5 %: goodmanderrick.co.uk on [2010] UKFTT 259 (TC), read at second hand; of 21,000."""
    found = asked("GB", treatment="collector", year=1958, fob=20_000, freight=800, onward=200)
    assert found == {"vat": 1_050_00}


def test_united_arab_emirates_together_10_25_percent() -> None:
    """5 % of CIF, then 5 % of CIF and duty: 10.25 % together, as customs guides say (read at second hand)."""
    found = asked("AE", fob=80_000, freight=8_000, insurance=500)
    assert found == {"duty": 4_425_00, "vat": 4_646_25}
    assert sum(found.values()) * 10_000 == 88_500_00 * 1_025


def test_canada_surtax_on_the_part_that_is_not_north_american() -> None:
    """SOR/2025-118, subsection 2(2), as the Canada Gazette prints it (read 2026-11-28): 25 % of A − B, B 15 % of A."""
    found = asked("CA", year=2010, built_in="US", fob=100_000)
    assert found == {"surtax": 21_250_00, "gst": 6_062_50}


@pytest.mark.parametrize("year", [1931, 1958, 2000])
def test_canada_asks_no_surtax_and_no_duty_of_what_is_over_25_years(year: int) -> None:
    """Vehicles of more than 25 years are out of the surtax since 2025-09-01: National Association of Antique Automobile Clubs of
    Canada, 2025-09-07 (read at second hand)."""
    assert asked("CA", year=year, built_in="US", fob=100_000) == {"gst": 5_000_00}


def test_australia_luxury_car_tax() -> None:
    """Value 100,000 and 6,000 of carriage, 5 % duty, GST 10 %; 33 % × 10/11 of what is above 80,567, the threshold of 2024-25 and
    2025-26 (A New Tax System (Luxury Car Tax) Act 1999, s 25-1(3), read 2026-11-28); formula from memory."""
    found = asked("AU", year=2010, built_in="DE", fob=100_000, freight=6_000)
    assert found == {"duty": 5_000_00, "gst": 11_100_00, "lct": 12_459_90}


@pytest.mark.parametrize("body", ["camper", "Campervan", "motor home", "panel van", "truck"])
def test_australia_asks_no_luxury_car_tax_of_motor_homes_and_of_what_carries_goods(body: str) -> None:
    """s 25-1(2)(c) and (d) of the same act (read 2026-11-28)."""
    assert "lct" not in asked("AU", body=body, fob=100_000)


def test_norway_tax_on_price_freight_and_cover() -> None:
    """25 % of 13,200; deposit 2,400 kroner for a car and 500 for a motorcycle: skatteetaten.no, rates of the vrakpantavgift
    (read 2026-11-28)."""
    assert asked("NO", fob=12_000, freight=1_100, insurance=100) == {"vat": 3_300_00, "scrap": 2_400_00}
    motorcycle = asked("NO", body="motorcycle", fob=12_000, freight=1_100, insurance=100)
    assert motorcycle == {"vat": 3_300_00, "scrap-motorcycle": 500_00}


def test_new_zealand_asks_its_tax_alone() -> None:
    """Motor cars free of duty, GST 15 %: New Zealand Customs, Fact Sheet 29 (read)."""
    assert asked("NZ", fob=20_000, freight=2_000) == {"gst": 3_300_00}


@pytest.mark.parametrize(
    ("country", "percent"),
    [
        ("DE", 7),  # press and trade texts that quote the finance ministry (second hand)
        ("NL", 9),  # a Rotterdam forwarder's page on old cars, read 2026-11-28 (second hand)
        ("FR", 5.5),  # the customs' answer that quotes the circular of 16 January 2013 (second hand)
        ("IT", 5),  # decree-law 95/2025, article 9, since 2025-07-01: eutekne.info, 2025-07-01 (second hand)
    ],
)
def test_collectors_pieces_in_the_union(country: str, percent: float) -> None:
    found = asked(country, treatment="collector", year=1960, fob=10_000, freight=1_000)
    assert found == {"vat": round(11_000_00 * percent / 100)}


def test_a_flat_sum_in_local_currency_is_converted_once() -> None:
    """2,400 kroner at 10.85 for a dollar: arithmetic."""
    assert in_currency(2_400.0, 10.85, 2) == 221_20


@pytest.mark.parametrize(("year", "applies"), [(1995, True), (1996, False)])
def test_the_age_by_model_year_is_counted_the_cautious_way(year: int, applies: bool) -> None:
    """30 years are certainly full only at the end of the year after. Common practice, no source."""
    vehicle = Vehicle(stock_number="X", year=year)
    assert age_in_years(vehicle, DAY) == 2026 - year - 1
    assert ((age_in_years(vehicle, DAY) or 0) >= 30) is applies
