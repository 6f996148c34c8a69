"""Price maps: one panel a trailer, areas shaded by their price, a legend in words; states also with the figure itself."""

from collections.abc import Callable, Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from shipcalc.pictures.nearest import Spots, runs_of
from shipcalc.pictures.outlines import Degrees, outlines
from shipcalc.pictures.projections import ALASKA, CONTIGUOUS, HAWAII, WORLD, Projection
from shipcalc.pictures.scene import Area, Boxes, Line, Part, Scene, Text
from shipcalc.pictures.shades import INK, NO_PRICE, SHADES, Scale, ink_on, scale_of
from shipcalc.records import dataclass

GREY, RULE, ACCENT = "5A636C", "9AA1A8", "1B4B52"
WIDTH, MARGIN = 960.0, 24.0
HEAD, PANEL_HEAD, LEGEND, FOOT = 74.0, 26.0, 46.0, 34.0
US_HEIGHT, WORLD_HEIGHT = 540.0, 452.0
LIST_WIDTH = 96.0

# States too small for a figure: told in a list at the side, from north to south.
AT_THE_SIDE = ("VT", "NH", "MA", "RI", "CT", "NJ", "DE", "MD", "DC")
# How far a state's figure stands from the middle of its outline, in points of the page, where that lies badly.
_MOVED = {"FL": (20, 4), "LA": (-10, 0), "MI": (9, 20), "ID": (0, 22), "CA": (-6, 0), "MN": (-5, 0), "KY": (6, 2),
          "WV": (-4, 4), "VA": (6, 4), "NY": (4, -2), "MS": (0, 4), "OK": (8, 0), "AK": (-6, -8), "HI": (-36, 4)}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Panel:
    """One map of the picture: its heading, and the amount of each area by its code; None where there is no price.

    `lacking` are the areas whose amount does not hold all that the buyer will pay: they are hatched in their shade.
    """

    heading: str
    amounts: Mapping[str, float | None]
    lacking: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What stands around the maps. `unit` is the currency's code, `areas` what one area is ("state"),
    `lacking` what the amounts of hatched areas lack ("duty and tax").
    """

    title: str
    subtitle: str
    foot: str
    unit: str
    areas: str
    lacking: str = ""


@dataclass(frozen=True, slots=True)
class _Frame:
    """From a projection's plane to the page: x = left + scale × (east - x0), y = top + scale × (y0 - north)."""

    projection: Projection
    left: float
    top: float
    scale: float
    x0: float
    y0: float

    def points(self, ring: Degrees) -> NDArray[np.float64]:
        """Return longitude and latitude (n, 2) as points of the page (n, 2)."""
        x, y = self.projection.project(*_unbroken(ring).T)
        return np.stack([self.left + self.scale * (x - self.x0), self.top + self.scale * (self.y0 - y)], axis=1)


def state_map(panels: Sequence[Panel], words: Words) -> Scene:
    """Return a map of the United States with a figure for every state. Codes are the states' two letters."""
    scale = scale_of(_amounts(panels))

    def drawn(panel: Panel, top: float) -> Iterator[Part]:
        frames = _state_frames(top)
        for code, rings in outlines("states").items():
            amount = panel.amounts.get(code)
            yield _area(frames[code], rings, scale.shade(amount), hatched=amount is None)
        for code in outlines("states"):
            if code not in AT_THE_SIDE:
                yield from _state_figure(frames[code], code, panel.amounts.get(code), scale)
        yield from _side_list(panel, scale, top)

    return _scene(panels, words, scale, US_HEIGHT, drawn)


def prefix_map(panels: Sequence[Panel], spots: Spots, words: Words) -> Scene:
    """Return a map of the contiguous states by the first figures of the ZIP: each bit of land has those of the nearest ZIP."""
    scale = scale_of(_amounts(panels))

    def drawn(panel: Panel, top: float) -> Iterator[Part]:
        frame = _contiguous(top)
        land = [frame.points(ring) for code, rings in _contiguous_states() for ring in rings]
        east_north = frame.points(np.stack([spots.longitude, spots.latitude], axis=1))
        known = {code: scale.class_of(amount) for code, amount in panel.amounts.items() if amount is not None}
        classes = np.array([known.get(code, -1) for code in spots.codes])
        for number, boxes in runs_of(land, east_north, classes):
            yield Boxes(boxes, SHADES[number] if number >= 0 else NO_PRICE)
        for _, rings in _contiguous_states():
            for ring in rings:
                points = _pairs(frame.points(ring))
                yield Line((*points, points[0]), GREY, 0.5)

    return _scene(panels, words, scale, US_HEIGHT, drawn)


