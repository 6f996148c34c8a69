"""Outlines of vehicles drawn in cells, to mark damage on: our own drawing, one letter a cell.

`#` body, `g` glass, `w` wheel, `.` nothing. The side is seen from the left, nose to the left; the right side is its mirror image.
"""

from shipcalc.records import dataclass

Mask = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Outline:
    """Four views of one kind of vehicle; sides and tops are equally long, fronts and rears equally wide."""

    side: Mask
    above: Mask
    front: Mask
    rear: Mask

    @property
    def other_side(self) -> Mask:
        """Return the right side, nose to the right."""
        return tuple(line[::-1] for line in self.side)


SIDE_CELLS = 26
END_CELLS = 10

CAR = Outline(
    side=(
        "...........gggggg.........",
        ".........ggggg#gggg.......",
        "...#####################..",
        ".#########################",
        "#####ww############ww#####",
        "####wwww##########wwww####",
        "....wwww..........wwww....",
        ".....ww............ww.....",
    ),
    above=(
        "..######################..",
        ".########################.",
        "#########gg######gg#######",
        "########ggg######ggg######",
        "########ggg######ggg######",
        "########ggg######ggg######",
        "#########gg######gg#######",
        ".########################.",
        "..######################..",
    ),
    front=(
        "...gggg...",
        "..gggggg..",
        ".########.",
        "##########",
        "##########",
        "##########",
        "ww......ww",
        "ww......ww",
    ),
    rear=(
        "...gggg...",
        "..gggggg..",
        "##########",
        "##########",
        "##########",
        "##########",
        "ww......ww",
        "ww......ww",
    ),
)

TALL = Outline(
    side=(
        "....####################..",
        "...######################.",
        "..gggg#gggg##gggg##ggg####",
        ".ggggg#gggg##gggg##ggg####",
        "##########################",
        "##########################",
        "####ww#############ww#####",
        "###wwww###########wwww####",
        "...wwww...........wwww....",
        "....ww.............ww.....",
    ),
    above=(
        ".########################.",
        "##########################",
        "##gg######################",
        "##gg######################",
        "##gg######################",
        "##gg######################",
        "##gg######################",
        "##########################",
        ".########################.",
    ),
    front=(
        ".########.",
        "##########",
        "#gggggggg#",
        "#gggggggg#",
        "##########",
        "##########",
        "##########",
        "ww######ww",
        "ww......ww",
    ),
    rear=(
        ".########.",
        "##########",
        "##gggggg##",
        "##gggggg##",
        "##########",
        "##########",
        "##########",
        "ww######ww",
        "ww......ww",
    ),
)

MOTORCYCLE = Outline(
    side=(
        ".......##.................",
        "........##................",
        "........##.####...........",
        ".........#######.#######..",
        ".........##############...",
        "...wwww...#######..wwww...",
        "..ww##ww..######..ww##ww..",
        "..w####w..######..w####w..",
        "..ww##ww...####...ww##ww..",
        "...wwww............wwww...",
    ),
    above=(
        "..........................",
        "........##................",
        "........##................",
        "........##.####.#####.....",
        "..wwwwww##############www.",
        "..wwwwww##############www.",
        "........##.####.#####.....",
        "........##................",
        "........##................",
        "..........................",
    ),
    front=(
        "..........",
        "###....###",
        "..######..",
        "...####...",
        "....##....",
        "....ww....",
        "....ww....",
        "....ww....",
        "....ww....",
        "..........",
    ),
    rear=(
        "..........",
        "###....###",
        "...####...",
        "...####...",
        "...####...",
        "....ww....",
        "....ww....",
        "....ww....",
        "....ww....",
        "..........",
    ),
)

_WORDS = (
    (MOTORCYCLE, ("motorcycle", "scooter", "moped", "scrambler", "sidecar", "trike")),
    (TALL, ("camper", "van", "off-roader", "bus", "pick", "truck", "motor home", "wagon")),
)


def outline_for(body: str) -> Outline:
    """Return the outline that comes closest to a body; a car where the word is not known."""
    return next((outline for outline, words in _WORDS if any(word in body.casefold() for word in words)), CAR)
