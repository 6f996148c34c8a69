"""The way of a choice drawn on a map: its legs as they were computed, roads straight, at sea the lanes that were measured."""

from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import pairwise

import numpy as np

from shipcalc.documents import wording
from shipcalc.pictures.outlines import Degrees
from shipcalc.pictures.route_map import ACCENT, Spot, Stretch, route_map
from shipcalc.pictures.scene import Scene, in_ink
from shipcalc.places.place import Place
from shipcalc.places.sea.passages import PASSAGES, Passage
from shipcalc.quote.model import Leg, Option, Quote

Say = Callable[[str], str]
Ends = tuple[tuple[float, float], tuple[float, float]]
_SHORTEST_STEP = 2.0  # degrees: a great circle is drawn through points so far apart


def route_scene(quote: Quote, option: Option, *, width: float, height: float, say: Say = str) -> Scene | None:
    """Return the map of a choice; None where nothing is carried. `say` says every text again in the reader's language."""
    if not option.legs:
        return None
    told = "; ".join(wording.way(leg, option) for leg in option.legs)
    drawn = route_map(
        stretches(option),
        _stops(option.legs),
        [_spot(passage, say) for leg in option.legs for passage in _passages(leg)],
        width=width,
        height=height,
        title=say(f"The way from {wording.place(quote.from_)} to {wording.place(quote.to)}"),
        description=say(f"A map of the way: {told}."),
    )
    return in_ink(drawn, ACCENT, quote.dealer.accent.removeprefix("#"))


def stretches(option: Option) -> list[Stretch]:
    """Return what is drawn of each leg: at sea the lanes, on land a straight line."""
    return [_stretch(leg) for leg in option.legs]


def _stops(legs: Sequence[Leg]) -> list[Spot]:
    """Return the ends of the legs, each once: a port and the city of its name are one dot."""
    spots = {end.name: Spot(end.name, end.latitude, end.longitude) for leg in legs for end in (leg.from_, leg.to)}
    return list(spots.values())


def _stretch(leg: Leg) -> Stretch:
    ends = (_at(leg.from_), _at(leg.to))
    if leg.unit != "nmi":
        return Stretch(np.array(ends))
    lanes = _lanes(ends, tuple(passage.name for passage in _passages(leg))) if leg.method == "network" else None
    whole = np.array(ends) if lanes is None else np.concatenate([[ends[0]], lanes, [ends[1]]])
    return Stretch(_curved(whole), by_sea=True)


def _passages(leg: Leg) -> list[Passage]:
    """Return the passages that a leg was measured by, in the order of the program's list."""
    told = wording.passages(leg)
    return [passage for passage in PASSAGES if passage.reads in told]


def _spot(passage: Passage, say: Say) -> Spot:
    (north_a, east_a), (north_b, east_b) = passage.line[0], passage.line[-1]
    name = say(passage.reads.removeprefix("the "))
    return Spot(name, (north_a + north_b) / 2, (east_a + east_b) / 2)


@lru_cache(maxsize=64)
def _lanes(ends: Ends, passages: tuple[str, ...]) -> Degrees | None:
    """Return the lanes from one port to another through these passages and no others; None where the lanes have changed since."""
    from shipcalc.places.sea.miles import load_network, sea_track

    here, there = (Spot("", *end) for end in ends)
    closed = [passage.name for passage in PASSAGES if passage.name not in passages and not passage.always_closed]
    found = sea_track(load_network(), here, there, closed=closed)
    return found if len(found) else None


def _curved(points: Degrees) -> Degrees:
    """Return points so near to each other that straight lines between them look like great circles."""
    from shipcalc.places.sea.geometry import unit_vectors

    found = [points[:1]]
    vectors = unit_vectors(latitude=points[:, 0], longitude=points[:, 1])
    for start, end in pairwise(vectors):
        angle = np.arccos(np.clip(start @ end, -1, 1))
        steps = max(1, int(np.degrees(angle) / _SHORTEST_STEP))
        share = np.linspace(0, 1, steps + 1)[1:, None]
        along = start + (end - start) * share if angle < 1e-9 else (
            np.sin((1 - share) * angle) * start + np.sin(share * angle) * end
        ) / np.sin(angle)  # fmt: skip
        east = np.degrees(np.arctan2(along[:, 1], along[:, 0]))
        north = np.degrees(np.arcsin(np.clip(along[:, 2] / np.linalg.norm(along, axis=1), -1, 1)))
        found.append(np.stack([north, east], axis=1))
    return np.concatenate(found)


def _at(place: Place) -> tuple[float, float]:
    return place.latitude, place.longitude
