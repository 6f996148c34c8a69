"""Lane factors against published road lengths.

Interstates: end-to-end lengths in miles, FHWA, Route Log and Finder List, table 1 (read second-hand). The scale of the table is
the median of nine of them, which only say that no single road strays; nothing was fitted to the other 39.

1949: highway miles between 128 cities, D. E. Knuth, The Stanford GraphBase (1993), miles.dat; see data/ORIGIN.md. The roads were
longer then, before the Interstates; compared after one common scale.

2015: driving lengths between cities and towns by a directions service; see data/ORIGIN.md. Nothing was fitted to them.
"""

from pathlib import Path

import numpy as np
import pytest

from shipcalc.places.making.lanes_accuracy import Accuracy, accuracy, accuracy_table, interstates, lanes_of_1949
from shipcalc.places.road.expected import expected_error

DATA = Path(__file__).parent / "data"
TABLE, ROADS_OF_2015 = DATA / "knuth_miles.txt.gz", DATA / "roads_of_2015.tsv"


@pytest.fixture(scope="module")
def rows() -> dict[tuple[str, str], Accuracy]:
    return {(row.method, row.lanes): row for row in accuracy_table(TABLE, ROADS_OF_2015)}


def test_the_lanes_of_1949_are_met_to_a_percent_and_a_half_in_the_middle(rows: dict[tuple[str, str], Accuracy]) -> None:
    lane, constant = rows["lane, scaled", "1949"], rows["constant, scaled", "1949"]
    assert lane.count == 8_128
    assert lane.median <= 1.7
    assert lane.p95 <= 6.7
    assert lane.mape < constant.mape / 2


def test_modern_roads_between_large_cities_are_met(rows: dict[tuple[str, str], Accuracy]) -> None:
    cities = rows["lane", "2015, cities"]
    assert cities.count == 150
    assert cities.median <= 1.7
    assert cities.p95 <= 6.7
    assert cities.worst <= 20


def test_with_small_and_far_towns_modern_roads_are_met_twice_as_well_as_by_the_factor_of_the_country(
    rows: dict[tuple[str, str], Accuracy],
) -> None:
    """The middle is over two per cent where towns are small: a directions service goes the quickest way, not the shortest."""
    lane, constant, towns = rows["lane", "2015"], rows["constant", "2015"], rows["lane", "2015, towns"]
    assert (lane.count, towns.count) == (265, 115)
    assert lane.median <= 2.0
    assert lane.p95 <= 6.7
    assert lane.worst <= 20
    assert towns.median <= 2.5
    assert lane.p95 < constant.p95 / 1.5
    assert lane.mape < constant.mape


def test_the_roads_of_1949_were_longer_than_ours(rows: dict[tuple[str, str], Accuracy]) -> None:
    assert -4 < rows["lane", "1949"].bias < 0


def test_the_middle_interstate_of_the_scale_has_its_length_and_none_strays() -> None:
    roads = interstates(set_scale=True)
    error = roads.by_lane_mi() / roads.road_mi - 1
    assert len(error) == 9
    assert abs(np.median(error)) < 0.015
    assert np.abs(error).max() < 0.04


def test_other_interstates_are_met_half_as_well_again_as_by_the_factor_of_the_country() -> None:
    """Some, like I-75 and I-43, are not the shortest road between their ends."""
    roads = interstates(set_scale=False)
    lane, constant = accuracy("", roads, roads.by_lane_mi()), accuracy("", roads, roads.by_constant_mi())
    assert lane.count == 39
    assert lane.mape < constant.mape / 1.5
    assert lane.p95 < constant.p95 / 1.5
    assert lane.worst < 10


def test_an_interstate_of_the_scale_is_met_better_by_its_lane_than_by_the_factor_of_the_country() -> None:
    roads = interstates(set_scale=True)
    assert accuracy("", roads, roads.by_lane_mi()).mape < accuracy("", roads, roads.by_constant_mi()).mape


@pytest.mark.parametrize("method", ["network", "factor"])
def test_nine_lanes_of_ten_fall_within_the_expected_error(method: str) -> None:
    old = lanes_of_1949(TABLE)
    computed_mi = old.by_lane_mi() if method == "network" else old.by_constant_mi()
    ratio = computed_mi / old.road_mi
    expected = np.array([expected_error(method, miles) for miles in old.great_circle_mi().tolist()])
    within = np.abs(ratio / np.median(ratio) - 1) <= expected
    for error in np.unique(expected):
        assert 0.89 <= within[expected == error].mean() <= 0.94, error


def test_lake_michigan_is_driven_round() -> None:
    """Sault Ste. Marie – Milwaukee side lanes of 1949: a lake in the way makes half as long again, and no ferry counts."""
    old = lanes_of_1949(TABLE)
    factor_1949 = old.road_mi / old.great_circle_mi()
    far_round = factor_1949 > 1.5
    assert far_round.sum() > 50
    ratio = old.by_lane_mi()[far_round] / old.road_mi[far_round]
    assert np.median(ratio) > 0.80