def world_map(panels: Sequence[Panel], places: Mapping[str, tuple[float, float]], words: Words) -> Scene:
    """Return a map of the world by country; `places` has the point (longitude, latitude) for countries without an outline."""
    scale = scale_of(_amounts(panels))

    def drawn(panel: Panel, top: float) -> Iterator[Part]:
        frame = _fitted(
            WORLD,
            [r for rings in outlines("countries").values() for r in rings],
            MARGIN,
            top,
            WIDTH - 2 * MARGIN,
            WORLD_HEIGHT,
        )
        # Large ones first: Lesotho lies within the outer ring of South Africa.
        by_size = sorted(outlines("countries").items(), key=lambda entry: -max(map(len, entry[1])))
        for code, rings in by_size:
            amount = panel.amounts.get(code)
            yield _area(
                frame,
                rings,
                scale.shade(amount),
                hatched=code in panel.lacking or (amount is None and code in panel.amounts),
            )
        for code, point in places.items():
            if code not in outlines("countries") and panel.amounts.get(code) is not None:
                ((x, y),) = _pairs(frame.points(np.array([point])))
                yield Area((_disc(x, y, 3.2),), scale.shade(panel.amounts[code]), INK, 0.7, code in panel.lacking)

    return _scene(panels, words, scale, WORLD_HEIGHT, drawn)


def _scene(
    panels: Sequence[Panel],
    words: Words,
    scale: Scale,
    map_height: float,
    drawn: Callable[[Panel, float], Iterator[Part]],
) -> Scene:
    """Return the page: a head, one panel below the other, one legend for all, a foot."""
    each = PANEL_HEAD + map_height
    height = HEAD + each * len(panels) + LEGEND + FOOT
    parts: list[Part] = [
        Text(MARGIN, 36, words.title, 20, ACCENT),
        Text(MARGIN, 58, words.subtitle, 12, GREY),
    ]
    for number, panel in enumerate(panels):
        top = HEAD + each * number
        parts.append(Text(MARGIN, top + 15, panel.heading, 13, INK, bold=True))
        parts += drawn(panel, top + PANEL_HEAD)
    foot = HEAD + each * len(panels)
    has_gaps = any(amount is None for panel in panels for amount in panel.amounts.values())
    is_lacking = any(panel.lacking for panel in panels)
    parts += _legend(scale, words, foot, has_gaps=has_gaps, is_lacking=is_lacking)
    parts.append(Text(MARGIN, height - 14, words.foot, 9, GREY))
    return Scene(WIDTH, height, words.title, _description(panels, words), tuple(parts))


def _legend(scale: Scale, words: Words, top: float, *, has_gaps: bool, is_lacking: bool) -> Iterator[Part]:
    names = scale.words()
    shades: list[tuple[str, str]] = list(zip(SHADES, names, strict=False))
    wide = (WIDTH - 2 * MARGIN) / (len(shades) + 1 + is_lacking)
    yield Text(MARGIN, top + 10, f"Price in {words.unit}", 10, GREY)
    for number, (shade, name) in enumerate(shades):
        left = MARGIN + number * wide
        yield Area((_box(left, top + 16, 22, 13),), shade, RULE, 0.6)
        yield Text(left + 28, top + 27, name, 11, INK)
    if is_lacking:
        left = MARGIN + len(shades) * wide
        yield Area((_box(left, top + 16, 22, 13),), SHADES[1], RULE, 0.6, hatched=True)
        yield Text(left + 28, top + 22, "without", 9, INK)
        yield Text(left + 28, top + 32, words.lacking, 9, INK)
    if has_gaps:
        left = MARGIN + (len(shades) + is_lacking) * wide
        yield Area((_box(left, top + 16, 22, 13),), NO_PRICE, RULE, 0.6, hatched=True)
        yield Text(left + 28, top + 27, "no price", 11, INK)


def _description(panels: Sequence[Panel], words: Words) -> str:
    """Return the picture in sentences: how much it is at the least and the most, and where."""
    told = []
    for panel in panels:
        known = {code: amount for code, amount in panel.amounts.items() if amount is not None}
        if not known:
            told.append(f"{panel.heading}: no price.")
            continue
        low, high = min(known, key=lambda code: known[code]), max(known, key=lambda code: known[code])
        told.append(
            f"{panel.heading}: from {known[low]:,.0f} {words.unit} ({words.areas} {low}) "
            f"to {known[high]:,.0f} {words.unit} ({words.areas} {high})."
        )
        if panel.lacking:
            told.append(f"{len(panel.lacking)} of them without {words.lacking}: {', '.join(sorted(panel.lacking))}.")
    return " ".join([words.subtitle, *told])


