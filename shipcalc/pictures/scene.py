"""What a picture is made of, without regard to how it is stored: areas, lines and texts on a page of points, y downwards."""

from collections.abc import Sequence
from typing import Literal

from shipcalc.records import dataclass, replace

Points = Sequence[tuple[float, float]]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Area:
    """A filled outline. `edge` "" draws none; `hatched` rules it with thin lines: nothing is said by colour alone."""

    rings: tuple[Points, ...]
    fill: str
    edge: str = ""
    width: float = 0.6
    hatched: bool = False


@dataclass(frozen=True, slots=True)
class Boxes:
    """Many upright boxes of one colour: (left, top, width, height)."""

    boxes: tuple[tuple[float, float, float, float], ...]
    fill: str


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points, whole or in dashes."""

    points: Points
    ink: str
    width: float = 0.6
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text; `y` is its baseline, `size` the height of its letters in points, `halo` a colour around them."""

    x: float
    y: float
    text: str
    size: float
    ink: str
    anchor: Anchor = "start"
    bold: bool = False
    halo: str = ""


Part = Area | Boxes | Line | Text


@dataclass(frozen=True, slots=True)
class Scene:
    """A page with its parts, what is drawn later above. `description` tells the picture to whom cannot see it."""

    width: float
    height: float
    title: str
    description: str
    parts: tuple[Part, ...]


def in_ink(scene: Scene, ours: str, theirs: str) -> Scene:
    """Return a picture with one colour in the place of another (`1B4B52`); a colour of nobody's ("") changes nothing."""
    if not theirs:
        return scene

    def changed(colour: str) -> str:
        return theirs if colour == ours else colour

    def inked(part: Part) -> Part:
        match part:
            case Area():
                return replace(part, fill=changed(part.fill), edge=changed(part.edge))
            case Boxes():
                return replace(part, fill=changed(part.fill))
            case Line():
                return replace(part, ink=changed(part.ink))
            case Text():
                return replace(part, ink=changed(part.ink), halo=changed(part.halo))

    return replace(scene, parts=tuple(map(inked, scene.parts)))


HATCH_APART = 5.0
HATCH_INK = "9AA1A8"
# A dash and the gap after it, and how wide a halo is, in points.
DASH, GAP = 4.0, 2.5
HALO = 1.2
