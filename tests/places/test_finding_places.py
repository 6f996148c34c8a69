"""Every way of saying where that a person on the phone uses, and what is said where something was assumed."""

import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shipcalc.errors import WrongInput
from shipcalc.places.gazetteer.find import find_place, get_place
from shipcalc.places.gazetteer.finding import written
from shipcalc.places.gazetteer.pages import all_postal_codes, city_numbered
from shipcalc.places.place import Place


def found(text: str) -> Place:
    place = find_place(text).place
    assert place is not None, find_place(text).note
    return place


def where(text: str) -> tuple[str, str, str]:
    place = found(text)
    return place.name, place.country, place.subdivision


@pytest.mark.parametrize(
    ("text", "name", "postal_code"),
    [
        ("98225", "Bellingham", "98225"),
        (" 98225 ", "Bellingham", "98225"),
        ("98225-1234", "Bellingham", "98225"),
        ("982251234", "Bellingham", "98225"),
        ("ZIP 98225", "Bellingham", "98225"),
        ("02139", "Cambridge", "02139"),
        ("00501", "Holtsville", "00501"),
        ("Bellingham WA 98225", "Bellingham", "98225"),
        ("Bellingham, Washington 98225-1234", "Bellingham", "98225"),
        ("1200 Nowhere Avenue, Bellingham, WA 98225, USA", "Bellingham", "98225"),
        ("WA 98225", "Bellingham", "98225"),
        ("98225 WA", "Bellingham", "98225"),
        ("Los Angeles, California, 90012", "Los Angeles", "90012"),
    ],
)
def test_a_zip_is_found_alone_and_behind_a_city(text: str, name: str, postal_code: str) -> None:
    place = found(text)
    assert (place.name, place.postal_code, place.kind, place.country) == (name, postal_code, "postal code", "US")
    assert place.found_by == f"ZIP {postal_code}"
    assert find_place(text).note == ""


def test_a_zip_that_a_spreadsheet_has_robbed_of_its_zeros_is_read_and_said() -> None:
    finding = find_place("2139")
    assert finding.place is not None
    assert finding.place.postal_code == "02139"
    assert "read as ZIP 02139" in finding.note


@pytest.mark.parametrize(
    ("zip_code", "country"),
    [("00901", "PR"), ("00802", "VI"), ("96910", "GU"), ("96799", "AS"), ("96950", "MP"), ("96898", "US")],
)
def test_a_territory_has_its_own_country_code(zip_code: str, country: str) -> None:
    assert found(zip_code).country == country


def test_every_zip_in_the_list_is_found_as_itself_or_answered_with_a_sentence() -> None:
    codes = all_postal_codes().codes[::7].tolist()
    assert len(codes) > 5_000
    for code in codes:
        place = found(code)
        assert place.postal_code == code
        assert len(place.country) == 2
        assert place.country != "US" or len(place.subdivision) == 2


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Bellingham, WA", ("Bellingham", "US", "WA")),
        ("bellingham wa", ("Bellingham", "US", "WA")),
        ("Bellingham, Wash.", ("Bellingham", "US", "WA")),
        ("Bellingham, Washington, USA", ("Bellingham", "US", "WA")),
        ("Savannah Georgia", ("Savannah", "US", "GA")),
        ("Washington, D.C.", ("Washington", "US", "DC")),
        ("Washington DC", ("Washington", "US", "DC")),
        ("St. Louis, MO", ("St. Louis", "US", "MO")),
        ("Saint Louis MO", ("St. Louis", "US", "MO")),
        ("Ft Worth TX", ("Fort Worth", "US", "TX")),
        ("Winston Salem NC", ("Winston-Salem", "US", "NC")),
        ("Billings MT", ("Billings", "US", "MT")),
        ("Kansas City, KS", ("Kansas City", "US", "KS")),
        ("NYC", ("New York City", "US", "NY")),
        ("12 Main Street, Bellingham, WA", ("Bellingham", "US", "WA")),
        ("Orcas, San Juan County, WA", ("Orcas", "US", "WA")),
        ("Rhonesboro, TX", ("Rhonesboro", "US", "TX")),
        ("San Juan PR", ("San Juan", "PR", "")),
        ("Vancouver, British Columbia, Canada", ("Vancouver", "CA", "BC")),
        ("Vancouver, CA", ("Vancouver", "CA", "BC")),
        ("London, ON", ("London", "CA", "ON")),
        ("Victoria, BC V8W 1A1", ("Victoria", "CA", "BC")),
        ("Hobart, Tasmania", ("Hobart", "AU", "TAS")),
        ("Perth, WA, Australia", ("Perth", "AU", "WA")),
        ("Cardiff, Wales", ("Cardiff", "GB", "WLS")),
        ("London SW1A 1AA, UK", ("London", "GB", "ENG")),
        ("Perth, WA 6000", ("Perth", "AU", "WA")),
        ("Hamburg, DE 20095", ("Hamburg", "DE", "")),
        ("Victoria BC Canada", ("Victoria", "CA", "BC")),
        ("Ontario, CA", ("Ontario", "US", "CA")),
        ("New York, USA", ("New York City", "US", "NY")),
        ("Dubai, UAE", ("Dubai", "AE", "")),
        ("Hamburg DE", ("Hamburg", "DE", "")),
        ("Hamburg, DEU", ("Hamburg", "DE", "")),
        ("10115 Berlin, Germany", ("Berlin", "DE", "")),
        ("Tbilisi, Georgia", ("Tbilisi", "GE", "")),
        ("Auckland NZ", ("Auckland", "NZ", "")),
        ("Singapore", ("Singapore", "SG", "")),
        ("東京", ("Tokyo", "JP", "")),
        ("Москва", ("Moscow", "RU", "")),
    ],
)
def test_a_city_is_found_as_people_write_it(text: str, expected: tuple[str, str, str]) -> None:
    assert where(text) == expected


