"""Recommended ways to places all over the world, as a forwarder reads them: right coast, no detour, no port that no road joins.

Which coast, port or road is the customary one: common practice and general geography, no source.
"""

from datetime import date

import pytest

from shipcalc.places.gazetteer.find import get_place
from shipcalc.places.place import Place
from shipcalc.places.road.borders import countries_on_the_way
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Dealer, Option, Wishes
from shipcalc.quote.request import Request
from shipcalc.ratebook.embargoed import embargoed_countries, shipped_holds

DAY = date(2026, 12, 1)
HELD = embargoed_countries() | {hold.country for hold in shipped_holds()}
EAST, MIDDLE, WEST = "Savannah, GA", "Chicago, IL", "Los Angeles, CA"

ATLANTIC = ("Bremen", "London, UK", "Oslo", "Lisbon", "Casablanca", "Lagos, Nigeria", "Istanbul", "Cairo", "Amman", "Dubai",
            "Buenos Aires", "Nassau", "Cape Town", "Constanta, Romania", "Reykjavik")  # fmt: skip
PACIFIC = ("Tokyo", "Sydney", "Auckland", "Suva, Fiji", "Singapore", "Manila", "Honolulu, HI", "Seoul", "Papeete",
           "Hong Kong", "Taipei", "Shanghai", "Jakarta")  # fmt: skip
PACIFIC_COAST = {"CA", "OR", "WA"}

# Where the truck goes all the way, and no ship to a port nearby comes first.
BY_ROAD = {
    EAST: ("Calgary, AB", "Toronto, ON", "Winnipeg, MB", "Whitehorse, YT", "Yellowknife, NT", "Charlottetown, PE", "Tijuana, Mexico"),
    MIDDLE: ("Vancouver, BC", "Montreal, QC", "Halifax, NS", "Monterrey, Mexico", "Ciudad Juárez, Mexico"),
    WEST: ("Calgary, AB", "Edmonton, AB", "Halifax, NS", "Hermosillo, Mexico", "Monterrey, Mexico"),
}  # fmt: skip
# The port where the ship of the recommended way arrives.
ARRIVES_AT = {
    "Belfast, UK": {"Belfast", "Dublin"},
    "Hanoi": {"Haiphong"},
    "Ho Chi Minh City": {"Ho Chi Minh City"},
    "Cebu City": {"Cebu"},
    "Davao, Philippines": {"Davao"},
    "Kota Kinabalu": {"Kota Kinabalu"},
    "San Salvador": {"Santo Tomás de Castilla", "Puerto Cortés"},
    "Guatemala City": {"Santo Tomás de Castilla", "Puerto Quetzal"},
    "Punta Arenas, Chile": {"Punta Arenas"},
    "Ushuaia": {"Ushuaia"},
    "Prague": {"Hamburg", "Bremerhaven"},
    "Zurich": {"Antwerp", "Rotterdam", "Bremerhaven", "Savona", "Genoa", "Livorno"},
    "Vienna, Austria": {"Koper", "Trieste", "Rijeka", "Hamburg", "Bremerhaven", "Livorno", "Savona"},
    "Kampala": {"Mombasa", "Dar es Salaam"},
    "Johannesburg": {"Durban", "Maputo"},
    "Riyadh": {"Dammam", "Jeddah"},
    "Mumbai": {"Nhava Sheva"},
    "Kathmandu": {"Kolkata"},
    "Sapporo": {"Yokohama"},
    "Fairbanks, AK": {"Anchorage"},
}


@pytest.fixture(scope="module")
def way(shipped):
    vehicle = next(v for v in shipped.stock.vehicles if v.stock_number == "HV-1042")

    def recommended(start: str, to: str) -> Option:
        request = Request(vehicles=(vehicle,), starts=(_place(start),), to=_place(to), ready=DAY, wishes=Wishes())
        quote = make_quote(request, shipped.rates, as_of=DAY, dealer=Dealer(name="Heron & Vale Motors (invented)"))
        return quote.options[quote.recommended]

    return recommended


def _place(text: str) -> Place:
    found = get_place(text).place
    assert found is not None, text
    return found


def _ship(option: Option):
    return next(leg for leg in option.legs if leg.mode in ("roro", "container", "shared container"))


@pytest.mark.parametrize("start", [EAST, MIDDLE])
@pytest.mark.parametrize("to", ATLANTIC)
def test_what_stands_in_the_east_leaves_for_the_atlantic_from_there(way, start: str, to: str) -> None:
    assert _ship(way(start, to)).from_.subdivision not in PACIFIC_COAST


@pytest.mark.parametrize("to", PACIFIC)
def test_what_stands_in_the_west_leaves_for_the_pacific_from_there(way, to: str) -> None:
    assert _ship(way(WEST, to)).from_.subdivision in PACIFIC_COAST


@pytest.mark.parametrize(("start", "to"), [(start, to) for start, places in BY_ROAD.items() for to in places])
def test_the_continent_is_crossed_by_road(way, start: str, to: str) -> None:
    assert [leg.mode for leg in way(start, to).legs] == ["truck"]


@pytest.mark.parametrize(("to", "ports"), ARRIVES_AT.items())
def test_the_ship_arrives_where_forwarders_land_it(way, to: str, ports: set[str]) -> None:
    option = way(EAST, to)
    assert _ship(option).to.name in ports
    assert option.arrives


@pytest.mark.parametrize("to", ["Honolulu, HI", "Kahului, HI", "Hilo, HI"])
def test_no_truck_drives_up_the_coast_to_a_ship_that_leaves_from_the_port_it_passes(way, to: str) -> None:
    assert _ship(way(EAST, to)).from_.name in ("Los Angeles – Long Beach", "Oakland", "Port Hueneme")


@pytest.mark.parametrize("to", [*ATLANTIC, *PACIFIC, *ARRIVES_AT])
def test_no_road_leads_through_a_held_country(way, to: str) -> None:
    for leg in way(EAST, to).legs:
        passed = countries_on_the_way(leg.from_.country, leg.to.country, without=HELD)
        assert leg.mode != "truck" or (passed and not set(passed) & (HELD - {leg.to.country}))
