"""Which places a truck can drive to, and what the others need. How each island is served is general knowledge, no source."""

import pytest

from shipcalc.places.gazetteer.find import get_place
from shipcalc.places.gazetteer.regions import regions_named
from shipcalc.places.outlines import is_inside, read_outline
from shipcalc.places.place import Place
from shipcalc.places.road.reach import FILE, NORTH_AMERICA, land_of, road_reach
from shipcalc.places.sea.ports import find_port

BELLINGHAM, SAVANNAH = "98225", "31401"


def place(text: str) -> Place:
    found = get_place(text).place
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("a", "b"),
    [
        (BELLINGHAM, SAVANNAH),
        (BELLINGHAM, "Vancouver, BC"),
        (BELLINGHAM, "Tijuana, Mexico"),
        (SAVANNAH, "Panama City, Panama"),
        (SAVANNAH, "Key West, FL"),
        (BELLINGHAM, "Bainbridge Island, WA"),
        (BELLINGHAM, "Oak Harbor, WA"),
        ("Toronto", "Charlottetown, PE"),
        ("Toronto", "Sydney, NS"),
        ("Toronto", "Happy Valley-Goose Bay"),
        ("Calgary", "Yellowknife"),
        ("Vancouver, BC", "Anchorage, AK"),
        ("Fairbanks, AK", "Anchorage, AK"),
        ("Victoria, BC", "Nanaimo, BC"),
        ("Honolulu, HI", "Kailua, HI"),
        ("St. John's, NL", "Gander, NL"),
        ("Belfast", "Dublin, Ireland"),
        ("Munich", "Copenhagen"),
        ("Copenhagen", "Stockholm"),
        ("Munich", "Reggio Calabria"),
        ("London", "Edinburgh"),
        ("Tokyo", "Fukuoka, Japan"),
        ("Singapore", "Bangkok"),
        ("Bahrain, Manama", "Riyadh"),
        ("Cape Town", "Nairobi"),
        ("Sydney, Australia", "Perth, Australia"),
        ("Ushuaia", "Porvenir, Chile"),
        ("98250", "98250"),
        ("Juneau, AK", "99801"),
    ],
)
def test_roads_join_these(a: str, b: str) -> None:
    assert road_reach(place(a), place(b)).reached
    assert road_reach(place(b), place(a)).reached


@pytest.mark.parametrize(
    ("far", "sentence"),
    [
        ("Honolulu, HI", "Honolulu is on Oahu: vehicles go there by sea from the West Coast."),
        ("96720", "Hilo is on Hawaii, the Big Island: vehicles go there by sea from the West Coast."),
        ("00901", "San Juan is on Puerto Rico: vehicles go there by sea from the East or Gulf Coast."),
        ("00820", "Christiansted is on St. Croix: vehicles go there by sea."),
        ("96910", "Hagatna is on Guam: vehicles go there by sea from the West Coast."),
        ("96950", "Saipan is not reached by road: vehicles go there by sea."),
        ("96799", "Pago Pago is on Tutuila, American Samoa: vehicles go there by sea."),
        (
            "Juneau, AK",
            "Juneau is in a part of Alaska that no road reaches: vehicles go there by barge or by the state ferry",
        ),
        ("Kodiak, AK", "Kodiak is in a part of Alaska that no road reaches"),
        ("Nome, AK", "Nome is in a part of Alaska that no road reaches"),
        ("02554", "Nantucket is not reached by road: vehicles go there by the car ferry from Hyannis."),
        ("Edgartown, MA", "Edgartown is on Martha's Vineyard"),
        ("02807", "Block Island is not reached by road"),
        (
            "Friday Harbor, WA",
            "Friday Harbor is on San Juan Island: vehicles go there by the state ferry from Anacortes.",
        ),
        ("Vashon, WA", "Vashon is not reached by road: vehicles go there by the state ferry"),
        ("Avalon, CA", "Avalon is on Catalina Island"),
        ("Mackinac Island, MI", "Mackinac Island is not reached by road: motor vehicles are not admitted"),
        ("Put-in-Bay, OH", "Put In Bay is on South Bass Island"),
        ("98852", "Stehekin is not reached by road: vehicles go there by barge over the lake."),
        ("Victoria, BC", "Victoria is on Vancouver Island: vehicles go there by the ferry"),
        ("Ganges, BC", "Ganges is on Salt Spring Island"),
        ("Gibsons, BC", "Gibsons is on the lower Sunshine Coast"),
        (
            "St. John's, NL",
            "St. John's is on Newfoundland: vehicles go there by the ferry from North Sydney, Nova Scotia.",
        ),
        ("Cap-aux-Meules, QC", "Cap-aux-Meules is on the Magdalen Islands"),
        ("Iqaluit, NU", "Iqaluit is in a part of Nunavut that no road reaches"),
        ("Cozumel, Mexico", "Cozumel is not reached by road"),
        ("Coxen Hole, Honduras", "Coxen Hole is on the Bay Islands"),
    ],
)
def test_no_road_leads_to_these_and_the_sentence_says_how_they_are_served(far: str, sentence: str) -> None:
    for reach in (road_reach(place(BELLINGHAM), place(far)), road_reach(place(far), place(SAVANNAH))):
        assert not reach.reached
        assert reach.need.startswith(sentence)


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("Honolulu, HI", "Hilo, HI"),
        ("Juneau, AK", "Sitka, AK"),
        ("98250", "98245"),
        (SAVANNAH, "Havana"),
        (SAVANNAH, "Bogotá"),
        (SAVANNAH, "Bremen, Germany"),
        ("Paris, France", "London"),
        ("London", "Belfast"),
        ("Munich", "Palermo, Italy"),
        ("Munich", "Palma, Spain"),
        ("Stockholm", "Visby"),
        ("Copenhagen", "Rønne"),
        ("Tokyo", "Sapporo"),
        ("Tokyo", "Naha"),
        ("Melbourne, Australia", "Hobart, Australia"),
        ("Auckland", "Christchurch, New Zealand"),
        ("Bangkok", "Seoul"),
        ("Southampton, UK", "Newport, Isle of Wight"),
        ("Jakarta", "Kuching"),
    ],
)
def test_water_lies_between_these(a: str, b: str) -> None:
    reach = road_reach(place(a), place(b))
    assert not reach.reached
    assert reach.need.endswith(".")


