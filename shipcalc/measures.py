"""Lengths, masses and volumes: exact factors, one named conversion each.

The factors are definitions (international yard and pound agreement of 1959; NIST Special Publication 811, appendix B).
Inside the program a length is whole millimetres (`*_mm`), a mass whole grams (`*_grams`), a road distance miles (`*_mi`)
and a sea distance international nautical miles (`*_nmi`).
"""

MM_PER_INCH = 25.4
MM_PER_FOOT = 304.8
GRAMS_PER_POUND = 453.59237
METRES_PER_MILE = 1609.344
METRES_PER_NAUTICAL_MILE = 1852.0


def inches_to_mm(inches: float) -> int:
    """Return whole millimetres: 196 in → 4978 mm."""
    return round(inches * MM_PER_INCH)


def mm_to_inches(mm: int) -> float:
    """Return inches to a tenth: 4978 mm → 196.0 in."""
    return round(mm / MM_PER_INCH, 1)


def pounds_to_grams(pounds: float) -> int:
    """Return whole grams: 3,450 lb → 1 564 894 g."""
    return round(pounds * GRAMS_PER_POUND)


def grams_to_pounds(grams: int) -> int:
    """Return whole pounds: 1 564 894 g → 3450 lb."""
    return round(grams / GRAMS_PER_POUND)


def metres_to_miles(metres: float) -> float:
    """Return statute miles: 1609.344 m → 1.0 mi."""
    return metres / METRES_PER_MILE


def metres_to_nautical_miles(metres: float) -> float:
    """Return international nautical miles: 1852 m → 1.0 nmi."""
    return metres / METRES_PER_NAUTICAL_MILE


def miles_to_km(miles: float) -> float:
    """Return kilometres: 1 mi → 1.609344 km."""
    return miles * METRES_PER_MILE / 1000
