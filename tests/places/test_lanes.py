"""Lane factors: what any table must do, the waters that must be driven round, and memory."""

import tracemalloc

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from shipcalc.places.making import lanes_report
from shipcalc.places.road.lanes import LaneTable, lane_table
from shipcalc.places.road.lanes_barriers import barrier_between, barriers, has_barrier
from shipcalc.places.road.lanes_table import CODE_FACTORS, FOLDER, HUBS_FILE, triangle_index
from shipcalc.places.straight import great_circle_mi_columns

Point = tuple[float, float]

SEATTLE, BREMERTON, TACOMA, PORT_ANGELES = (
    (47.606, -122.332),
    (47.567, -122.633),
    (47.253, -122.444),
    (48.118, -123.431),
)
MILWAUKEE, MUSKEGON, CHICAGO = (43.039, -87.906), (43.234, -86.248), (41.878, -87.630)
ANNAPOLIS, EASTON_MD, NORFOLK, CAPE_CHARLES = (38.978, -76.492), (38.774, -76.076), (36.851, -76.286), (37.270, -76.017)
LEWES, CAPE_MAY = (38.774, -75.139), (38.935, -74.906)
BRIDGEPORT, PORT_JEFFERSON = (41.179, -73.189), (40.946, -73.069)
SAN_FRANCISCO, OAKLAND, SAN_MATEO, HAYWARD = (
    (37.775, -122.419),
    (37.804, -122.271),
    (37.563, -122.325),
    (37.669, -122.081),
)
BURLINGTON_VT, PLATTSBURGH = (44.476, -73.212), (44.699, -73.453)
COUPEVILLE, HOUSTON, GALVESTON = (48.220, -122.686), (29.760, -95.370), (29.301, -94.798)
ASTORIA, LONG_BEACH_WA = (46.188, -123.831), (46.352, -124.054)
GUNNISON, LAKE_CITY, CREEDE = (38.545, -106.925), (37.987, -107.302), (37.816, -106.928)
MIAMI, KEY_WEST = (25.762, -80.192), (24.555, -81.780)
HAMBURG, COPENHAGEN, MALMO, LONDON, PARIS, DUBLIN = (
    (53.551, 9.994), (55.676, 12.568), (55.605, 13.000), (51.507, -0.128), (48.857, 2.352), (53.350, -6.260),
)  # fmt: skip
BELLINGHAM, SAVANNAH, HONOLULU = (48.754, -122.479), (32.081, -81.091), (21.307, -157.858)


@pytest.fixture(scope="module")
def table() -> LaneTable:
    return lane_table()


def factor(table: LaneTable, a: Point, b: Point) -> float:
    return table.factor(latitude_a=a[0], longitude_a=a[1], latitude_b=b[0], longitude_b=b[1])


def road_mi(table: LaneTable, a: Point, b: Point) -> float:
    straight = great_circle_mi_columns(latitude_a=a[0], longitude_a=a[1], latitude_b=b[0], longitude_b=b[1])
    return float(straight) * factor(table, a, b)


def columns(a: NDArray[np.float64], b: NDArray[np.float64]) -> dict[str, NDArray[np.float64]]:
    return {"latitude_a": a[:, 0], "longitude_a": a[:, 1], "latitude_b": b[:, 0], "longitude_b": b[:, 1]}


def american_hubs() -> NDArray[np.float64]:
    """The hubs of the contiguous states, moved by a few miles so that they are places like others."""
    hubs = np.load(FOLDER / HUBS_FILE)
    places = np.stack([hubs["latitude"], hubs["longitude"]], axis=1).astype(np.float64)
    inside = (places[:, 0] > 25) & (places[:, 0] < 48.9) & (places[:, 1] > -124.5) & (places[:, 1] < -67)
    return places[inside] + 0.03


