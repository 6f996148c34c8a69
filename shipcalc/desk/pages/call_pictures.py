"""The pictures of an answer: its way, its days, what its price is made of; each light and dark, and narrow for a telephone."""

from collections.abc import Mapping
from typing import Any

from shipcalc.documents import wording
from shipcalc.documents.offer.make_up import make_up_scene
from shipcalc.documents.offer.route import route_scene
from shipcalc.documents.offer.timeline import time_scene
from shipcalc.pictures.scene import Scene
from shipcalc.pictures.svg import in_the_dark, to_svg
from shipcalc.quote.model import Option, Quote

# Title, and the width in points on a wide page and on a narrow one.
PICTURES = {
    "way": ("How it travels", 300.0, 260.0),
    "price": ("What it is made of", 300.0, 260.0),
    "days": ("When it happens", 560.0, 300.0),
}
_MAP_HEIGHT = 170.0


def picture(quote: Quote, option: Option, what: str, *, narrow: bool, dark: bool) -> bytes | None:
    """Return a picture of a choice as SVG; None where there is nothing to draw."""
    scene = _scene(quote, option, what, narrow=narrow)
    if scene is None:
        return None
    drawn = to_svg(scene)
    return in_the_dark(drawn) if dark else drawn


def pictures_data(quote: Quote, option: Option) -> list[Mapping[str, Any]]:
    """Return what stands around each picture that there is: title, words for who cannot see it, and how large it is."""
    sizes = {what: _told(quote, option, what) for what in PICTURES}
    return [
        {"what": what, "title": PICTURES[what][0], "told": told[0], "width": round(told[1]), "height": round(told[2])}
        for what, told in sizes.items()
        if told is not None
    ]


def _told(quote: Quote, option: Option, what: str) -> tuple[str, float, float] | None:
    """Return what a picture shows in words, its width and height. The map, which takes longest, is not drawn for that."""
    if what == "way":
        ways = "; ".join(wording.way(leg, option) for leg in option.legs)
        return (f"A map of the way: {ways}.", PICTURES[what][1], _MAP_HEIGHT) if ways else None
    scene = _scene(quote, option, what, narrow=False)
    return None if scene is None else (scene.description, scene.width, scene.height)


def _scene(quote: Quote, option: Option, what: str, *, narrow: bool) -> Scene | None:
    _, wide, slim = PICTURES[what]
    width = slim if narrow else wide
    if what == "way":
        return route_scene(quote, option, width=width, height=_MAP_HEIGHT)
    if what == "price":
        return make_up_scene(quote, option, width=width)
    return time_scene(quote, option, width=width)
