"""Where everything is priced to."""

from pathlib import Path

import pytest

from shipcalc.bulk.destinations import find_destinations
from shipcalc.errors import FaultyWorkbook
from shipcalc.places.gazetteer.find import get_place


def test_zips_are_those_that_a_quote_understands_as_the_same_place(zips) -> None:
    assert 40_000 < len(zips) < 42_000
    for number in range(0, len(zips), 997):
        assert zips.places[number] == get_place(zips.names[number]).place


def test_no_zip_is_a_post_office_of_the_forces_abroad(zips) -> None:
    assert [name for name in zips.names if name.startswith(("09", "340", "962"))] == []


def test_a_state_stands_for_its_largest_city(states) -> None:
    """Largest by the census of 2020: Billings, Sioux Falls, Burlington; a state's largest need not be its capital."""
    cities = dict(zip(states.names, states.labels, strict=True))
    assert len(cities) == 51
    assert (cities["MT"], cities["SD"], cities["VT"]) == ("Billings, MT", "Sioux Falls, SD", "Burlington, VT")


def test_a_country_stands_for_its_largest_city(books) -> None:
    countries = find_destinations("countries", None, books.rates)
    cities = dict(zip(countries.names, (place.name for place in countries.places), strict=True))
    assert "US" not in cities
    assert len(cities) > 230
    assert (cities["DE"], cities["JP"], cities["CH"], cities["NZ"]) == ("Berlin", "Tokyo", "Zürich", "Auckland")


def test_a_list_of_places_is_read_below_its_header_each_place_once(books, tmp_path: Path) -> None:
    file = tmp_path / "shows.csv"
    file.write_text('Show,Place\nSpring,"Bozeman, MT"\nSummer,04101\nAutumn,"Bozeman, MT"\n,\n')
    found = find_destinations("cities", file, books.rates)
    assert found.names == ("Bozeman, MT", "04101")
    assert [place.subdivision for place in found.places] == ["MT", "ME"]


def test_every_cell_that_is_no_place_is_named_at_once(books, tmp_path: Path) -> None:
    file = tmp_path / "shows.csv"
    file.write_text("Bozmann MT\n59715\nNowhere at all\n")
    with pytest.raises(FaultyWorkbook) as caught:
        find_destinations("cities", file, books.rates)
    assert [problem.cell for problem in caught.value.problems] == ["shows.csv › A1", "shows.csv › A3"]
