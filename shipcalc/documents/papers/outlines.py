"""Outlines of vehicles to mark damage on, drawn with smooth lines: our own drawings, no make's.

Coordinates are about centimetres, from the left and from the top; a side is seen with the nose to the left and the ground at
`GROUND`. What is alike on every body (front, rear, from above) is drawn from a few measures of it.
"""

from shipcalc.documents.papers.outline_shapes import BY_BODY, SALOON, Shape
from shipcalc.vehicles.sizes import find_body

LONG, HIGH, ACROSS = 450, 150, 190
GROUND = 140
_SILL = 118
_MIDDLE = ACROSS / 2


_ON_TWO_WHEELS = ("motorcycle", "sidecar outfit")
VIEWS = ("left side", "right side", "front", "rear", "from above, nose to the left")


def views(body: str) -> dict[str, str]:
    """Return what the views (`VIEWS`) of a body look like, as SVG; a saloon's where the body is not known."""
    known = find_body(body) or body
    return _motorcycle() if known in _ON_TWO_WHEELS else _car(BY_BODY.get(known, SALOON))


def _car(shape: Shape) -> dict[str, str]:
    side = _side(shape)
    return {
        "left side": _svg(LONG, side),
        "right side": _svg(LONG, _mirrored(side)),
        "front": _svg(ACROSS, _end(shape, is_front=True)),
        "rear": _svg(ACROSS, _end(shape, is_front=False)),
        "from above, nose to the left": _svg(LONG, _above(shape)),
    }


def _svg(width: int, drawn: str) -> str:
    style = 'stroke="#5A636C" stroke-width="1.5" stroke-linejoin="round" stroke-linecap="round" fill="none"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {HIGH}"><g {style}>{drawn}</g></svg>'


def _path(way: str, fill: str = "none") -> str:
    return f'<path d="{way}" fill="{fill}"/>'


def _body(way: str) -> str:
    return _path(way, "#F5F7F7")


def _pane(way: str) -> str:
    return _path(way, "#DFE8EA")


def _circle(x: float, y: float, radius: float, fill: str = "#FFFFFF") -> str:
    return f'<circle cx="{x:g}" cy="{y:g}" r="{radius:g}" fill="{fill}"/>'


def _box(x: float, y: float, width: float, height: float, corner: float, fill: str = "none") -> str:
    return f'<rect x="{x:g}" y="{y:g}" width="{width:g}" height="{height:g}" rx="{corner:g}" fill="{fill}"/>'


def _mirrored(drawn: str) -> str:
    return f'<g transform="translate({LONG} 0) scale(-1 1)">{drawn}</g>'


def _side(shape: Shape) -> str:
    front, rear = shape.wheels
    arch = shape.radius
    tyre = arch - 5
    under = "".join(f" L {at + arch},{_SILL} A {arch},{arch} 0 0 0 {at - arch},{_SILL}" for at in (rear, front))
    wheels = "".join(
        _circle(at, GROUND - tyre, tyre, "#E3E7E9")
        + _circle(at, GROUND - tyre, tyre * 0.62)
        + _circle(at, GROUND - tyre, 4)
        for at in shape.wheels
    )
    outline = _body(f"M {shape.nose},{_SILL} {shape.over}{under} Z")
    return outline + wheels + "".join(map(_pane, shape.glass)) + "".join(map(_path, shape.seams))


def _end(shape: Shape, *, is_front: bool) -> str:
    waist, half = shape.waist, shape.half
    left, right = _MIDDLE - half, _MIDDLE + half
    wheels = "".join(_box(at, 104, 22, GROUND - 104, 5, "#E3E7E9") for at in (left + 4, right - 26))
    shell = _body(
        f"M {left},{_SILL} C {left - 4},{waist + 22} {left},{waist + 8} {left + 10},{waist} L {right - 10},{waist} "
        f"C {right},{waist + 8} {right + 4},{waist + 22} {right},{_SILL} Q {right},124 {right - 8},124 L {left + 8},124 "
        f"Q {left},124 {left},{_SILL} Z"
    )
    return wheels + _house(shape, is_front=is_front) + shell + _lamps(shape, is_front=is_front) + _mirrors(shape)


