"""Postal codes: a US ZIP becomes a place; military, Canadian and British ones are recognised and answered with a sentence."""

import re

from shipcalc.places.gazetteer.finding import Finding, not_found
from shipcalc.places.gazetteer.pages import PostalCode, postal_code, postal_codes_near
from shipcalc.places.gazetteer.regions import CANADIAN_PROVINCES, US_TERRITORIES
from shipcalc.places.place import Place

ZIP = r"(?P<zip>\d{5})(?:[-–]?(?P<plus>\d{4}))?"
_ZIP_ALONE = re.compile(rf"(?:US-?|ZIP(?: code)?:?)?\s*{ZIP}", re.IGNORECASE)
_ZERO_LOST = re.compile(r"\d{3,4}")
_CANADIAN = re.compile(r"(?<![A-Z0-9])([ABCEGHJ-NPRSTVXY])\d[A-Z] ?\d[A-Z]\d(?![A-Z0-9])", re.IGNORECASE)
_BRITISH = re.compile(r"(?<![A-Z0-9])[A-Z]{1,2}\d[A-Z\d]? ?\d[A-Z]{2}(?![A-Z0-9])", re.IGNORECASE)
_MILITARY = re.compile(r"\b(APO|FPO|DPO)\b", re.IGNORECASE)

# First letter of a Canadian code (Canada Post); X is shared by two territories.
_PROVINCES = {
    letter: province
    for province, letters in (
        ("NL", "A"), ("NS", "B"), ("PE", "C"), ("NB", "E"), ("QC", "GHJ"), ("ON", "KLMNP"),
        ("MB", "R"), ("SK", "S"), ("AB", "T"), ("BC", "V"), ("NT", "X"), ("YT", "Y"),
    )
    for letter in letters
}  # fmt: skip

_POST_OFFICE_BOX = re.compile(r"\bP\.?\s?O\.?\s?Box\b|\bPost Office Box\b", re.IGNORECASE)
BOX_NOTE = "No vehicle can be delivered to a post office box: ask for the street where it is to be handed over."


def postal_place(text: str) -> Finding | None:
    """Return what a postal code that stands alone means, or None where the text is none."""
    if match := _ZIP_ALONE.fullmatch(text):
        return zip_place(match["zip"])
    if _ZERO_LOST.fullmatch(text):
        return _with_lost_zero(text)
    if match := _CANADIAN.fullmatch(text):
        province = CANADIAN_PROVINCES[_PROVINCES[match[1].upper()]]
        return not_found(
            f"{text.upper()}: Canadian postal codes are not in the list.", instead=f"give the city in {province}"
        )
    if _BRITISH.fullmatch(text):
        return not_found(
            f"{text.upper()}: British postcodes are not in the list.", instead="give the town, as in “Leeds, UK”"
        )
    if match := _MILITARY.search(text):
        return _military(f"The {match[1].upper()} address")
    return None


def names_a_box(text: str) -> bool:
    """Whether a post office box stands in the text: it is in a town, but no vehicle goes there."""
    return _POST_OFFICE_BOX.search(text) is not None


def zip_place(code: str) -> Finding:
    """Return the place of a ZIP, or why there is none."""
    entry = postal_code(code)
    if entry is None:
        near = tuple(zip_as_written(other) for other in postal_codes_near(code) if other.latitude is not None)
        return not_found(f"ZIP {code} is not among the ZIPs in use.", *near)
    if entry.kind == "M":
        return _military(f"ZIP {code} ({entry.city} {entry.state})")
    if entry.latitude is None or entry.longitude is None:
        return not_found(
            f"ZIP {code} ({entry.city}, {entry.state}) has no point on the map.",
            instead="give the city with its state or country",
        )
    place = _place(entry, latitude=entry.latitude, longitude=entry.longitude)
    if not entry.in_use:
        return Finding(place, note=f"ZIP {code} is no longer used by the post; taken where it was, in {place.name}.")
    return Finding(place)


def without_foreign_code(text: str) -> tuple[str, str]:
    """Return the text without a Canadian or British code in it, and the code: ("Victoria, BC", "V8W 1A1")."""
    match = _CANADIAN.search(text) or _BRITISH.search(text)
    if match is None:
        return text, ""
    rest = text[: match.start()] + " " + text[match.end() :]
    return re.sub(r"\s*,?\s*$", "", re.sub(r"\s+", " ", rest)).strip(" ,"), match[0].upper()


def _military(what: str) -> Finding:
    """Return why nothing goes to a post office of the forces or of an embassy."""
    return not_found(
        f"{what} is a military or diplomatic post office: carriers deliver vehicles to a street, not to a post office box.",
        instead="give the city where the vehicle is to be handed over",
    )


def _with_lost_zero(text: str) -> Finding:
    """Return the ZIP of three or four digits: spreadsheets drop the zeros in front."""
    code = text.zfill(5)
    finding = zip_place(code)
    if finding.place is None:
        return not_found(f"“{text}” is not a ZIP: a ZIP has five digits.", *finding.suggestions)
    return finding.with_note(f"{text}: read as ZIP {code}, leading zeros are easily lost.")


def _place(entry: PostalCode, *, latitude: float, longitude: float) -> Place:
    """Return a ZIP as a place; the territories have a country code of their own."""
    abroad = entry.state in US_TERRITORIES
    return Place(
        name=entry.city,
        kind="postal code",
        country=entry.state if abroad else "US",
        subdivision="" if abroad else entry.state,
        postal_code=entry.code,
        latitude=latitude,
        longitude=longitude,
        found_by=f"ZIP {entry.code}",
    )


def zip_as_written(entry: PostalCode) -> str:
    """Return a ZIP with its city, as a suggestion that can be typed: "Bellingham, WA 98225"."""
    return f"{entry.city}, {entry.state} {entry.code}"
