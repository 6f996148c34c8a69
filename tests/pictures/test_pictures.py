"""Projections, shades and pens of the pictures."""

import itertools
import math
from io import BytesIO
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from shipcalc.pictures.outlines import outlines
from shipcalc.pictures.png import SCALE, to_png
from shipcalc.pictures.projections import WORLD, Albers
from shipcalc.pictures.scene import Area, Boxes, Line, Scene, Text
from shipcalc.pictures.shades import NO_PRICE, SHADES, contrast, ink_on, luminance, scale_of
from shipcalc.pictures.svg import to_svg
from shipcalc.places.gazetteer.pages import countries
from shipcalc.places.gazetteer.regions import US_STATES


def test_albers_conic_gives_the_worked_example() -> None:
    """Snyder, Map Projections: A Working Manual (USGS PP 1395, 1987), p. 291: sphere of radius 1."""
    conic = Albers(south=29.5, north=45.5, latitude=23, longitude=-96)
    x, y = conic.project(np.array([-75.0]), np.array([35.0]))
    assert (round(float(x[0]), 7), round(float(y[0]), 7)) == (0.2952720, 0.2416774)


def test_equal_earth_has_the_published_shape_and_keeps_areas() -> None:
    """Šavrič, Patterson and Jenny (2019): the map is 2.05458 times as wide as high; and a zone's area is the globe's."""
    x, _ = WORLD.project(np.array([180.0]), np.array([0.0]))
    _, y = WORLD.project(np.array([0.0]), np.array([90.0]))
    assert float(x[0]) / float(y[0]) == pytest.approx(2.05458, abs=1e-5)
    edge = np.linspace(0, 90, 2001)
    half_width, height = WORLD.project(np.full(2001, 180.0), edge)
    assert 2 * float(np.sum((half_width[1:] + half_width[:-1]) * np.diff(height))) == pytest.approx(
        4 * math.pi, rel=1e-5
    )


def test_shades_are_told_apart_by_lightness_alone() -> None:
    """Then print without colour and any kind of colour vision tell them apart as well."""
    lightness = [luminance(shade) for shade in SHADES]
    assert lightness == sorted(lightness, reverse=True)
    for one, next_one in itertools.pairwise(SHADES):
        assert contrast(one, next_one) > 1.25


@pytest.mark.parametrize("ground", [*SHADES, NO_PRICE])
def test_figures_stand_out_on_every_shade(ground: str) -> None:
    """WCAG 2.1, success criterion 1.4.3: 4.5 to 1."""
    assert contrast(ink_on(ground), ground) >= 4.5


def test_black_on_white_has_the_contrast_of_the_standard() -> None:
    assert contrast("000000", "FFFFFF") == pytest.approx(21)


def test_classes_are_round_and_cover_every_amount() -> None:
    scale = scale_of([375, 520, 1_150, 1_455, 1_600, 2_295, 2_600, 2_700, 4_540])
    assert scale.words()[0].startswith("up to ")
    assert len(scale.words()) == len(scale.limits) + 1 <= len(SHADES)
    assert all(limit % 100 == 0 for limit in scale.limits)
    assert (scale.class_of(375), scale.class_of(4_540)) == (0, len(scale.limits))
    assert scale.class_of(scale.limits[0]) == 0 < scale.class_of(scale.limits[0] + 1)
    assert scale.shade(None) == NO_PRICE


def test_a_few_far_away_do_not_throw_the_others_into_one_class() -> None:
    near = [
        375,
        520,
        805,
        1_150,
        1_310,
        1_455,
        1_530,
        1_600,
        1_685,
        1_790,
        1_890,
        1_980,
        2_125,
        2_195,
        2_295,
        2_390,
        2_500,
    ]
    scale = scale_of([*near, 30_000, 45_000])
    assert len({scale.class_of(amount) for amount in near}) == len(SHADES)


@pytest.mark.parametrize("amounts", [[], [900], [900, 900, 900]])
def test_one_amount_or_none_is_one_class(amounts: list[int]) -> None:
    assert scale_of(amounts).words() == ("all",)


def test_every_state_and_no_unknown_country_has_an_outline() -> None:
    assert set(outlines("states")) == set(US_STATES)
    assert len(outlines("countries")) > 170
    assert set(outlines("countries")) <= set(countries())


def test_outlines_lie_where_the_places_are() -> None:
    """Wyoming lies between 41 and 45 degrees north, 104°03′ and 111°03′ west (15 Stat. 178, 1868: 27 and 34 of Washington)."""
    (ring,) = outlines("states")["WY"]
    assert ring[:, 0].min() == pytest.approx(-111.05, abs=0.05)
    assert ring[:, 0].max() == pytest.approx(-104.05, abs=0.05)
    assert (ring[:, 1].min(), ring[:, 1].max()) == (pytest.approx(41, abs=0.03), pytest.approx(45, abs=0.03))


def square(left: float, top: float, size: float) -> list[tuple[float, float]]:
    return [(left, top), (left + size, top), (left + size, top + size), (left, top + size)]


def a_scene() -> Scene:
    return Scene(
        80,
        60,
        "Prices & places",
        "Two squares.",
        (
            Area((square(10, 10, 20),), SHADES[5], "000000"),
            Area((square(40, 10, 20),), NO_PRICE, hatched=True),
            Boxes(((10, 40, 30, 4),), SHADES[0]),
            Line(((10, 50), (70, 50)), "FF0000", 2),
            Text(10, 58, "<1,230>", 8, "000000", bold=True),
        ),
    )


def test_svg_is_sound_and_told_to_whom_cannot_see_it() -> None:
    root = ET.fromstring(to_svg(a_scene()))
    space = "{http://www.w3.org/2000/svg}"
    assert (root.findtext(f"{space}title"), root.findtext(f"{space}desc")) == ("Prices & places", "Two squares.")
    assert [text.text for text in root.iter(f"{space}text")] == ["<1,230>"]
    assert root.get("role") == "img"


def test_png_shows_the_same_areas_at_twice_the_points() -> None:
    from PIL import Image

    picture = Image.open(BytesIO(to_png(a_scene()))).convert("RGB")
    assert picture.size == (80 * SCALE, 60 * SCALE)
    at = {name: picture.getpixel((x * SCALE, y * SCALE)) for name, x, y in
          (("area", 20, 20), ("box", 25, 42), ("line", 60, 50), ("ground", 75, 5))}  # fmt: skip
    assert at["area"] == tuple(bytes.fromhex(SHADES[5]))
    assert at["box"] == tuple(bytes.fromhex(SHADES[0]))
    assert at["line"] == (255, 0, 0)
    assert at["ground"] == (255, 255, 255)
    hatched = {picture.getpixel((x * SCALE, 20 * SCALE)) for x in range(42, 58)}
    assert len(hatched) > 1, "an area without a price is ruled"


def test_the_same_scene_gives_the_same_bytes() -> None:
    assert to_svg(a_scene()) == to_svg(a_scene())
    assert to_png(a_scene()) == to_png(a_scene())
