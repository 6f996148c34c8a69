"""Every vehicle of the demo stock has an answer to every state, and none is driven there that a truck can take."""

from datetime import date

import numpy as np
import pytest

from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.find import find_place
from shipcalc.pricing.line import NO_MARKUP
from shipcalc.pricing.truck import truck_prices
from shipcalc.quote.model import Wishes
from shipcalc.quote.network.distances import road_lanes
from shipcalc.quote.network.trucks import truck_trip
from shipcalc.quote.request import Request

DAY = date(2026, 12, 1)

YARDS = ("Bellingham, WA 98225", "Savannah, GA 31401")
# A town of each of the 48 contiguous states and of the District of Columbia, then of the two that trucks do not reach.
BY_ROAD = (
    "Montgomery, AL; Phoenix, AZ; Little Rock, AR; Sacramento, CA; Denver, CO; Hartford, CT; Dover, DE; Washington, DC; "
    "Tallahassee, FL; Atlanta, GA; Boise, ID; Springfield, IL; Indianapolis, IN; Des Moines, IA; Topeka, KS; Frankfort, KY; "
    "Baton Rouge, LA; Augusta, ME; Annapolis, MD; Boston, MA; Lansing, MI; Saint Paul, MN; Jackson, MS; Jefferson City, MO; "
    "Helena, MT; Lincoln, NE; Carson City, NV; Concord, NH; Trenton, NJ; Santa Fe, NM; Albany, NY; Raleigh, NC; Bismarck, ND; "
    "Columbus, OH; Oklahoma City, OK; Salem, OR; Harrisburg, PA; Providence, RI; Columbia, SC; Pierre, SD; Nashville, TN; "
    "Austin, TX; Salt Lake City, UT; Montpelier, VT; Richmond, VA; Olympia, WA; Charleston, WV; Madison, WI; Cheyenne, WY"
).split("; ")
BY_SEA = ("Anchorage, AK", "Honolulu, HI")
# What the ordinary trucks of the invented book take at most.
ORDINARY_HIGH_MM, ORDINARY_LONG_MM = 2_286, 6_706


@pytest.mark.parametrize("yard", YARDS)
def test_every_vehicle_has_a_truck_to_every_state(shipped, yard: str) -> None:
    assert len(BY_ROAD) == 49
    start = find_place(yard).place
    lanes = [lane for to in BY_ROAD for lane in road_lanes(shipped.rates, (start,), find_place(to).place)]
    vehicles = shipped.stock.vehicles
    assert len(vehicles) == 159, "one row of the list cannot be read"
    request = Request(
        vehicles=vehicles,
        starts=(start,) * len(vehicles),
        to=lanes[0].to,
        ready=DAY,
        wishes=Wishes(),
        buyer="",
        notes=(),
    )
    services, trip = truck_trip(request, shipped.rates, lanes, DAY)
    trucks = [service for service in services if service.row.trailer != "driven"]
    taken = np.logical_or.reduce([price.eligible for price in truck_prices(trucks, trip, NO_MARKUP)])
    assert taken.shape == (len(vehicles), len(BY_ROAD))
    assert taken.all(), [(vehicles[n].stock_number, BY_ROAD[m]) for n, m in np.argwhere(~taken)]


@pytest.mark.parametrize("to", BY_SEA)
def test_every_kind_of_vehicle_has_a_ship_to_alaska_and_hawaii(shipped, dealer_quote, to: str) -> None:
    """All that are out of the ordinary in size or state, and every eighth of the others."""
    for number, vehicle in enumerate(shipped.stock.vehicles):
        if number % 8 == 0 or _is_hard(vehicle):
            for yard in YARDS:
                quote = dealer_quote(vehicle.stock_number, to=to, start=yard)
                assert all(any(leg.unit == "nmi" for leg in option.legs) for option in quote.options)


def test_what_a_truck_can_take_is_never_recommended_to_be_driven(shipped, dealer_quote) -> None:
    for vehicle in filter(_is_hard, shipped.stock.vehicles):
        quote = dealer_quote(vehicle.stock_number, to="Austin, TX")
        by_driver = [option for option in quote.options if option.trailer is None]
        assert quote.options[quote.recommended].trailer is not None
        assert bool(by_driver) == (
            vehicle.drives and vehicle.height_mm is not None and vehicle.height_mm > ORDINARY_HIGH_MM
        )
        for option in by_driver:
            assert [leg.mode for leg in option.legs] == ["driven"]
            assert [one.way for one in option.loading] == ["own wheels"]
            miles = option.legs[0].distance
            assert any(f"about {miles:,} miles on its odometer" in line for line in option.before_price)
            assert any("insurance" in line and "plates" in line for line in option.warnings)
            assert not any(charge.code == "extra.high" for charge in option.charges), "what is charged for a trailer"


def test_an_ordinary_vehicle_is_not_offered_to_be_driven(dealer_quote) -> None:
    assert all(option.trailer for option in dealer_quote("HV-1042", to="Austin, TX").options)


def test_a_wish_for_a_trailer_is_no_wish_for_a_driver(dealer_quote) -> None:
    quote = dealer_quote("HV-1121", to="Austin, TX", trailer="open")
    assert {option.trailer for option in quote.options} == {"open"}


def test_where_no_truck_takes_it_and_it_does_not_run_the_reason_says_both(dealer_quote) -> None:
    with pytest.raises(NoAnswer) as told:
        dealer_quote("1979 camper, 402 in x 96 in x 150 in, 14800 lb, $36,500, does not run", to="Austin, TX")
    assert "height of up to" in told.value.what
    assert told.value.remedy
    driven = dealer_quote("1979 camper, 402 in x 96 in x 150 in, 14800 lb, $36,500", to="Austin, TX")
    assert driven.options[driven.recommended].trailer is None, "only a driver can bring it"


def _is_hard(vehicle) -> bool:
    high, long = vehicle.height_mm or 0, vehicle.length_mm or 0
    return not vehicle.drives or high > ORDINARY_HIGH_MM or long > ORDINARY_LONG_MM
