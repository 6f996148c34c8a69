"""Decimals of currencies and factors of measures, against the standards that define them.

ISO 4217:2015, list one (SIX Financial Information, maintenance agency of the standard): column "minor unit". Figures from memory of
the list, not copied from a file. NIST Special Publication 811 (2008 edition), appendix B.8: exact factors stand there in bold.
"""

import pytest

from shipcalc import measures
from shipcalc.money import decimals, to_decimal

MINOR_UNITS = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    2: (
        "AED AUD BRL CAD CHF CNY CZK DKK EUR GBP HKD HUF IDR ILS INR MGA MRU MXN MYR NOK NZD PHP PLN SAR SEK SGD THB TRY TWD"
        " USD UYU ZAR"
    ),
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}


@pytest.mark.parametrize(("code", "places"), [(code, n) for n, codes in MINOR_UNITS.items() for code in codes.split()])
def test_a_currency_has_the_decimals_of_the_standard(code: str, places: int) -> None:
    assert decimals(code) == places
    assert str(to_decimal(1, code)) == (f"0.{'1'.zfill(places)}" if places else "1")


# NIST SP 811, appendix B.8: inch, foot, mile (international), pound (avoirdupois), nautical mile.
EXACT = {
    "MM_PER_INCH": 25.4,
    "MM_PER_FOOT": 304.8,
    "GRAMS_PER_POUND": 453.59237,
    "METRES_PER_MILE": 1609.344,
    "METRES_PER_NAUTICAL_MILE": 1852.0,
}


@pytest.mark.parametrize("name", EXACT)
def test_a_factor_is_its_definition(name: str) -> None:
    assert getattr(measures, name) == EXACT[name]


def test_the_factors_follow_from_the_inch() -> None:
    assert pytest.approx(12 * measures.MM_PER_INCH, rel=1e-15) == measures.MM_PER_FOOT
    assert pytest.approx(5_280 * measures.MM_PER_FOOT / 1_000, rel=1e-15) == measures.METRES_PER_MILE


def test_the_conversions_use_the_factors() -> None:
    assert (measures.inches_to_mm(100), measures.mm_to_inches(2_540)) == (2_540, 100.0)
    assert (measures.pounds_to_grams(100_000), measures.grams_to_pounds(45_359_237)) == (45_359_237, 100_000)
    assert measures.metres_to_miles(1_609.344) == 1.0
    assert measures.metres_to_nautical_miles(1_852) == 1.0
    assert measures.miles_to_km(1) == 1.609344


@pytest.mark.parametrize("inches", [1, 49, 60, 153, 201, 396])
def test_inches_survive_millimetres_and_pounds_survive_grams(inches: int) -> None:
    assert measures.mm_to_inches(measures.inches_to_mm(inches)) == inches
    assert measures.grams_to_pounds(measures.pounds_to_grams(inches * 17)) == inches * 17
