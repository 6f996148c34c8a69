"""The map of a way and the line of time, as scenes: what is drawn where, and that nothing hides or leaves the page."""

import itertools
from datetime import date, timedelta
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from shipcalc.pictures.png import to_png
from shipcalc.pictures.projections import Equirectangular
from shipcalc.pictures.route_map import LETTER_WIDTH, Spot, Stretch, route_map
from shipcalc.pictures.scene import Area, Boxes, Line, Scene, Text
from shipcalc.pictures.svg import to_svg
from shipcalc.pictures.time_line import Row, time_line

BELLINGHAM, TACOMA = Spot("Bellingham", 48.76, -122.49), Spot("Tacoma", 47.28, -122.42)
BREMERHAVEN, BREMEN = Spot("Bremerhaven", 53.53, 8.58), Spot("Bremen", 53.08, 8.81)
YOKOHAMA, PANAMA = Spot("Yokohama", 35.45, 139.65), Spot("Panama Canal", 9.1, -79.7)


def ends(*spots: Spot, by_sea: bool = False) -> Stretch:
    return Stretch(np.array([(one.latitude, one.longitude) for one in spots]), by_sea)


def a_map(stretches: list[Stretch], stops: list[Spot], passages: list[Spot] = []) -> Scene:  # noqa: B006
    return route_map(stretches, stops, passages, width=280, height=140, title="The way", description="A map of the way")


TO_BREMEN = a_map(
    [ends(BELLINGHAM, TACOMA), ends(TACOMA, PANAMA, BREMERHAVEN, by_sea=True), ends(BREMERHAVEN, BREMEN)],
    [BELLINGHAM, TACOMA, BREMERHAVEN, BREMEN],
    [PANAMA],
)
TO_YOKOHAMA = a_map([ends(TACOMA, Spot("", 52, -170), YOKOHAMA, by_sea=True)], [TACOMA, YOKOHAMA])
A_MILE = a_map([ends(BREMEN, Spot("", 53.09, 8.80))], [BREMEN])


def test_the_equirectangular_projection_keeps_lengths_along_its_parallel() -> None:
    """Snyder, Map Projections: A Working Manual (USGS PP 1395, 1987), p. 91: x = R (λ - λ0) cos φ1, y = R φ; cos 60° = ½."""
    x, y = Equirectangular(parallel=60, longitude=-100).project(np.array([-80.0, 190.0]), np.array([45.0, -10.0]))
    assert (x.round(9).tolist(), y.tolist()) == ([10.0, 145.0], [45.0, -10.0])


def test_roads_are_whole_lines_and_ways_by_sea_are_dashed() -> None:
    assert [part.dashed for part in TO_BREMEN.parts if isinstance(part, Line)] == [False, True, False]


@pytest.mark.parametrize("scene", [TO_BREMEN, TO_YOKOHAMA, A_MILE])
def test_names_stand_on_the_page_and_none_hides_another(scene: Scene) -> None:
    boxes = []
    for text in (part for part in scene.parts if isinstance(part, Text)):
        length = len(text.text) * text.size * LETTER_WIDTH
        left = text.x - {"start": 0, "middle": length / 2, "end": length}[text.anchor]
        boxes.append((left, text.y - text.size * 0.8, left + length, text.y))
    assert boxes
    assert all(box[0] >= 0 and box[2] <= scene.width and box[1] >= 0 and box[3] <= scene.height for box in boxes)
    for one, other in itertools.combinations(boxes, 2):
        assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


def test_every_stop_and_passage_is_named() -> None:
    named = [part.text for part in TO_BREMEN.parts if isinstance(part, Text)]
    assert sorted(named) == ["Bellingham", "Bremen", "Bremerhaven", "Panama Canal", "Tacoma"]


def test_a_way_over_the_date_line_stays_whole() -> None:
    (line,) = [part for part in TO_YOKOHAMA.parts if isinstance(part, Line)]
    across = [x for x, _ in line.points]
    assert across == sorted(across, reverse=True)  # to the west all the way
    assert 0 < min(across) < max(across) < TO_YOKOHAMA.width


@pytest.mark.parametrize("scene", [TO_BREMEN, TO_YOKOHAMA, A_MILE])
def test_land_is_cut_to_the_page(scene: Scene) -> None:
    rings = [ring for part in scene.parts if isinstance(part, Area) for ring in part.rings]
    points = np.array([point for ring in rings for point in ring])
    assert len(rings) > 3
    assert points.min() >= -1e-6
    assert points[:, 0].max() <= scene.width + 1e-6
    assert points[:, 1].max() <= scene.height + 1e-6


def test_both_pens_draw_dashes_and_halos() -> None:
    svg = ET.fromstring(to_svg(TO_BREMEN))
    dashed = [one for one in svg.iter("{http://www.w3.org/2000/svg}path") if one.get("stroke-dasharray")]
    assert len(dashed) == 1
    assert all(one.get("paint-order") == "stroke" for one in svg.iter("{http://www.w3.org/2000/svg}text"))
    assert to_png(TO_BREMEN) == to_png(TO_BREMEN)


FIRST = date(2026, 12, 4)


def rows(*spans: tuple[int, int], limit: int = -1) -> list[Row]:
    return [
        Row(f"Step {n}", "told", FIRST + timedelta(a), FIRST + timedelta(b), limit=n == limit)
        for n, (a, b) in enumerate(spans)
    ]


def test_a_window_is_as_long_as_its_days_and_a_last_day_is_no_bar() -> None:
    scene = time_line(rows((0, 0), (4, 4), (13, 13), (50, 59), limit=2), width=500, title="When", description="When")
    bars = [part.boxes[0] for part in scene.parts if isinstance(part, Boxes)]
    one_day = bars[0][2]
    assert len(bars) == 3
    assert [round(bar[2] / one_day) for bar in bars] == [1, 1, 10]
    assert round((bars[2][0] - bars[0][0]) / one_day) == 50
    (diamond,) = [part for part in scene.parts if isinstance(part, Area)]
    middle = sum(x for x, _ in diamond.rings[0]) / 4
    assert (middle - bars[0][0]) / one_day == pytest.approx(13.5)


@pytest.mark.parametrize("last", [1, 12, 45, 80, 400])
def test_days_above_the_line_do_not_run_into_each_other(last: int) -> None:
    scene = time_line(rows((0, 1), (last, last)), width=500, title="When", description="When")
    ticks = [part for part in scene.parts if isinstance(part, Text) and part.size < 8]
    assert ticks[0].text == "4 Dec"
    for one, following in itertools.pairwise(ticks):
        assert following.x - one.x > len(one.text) * one.size * 0.5