@pytest.mark.parametrize(
    "text", ["Munich", "München", "Munchen", "Muenchen", "MÜNCHEN, Germany", "munich, de", "Monaco di Baviera"]
)
def test_munich_is_munich_in_any_spelling(text: str) -> None:
    assert where(text) == ("Munich", "DE", "")


def test_of_namesakes_the_largest_is_taken_and_said_and_the_others_are_listed_by_size() -> None:
    finding = find_place("Portland")
    assert finding.place is not None
    assert (finding.place.subdivision, finding.place.found_by) == (
        "OR",
        f"largest of {len(finding.others) + 1} places of that name",
    )
    assert finding.note.startswith("Portland: taken as Portland, Oregon, the largest of ")
    assert finding.others[0].subdivision == "ME"
    assert all(other.name == "Portland" for other in finding.others[:9])


def test_two_cities_side_by_side_in_two_states_are_namesakes_and_not_one_city() -> None:
    assert [other.subdivision for other in find_place("Kansas City").others] == ["KS"]


def test_a_city_carries_the_zip_that_stands_for_it_and_says_so() -> None:
    finding = find_place("Bellingham, WA")
    assert finding.place is not None
    assert finding.place.postal_code == "98225"
    assert finding.note == "ZIP 98225 stands for Bellingham; give the ZIP of the door if it is another."


@pytest.mark.parametrize("text", ["PO Box 12, Bellingham, WA 98225", "P. O. Box 7, Bellingham, WA"])
def test_a_post_office_box_is_found_with_the_word_that_no_vehicle_goes_there(text: str) -> None:
    assert found(text).name == "Bellingham"
    assert "No vehicle can be delivered to a post office box" in find_place(text).note
    assert "post office box" not in find_place("12 Box Street, Bellingham, WA").note