def _house(shape: Shape, *, is_front: bool) -> str:
    """Draw what stands above the waist: a roof with its window, or an open car's screen or seats."""
    waist, roof, top = shape.waist, shape.roof, shape.half_roof
    low = shape.half - 10
    if shape.is_open and not is_front:
        return "".join(_box(_MIDDLE + at, roof + 14, 34, waist - roof, 9, "#F5F7F7") for at in (-46, 12))
    frame = f"M {_MIDDLE - low},{waist} L {_MIDDLE - top},{roof + 10} Q {_MIDDLE - top + 4},{roof} {_MIDDLE - top + 16},{roof} "
    frame += f"L {_MIDDLE + top - 16},{roof} Q {_MIDDLE + top - 4},{roof} {_MIDDLE + top},{roof + 10} L {_MIDDLE + low},{waist} Z"
    pane = f"M {_MIDDLE - low + 9},{waist - 2} L {_MIDDLE - top + 8},{roof + 9} L {_MIDDLE + top - 8},{roof + 9} "
    pane += f"L {_MIDDLE + low - 9},{waist - 2} Z"
    return _body(frame) + _pane(pane)


def _lamps(shape: Shape, *, is_front: bool) -> str:
    lower = shape.waist + 20
    bumper = _box(_MIDDLE - shape.half + 2, 106, 2 * shape.half - 4, 9, 4, "#FFFFFF")
    plate = _box(_MIDDLE - 22, 94, 44, 10, 2, "#FFFFFF")
    if is_front:
        lamps = "".join(_circle(_MIDDLE + at, lower, 9) for at in (-shape.half + 16, shape.half - 16))
        return lamps + _box(_MIDDLE - 34, lower - 6, 68, 12, 5) + bumper
    lamps = "".join(_box(_MIDDLE + at, lower - 9, 12, 18, 3, "#FFFFFF") for at in (-shape.half + 6, shape.half - 18))
    lid = _path(
        f"M {_MIDDLE - 44},{shape.waist + 2} L {_MIDDLE - 42},92 L {_MIDDLE + 42},92 L {_MIDDLE + 44},{shape.waist + 2}"
    )
    return lamps + lid + plate + bumper


def _mirrors(shape: Shape) -> str:
    low = shape.half - 10
    at = shape.waist - 8
    return "".join(_box(x, at, 10, 7, 3, "#FFFFFF") for x in (_MIDDLE - low - 12, _MIDDLE + low + 2))


def _above(shape: Shape) -> str:
    high, low, middle = 75 - 62, 75 + 62, 75
    nose, tail = shape.nose - 4, shape.tail + 4
    roof_high, roof_low = middle - shape.half_roof * 0.86, middle + shape.half_roof * 0.86
    shell = _body(
        f"M {nose + 26},{high + 4} Q {nose + 60},{high} {nose + 90},{high} L {tail - 60},{high} "
        f"Q {tail - 6},{high + 2} {tail},{high + 26} "
        f"L {tail},{low - 26} Q {tail - 6},{low - 2} {tail - 60},{low} L {nose + 90},{low} "
        f"Q {nose + 60},{low} {nose + 26},{low - 4} "
        f"Q {nose},{low - 10} {nose},{low - 34} L {nose},{high + 34} Q {nose},{high + 10} {nose + 26},{high + 4} Z"
    )
    panes = [
        _across(*shape.screen, high + 6, roof_high),
        *([] if shape.is_open else [_across(*shape.back, high + 6, roof_high)]),
    ]
    start, end = shape.screen[1], shape.back[1]
    roof = _box(start, roof_high, end - start, roof_low - roof_high, 12, "#FFFFFF" if shape.is_open else "#F5F7F7")
    seats = "".join(_box(start + 30, y, 40, 34, 10, "#F5F7F7") for y in (36, 80)) if shape.is_open else ""
    first, last = shape.bed
    bed = _box(first, high + 8, last - first, low - high - 16, 4, "#FFFFFF") if last else ""
    lid = _path(
        f"M {shape.screen[0] - 6},{high + 12} L {nose + 34},{high + 18} "
        f"M {shape.screen[0] - 6},{low - 12} L {nose + 34},{low - 18}"
    )
    ears = "".join(_box(shape.screen[0] + 8, y, 12, 9, 3, "#FFFFFF") for y in (high - 9, low))
    return ears + shell + bed + roof + seats + "".join(map(_pane, panes)) + (lid if shape.screen[0] > 100 else "")


def _across(lower: float, upper: float, wide: float, narrow: float) -> str:
    """Return a window as seen from above: wide at its lower end, narrow at the roof."""
    sides = f"M {lower},{wide} L {upper},{narrow} L {upper},{150 - narrow} L {lower},{150 - wide}"
    return f"{sides} Q {(lower * 3 - upper) / 2},75 {lower},{wide} Z"