# Miles by road around or over the water: "recalled" from everyday maps, wide bounds; no source.
@pytest.mark.parametrize(
    ("a", "b", "least_mi", "most_mi"),
    [
        (MILWAUKEE, MUSKEGON, 250, 310),  # round the south end of Lake Michigan, past Chicago
        (SEATTLE, BREMERTON, 55, 85),  # over the Tacoma Narrows; the ferry is no road
        (SEATTLE, PORT_ANGELES, 125, 165),  # over the Tacoma Narrows and the Hood Canal Bridge
        (BELLINGHAM, PORT_ANGELES, 200, 245),  # the same way; the ferry from Whidbey Island is no road
        (BELLINGHAM, COUPEVILLE, 45, 75),  # over Deception Pass
        (HOUSTON, GALVESTON, 45, 62),  # over the causeway
        (ASTORIA, LONG_BEACH_WA, 14, 26),  # over the Columbia
        (ANNAPOLIS, EASTON_MD, 35, 60),  # over the Chesapeake Bay Bridge
        (NORFOLK, CAPE_CHARLES, 32, 60),  # over the Chesapeake Bay Bridge–Tunnel
        (LEWES, CAPE_MAY, 110, 200),  # round Delaware Bay; the ferry is no road
        (BRIDGEPORT, PORT_JEFFERSON, 65, 100),  # round Long Island Sound by New York
        (SAN_FRANCISCO, OAKLAND, 9, 17),  # over the Bay Bridge
        (SAN_MATEO, HAYWARD, 16, 28),  # over the San Mateo Bridge
        (BURLINGTON_VT, PLATTSBURGH, 55, 100),  # round Lake Champlain
        (MIAMI, KEY_WEST, 150, 180),  # the Overseas Highway; mile markers 127 … 0 from Florida City
        (LONDON, PARIS, 270, 310),  # through the Channel Tunnel
        (HAMBURG, COPENHAGEN, 260, 320),  # over the Great Belt; the ferry is no road
        (COPENHAGEN, MALMO, 18, 40),  # over the Sound
        (
            (42.053, -70.186),
            (42.358, -71.060),
            105,
            130,
        ),  # Provincetown – Boston, all round Cape Cod Bay (59 until 2026-11-28)
        ((42.614, -70.663), (42.053, -70.186), 130, 170),  # Gloucester – Provincetown, the same way
        ((44.834, -87.377), (45.108, -87.614), 85, 115),  # Sturgeon Bay – Menominee, round Green Bay
        ((45.745, -87.065), (44.834, -87.377), 145, 185),  # Escanaba – Sturgeon Bay, the same way
        ((46.543, -87.395), (43.040, -87.915), 270, 310),  # Marquette – Milwaukee, beside the lake
        ((39.530, -119.814), (38.577, -121.494), 125, 145),  # Reno – Sacramento, over Donner Pass
        ((44.089, -87.658), (43.955, -86.452), 330, 430),  # Manitowoc – Ludington, by Chicago; the ferry is no road
    ],
)
def test_water_is_crossed_where_a_bridge_is_and_driven_round_where_none_is(
    table: LaneTable, a: Point, b: Point, least_mi: float, most_mi: float
) -> None:
    assert least_mi <= road_mi(table, a, b) <= most_mi


@pytest.mark.parametrize(
    ("a", "b"), [(LONDON, DUBLIN), (SEATTLE, LONDON), (SEATTLE, HONOLULU), (SEATTLE, (0.0, -30.0))]
)
def test_no_road_no_factor(table: LaneTable, a: Point, b: Point) -> None:
    assert np.isnan(factor(table, a, b))
    assert np.isnan(table.factors(**columns(np.array([a] * 3), np.array([b] * 3)))).all()


@pytest.mark.parametrize("town", [GUNNISON, LAKE_CITY, CREEDE])
def test_a_valley_that_the_graph_has_no_road_to_has_a_factor_still(table: LaneTable, town: Point) -> None:
    """As on 2026-11-25: two hubs in the valley of Lake City stood by themselves, and three towns had no factor."""
    assert 1.02 <= factor(table, CHICAGO, town) < 1.5


def test_a_lane_is_as_long_back_as_forth_to_the_last_bit(table: LaneTable) -> None:
    places = american_hubs()
    forth = table.factors(**columns(places[:-1], places[1:]))
    assert np.array_equal(forth, table.factors(**columns(places[1:], places[:-1])), equal_nan=True)


def test_one_lane_is_the_same_alone_as_in_a_column(table: LaneTable) -> None:
    places = american_hubs()[::7]
    a, b = places[:-1], places[1:]
    alone = [factor(table, (here[0], here[1]), (there[0], there[1])) for here, there in zip(a, b, strict=True)]
    together = table.factors(**columns(a, b))
    assert np.allclose(np.array(alone, np.float64), together, rtol=1e-12, equal_nan=True)


def test_the_last_candidate_of_a_cell_is_not_lost_to_rounding(table: LaneTable) -> None:
    """As on 2026-11-25 in the cell of Zárate in Argentina: 11 of the 12 were found, instead of that no hub is near."""
    assert np.isnan(factor(table, (-34.083, -59.033), CHICAGO))


def test_one_lane_round_water_is_the_same_alone_as_in_a_column(table: LaneTable) -> None:
    """Hubs of Puget Sound, San Francisco Bay, Lake Michigan and Chesapeake Bay, each with all others within 1.5 degrees."""
    places = american_hubs()
    near = np.abs(places[:, None, :] - places[None, :, :]).max(axis=2) < 1.5
    shores = np.array([np.abs(places - shore).max(axis=1) < 0.7 for shore in (SEATTLE, OAKLAND, MUSKEGON, EASTON_MD)])
    pairs = np.argwhere(near & shores.any(axis=0)[:, None])
    a, b = places[pairs[:, 0]], places[pairs[:, 1]]
    together = table.factors(**columns(a, b))
    assert (together > 1.6).sum() > 300
    assert (together > 2.5).sum() > 50
    alone = [factor(table, (here[0], here[1]), (there[0], there[1])) for here, there in zip(a, b, strict=True)]
    assert np.allclose(np.array(alone, np.float64), together, rtol=1e-12, equal_nan=True)