def _state_figure(frame: _Frame, code: str, amount: float | None, scale: Scale) -> Iterator[Part]:
    ring = max(outlines("states")[code], key=lambda points: float(np.ptp(points, axis=0).prod()))
    middle = _middle(frame.points(ring))
    right, down = _MOVED.get(code, (0, 0))
    x, y = middle[0] + right, middle[1] + down
    ink = ink_on(scale.shade(amount)) if code not in ("HI",) else INK
    yield Text(x, y - 1, code, 9, ink, "middle", bold=True)
    yield Text(x, y + 9, "–" if amount is None else f"{amount:,.0f}", 9, ink, "middle")


def _side_list(panel: Panel, scale: Scale, top: float) -> Iterator[Part]:
    left = WIDTH - MARGIN - LIST_WIDTH
    for number, code in enumerate(AT_THE_SIDE):
        y = top + 190 + number * 20
        amount = panel.amounts.get(code)
        yield Area((_box(left, y, 15, 13),), scale.shade(amount), RULE, 0.6, hatched=amount is None)
        yield Text(left + 22, y + 10.5, code, 10, INK, bold=True)
        yield Text(left + LIST_WIDTH, y + 10.5, "–" if amount is None else f"{amount:,.0f}", 10, INK, "end")


def _area(frame: _Frame, rings: Sequence[Degrees], fill: str, *, hatched: bool) -> Area:
    points = tuple(_pairs(frame.points(ring)) for ring in rings)
    return Area(points, fill, RULE, 0.7, hatched)


def _unbroken(ring: Degrees) -> Degrees:
    """Return a ring that goes on beyond the date line where it is broken there: Chukotka east of it, the Aleutians west."""
    longitude = np.unwrap(ring[:, 0], period=360)
    return np.stack([longitude - 360 * np.round(longitude.mean() / 360), ring[:, 1]], axis=1)


def _state_frames(top: float) -> Mapping[str, _Frame]:
    """Return each state's frame; Alaska, at three tenths of the scale, and Hawaii stand in the lower left corner."""
    main = _contiguous(top)
    beside = {
        "AK": _corner(ALASKA, outlines("states")["AK"], main.scale * 0.3, MARGIN, top + US_HEIGHT - 8),
        "HI": _corner(HAWAII, outlines("states")["HI"], main.scale, MARGIN + 236, top + US_HEIGHT - 10),
    }
    return {code: beside.get(code, main) for code in outlines("states")}


def _contiguous(top: float) -> _Frame:
    rings = [ring for _, its in _contiguous_states() for ring in its]
    return _fitted(CONTIGUOUS, rings, MARGIN, top, WIDTH - 2 * MARGIN - LIST_WIDTH * 0.55, US_HEIGHT - 6)


def _contiguous_states() -> list[tuple[str, tuple[Degrees, ...]]]:
    return [(code, rings) for code, rings in outlines("states").items() if code not in ("AK", "HI")]


def _fitted(
    projection: Projection, rings: Sequence[Degrees], left: float, top: float, width: float, height: float
) -> _Frame:
    """Return the frame in which the rings fill a box as far as their shape allows."""
    x, y = _spread(projection, rings)
    scale = min(width / np.ptp(x), height / np.ptp(y))
    return _Frame(projection, left + (width - scale * np.ptp(x)) / 2, top, float(scale), float(x.min()), float(y.max()))


def _spread(projection: Projection, rings: Sequence[Degrees]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the points of all rings on the projection's plane."""
    x, y = zip(*(projection.project(*_unbroken(ring).T) for ring in rings), strict=True)
    return np.concatenate(x), np.concatenate(y)


def _corner(projection: Projection, rings: Sequence[Degrees], scale: float, left: float, bottom: float) -> _Frame:
    """Return the frame in which the rings stand at a scale with their lower left corner at a point."""
    x, y = _spread(projection, rings)
    return _Frame(projection, left, bottom - scale * float(np.ptp(y)), scale, float(x.min()), float(y.max()))


def _middle(points: NDArray[np.float64]) -> tuple[float, float]:
    """Return the centre of gravity of an outline."""
    x, y = points[:, 0], points[:, 1]
    next_x, next_y = np.roll(x, -1), np.roll(y, -1)
    cross = x * next_y - next_x * y
    area = cross.sum() / 2
    return float(((x + next_x) * cross).sum() / (6 * area)), float(((y + next_y) * cross).sum() / (6 * area))


def _pairs(points: NDArray[np.float64]) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in points]


def _box(left: float, top: float, width: float, height: float) -> list[tuple[float, float]]:
    return [(left, top), (left + width, top), (left + width, top + height), (left, top + height)]


def _disc(x: float, y: float, radius: float) -> list[tuple[float, float]]:
    angles = np.linspace(0, 2 * np.pi, 16, endpoint=False)
    return [(x + radius * float(np.cos(a)), y + radius * float(np.sin(a))) for a in angles]


def _amounts(panels: Sequence[Panel]) -> Iterator[float]:
    return (amount for panel in panels for amount in panel.amounts.values() if amount is not None)
