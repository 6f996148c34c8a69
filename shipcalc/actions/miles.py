"""Miles: how far it is, by every method the program has."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shipcalc.places.place import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """How far it is between two places.

    Road figures are None where no road leads there; sea figures are None as long as no sea distance was asked for.
    `road_cell` is the cell of the rate book that the factor is from.
    """

    start: "Place"
    to: "Place"
    great_circle_mi: float
    geodesic_mi: float
    road_mi: int | None
    road_method: str | None
    road_factor: float | None
    road_cell: str | None
    sea_nmi: int | None = None
    passages: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def measure_distance(start: str, to: str, rates: Path) -> Distance:
    """Return the distance between two places, the road as a quote would count it.

    Raises WrongInput for a place that is not known and for a rate book that cannot be used.
    """
    from shipcalc.errors import NoAnswer
    from shipcalc.places.find import get_place
    from shipcalc.places.reach import road_reach
    from shipcalc.places.straight import geodesic_mi, great_circle_mi
    from shipcalc.quote.distances import road_lanes
    from shipcalc.ratebook.book import read_rate_book

    from_finding, to_finding = get_place(start), get_place(to)
    a, b = from_finding.place, to_finding.place
    assert a is not None, "get_place raises where there is none"
    assert b is not None, "get_place raises where there is none"
    notes = [from_finding.note, to_finding.note]
    road = None
    try:
        road = road_lanes(read_rate_book(rates), (a,), b)[0].road
        notes += [road_reach(a, b).need, road.note]
    except NoAnswer as no:
        notes.append(no.what)
    return Distance(
        start=a,
        to=b,
        great_circle_mi=great_circle_mi(a, b),
        geodesic_mi=geodesic_mi(a, b),
        road_mi=road.miles if road else None,
        road_method=road.method if road else None,
        road_factor=road.factor if road else None,
        road_cell=road.cell if road else None,
        notes=tuple(note for note in notes if note),
    )