def _motorcycle() -> dict[str, str]:
    side = _motorcycle_side()
    return {
        "left side": _svg(LONG, side),
        "right side": _svg(LONG, _mirrored(side)),
        "front": _svg(ACROSS, _motorcycle_end(is_front=True)),
        "rear": _svg(ACROSS, _motorcycle_end(is_front=False)),
        "from above, nose to the left": _svg(LONG, _motorcycle_above()),
    }


def _motorcycle_side() -> str:
    wheels = "".join(_circle(x, 102, 38, "#E3E7E9") + _circle(x, 102, 29) + _circle(x, 102, 6) for x in (122, 330))
    guards = _path("M 84,90 A 42,42 0 0 1 152,72") + _path("M 292,80 A 42,42 0 0 1 368,84")
    fork = _path("M 122,102 L 172,34 M 128,104 L 178,36")
    bars = _path("M 172,34 L 166,24 C 176,18 192,20 206,26") + _circle(160, 44, 11)
    engine = _box(204, 76, 58, 42, 10, "#F5F7F7") + _path("M 208,84 L 258,84 M 208,92 L 258,92 M 208,100 L 258,100")
    frame = _path("M 180,44 L 204,80 M 204,114 L 186,60 M 262,112 L 330,102 M 262,80 L 300,60 M 300,60 L 330,102")
    tank = _body("M 184,44 C 200,32 236,34 254,52 C 254,62 240,68 214,66 C 196,64 186,56 184,44 Z")
    seat = _body("M 254,54 C 274,58 300,50 340,50 C 354,52 354,62 340,64 C 310,66 276,70 256,66 Z")
    pipe = _path("M 210,112 C 220,126 240,124 262,122 L 368,118 L 370,110 L 262,112")
    return wheels + guards + fork + frame + engine + pipe + tank + seat + bars + _box(356, 62, 14, 9, 3, "#FFFFFF")


def _motorcycle_end(*, is_front: bool) -> str:
    wheel = _box(_MIDDLE - 9, 66, 18, GROUND - 66, 9, "#E3E7E9")
    bars = _path(f"M {_MIDDLE - 48},30 C {_MIDDLE - 30},24 {_MIDDLE + 30},24 {_MIDDLE + 48},30") + _path(
        "M 47,30 L 41,16 M 143,30 L 149,16"
    )
    mirrors = _box(30, 8, 20, 11, 5, "#FFFFFF") + _box(140, 8, 20, 11, 5, "#FFFFFF")
    engine = _box(_MIDDLE - 30, 84, 60, 26, 8, "#F5F7F7")
    if is_front:
        legs = _path(f"M {_MIDDLE - 15},30 L {_MIDDLE - 15},104 M {_MIDDLE + 15},30 L {_MIDDLE + 15},104")
        return engine + wheel + legs + bars + mirrors + _circle(_MIDDLE, 46, 16)
    back = _body(f"M {_MIDDLE - 20},46 Q {_MIDDLE},38 {_MIDDLE + 20},46 L {_MIDDLE + 16},70 L {_MIDDLE - 16},70 Z")
    return (
        bars
        + mirrors
        + engine
        + wheel
        + back
        + _box(_MIDDLE - 9, 52, 18, 8, 3, "#FFFFFF")
        + _box(_MIDDLE - 16, 72, 32, 12, 2, "#FFFFFF")
    )


def _motorcycle_above() -> str:
    wheels = _box(84, 66, 76, 18, 9, "#E3E7E9") + _box(292, 66, 76, 18, 9, "#E3E7E9")
    engine = _box(200, 48, 60, 54, 10, "#F5F7F7")
    tank = _body("M 184,75 C 186,54 236,54 256,66 L 256,84 C 236,96 186,96 184,75 Z")
    seat = _body("M 254,64 C 290,58 330,60 346,66 C 354,70 354,80 346,84 C 330,90 290,92 254,86 Z")
    bars = _path("M 204,26 C 186,34 174,54 174,75 C 174,96 186,116 204,124") + _circle(160, 75, 10)
    return (
        wheels
        + engine
        + tank
        + seat
        + bars
        + _box(204, 14, 10, 16, 4, "#FFFFFF")
        + _box(204, 120, 10, 16, 4, "#FFFFFF")
    )