def test_a_foreign_postal_code_is_kept_and_said_not_to_be_looked_up() -> None:
    finding = find_place("Victoria, BC V8W 1A1")
    assert finding.place is not None
    assert finding.place.postal_code == "V8W 1A1"
    assert "not looked up" in finding.note


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "No place was given."),
        (" \t ", "No place was given."),
        ("!!!", "“!!!” is not a place that the list knows."),
        ("09001", "ZIP 09001 (APO AE) is a military or diplomatic post office"),
        ("FPO AP 96350", "The FPO address is a military or diplomatic post office"),
        ("PSC 123, APO AE", "The APO address is a military or diplomatic post office"),
        ("88888", "ZIP 88888 (North Pole, DC) has no point on the map"),
        ("V8W 1A1", "Canadian postal codes are not in the list."),
        ("V8W 1A1, Canada", "Canadian postal codes are not in the list."),
        ("LS1 4AP", "British postcodes are not in the list"),
        ("LS1 4AP, UK", "British postcodes are not in the list"),
        ("D-28195, Germany", "The postal codes of Germany are not in the list."),
        ("8001, Switzerland", "The postal codes of Switzerland are not in the list."),
        ("Germany", "“Germany” is a country or territory."),
        ("UAE", "“UAE” is United Arab Emirates (a country or territory)."),
        ("Georgia", "“Georgia” is a state or a country or territory."),
        ("Georgia, USA", "“Georgia” is a state."),
        ("Ohio USA", "“Ohio” is a state."),
        ("BC Canada", "“BC” is British Columbia (a province)."),
        ("Salem, MA 97301", "ZIP 97301 is in Oregon, not in Massachusetts"),
        ("WA", "is Washington (a state)"),
        ("Seattle, WA 98225", "ZIP 98225 is in Bellingham, WA, not in Seattle: check which of the two is right."),
        ("Portland, OR 98225", "ZIP 98225 is in Washington, not in Oregon"),
        ("91, 200", "is not a point on the earth"),
        ("0, -30", "No town is known within 150 miles"),
        ("48.7 N, 45.2 N", "two latitudes or two longitudes"),
        ("x" * 500, "is too long for the name of a place."),
    ],
)
def test_what_is_no_place_gets_a_sentence_that_says_why(text: str, sentence: str) -> None:
    finding = find_place(text)
    assert finding.place is None
    assert sentence in finding.note
    with pytest.raises(WrongInput, match=r"^place: [^—]+ — [^—]+$"):  # one sentence, one way out
        get_place(text)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("Belingham, WA", "Bellingham, WA"),
        ("Bellinghm", "Bellingham, WA"),
        ("Vellingham, WA", "Bellingham, WA"),
        ("Savanahh GA", "Savannah, GA"),
        ("Philadelpia", "Philadelphia, PA"),
        ("Melborne, Australia", "Melbourne, Australia"),
        ("Stutgart", "Stuttgart, Germany"),
        ("-122.48, 48.75", "48.75, -122.48"),
        ("Seattle, WA 98225", "Bellingham, WA 98225"),
    ],
)
def test_a_misspelling_gets_suggestions_that_can_be_typed(text: str, meant: str) -> None:
    finding = find_place(text)
    assert finding.place is None
    assert meant in finding.suggestions
    assert len(finding.suggestions) <= 5
    for suggestion in finding.suggestions:
        assert found(suggestion)
    with pytest.raises(WrongInput, match="did you mean"):
        get_place(text)


@pytest.mark.parametrize(
    "text",
    [
        "48.749, -122.488",
        "48.749 -122.488",
        "(48.749, -122.488)",
        "48.749N 122.488W",
        "W122.488, N48.749",
        "48°44′56.4″N 122°29′16.8″W",
        "48.749°, −122.488°",
    ],
)
def test_coordinates_are_read_in_any_usual_form_and_take_country_and_state_from_the_nearest_town(text: str) -> None:
    place = found(text)
    assert (place.latitude, place.longitude) == pytest.approx((48.749, -122.488), abs=1e-9)
    assert (place.kind, place.country, place.subdivision) == ("point", "US", "WA")
    assert "nearest town is Bellingham" in find_place(text).note


def test_a_point_beyond_the_date_line_finds_the_town_on_the_other_side() -> None:
    assert found("-16.8, -179.99").country == "FJ"


def test_a_text_as_it_was_typed_is_found_the_same_a_second_time() -> None:
    assert find_place("Savannah, GA") == find_place("Savannah, GA")


def test_finding_a_place_brings_in_nothing_heavy() -> None:
    """A cold look-up stays within 100 ms only without these; measured 45 ms with the interpreter's own start apart."""
    heavy = "numpy, pandas, geopy, geographiclib, rapidfuzz, openpyxl, pydantic"
    code = (
        "import sys; from shipcalc.places.gazetteer.find import find_place; assert find_place('Savannah, GA').place;"
        f"print([name for name in {heavy.split(', ')!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"


@settings(deadline=None)
@given(st.text(max_size=60))
def test_no_text_whatever_breaks_the_search(text: str) -> None:
    finding = find_place(text)
    if finding.place is None:
        assert finding.note.endswith((".", "?"))
    else:
        assert -90 <= finding.place.latitude <= 90


@settings(deadline=None)
@given(
    st.from_regex(
        r"[NSEWnsew]?[+-]?\d{1,3}(\.\d{1,6})?°?[NSEW]?[ ,;]+[NSEW]?[+-]?\d{1,3}(\.\d{1,6})?[NSEW]?", fullmatch=True
    )
)
def test_no_pair_of_numbers_becomes_a_point_off_the_earth(text: str) -> None:
    place = find_place(text).place
    assert place is None or (abs(place.latitude) <= 90 and abs(place.longitude) <= 180)


def test_every_place_of_the_gazetteer_is_found_by_its_name_and_region() -> None:
    """One in 600, all countries among them: the name as it is suggested finds a place of that name in that region."""
    numbers = range(0, 209_000, 600)
    for city in (city_numbered(number) for number in numbers):
        finding = find_place(written(city.name, city.country, city.subdivision))
        assert finding.place is not None, city
        assert finding.place.country == city.country, city
        assert city.country not in ("US", "CA") or finding.place.subdivision == city.subdivision, city