somewhere = st.tuples(st.floats(24, 50), st.floats(-125, -67))


@given(somewhere, somewhere)
def test_a_barrier_on_one_lane_is_the_barrier_of_the_column(a: Point, b: Point) -> None:
    assert has_barrier(*a, *b) == bool(barrier_between(np.array([a]), np.array([b]))[0] >= 0)


def test_a_block_s_edge_changes_nothing(table: LaneTable) -> None:
    places = american_hubs()
    a, b = np.tile(places, (40, 1)), np.tile(places[::-1], (40, 1))
    many = table.factors(**columns(a, b))
    assert len(many) > 65_536
    assert np.array_equal(many, np.tile(many[: len(places)], 40), equal_nan=True)


def test_no_road_is_shorter_than_the_straight_line_and_a_far_longer_one_has_a_reason(table: LaneTable) -> None:
    """Of all pairs of American hubs: the few over 2.5 have a listed water or mountain between them, but for a handful.

    The handful: the places stand a little off the hubs from which the factor comes, so that a line between hubs touches a
    barrier and theirs just does not.
    """
    places = american_hubs()
    here, there = np.triu_indices(len(places), 1)
    step = slice(None, None, 3)
    a, b = places[here[step]], places[there[step]]
    factors = table.factors(**columns(a, b))
    reached = ~np.isnan(factors)
    assert reached.mean() > 0.98
    assert factors[reached].min() >= 1.02
    far = reached & (factors > 2.5)
    assert far.mean() < 0.0015
    unexplained = barrier_between(a[far], b[far]) < 0
    assert unexplained.sum() < 0.1 * far.sum()


def test_a_detour_over_a_third_place_is_hardly_ever_shorter(table: LaneTable) -> None:
    """Triangles of hubs: roads by the table over a third hub undercut the lane by more than 5 % in few cases."""
    places = american_hubs()[::23]
    count = len(places)
    here, there = (index.ravel() for index in np.indices((count, count)))
    lane = columns(places[here], places[there])
    miles = (table.factors(**lane) * great_circle_mi_columns(**lane)).reshape(count, count)
    np.fill_diagonal(miles, 0)
    over_a_third = np.min(
        miles[:, :, None] + miles[None, :, :], axis=1, initial=np.inf, where=~np.eye(count, dtype=bool)[:, :, None]
    )
    apart = ~np.eye(count, dtype=bool) & (miles > 50)
    assert (over_a_third[apart] < 0.95 * miles[apart]).mean() < 0.02


def test_the_triangle_has_a_place_for_every_pair_and_its_diagonal() -> None:
    row, column = np.indices((7, 7))
    index = triangle_index(row.ravel(), column.ravel()).reshape(7, 7)
    assert np.array_equal(index, index.T)
    assert sorted(index[np.tril_indices(7)]) == list(range(28))


def test_a_code_is_never_off_by_more_than_a_quarter_of_a_percent_below_two_and_a_half() -> None:
    steps = CODE_FACTORS[1:] / CODE_FACTORS[:-1]
    assert np.all(steps[CODE_FACTORS[1:] < 2.5] < 1.00502)
    assert CODE_FACTORS[0] == 1.0
    assert len(CODE_FACTORS) == 256


def test_lake_michigan_stands_between_milwaukee_and_muskegon_and_not_between_milwaukee_and_chicago() -> None:
    lanes = np.array([MILWAUKEE, MILWAUKEE]), np.array([MUSKEGON, CHICAGO])
    number, none = barrier_between(*lanes)
    assert barriers()[0][number] == "Lake Michigan"
    assert none == -1


def test_the_files_are_small() -> None:
    assert sum(file.stat().st_size for file in FOLDER.iterdir()) < 10_000_000


def test_the_kept_report_is_of_this_table_and_finds_no_lane_without_a_reason() -> None:
    """Else: python -m shipcalc.places.making.lanes_report --write"""
    kept = lanes_report.FILE.read_text(encoding="utf-8")
    assert all(line in kept for line in lanes_report.made_of())
    assert "NO REASON LISTED" not in kept
    counted = [line for line in kept.splitlines() if " lanes between ZIPs " in line]
    assert len(counted) == 2
    assert all(": 0 without a factor, 0 below 1, " in line for line in counted)
    assert "Largest difference between forth and back: 0\n" in kept


def test_many_lanes_take_little_memory(table: LaneTable) -> None:
    places = american_hubs()
    turn = np.arange(300_000)
    lane = columns(places[turn % len(places)], places[(turn * 7 + 3) % len(places)])
    table.factors(**{name: column[:70_000] for name, column in lane.items()})
    tracemalloc.start()
    table.factors(**lane)
    assert tracemalloc.get_traced_memory()[1] < 60_000_000
    tracemalloc.stop()
