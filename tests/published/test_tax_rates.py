"""Standard rates of tax in the shipped rows against published tables that were looked at on 28 November 2026."""

from functools import cache
from pathlib import Path

import pytest

from shipcalc.ratebook.book import RateBook, read_rate_book

# "EU VAT Rates 2026", vatnode.dev, 30 March 2026, which takes them from the Commission's Taxes in Europe Database (second hand).
UNION = {
    "AT": 20, "BE": 21, "BG": 20, "CY": 19, "CZ": 21, "DE": 19, "DK": 25, "EE": 24, "ES": 21, "FI": 25.5, "FR": 20, "GR": 24,
    "HR": 25, "HU": 27, "IE": 23, "IT": 22, "LT": 21, "LU": 17, "LV": 21, "MT": 18, "NL": 21, "PL": 23, "PT": 23, "RO": 21,
    "SE": 25, "SI": 22, "SK": 23,
}  # fmt: skip
# "VAT / GST Across Jurisdictions", incorporate.ltd (the Gulf, Britain); "VAT Rates by Country 2026", findlandedcost.com (Japan);
# "Worldwide VAT, GST and Sales Tax Rates 2026", determinedai.co (Australia). All second hand.
ELSEWHERE = {"AE": 5, "SA": 15, "BH": 10, "OM": 5, "GB": 20, "JP": 10, "AU": 10}
# The same table: no value added tax.
WITHOUT = ("QA", "KW")


@cache
def shipped() -> RateBook:
    return read_rate_book(Path(__file__).parents[2] / "rates")


@pytest.mark.parametrize(("country", "percent"), [*UNION.items(), *ELSEWHERE.items()])
def test_the_standard_rate_is_the_published_one(country: str, percent: float) -> None:
    rates = {
        row.percent_ppm
        for row in shipped().import_charges
        if row.country == country and row.code in ("vat", "gst", "consumption-tax") and row.treatment != "collector"
    }
    assert rates == {round(percent * 10_000)}


@pytest.mark.parametrize("country", WITHOUT)
def test_where_there_is_no_such_tax_none_is_asked(country: str) -> None:
    assert [row.code for row in shipped().import_charges if row.country == country] == ["duty"]
