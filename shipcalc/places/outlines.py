"""Outlines on the map: a box of two corners or a polygon, and whether a point lies inside."""

Outline = tuple[tuple[float, float], ...]
"""Corners as (latitude, longitude); none of the outlines crosses the date line."""


def read_outline(text: str) -> Outline:
    """Return an outline from "lat,lon lat,lon …"; two corners (south-west, north-east) are a box, "" has no corners."""
    corners = []
    for corner in text.split():
        latitude, longitude = corner.split(",")
        corners.append((float(latitude), float(longitude)))
    if len(corners) == 2:
        (south, west), (north, east) = corners
        return (south, west), (south, east), (north, east), (north, west)
    return tuple(corners)


def is_inside(outline: Outline, *, latitude: float, longitude: float) -> bool:
    """Whether a point lies inside: a ray to the east crosses the border an odd number of times."""
    inside = False
    for (north_a, east_a), (north_b, east_b) in zip(outline, outline[1:] + outline[:1], strict=True):
        if (north_a > latitude) != (north_b > latitude):
            crossing = east_a + (latitude - north_a) / (north_b - north_a) * (east_b - east_a)
            inside ^= longitude < crossing
    return inside
