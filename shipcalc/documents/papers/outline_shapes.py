"""Shapes of bodies, of which `outlines.py` draws the views: our own drawings, no make's.

Coordinates are about centimetres, from the left and from the top; a side is seen with the nose to the left.
"""

from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One kind of body. `over` is its line from the front bumper over the roof to the tail; `glass` and `seams` are paths.

    `screen` and `back` are the windscreen and the rear window as (lower end, upper end) along the vehicle. `waist` and
    `roof` are heights, `half` and `half_roof` half widths, as seen from the front. `wheels` are where they stand. `is_open`: it
    has no fixed roof; `bed`: where a pick-up's load bed begins and ends.
    """

    over: str
    tail: int
    nose: int
    wheels: tuple[int, int]
    radius: int
    glass: tuple[str, ...]
    seams: tuple[str, ...]
    screen: tuple[int, int]
    back: tuple[int, int]
    waist: int
    roof: int
    half: int = 72
    half_roof: int = 52
    is_open: bool = False
    bed: tuple[int, int] = (0, 0)


_ROADSTER = Shape(
    over="C 14,104 16,94 26,90 C 60,74 120,68 176,68 L 300,68 C 350,66 400,72 424,86 C 432,94 434,108 432,118",
    nose=22,
    tail=432,
    wheels=(98, 346),
    radius=31,
    glass=("M 170,68 L 196,36 L 202,36 L 186,68 Z",),
    seams=(
        "M 186,72 C 182,92 184,106 190,114 L 268,114 C 274,100 274,84 270,70",
        "M 196,68 C 200,60 212,58 218,68",
        "M 252,68 C 254,50 276,50 280,68",
        "M 280,68 C 290,58 316,58 326,67",
        "M 250,82 L 264,82",
        "M 64,82 C 72,78 76,84 70,88",
    ),
    screen=(176, 196),
    back=(300, 280),
    waist=72,
    roof=38,
    half_roof=50,
    is_open=True,
)
_COUPE = Shape(
    over="C 14,104 14,92 24,86 C 60,72 120,66 170,64 C 194,44 214,30 250,28 C 300,27 350,48 396,66 C 414,70 428,76 430,90 "
    "C 434,100 433,110 432,118",
    nose=22,
    tail=432,
    wheels=(98, 350),
    radius=31,
    glass=("M 184,64 C 202,48 218,36 250,34 L 258,34 L 258,64 Z", "M 265,64 L 265,34 C 296,36 326,48 350,63 Z"),
    seams=(
        "M 182,66 C 176,90 180,108 188,114 L 268,114 C 272,98 272,80 266,66",
        "M 248,78 L 264,78",
        "M 60,80 C 68,76 74,82 68,86",
        "M 384,64 C 392,66 404,70 416,76",
    ),
    screen=(170, 214),
    back=(392, 320),
    waist=68,
    roof=28,
)
SALOON = Shape(
    over="C 14,104 14,90 22,84 C 50,72 100,68 138,66 C 156,44 172,28 200,25 C 240,21 280,22 304,26 C 326,32 344,50 360,64 "
    "C 390,65 418,68 428,76 C 434,88 434,106 432,118",
    nose=22,
    tail=432,
    wheels=(96, 348),
    radius=31,
    glass=(
        "M 154,65 C 168,48 180,34 204,31 L 240,30 L 240,65 Z",
        "M 247,65 L 247,30 C 272,29 290,30 302,33 C 318,40 328,52 338,64 Z",
    ),
    seams=(
        "M 150,68 C 146,90 150,108 156,114 L 240,114 L 243,66",
        "M 243,114 L 306,114 C 312,100 320,90 332,84 L 338,66",
        "M 222,79 L 236,79",
        "M 312,79 L 326,79",
        "M 60,78 C 68,74 74,80 68,84",
        "M 362,66 C 384,67 408,70 426,78",
    ),
    screen=(138, 180),
    back=(360, 304),
    waist=68,
    roof=24,
)
_ESTATE = Shape(
    over="C 14,104 14,90 22,84 C 50,72 100,68 138,66 C 156,44 172,28 200,25 C 260,20 350,22 388,28 C 408,40 424,60 430,76 "
    "C 434,88 434,106 432,118",
    nose=22,
    tail=432,
    wheels=(96, 348),
    radius=31,
    glass=(
        "M 154,65 C 168,48 180,34 204,31 L 240,30 L 240,65 Z",
        "M 247,65 L 247,30 L 312,30 L 320,65 Z",
        "M 327,65 L 319,30 C 350,30 370,31 384,34 C 396,44 406,54 412,65 Z",
    ),
    seams=(
        "M 150,68 C 146,90 150,108 156,114 L 240,114 L 243,66",
        "M 243,114 L 306,114 C 312,100 320,90 328,84 L 323,66",
        "M 222,79 L 236,79",
        "M 304,79 L 318,79",
        "M 60,78 C 68,74 74,80 68,84",
    ),
    screen=(138, 180),
    back=(420, 388),
    waist=68,
    roof=24,
)
_OFF_ROADER = Shape(
    over="L 20,70 C 22,62 28,60 34,60 L 140,58 L 152,20 C 154,15 158,14 164,14 L 402,14 C 412,14 "
    "414,18 415,26 L 422,64 L 424,118",
    nose=20,
    tail=424,
    wheels=(96, 342),
    radius=36,
    glass=(
        "M 152,57 L 163,22 L 226,22 L 226,57 Z",
        "M 234,57 L 234,22 L 308,22 L 308,57 Z",
        "M 318,57 L 318,22 L 404,22 L 410,57 Z",
    ),
    seams=(
        "M 148,60 L 148,114 L 229,114 L 229,18",
        "M 229,114 L 292,114 C 298,96 306,86 313,82 L 313,18",
        "M 210,72 L 224,72",
        "M 294,72 L 308,72",
        "M 24,70 L 44,70 L 44,84 L 22,84",
        "M 424,60 C 432,60 434,62 434,70 L 434,104 C 434,110 430,112 424,112",
    ),
    screen=(142, 154),
    back=(420, 412),
    waist=60,
    roof=14,
    half=74,
    half_roof=62,
)
_VAN = Shape(
    over="C 14,104 14,84 20,66 C 26,44 34,22 48,13 C 56,8 66,7 80,7 L 408,7 C 424,7 430,12 432,26 L 434,118",
    nose=22,
    tail=434,
    wheels=(92, 348),
    radius=30,
    glass=(
        "M 32,58 C 36,42 42,28 52,19 L 60,19 L 60,58 Z",
        "M 68,58 L 68,19 L 130,19 L 130,58 Z",
        "M 140,58 L 140,19 L 224,19 L 224,58 Z",
        "M 234,58 L 234,19 L 318,19 L 318,58 Z",
        "M 328,58 L 328,19 L 414,19 L 418,58 Z",
    ),
    seams=(
        "M 64,14 L 64,82 C 76,80 124,84 132,114 L 135,114 L 135,14",
        "M 135,114 L 229,114 L 229,14",
        "M 116,70 L 130,70",
        "M 140,70 L 154,70",
        "M 22,66 L 432,66",
        "M 22,84 C 28,78 38,80 36,88",
    ),
    screen=(32, 52),
    back=(432, 424),
    waist=60,
    roof=7,
    half=74,
    half_roof=64,
)
_PICK_UP = Shape(
    over="C 16,104 16,86 22,78 C 50,68 100,64 134,62 C 148,42 160,24 184,20 C 206,18 228,18 244,22 "
    "L 252,62 L 428,62 C 432,62 433,64 "
    "433,70 L 433,118",
    nose=22,
    tail=433,
    wheels=(96, 350),
    radius=33,
    glass=("M 150,61 C 162,44 172,30 190,27 L 236,27 L 242,61 Z",),
    seams=(
        "M 146,64 C 142,88 146,106 152,114 L 244,114 L 250,62",
        "M 226,76 L 242,76",
        "M 252,62 L 252,114",
        "M 254,70 L 432,70",
        "M 58,75 C 66,71 72,77 66,81",
    ),
    screen=(134, 168),
    back=(252, 246),
    waist=64,
    roof=20,
    half_roof=56,
    bed=(256, 428),
)
BY_BODY = {
    "roadster": _ROADSTER,
    "convertible": _ROADSTER,
    "coupe": _COUPE,
    "microcar": _COUPE,
    "saloon": SALOON,
    "estate": _ESTATE,
    "off-roader": _OFF_ROADER,
    "camper": _VAN,
    "van": _VAN,
    "pick-up": _PICK_UP,
}
