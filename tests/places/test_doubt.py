"""Names that stand for a place beyond doubt, and names that must be asked for before anything is priced.

`names.tsv` holds three hundred names as buyers say them, each with the place that everybody would mean, or "asked". What is meant
is general geography (GeoNames), from memory; common practice, no source.
"""

from pathlib import Path

import pytest

from shipcalc.errors import WrongInput
from shipcalc.places.gazetteer.areas import areas, known_area
from shipcalc.places.gazetteer.find import find_place, get_place
from shipcalc.places.gazetteer.pages import cities_named, postal_code

NAMES = [
    line.split("\t")
    for line in (Path(__file__).parent / "names.tsv").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]


def understood(text: str) -> str:
    """Return "Name, ST" or "Name, CC" where a text is priced, "asked" where it is not."""
    try:
        place = get_place(text).place
    except WrongInput:
        return "asked"
    assert place is not None
    return f"{place.name}, {place.subdivision if place.country in ('US', 'CA') else place.country}"


def test_there_are_three_hundred_names_of_every_kind() -> None:
    assert len(NAMES) >= 300
    assert sum(expected == "asked" for _, expected in NAMES) > 80


def test_a_name_is_what_everybody_would_mean_or_it_is_asked_for() -> None:
    told = [(text, expected, understood(text)) for text, expected in NAMES]
    assert [(text, expected, found) for text, expected, found in told if found != expected] == []


def test_who_is_asked_is_told_what_to_say() -> None:
    for text in (name for name, expected in NAMES if expected == "asked"):
        with pytest.raises(WrongInput) as said:
            get_place(text)
        assert said.value.remedy, text


def test_every_area_leads_to_places_that_are_known() -> None:
    for name in areas():
        finding = known_area(name)
        assert finding is not None, name
        assert finding.place is not None, name
        assert all(find_place(town).place is not None for town in finding.suggestions), name


def test_what_may_be_meant_can_be_typed() -> None:
    """Every suggestion of a doubtful name is beyond doubt itself, so that nobody is asked twice."""
    for text, expected in NAMES:
        finding = find_place(text)
        if expected == "asked" and finding.doubt:
            for told in finding.suggestions:
                assert not find_place(told).doubt, (text, told)


def test_a_large_town_stands_where_its_zip_stands_and_its_zip_is_one_of_streets() -> None:
    """One town, one price: all towns of the contiguous states of more than 50,000 people."""
    checked = 0
    for letter_names in _names_at_home():
        for city in cities_named(letter_names)[0]:
            if city.country != "US" or city.population <= 50_000 or not city.postal_code:
                continue
            entry = postal_code(city.postal_code)
            assert entry is not None
            assert entry.kind == "S", city
            if entry.city == city.name:
                checked += 1
                assert (entry.latitude, entry.longitude) == (city.latitude, city.longitude), city
    assert checked > 500


def _names_at_home() -> list[str]:
    from shipcalc.places.gazetteer.pages import well_known_names

    return sorted({key for key, country, _ in well_known_names() if country == "US"})


@pytest.mark.parametrize(("city", "box"), [("Honolulu, HI", "96850"), ("San Francisco, CA", "94141"), ("Miami, FL", "33198"),
                                          ("Washington, DC", "20500"), ("Boston, MA", "02203")])  # fmt: skip
def test_no_zip_of_boxes_or_of_one_building_stands_for_a_city(city: str, box: str) -> None:
    place = get_place(city).place
    assert place is not None
    assert place.postal_code != box


@pytest.mark.parametrize(
    ("text", "among"),
    [
        ("Pittsburg", "Pittsburgh, PA"),
        ("bozman", "Bozeman, MT"),
        ("Albequerque", "Albuquerque, NM"),
        ("Korsika", "Ajaccio, France"),
    ],
)
def test_what_was_most_likely_meant_is_among_what_is_asked(text: str, among: str) -> None:
    with pytest.raises(WrongInput, match=f"“{among}”"):
        get_place(text)
