"""What a road vehicle can measure at all: beyond it a figure is a slip of the pen or a wrong unit.

The limits are wide on purpose, from a moped to a heavy lorry: common practice, no source. What a trailer can carry is
another question, and the carriers' rows in the rate book answer it.
"""

from shipcalc.errors import WrongInput
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Limit:
    """The least and the most of one measure, in the program's own unit, and as people say them."""

    what: str
    least: int
    most: int
    told: str


LIMITS = {
    "year": Limit("model year", 1885, 2100, "1885 to 2100"),
    "length_mm": Limit("length", 1_000, 20_000, "40 in to 65 ft, 1 m to 20 m"),
    "width_mm": Limit("width", 300, 3_510, "12 in to 138 in, 0.3 m to 3.5 m"),
    "height_mm": Limit("height", 500, 4_600, "20 in to 181 in, 0.5 m to 4.6 m"),
    "clearance_mm": Limit("ground clearance", 20, 800, "1 in to 31 in, 20 mm to 800 mm"),
    "mass_grams": Limit("weight", 40_000, 40_000_000, "90 lb to 88,000 lb, 40 kg to 40 t"),
    "engine_cc": Limit("engine size", 20, 60_000, "20 cc to 60 l"),
}


def within_limits(field: str, value: int, told: str) -> int:
    """Return `value` where a vehicle can have it as its `field`. Raises WrongInput that calls it what it was typed as."""
    limit = LIMITS[field]
    if limit.least <= value <= limit.most:
        return value
    if value < 0:
        raise WrongInput(f'"{told}" is negative, which no {limit.what} is', remedy="remove the minus sign")
    size = "less" if value < limit.least else "more"
    raise WrongInput(
        f'"{told}" is {size} than the {limit.what} of any vehicle ({limit.told})',
        remedy="check the figure and its unit",
    )
