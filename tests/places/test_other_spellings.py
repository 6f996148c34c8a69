"""Second names that are slips are asked for; those of other languages are not. The CLDR's names are the outside source."""

import pytest

from shipcalc.errors import WrongInput
from shipcalc.places.gazetteer.find import find_place, get_place
from shipcalc.places.gazetteer.other_spellings import FILE, may_be_a_slip
from shipcalc.places.gazetteer.pages import cities_named
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.places.gazetteer.spelling import spelling_key

CLDR = [line.split("\t")[:2] for line in FILE.read_text(encoding="utf-8").splitlines() if line.endswith("\tCLDR")]


@pytest.mark.parametrize(
    "slip", ["Savanah", "Denvr", "Mineapolis", "Baltimor", "San Fransisco", "Chikago", "Londn", "Vancover"]
)
def test_a_slip_that_the_list_has_as_another_name_is_asked_with_the_city_first(slip: str) -> None:
    with pytest.raises(WrongInput, match="is spelt almost like"):
        get_place(slip)
    assert find_place(slip).suggestions[0].startswith(slip[:3])


@pytest.mark.parametrize("slip", ["Savanah, GA", "Denvr, CO", "Amsterdan, Netherlands"])
def test_a_slip_is_asked_with_its_state_or_country_too(slip: str) -> None:
    assert "is spelt almost like" in find_place(slip).doubt


@pytest.mark.parametrize(
    ("name", "first", "country"),
    [("Duesseldorf", "Düsseldorf", "DE"), ("Frankfurt Main", "Frankfurt am Main", "DE"), ("Washington DC", "Washington", "US"),
     ("Lisboa", "Lisbon", "PT"), ("Roma", "Rome", "IT"), ("Ghent", "Gent", "BE"), ("München", "Munich", "DE")],
)  # fmt: skip
def test_other_ways_of_writing_are_no_slips(name: str, first: str, country: str) -> None:
    assert not may_be_a_slip(spelling_key(name), spelling_key(first), country)


def test_no_name_of_the_cldr_that_leads_to_its_country_is_called_a_slip() -> None:
    asked = []
    for name, country in CLDR:
        key = spelling_key(name)
        if any(city.country == country and city.key != key for city in cities_named(key)[1]):
            finding = find_place(f"{name}, {country_name(country)}")
            asked += [name] if "is spelt almost like" in finding.doubt else []
    assert len(CLDR) > 1_000
    assert not asked


@pytest.mark.parametrize(
    ("typed", "first"),
    [("chigaco", "Chicago, IL"), ("Pheonix", "Phoenix, AZ"), ("Cincinatti", "Cincinnati, OH"), ("Albequerque", "Albuquerque, NM"),
     ("Honalulu", "Honolulu, HI"), ("Ft Worht", "Fort Worth, TX"), ("Melborne, Australia", "Melbourne, Australia"), ("Housten", "Houston, TX"), ("Orlanda", "Orlando, FL"), ("Mimai", "Miami, FL"), ("Birmigham", "Birmingham, AL"), ("Bellinghem", "Bellingham, WA")],
)  # fmt: skip
def test_what_a_slip_was_meant_for_stands_first(typed: str, first: str) -> None:
    finding = find_place(typed)
    assert finding.place is None
    assert finding.suggestions[0] == first
