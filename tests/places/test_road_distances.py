"""Road miles: which rule counts, in which direction, and the same figures for one lane and for columns of lanes."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.pages import all_postal_codes
from shipcalc.places.place import Place
from shipcalc.places.road.factor_rules import FactorRule, FactorRules
from shipcalc.places.road.miles import PlaceColumns, RoadDistance, road_distance, road_miles_columns, whole_miles
from shipcalc.places.straight import EARTH_RADIUS_MI, geodesic_mi, great_circle_mi
from shipcalc.records import replace

BELLINGHAM = Place(name="Bellingham", kind="postal code", country="US", subdivision="WA", postal_code="98225",
                   latitude=48.749, longitude=-122.4887)  # fmt: skip
SAVANNAH = Place(name="Savannah", kind="postal code", country="US", subdivision="GA", postal_code="31401",
                 latitude=32.0749, longitude=-81.0883)  # fmt: skip
VICTORIA = Place(name="Victoria", kind="city", country="CA", subdivision="BC", latitude=48.436, longitude=-123.352)
MUNICH = Place(name="Munich", kind="city", country="DE", latitude=48.137, longitude=11.575)


def rule(from_place: str | None, to_place: str | None, factor: float | None = None, **more: object) -> FactorRule:
    return replace(FactorRule(from_place=from_place, to_place=to_place, factor=factor), **more)  # type: ignore[arg-type]


ANY = rule(None, None, 1.25, cell="trucking.xlsx › Road factors!E9")
US = rule("US", "US", 1.20, source="Ballou, Rahardja & Sakai 2002, table 1")
WASHINGTON = rule("US-WA", None, 1.19)
STATE_PAIR = rule("US-GA", "US-WA", 1.16)
ZIP_AREA = rule("982", None, 1.18)
ZIP_PAIR = rule("98225", "314", 1.15)
LANE = rule("314", "98225", road_mi=2_900.0, cell="trucking.xlsx › Road factors!F2")

# Farthest first, so that the upper row cannot win by standing above.
FROM_FAR_TO_CLOSE = (ANY, US, WASHINGTON, STATE_PAIR, ZIP_AREA, ZIP_PAIR, LANE)


@pytest.mark.parametrize("count", range(1, len(FROM_FAR_TO_CLOSE) + 1))
def test_the_closest_match_counts_wherever_it_stands(count: int) -> None:
    rules = FROM_FAR_TO_CLOSE[:count]
    closest = rules[-1]
    for lane in ((BELLINGHAM, SAVANNAH), (SAVANNAH, BELLINGHAM)):
        for order in (rules, rules[::-1]):
            answer = road_distance(*lane, order)
            expected = closest.road_mi or answer.great_circle_mi * (closest.factor or 0)
            assert answer.road_mi == expected


def test_a_factor_is_worked_out_and_said_with_its_source_and_cell() -> None:
    answer = road_distance(BELLINGHAM, SAVANNAH, (replace(US, cell="trucking.xlsx › Road factors!E2"),))
    assert answer == RoadDistance(
        great_circle_mi=great_circle_mi(BELLINGHAM, SAVANNAH),
        road_mi=great_circle_mi(BELLINGHAM, SAVANNAH) * 1.20,
        miles=math.floor(great_circle_mi(BELLINGHAM, SAVANNAH) * 1.20 + 0.5),
        factor=pytest.approx(1.20),
        method="factor",
        note="straight line × 1.2 (Ballou, Rahardja & Sakai 2002, table 1); within 8 % in 9 of 10 lanes of this length",
        cell="trucking.xlsx › Road factors!E2",
        expected_error=0.08,
    )


def test_known_miles_of_a_lane_are_taken_as_they_are() -> None:
    answer = road_distance(BELLINGHAM, SAVANNAH, FROM_FAR_TO_CLOSE)
    assert (answer.miles, answer.method, answer.cell) == (2900, "known miles", "trucking.xlsx › Road factors!F2")
    assert answer.factor == pytest.approx(2_900 / great_circle_mi(BELLINGHAM, SAVANNAH))
    assert answer.expected_error is None


def test_how_near_the_miles_come_is_said_only_where_it_was_measured() -> None:
    assert road_distance(BELLINGHAM, SAVANNAH, (US,)).expected_error == 0.08
    assert road_distance(BELLINGHAM, VICTORIA, (ANY,)).expected_error is None


def test_known_miles_shorter_than_the_straight_line_are_pointed_out() -> None:
    assert "shorter than the straight line" in road_distance(BELLINGHAM, SAVANNAH, (replace(LANE, road_mi=900.0),)).note


def test_half_a_mile_counts_as_a_whole_one() -> None:
    assert road_distance(BELLINGHAM, SAVANNAH, (replace(LANE, road_mi=2_900.5),)).miles == 2901
    assert whole_miles(np.array([2_900.49, 2_900.5])).tolist() == [2900, 2901]


def test_a_band_begins_after_its_lower_bound_and_ends_with_its_upper_one() -> None:
    straight_mi = great_circle_mi(BELLINGHAM, SAVANNAH)
    near = rule("US", "US", 1.3, up_to_mi=straight_mi)
    far = rule("US", "US", 1.1, over_mi=straight_mi)
    assert road_distance(BELLINGHAM, SAVANNAH, (far, near)).factor == pytest.approx(1.3)


def test_of_two_equally_close_rules_the_narrower_band_counts_and_then_the_upper_row() -> None:
    banded = rule("US", "US", 1.17, over_mi=1_000.0, up_to_mi=3_000.0)
    assert road_distance(BELLINGHAM, SAVANNAH, (US, banded)).factor == pytest.approx(1.17)
    assert road_distance(BELLINGHAM, SAVANNAH, (US, rule("US", "US", 1.99))).factor == pytest.approx(1.20)


def test_a_lane_without_a_rule_says_which_row_is_missing() -> None:
    with pytest.raises(NoAnswer, match=r"no road factor from Bellingham, WA to Munich, DE .+ add a row US – DE"):
        road_distance(BELLINGHAM, MUNICH, (US, WASHINGTON.__class__(from_place="CA", to_place="CA", factor=1.3)))


class HalfOfTheCountry:
    """A table of lane factors that knows only lanes to places east of the hundredth meridian."""

    source = "an invented table"

    def factors(self, *, latitude_a: NDArray[np.float64], longitude_a: NDArray[np.float64],
                latitude_b: NDArray[np.float64], longitude_b: NDArray[np.float64]) -> NDArray[np.float64]:  # fmt: skip
        return np.where(longitude_b > -100, 1.123, np.nan)

    def factor(self, *, latitude_a: float, longitude_a: float, latitude_b: float, longitude_b: float) -> float:
        return 1.123 if longitude_b > -100 else math.nan


@pytest.mark.parametrize(("rules", "factor", "method"), [
    ((US,), 1.123, "network"),
    ((), 1.123, "network"),
    ((US, WASHINGTON), 1.19, "factor"),
    ((US, ZIP_AREA), 1.18, "factor"),
])  # fmt: skip
def test_a_table_of_lanes_stands_between_the_rules_for_states_and_those_for_countries(
    rules: tuple[FactorRule, ...], factor: float, method: str
) -> None:
    answer = road_distance(BELLINGHAM, SAVANNAH, rules, lanes=HalfOfTheCountry())
    assert (answer.factor, answer.method) == (pytest.approx(factor), method)


def test_where_the_table_of_lanes_does_not_reach_the_country_rule_counts() -> None:
    assert road_distance(SAVANNAH, BELLINGHAM, (US,), lanes=HalfOfTheCountry()).factor == pytest.approx(1.20)


def test_rules_that_are_found_by_their_sides_are_those_that_match() -> None:
    """Held against every rule of the sheet in turn, as one would read it."""
    zips = all_postal_codes()
    places = [
        replace(BELLINGHAM, postal_code=str(code), subdivision=str(state), latitude=float(north), longitude=float(east))
        for code, state, north, east in list(zip(zips.codes, zips.state, zips.latitude, zips.longitude, strict=True))[
            ::2_111
        ]
    ]
    rules = FactorRules((
        *FROM_FAR_TO_CLOSE, rule("US", "US"), rule("US", "US", 1.4, up_to_mi=300.0), rule("US-TX", "US", 1.22), rule("US", "US-NY", 1.3),
        rule("us-wa", "US-WA", 1.35), rule("9", "9", 1.31), rule("US", "98", 1.32), rule("1", "98225", 1.33), rule("2", "US-TX", 1.5),
    ))  # fmt: skip
    for a in (BELLINGHAM, *places[:4]):
        for b in places:
            beginnings = [{"", "US", f"US-{p.subdivision}", *(p.postal_code[:n] for n in range(1, 6))} for p in (a, b)]
            matching = [
                r for r in rules
                if (r.factor or r.road_mi) and (r.up_to_mi is None or great_circle_mi(a, b) <= r.up_to_mi)
                and any(one in beginnings[0] and other in beginnings[1] for one, other in (r.sides, r.sides[::-1]))
            ]  # fmt: skip
            closest = min(matching, key=lambda r: r.rank)
            answer = road_distance(a, b, rules)
            assert answer.road_mi == (closest.road_mi or great_circle_mi(a, b) * (closest.factor or 0))
            assert answer.cell == closest.cell


@pytest.mark.parametrize("lanes", [None, HalfOfTheCountry()])
def test_columns_of_lanes_give_the_miles_of_the_single_lanes(lanes: HalfOfTheCountry | None) -> None:
    zips = all_postal_codes()
    picked = slice(None, None, 211)
    places = [
        Place(name=str(code), kind="postal code", country="US", subdivision=str(state), postal_code=str(code),
              latitude=float(latitude), longitude=float(longitude))
        for code, state, latitude, longitude in zip(
            zips.codes[picked], zips.state[picked], zips.latitude[picked], zips.longitude[picked], strict=True
        )
    ] + [VICTORIA, MUNICH]  # fmt: skip
    rules = (
        US, STATE_PAIR, ZIP_PAIR, LANE, rule("US", "CA", 1.3), rule("US", "US", 1.4, up_to_mi=300.0),
        rule("US-TX", "US", 1.22), rule("us-wa", "US-WA", 1.35), rule("98225", "9", 1.31), rule("US", "98", 1.32), rule("98225", "US-FL"),
    )  # fmt: skip
    column = road_miles_columns(BELLINGHAM, PlaceColumns.of(places), rules, lanes=lanes)
    for place, road_mi in zip(places, column, strict=True):
        if math.isnan(road_mi):
            with pytest.raises(NoAnswer):
                road_distance(BELLINGHAM, place, rules, lanes=lanes)
        else:
            assert road_distance(BELLINGHAM, place, rules, lanes=lanes).road_mi == road_mi
    assert math.isnan(column[-1]) is (lanes is None)


points = st.builds(
    Place,
    name=st.just("somewhere"),
    kind=st.just("point"),
    country=st.sampled_from(["US", "CA"]),
    subdivision=st.sampled_from(["WA", "GA", "BC", ""]),
    postal_code=st.sampled_from(["98225", "31401", ""]),
    latitude=st.floats(-90, 90),
    longitude=st.floats(-180, 180),
)


@settings(deadline=None)
@given(a=points, b=points)
def test_the_way_back_is_as_long_as_the_way_there(a: Place, b: Place) -> None:
    assert great_circle_mi(a, b) == pytest.approx(great_circle_mi(b, a), abs=1e-6)
    there, back = road_distance(a, b, FROM_FAR_TO_CLOSE), road_distance(b, a, FROM_FAR_TO_CLOSE)
    assert there.road_mi == pytest.approx(back.road_mi, abs=1e-6)
    assert (there.method, there.note.split(";")[0]) == (back.method, back.note.split(";")[0])


@settings(deadline=None)
@given(a=points, b=points)
def test_a_sphere_and_the_ellipsoid_differ_by_little_more_than_half_a_per_cent(a: Place, b: Place) -> None:
    """The radii of curvature of WGS 84 run from 6,335 km to 6,400 km: −0.56 % and +0.46 % of 6,371 km."""
    assert great_circle_mi(a, b) == pytest.approx(geodesic_mi(a, b), rel=0.0057, abs=1e-6)


@settings(deadline=None)
@given(a=points, b=points, c=points)
def test_a_detour_is_never_shorter_and_nothing_is_farther_than_the_other_side_of_the_earth(
    a: Place, b: Place, c: Place
) -> None:
    direct = great_circle_mi(a, c)
    assert 0 <= direct <= EARTH_RADIUS_MI * math.pi + 1e-9
    assert direct <= great_circle_mi(a, b) + great_circle_mi(b, c) + 1e-6


@settings(deadline=None)
@given(a=points, b=points, factor=st.floats(1.0, 3.0))
def test_a_factor_of_one_or_more_never_makes_the_road_shorter_than_the_line(a: Place, b: Place, factor: float) -> None:
    answer = road_distance(a, b, (rule(None, None, factor),))
    assert answer.road_mi >= answer.great_circle_mi
    assert abs(answer.miles - answer.road_mi) <= 0.5
