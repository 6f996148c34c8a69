"""Islands, regions, districts and nicknames: the town that stands for one, or the towns to ask for.

The table `data/areas.tsv` says which; a town of that name goes before it where it is larger than a region's namesake would be.
"""

from functools import cache
from pathlib import Path

from shipcalc.places.gazetteer.finding import Finding
from shipcalc.places.gazetteer.regions import regions_named
from shipcalc.places.gazetteer.spelling import spelling_key
from shipcalc.records import dataclass

FILE = Path(__file__).parents[1] / "data" / "areas.tsv"
LONGEST_REGION_WORDS = 4
# How far from an area's own town a town named in front of it may be: "Montauk, Long Island".
WITHIN_ITS_AREA_MI = 110.0


@dataclass(frozen=True, slots=True)
class Area:
    """One row: `town` stands for the area; where it is "", one of `towns` is asked for."""

    name: str
    country: str
    subdivision: str
    town: str
    what: str
    towns: tuple[str, ...]


def known_area(text: str) -> Finding | None:
    """Return the town that stands for an area, said so, or the question which town is meant; None where it is no area."""
    from shipcalc.places.gazetteer.cities import city_near, city_place

    head, comma, last = text.rpartition(",")
    if comma and (around := areas().get(spelling_key(last))):
        middle = city_place(around.town or around.towns[0]).place
        city = city_near(head, middle, within_mi=WITHIN_ITS_AREA_MI) if middle else None
        return Finding(city, note=f"{city.name} taken as the one near {around.name}.") if city else None
    area = _area_in(text)
    if area is None:
        return None

    if not area.town:
        question = f"{area.name} is {area.what}: which town is meant"
        return Finding(city_place(area.towns[0]).place, suggestions=area.towns, doubt=question, note=f"{question}?")
    finding = city_place(area.town)
    if finding.place is None:
        return None
    said = f"{area.name} ({area.what}): taken as {area.town}; name the town if it is another."
    return Finding(finding.place, note=said)


def _area_in(text: str) -> Area | None:
    """Return the area of a text that may end in its state or country: "Maui", "Maui, Hawaii", "Tuscany Italy"."""
    words = spelling_key(text.replace(",", " ")).split()
    for count in range(min(LONGEST_REGION_WORDS, len(words) - 1) + 1):
        area = areas().get(" ".join(words[: len(words) - count]))
        if area is None:
            continue
        if not count:
            return area
        behind = regions_named(" ".join(words[len(words) - count :]))
        if any(
            region.country == area.country and (not region.subdivision or area.subdivision in ("", region.subdivision))
            for region in behind
        ):
            return area
    return None


@cache
def areas() -> dict[str, Area]:
    """Return all areas by each of their names, as `spelling_key` writes them."""
    found: dict[str, Area] = {}
    for line in FILE.read_text(encoding="utf-8").splitlines():
        if line.startswith("#"):
            continue
        name, also, where, town, what, towns = line.split("\t")
        country, _, subdivision = where.partition("-")
        area = Area(name, country, subdivision, town, what, _listed(towns))
        for called in (name, *_listed(also)):
            found[spelling_key(called)] = area
    return found


def _listed(cell: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in cell.split(";") if part.strip())
