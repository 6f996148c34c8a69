"""Coordinates: "48.749, -122.488", "48.749 N 122.488 W", "48°44′56″N 122°29′19″W" → a point on the map."""

import re

from shipcalc.places.gazetteer.finding import Finding, not_found, written
from shipcalc.places.gazetteer.pages import nearest_city
from shipcalc.places.gazetteer.regions import region_name
from shipcalc.places.place import Place

NEAREST_TOWN_WITHIN_MI = 150.0

_ANGLE = (
    r"(?P<before{i}>[NSEW])?\s*(?P<degrees{i}>[+\-−]?\d{{1,3}}(?:\.\d+)?)\s*[°º]?\s*"
    r"(?:(?P<minutes{i}>\d{{1,2}}(?:\.\d+)?)\s*['′]\s*(?:(?P<seconds{i}>\d{{1,2}}(?:\.\d+)?)\s*[\"″]\s*)?)?"
    r"(?P<after{i}>[NSEW])?"
)
_POINT = re.compile(rf"\(?\s*{_ANGLE.format(i=1)}\s*[,;\s]\s*{_ANGLE.format(i=2)}\s*\)?", re.IGNORECASE)
_SIGNS_OF_A_POINT = re.compile(r"[.,;°º′]")


def point_in(text: str) -> Finding | None:
    """Return the point that the text gives, what is wrong with it, or None where the text is no point at all."""
    match = _POINT.fullmatch(text)
    if match is None or not _SIGNS_OF_A_POINT.search(text):
        return None
    first, second = _angle(match, 1), _angle(match, 2)
    letters = [(match[f"before{i}"] or match[f"after{i}"] or "").upper() for i in (1, 2)]
    if letters[0] in ("E", "W") or letters[1] in ("N", "S"):
        first, second, letters = second, first, letters[::-1]
    if letters[0] in ("E", "W") or letters[1] in ("N", "S"):
        return not_found(f"“{text}” gives two latitudes or two longitudes.")
    return _point(text, latitude=first, longitude=second)


def _point(text: str, *, latitude: float, longitude: float) -> Finding:
    """Return the point, with the country and state of the nearest town."""
    if abs(latitude) > 90 >= abs(longitude) and abs(latitude) <= 180:
        swapped = f"{longitude:g}, {latitude:g}"
        return not_found(f"Latitude {latitude:g} is beyond 90 degrees; latitude comes first, then longitude.", swapped)
    if abs(latitude) > 90 or abs(longitude) > 180:
        return not_found(f"“{text}” is not a point on the earth: latitude goes to 90 degrees, longitude to 180.")
    near = nearest_city(latitude=latitude, longitude=longitude, within_mi=NEAREST_TOWN_WITHIN_MI)
    name = f"{latitude:.4f}, {longitude:.4f}"
    if near is None:
        return not_found(f"No town is known within {NEAREST_TOWN_WITHIN_MI:.0f} miles of {name}: is the sign right?")
    town, away_mi = near
    place = Place(
        name=name,
        kind="point",
        country=town.country,
        subdivision=town.subdivision,
        postal_code=town.postal_code,
        latitude=latitude,
        longitude=longitude,
        found_by=f"coordinates, {_miles(away_mi)} from {written(town.name, town.country, town.subdivision)}",
    )
    stands_for = f" (ZIP {town.postal_code})" if town.postal_code else ""
    return Finding(
        place,
        note=f"{name}: taken as in {region_name(town.country, town.subdivision)}, as the nearest town is "
        f"{town.name}{stands_for}, {_miles(away_mi)} away.",
    )


def _miles(distance_mi: float) -> str:
    """Return a distance as one says it."""
    return "less than a mile" if distance_mi < 1 else f"{distance_mi:.0f} mile{'s' if distance_mi >= 1.5 else ''}"


def _angle(match: re.Match[str], i: int) -> float:
    """Return one angle in degrees; a letter S or W makes it negative."""
    degrees = float(match[f"degrees{i}"].replace("−", "-"))
    part = float(match[f"minutes{i}"] or 0) / 60 + float(match[f"seconds{i}"] or 0) / 3600
    angle = degrees - part if match[f"degrees{i}"][0] in "-−" else degrees + part
    letter = (match[f"before{i}"] or match[f"after{i}"] or "").upper()
    return -angle if letter in ("S", "W") else angle
