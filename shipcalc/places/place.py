"""A place on the earth, and how the program came to know it."""

from typing import Literal

from shipcalc.records import dataclass

PlaceKind = Literal["postal code", "city", "port", "point", "address"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Somewhere a vehicle can start from or be brought to.

    `country` is ISO 3166-1 alpha-2 (Puerto Rico is PR, not US); `subdivision` the two-letter state or province in the
    United States and Canada, elsewhere the name or code the gazetteer has, or empty. Coordinates are WGS 84 degrees.
    `found_by` says how the text was understood ("ZIP 98225", "largest of 31 places of that name"): it is shown.
    `yard` is the name of the dealer's yard that stands there, where the place was found by it; `terminal` that of a carriers'
    terminal, where vehicles are brought to or fetched from it instead of a door.
    """

    name: str
    kind: PlaceKind
    country: str
    subdivision: str = ""
    postal_code: str = ""
    latitude: float
    longitude: float
    found_by: str = ""
    yard: str = ""
    terminal: str = ""
