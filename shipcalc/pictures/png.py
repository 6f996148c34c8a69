"""A scene as PNG, by Pillow: drawn four times as large in each direction and reduced, which smooths the edges."""

from collections.abc import Iterator
from io import BytesIO
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from shipcalc.pictures.scene import (
    DASH,
    GAP,
    HALO,
    HATCH_APART,
    HATCH_INK,
    Area,
    Boxes,
    Line,
    Part,
    Points,
    Scene,
    Text,
)

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageDraw import ImageDraw

# Pixels for each point of the page: 2 prints sharply at the width of a page.
SCALE = 2
SMOOTHING = 2
_ANCHORS = {"start": "ls", "middle": "ms", "end": "rs"}


def to_png(scene: Scene) -> bytes:
    """Return the file, SCALE pixels a point. The same scene gives the same bytes."""
    from PIL import Image, ImageDraw

    factor = SCALE * SMOOTHING
    size = (round(scene.width * SCALE), round(scene.height * SCALE))
    page = Image.new("RGB", (size[0] * SMOOTHING, size[1] * SMOOTHING), "#FFFFFF")
    draw = ImageDraw.Draw(page)
    for part in scene.parts:
        _draw(page, draw, part, factor)
    smooth = page.resize(size, Image.Resampling.BOX)
    file = BytesIO()
    smooth.quantize(256, dither=Image.Dither.NONE).save(file, "PNG", optimize=True)
    return file.getvalue()


def _draw(page: "Image", draw: "ImageDraw", part: Part, factor: int) -> None:
    from PIL import ImageFont

    if isinstance(part, Area):
        for ring in part.rings:
            points = _scaled(ring, factor)
            draw.polygon(points, fill=f"#{part.fill}")
            if part.hatched:
                _hatch(page, points, factor)
            if part.edge:
                draw.line([*points, points[0]], fill=f"#{part.edge}", width=max(1, round(part.width * factor)))
    elif isinstance(part, Boxes):
        for left, top, width, height in part.boxes:
            corner = (left * factor, top * factor, (left + width) * factor - 1, (top + height) * factor - 1)
            draw.rectangle(corner, fill=f"#{part.fill}")
    elif isinstance(part, Line):
        for dash in _dashes(part.points) if part.dashed else (part.points,):
            draw.line(_scaled(dash, factor), fill=f"#{part.ink}", width=max(1, round(part.width * factor)))
    elif isinstance(part, Text):
        font = ImageFont.load_default(part.size * factor)
        # Pillow's own font has one weight: bold letters are drawn with an edge of their own ink.
        edge = round(part.size * factor / 28) if part.bold else 0
        halo = [(edge + round(HALO * factor), part.halo)] if part.halo else []
        for stroke, ink in (*halo, (edge, part.ink)):
            draw.text(
                (part.x * factor, part.y * factor),
                part.text,
                fill=f"#{ink}",
                font=font,
                anchor=_ANCHORS[part.anchor],
                stroke_width=stroke,
                stroke_fill=f"#{ink}",
            )


def _dashes(points: Points) -> Iterator[Points]:
    """Yield the dashes of a line, each two points; their row goes on around its corners."""
    at = 0.0
    for (x, y), (next_x, next_y) in pairwise(points):
        length = hypot(next_x - x, next_y - y)
        step = -(at % (DASH + GAP))
        while step < length:
            first, last = max(step, 0.0), min(step + DASH, length)
            if last > first:
                yield [(x + (next_x - x) * part / length, y + (next_y - y) * part / length) for part in (first, last)]
            step += DASH + GAP
        at += length


def _hatch(page: "Image", points: list[tuple[float, float]], factor: int) -> None:
    """Rule an area with thin lines from the lower left to the upper right, on one grid for the whole page."""
    from PIL import Image, ImageDraw

    left, right = (int(edge(x for x, _ in points)) for edge in (min, max))
    top, bottom = (int(edge(y for _, y in points)) for edge in (min, max))
    width, height = right - left + 1, bottom - top + 1
    inside = Image.new("1", (width, height), 0)
    ImageDraw.Draw(inside).polygon([(x - left, y - top) for x, y in points], fill=1)
    ruled = Image.new("1", (width, height), 0)
    ruler = ImageDraw.Draw(ruled)
    apart = round(HATCH_APART * factor * 2**0.5)
    for start in range(-((left + top) % apart), width + height, apart):
        ruler.line([(start, 0), (start - height, height)], fill=1, width=max(1, factor // 2))
    both = Image.new("1", (width, height), 0)
    both.paste(ruled, mask=inside)
    page.paste(f"#{HATCH_INK}", (left, top), mask=both)


def _scaled(points: Points, factor: int) -> list[tuple[float, float]]:
    return [(x * factor, y * factor) for x, y in points]
