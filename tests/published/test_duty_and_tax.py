"""Duty and tax by worked examples. Each names its source; the arithmetic is redone here in the open."""

from datetime import date

import numpy as np
import pytest

from shipcalc.pricing.landed import Landed, age_in_years, applying_import_charges, import_lines, in_currency
from shipcalc.ratebook.import_rows import ImportCharge
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 11, 25)


def landed(fob: int, freight: int = 0, insurance: int = 0, onward: int = 0) -> Landed:
    """Columns of one route, from whole units of money."""
    columns = (np.array([units * 100], dtype=np.int64) for units in (fob, freight, insurance, onward))
    return Landed(**dict(zip(("fob", "freight", "insurance", "onward"), columns, strict=True)))


def row(code: str, kind: str, percent: float, base: str, **rest: object) -> ImportCharge:
    return ImportCharge(
        country="ZZ",
        code=code,
        label=code,
        kind=kind,
        percent_ppm=round(percent * 10_000),
        base=base,
        source="test",
        **rest,
    )


def amounts(rows: list[ImportCharge], value: Landed, **local: int) -> dict[str, int]:
    lines = import_lines(rows, value, local_minor=local)
    return {line.code.removeprefix("import."): int(line.amount[0, 0]) for line in lines}


def test_united_kingdom_ordinary_car() -> None:
    """Car 20,000; carriage and cover 800 to the border, 1,000 to the door; 10 % and 20 %: a published worked example
    (UK practice: VAT on cost, delivery and duty), read at second hand."""
    rows = [row("duty", "duty", 10, "CIF"), row("vat", "tax", 20, "CIF, duty and onward carriage")]
    assert amounts(rows, landed(20_000, freight=800, onward=200)) == {"duty": 2_080_00, "vat": 4_616_00}


def test_united_kingdom_collectors_piece_under_9705() -> None:
    """Duty free and 5 % of 21,000: arithmetic on rates read at second hand."""
    rows = [row("vat", "tax", 5, "CIF, duty and onward carriage")]
    assert amounts(rows, landed(20_000, freight=800, onward=200)) == {"vat": 1_050_00}


def test_united_arab_emirates_together_10_25_percent() -> None:
    """5 % of CIF, then 5 % of CIF and duty: arithmetic on rates read at second hand."""
    rows = [row("duty", "duty", 5, "CIF"), row("vat", "tax", 5, "CIF and duty")]
    assert amounts(rows, landed(80_000, freight=8_000, insurance=500)) == {"duty": 4_425_00, "vat": 4_646_25}


def test_canada_surtax_on_the_part_that_is_not_north_american() -> None:
    """25 % of 85,000 where the content is taken as 15 %: SOR/2025-118 (read), arithmetic."""
    assert amounts([row("surtax", "duty", 21.25, "FOB")], landed(100_000)) == {"surtax": 21_250_00}


def test_australia_luxury_car_tax() -> None:
    """GST 10 % of value with carriage and duty; luxury car tax 33 % × 10/11 = 30 % of what is above 80,567: threshold read
    (Taxation Office, 2025-26), formula from memory."""
    rows = [
        row("duty", "duty", 5, "FOB"),
        row("gst", "tax", 10, "CIF and duty"),
        row("lct", "tax", 30, "CIF, duty and tax", above=80_567.0),
    ]
    assert amounts(rows, landed(100_000, freight=6_000), lct=80_567_00) == {
        "duty": 5_000_00,
        "gst": 11_100_00,
        "lct": 12_459_90,
    }


def test_norway_tax_on_price_freight_and_cover() -> None:
    """25 % of 13,200 (the tax administration's page, read)."""
    assert amounts([row("vat", "tax", 25, "CIF")], landed(12_000, freight=1_100, insurance=100)) == {"vat": 3_300_00}


def test_a_flat_sum_in_local_currency_is_converted_once() -> None:
    scrap = ImportCharge(country="NO", code="scrap", label="Scrap deposit", kind="tax", flat=2_400.0, source="test")
    assert in_currency(2_400.0, 10.85, 2) == 221_20
    assert amounts([scrap], landed(12_000), scrap=221_20) == {"scrap": 221_20}


@pytest.mark.parametrize(("year", "applies"), [(1995, True), (1996, False)])
def test_the_age_by_model_year_is_counted_the_cautious_way(year: int, applies: bool) -> None:
    rows = [row("vat", "tax", 5, "CIF", age_from=30, treatment="collector")]
    found = applying_import_charges(
        rows, Vehicle(stock_number="HV-1", year=year), country="ZZ", treatment="collector", day=DAY
    )
    assert bool(found) is applies
    assert age_in_years(Vehicle(stock_number="HV-1", year=year), DAY) == 2026 - year - 1
