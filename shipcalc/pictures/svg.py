"""A scene as SVG 1.1: letters stay letters, so that they can be searched and read aloud."""

import re
from collections.abc import Iterator
from xml.sax.saxutils import escape

from shipcalc.one_line import one_line
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

# The last but one is what papers are set in. A name with a figure in it must stand in quotes, or browsers drop the whole list.
FONTS = "Arial, Helvetica, Liberation Sans, 'Source Sans 3', sans-serif"

# What the colours of a picture on white paper become on a dark screen; the same text stays as easy to read.
_IN_THE_DARK = {
    "FFFFFF": "171C20", "22282E": "E6EAED", "5A636C": "A7B0B8", "C7CCD1": "3C454D", "9AA1A8": "5A636C", "1B4B52": "8CC8CF",
    "8A3F0C": "F0B27E", "DDE3E3": "323B43", "F6F8F8": "1C2227", "E9CDB4": "6B4A2E",
}  # fmt: skip
_COLOUR = re.compile(rb'(?<=(?:fill|roke)="#)[0-9A-F]{6}(?=")')


def in_the_dark(svg: bytes) -> bytes:
    """Return a picture of ours for a dark screen: the same with other colours."""
    return _COLOUR.sub(lambda found: _IN_THE_DARK.get(found[0].decode(), found[0].decode()).encode(), svg)


def to_svg(scene: Scene) -> bytes:
    """Return the file. The same scene gives the same bytes."""
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(scene.width)}" height="{_n(scene.height)}"'
            f' viewBox="0 0 {_n(scene.width)} {_n(scene.height)}" role="img" aria-labelledby="title description"'
            f' font-family="{FONTS}">'
        ),
        f'<title id="title">{escape(one_line(scene.title))}</title>',
        f'<desc id="description">{escape(one_line(scene.description))}</desc>',
        (
            f'<defs><pattern id="hatch" width="{_n(HATCH_APART)}" height="{_n(HATCH_APART)}" patternUnits="userSpaceOnUse"'
            f' patternTransform="rotate(45)"><path d="M0 0V{_n(HATCH_APART)}" stroke="#{HATCH_INK}"/></pattern></defs>'
        ),
        f'<rect width="{_n(scene.width)}" height="{_n(scene.height)}" fill="#FFFFFF"/>',
        *(line for part in scene.parts for line in _drawn(part)),
        "</svg>",
    ]
    return ("\n".join(lines) + "\n").encode()


def _drawn(part: Part) -> Iterator[str]:
    if isinstance(part, Area):
        path = "".join(f"M{_points(ring)}Z" for ring in part.rings)
        edge = f' stroke="#{part.edge}" stroke-width="{_n(part.width)}" stroke-linejoin="round"' if part.edge else ""
        yield f'<path d="{path}" fill="#{part.fill}"{edge}/>'
        if part.hatched:
            yield f'<path d="{path}" fill="url(#hatch)"/>'
    elif isinstance(part, Boxes):
        path = "".join(f"M{_n(x)} {_n(y)}h{_n(w)}v{_n(h)}h{_n(-w)}Z" for x, y, w, h in part.boxes)
        yield f'<path d="{path}" fill="#{part.fill}" shape-rendering="crispEdges"/>'
    elif isinstance(part, Line):
        dashes = f' stroke-dasharray="{_n(DASH)} {_n(GAP)}"' if part.dashed else ""
        yield f'<path d="M{_points(part.points)}" fill="none" stroke="#{part.ink}" stroke-width="{_n(part.width)}"{dashes}/>'
    elif isinstance(part, Text):
        weight = ' font-weight="bold"' if part.bold else ""
        anchor = f' text-anchor="{part.anchor}"' if part.anchor != "start" else ""
        halo = f' stroke="#{part.halo}" stroke-width="{_n(2 * HALO)}" paint-order="stroke"' if part.halo else ""
        yield (
            f'<text x="{_n(part.x)}" y="{_n(part.y)}" font-size="{_n(part.size)}" fill="#{part.ink}"{anchor}{weight}{halo}>'
            f"{escape(one_line(part.text))}</text>"
        )


def _points(points: Points) -> str:
    return "L".join(f"{_n(x)} {_n(y)}" for x, y in points)


def _n(number: float) -> str:
    """Return a number with one decimal at the most: a tenth of a point is not seen."""
    return f"{round(number, 1) + 0.0:g}"