@pytest.mark.parametrize("far", ["Anchorage, AK", "Haines, AK", "98281", "Angle Inlet, MN"])
def test_some_places_are_reached_only_through_canada_and_that_is_said(far: str) -> None:
    reach = road_reach(place(SAVANNAH), place(far))
    assert reach.reached
    assert "only through Canada" in reach.need
    assert road_reach(place("Vancouver, BC"), place(far)).need == ""


def test_a_country_of_many_islands_is_not_promised_a_road_without_a_word() -> None:
    assert "many islands" in road_reach(place("Suva"), place("Labasa")).need


def test_what_lies_on_another_island_is_not_reached_by_road() -> None:
    """Of the Philippines, which town lies on which island: common geography, no source."""
    for town in ("Cebu City", "Davao", "Puerto Princesa", "Calapan", "Bacolod City", "Zamboanga"):
        assert not road_reach(place("Manila"), place(f"{town}, Philippines")).reached, town
    for town in ("Legaspi", "Sorsogon", "Baguio", "Batangas"):
        assert road_reach(place("Manila"), place(f"{town}, Philippines")).reached, town
    assert road_reach(place("Davao, Philippines"), place("Zamboanga, Philippines")).reached
    assert road_reach(find_port("GBBEL"), place("Belfast")).reached
    assert not road_reach(place("Belém, Brazil"), place("Manaus, Brazil")).reached


def test_towns_on_the_near_shore_are_not_taken_for_the_island() -> None:
    near = ["Anacortes, WA", "Tsawwassen, BC", "Hyannis, MA", "Lymington, UK", "Barcarena, Brazil", "Squamish, BC",
            "Valdez, AK", "Kingston, WA", "Aomori", "Wellington, NZ", "Lisbon", "Athens, Greece", "Split, Croatia"]  # fmt: skip
    for town in near:
        assert not land_of(place(town)).served, town


def test_the_roads_of_the_contiguous_states_make_one_land() -> None:
    for town in (
        "Seattle, WA",
        "San Diego, CA",
        "Miami, FL",
        "Bangor, ME",
        "Grosse Ile, MI",
        "Galveston, TX",
        "Chincoteague, VA",
    ):
        assert land_of(place(town)).name == NORTH_AMERICA


def test_every_row_of_the_table_can_be_read_and_says_how_the_place_is_served() -> None:
    lines = FILE.read_text(encoding="utf-8").splitlines()
    assert lines[0].split("\t") == ["land", "country", "subdivision", "zips", "outline", "joined", "served"]
    assert len(lines) > 200
    for line in lines[1:]:
        land, country, _, _, outline, joined, served = line.split("\t")
        assert regions_named(country.casefold()), line
        assert land.split()[0] in ("on", "in", "at"), line
        assert served or joined == "through Canada", line
        corners = read_outline(outline)
        assert not corners or len(corners) >= 3, line
        assert all(-90 <= latitude <= 90 and -180 <= longitude <= 180 for latitude, longitude in corners), line


def test_a_point_is_inside_a_polygon_or_outside() -> None:
    dart = read_outline("0,0 4,0 4,4 2,2")  # a dart: the corner at 2,2 points inwards
    assert is_inside(dart, latitude=3.5, longitude=1)
    assert not is_inside(dart, latitude=1, longitude=2)
    box = read_outline("10,-5 20,5")
    assert is_inside(box, latitude=15, longitude=0)
    assert not is_inside(box, latitude=25, longitude=0)
