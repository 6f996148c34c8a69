"""Typical outer sizes by body, for vehicles whose own are not known: what is filled in is marked as assumed.

The figures are the manager's (sheet *Vehicle sizes* of the rate book); here are only the words for bodies.
"""

import unicodedata
from collections.abc import Iterable, Sequence
from typing import Protocol

from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle


class BodySize(Protocol):
    """What a row of typical sizes says; as a row of the rate book does."""

    @property
    def body(self) -> str:
        """The body's name."""

    @property
    def also(self) -> tuple[str, ...]:
        """Other words for it."""

    @property
    def length_mm(self) -> int:
        """Over everything."""

    @property
    def width_mm(self) -> int:
        """Mirrors folded."""

    @property
    def height_mm(self) -> int:
        """With the roof up."""

    @property
    def clearance_mm(self) -> int:
        """Under the lowest part."""

    @property
    def mass_grams(self) -> int:
        """Ready for the road."""


SIZE_FIELDS = {
    "length_mm": "length",
    "width_mm": "width",
    "height_mm": "height",
    "clearance_mm": "ground clearance",
    "mass_grams": "weight",
}

# The trade's words for bodies; the first of each line is the one the program goes by.
BODIES: tuple[tuple[str, ...], ...] = (
    ("roadster", "spider", "spyder", "open two-seater", "two-seater", "open sports"),
    ("convertible", "cabriolet", "drophead", "drophead coupe", "drop-top", "soft-top", "tourer"),
    ("coupe", "two-door coupe", "fastback", "berlinetta", "hardtop"),
    ("saloon", "sedan", "four-door", "limousine", "hatchback"),
    ("estate", "station wagon", "wagon", "shooting brake"),
    ("microcar", "bubble car", "cabin scooter"),
    ("off-roader", "off-road", "4x4", "4wd", "four-wheel drive", "suv", "sport utility"),
    ("camper", "camper van", "motorhome", "motor home", "motor caravan", "rv", "bus camper"),
    ("van", "panel van", "delivery van", "microbus", "minibus", "bus"),
    ("pick-up", "pickup truck", "utility", "ute", "truck"),
    ("motorcycle", "motorbike", "motor cycle", "bike", "scooter", "moped"),
    ("sidecar outfit", "motorcycle combination", "combination", "sidecar"),
)


def body_key(text: str) -> str:
    """Return a body's letters and digits alone, without accents or case: `Coupé` → coupe, `Pick-Up` → pickup."""
    apart = unicodedata.normalize("NFKD", text).casefold() if not text.isascii() else text.casefold()
    return "".join(character for character in apart if character.isalnum())


def find_body(text: str) -> str | None:
    """Return the program's own word for a body, whatever the trade's word it was called by, or None: `Spyder` → roadster."""
    return _BODY_BY_KEY.get(body_key(text))


def body_keys(table: Iterable[BodySize]) -> frozenset[str]:
    """Return the keys of all bodies that are known: the program's own words and those of a table of sizes."""
    return frozenset(_BODY_BY_KEY) | {body_key(word) for row in table for word in (row.body, *row.also)}


def find_size(body: str, table: Sequence[BodySize]) -> BodySize | None:
    """Return the row for a body: by its own name, by its other words, or by another word of the trade; else None."""
    key, own = body_key(body), find_body(body)
    if not key:
        return None
    by_name = (row for row in table if body_key(row.body) == key)
    by_other = (row for row in table if key in map(body_key, row.also))
    by_trade = (row for row in table if own is not None and find_body(row.body) == own)
    return next(by_name, None) or next(by_other, None) or next(by_trade, None)


def fill_sizes(vehicle: Vehicle, table: Sequence[BodySize]) -> Vehicle:
    """Return the vehicle with its missing sizes taken from the table and named in `assumed`; as it is for an unknown body."""
    missing = missing_sizes(vehicle)
    size = find_size(vehicle.body, table) if missing else None
    if size is None:
        return vehicle
    filled = {field: getattr(size, field) for field in missing}
    return replace(vehicle, assumed=(*vehicle.assumed, *missing), **filled)


def missing_sizes(vehicle: Vehicle) -> tuple[str, ...]:
    """Return the fields of the sizes that are not known, in the order of SIZE_FIELDS."""
    return tuple(field for field in SIZE_FIELDS if getattr(vehicle, field) is None)


_BODY_BY_KEY = {body_key(word): words[0] for words in BODIES for word in words}
