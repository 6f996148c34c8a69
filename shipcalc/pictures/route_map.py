"""The way of a shipment on a map: land behind, whole lines by road, dashed ones by sea, its stops and passages by name."""

from collections.abc import Iterator, Sequence
from functools import cache

import numpy as np
from numpy.typing import NDArray

from shipcalc.pictures.outlines import Degrees, Land, outlines
from shipcalc.pictures.projections import Equirectangular
from shipcalc.pictures.scene import Anchor, Area, Line, Part, Points, Scene, Text
from shipcalc.records import dataclass

INK, GREY, ACCENT, WHITE = "22282E", "5A636C", "1B4B52", "FFFFFF"
LAND, SEA, BORDER = "DDE3E3", "F6F8F8", "FFFFFF"
NAME_SIZE, PASSAGE_SIZE = 8.5, 7.5
LETTER_WIDTH = 0.56  # of a letter's size, on the average
DOT = 2.4
MARGIN = 0.12  # left free around the way, of its size
LEAST_DEGREES = 5.0  # so that the way of a few miles still shows where it is
STATES_UP_TO = 75.0  # degrees of a map on which states can be told apart
_CIRCLE = tuple((float(np.cos(turn)), float(np.sin(turn))) for turn in np.linspace(0, 2 * np.pi, 17)[:-1])
# Where a name stands beside its dot, in the order that is tried: the step to the side and down, and its anchor.
_BESIDE: tuple[tuple[float, float, Anchor], ...] = (
    (5, 3, "start"), (-5, 3, "end"), (0, -6, "middle"), (0, 11, "middle"), (5, -5, "start"), (-5, -5, "end"), (5, 11, "start"),
    (-5, 11, "end"), (5, 20, "start"), (-5, 20, "end"), (5, -14, "start"), (-5, -14, "end"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Spot:
    """A point with a name, in degrees."""

    name: str
    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of the way: its points (n, 2) of latitude and longitude in the order travelled, by sea or by road."""

    points: Degrees
    by_sea: bool = False


@dataclass(frozen=True, slots=True)
class _Box:
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "_Box") -> bool:
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def holds(self, other: "_Box") -> bool:
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.top <= other.top
            and other.bottom <= self.bottom
        )


@dataclass(frozen=True, slots=True)
class _View:
    """From degrees to the page: `scale` points a degree, the middle of the way in the middle of the page."""

    projection: Equirectangular
    scale: float
    middle: tuple[float, float]
    width: float
    height: float

    def page(self, degrees: Degrees) -> NDArray[np.float64]:
        """Return points of (latitude, longitude) on the page, (n, 2)."""
        x, y = self.projection.project(degrees[:, 1], degrees[:, 0])
        return np.stack(
            [
                self.width / 2 + (x - self.middle[0]) * self.scale,
                self.height / 2 - (y - self.middle[1]) * self.scale,
            ],
            axis=1,
        )


def route_map(
    stretches: Sequence[Stretch],
    stops: Sequence[Spot],
    passages: Sequence[Spot],
    *,
    width: float,
    height: float,
    title: str,
    description: str,
) -> Scene:
    """Return the map of a way of at least one stop, on a page of `width` × `height` points."""
    way = _unwrapped(stretches)
    points = np.concatenate([*(one.points for one in way), _beside_way(stops, way)])
    view = _view(points, width, height)
    parts: list[Part] = [Area((((0, 0), (width, 0), (width, height), (0, height)),), SEA)]
    parts += _land(view)
    parts += [_line(view, one) for one in way]
    return Scene(width, height, title, description, (*parts, *_names(view, stops, passages, points)))


def _unwrapped(stretches: Sequence[Stretch]) -> list[Stretch]:
    """Return the stretches with longitudes that go on over the date line, beyond 180 degrees."""
    found: list[Stretch] = []
    east = None
    for one in stretches:
        if not len(one.points):
            continue
        longitude = np.unwrap(one.points[:, 1], period=360)
        if east is not None:
            longitude = longitude - 360 * np.round((longitude[0] - east) / 360)
        east = longitude[-1]
        found.append(Stretch(np.stack([one.points[:, 0], longitude], axis=1), one.by_sea))
    return found


def _beside_way(spots: Sequence[Spot], way: Sequence[Stretch]) -> Degrees:
    """Return spots as points, each turned round the globe to where the way is."""
    degrees = np.array([(one.latitude, one.longitude) for one in spots], dtype=np.float64).reshape(-1, 2)
    if way:
        near = np.concatenate([one.points for one in way])
        for point in degrees:
            apart = near[:, 1] - point[1]
            turns = np.round(apart / 360)
            nearest = np.argmin(np.abs(apart - 360 * turns) + np.abs(near[:, 0] - point[0]))
            point[1] += 360 * turns[nearest]
    return degrees


def _view(points: Degrees, width: float, height: float) -> _View:
    north, south = points[:, 0].max(), points[:, 0].min()
    projection = Equirectangular(
        parallel=float(np.clip((north + south) / 2, -60, 60)), longitude=float(points[:, 1].mean())
    )
    x, y = projection.project(points[:, 1], points[:, 0])
    across, up = (max(float(np.ptp(one)), LEAST_DEGREES) * (1 + 2 * MARGIN) for one in (x, y))
    middle = float(x.max() + x.min()) / 2, float(y.max() + y.min()) / 2
    return _View(projection, min(width / across, height / up), middle, width, height)


def _land(view: _View) -> Iterator[Part]:
    """Yield the land that is seen: countries, and the states where they are large enough to be told apart."""
    with_states = view.width / view.scale < STATES_UP_TO
    kinds: tuple[Land, ...] = ("countries", "states") if with_states else ("countries",)
    for kind in kinds:
        names, rings, boxes = _rings(kind)
        for turn in (-360, 0, 360):
            for place in np.flatnonzero(_is_seen(view, boxes, turn)):
                if not (with_states and kind == "countries" and names[place] == "US"):
                    page = view.page(rings[place] + (0, turn))
                    piece = _cut(page.tolist(), view.width, view.height)
                    if len(piece) > 2:
                        yield Area((piece,), LAND, BORDER, 0.5)


@cache
def _rings(land: Land) -> tuple[list[str], list[Degrees], Degrees]:
    """Return all rings: whose each is, its points (latitude, longitude), its box (south, north, west, east)."""
    every = [(name, ring) for name, own in outlines(land).items() for ring in own]
    rings = [np.stack([ring[:, 1], np.unwrap(ring[:, 0], period=360)], axis=1) for _, ring in every]
    boxes = [(*ring.min(axis=0), *ring.max(axis=0)) for ring in rings]
    return [name for name, _ in every], rings, np.array(boxes)[:, [0, 2, 1, 3]]


def _is_seen(view: _View, boxes: Degrees, turn: int) -> NDArray[np.bool_]:
    """Return which boxes reach into the page after a turn round the globe."""
    left, bottom = view.page(np.stack([boxes[:, 0], boxes[:, 2] + turn], axis=1)).T
    right, top = view.page(np.stack([boxes[:, 1], boxes[:, 3] + turn], axis=1)).T
    seen: NDArray[np.bool_] = (left < view.width) & (right > 0) & (top < view.height) & (bottom > 0)
    return seen


def _cut(ring: list[list[float]], width: float, height: float) -> Points:
    """Return a ring cut to the page (I. Sutherland and G. Hodgman, Communications of the ACM 17, 1974)."""
    for axis, limit, sign in ((0, 0.0, 1), (0, width, -1), (1, 0.0, 1), (1, height, -1)):
        if all(sign * (point[axis] - limit) >= 0 for point in ring):
            continue
        kept: list[list[float]] = []
        for one, following in zip(ring, ring[1:] + ring[:1], strict=True):
            inside, then = (sign * (point[axis] - limit) >= 0 for point in (one, following))
            if inside:
                kept.append(one)
            if inside != then:
                share = (limit - one[axis]) / (following[axis] - one[axis])
                kept.append([one[n] + share * (following[n] - one[n]) for n in (0, 1)])
        ring = kept
        if not ring:
            break
    return [(point[0], point[1]) for point in ring]


def _line(view: _View, stretch: Stretch) -> Line:
    return Line([(x, y) for x, y in view.page(stretch.points)], ACCENT, 1.3, dashed=stretch.by_sea)


def _names(view: _View, stops: Sequence[Spot], passages: Sequence[Spot], way: Degrees) -> Iterator[Part]:
    """Yield dots and names, each where it hides no other; a passage that finds no room is left to the words beside the map."""
    whole, taken = _Box(3, 3, view.width - 3, view.height - 3), list[_Box]()
    placed = [(spot, spot in stops, point) for spot, point in _placed(view, [*stops, *passages], way)]
    for _, is_stop, (x, y) in placed:
        size = DOT if is_stop else DOT * 0.6
        yield Area(([(x + dx * size, y + dy * size) for dx, dy in _CIRCLE],), ACCENT if is_stop else WHITE, ACCENT, 0.7)
        taken.append(_Box(x - size, y - size, x + size, y + size))
    for spot, is_stop, (x, y) in placed:
        size = NAME_SIZE if is_stop else PASSAGE_SIZE
        found = _free(spot.name, size, x, y, whole, taken)
        if found is not None:
            at, box = found
            taken.append(box)
            ink = INK if is_stop else GREY
            yield Text(x + at[0], y + at[1], spot.name, size, ink, at[2], bold=is_stop, halo=SEA)


def _placed(view: _View, spots: Sequence[Spot], way: Degrees) -> list[tuple[Spot, tuple[float, float]]]:
    degrees = _beside_way(spots, [Stretch(way)])
    return [(spot, (float(x), float(y))) for spot, (x, y) in zip(spots, view.page(degrees), strict=True)]


def _free(
    name: str, size: float, x: float, y: float, whole: _Box, taken: Sequence[_Box]
) -> tuple[tuple[float, float, Anchor], _Box] | None:
    """Return where beside a point a name stands free, and the box it takes; None where nowhere."""
    length = len(name) * size * LETTER_WIDTH
    for at in _BESIDE:
        left = x + at[0] - {"start": 0, "middle": length / 2, "end": length}[at[2]]
        box = _Box(left, y + at[1] - size * 0.8, left + length, y + at[1] + size * 0.25)
        if whole.holds(box) and not any(box.meets(other) for other in taken):
            return at, box
    return None
