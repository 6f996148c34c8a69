"""Miles: how far it is, by every method the program has."""

from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import NoAnswer, WrongInput, named
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.places.place import Place
    from shipcalc.places.sea.miles import SeaRoute


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """How far it is between two places.

    Road figures are None where no road leads there; `sea_nmi` is None unless both ends are sea ports (UN/LOCODE).
    `road_cell` is the cell of the rate book that the factor is from; nine lanes of ten are within `road_expected_error`, a share.
    """

    start: "Place"
    to: "Place"
    great_circle_mi: float
    geodesic_mi: float
    road_mi: int | None
    road_method: str | None
    road_factor: float | None
    road_cell: str | None
    road_expected_error: float | None = None
    sea_nmi: int | None = None
    passages: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def measure_distance(start: str, to: str, rates: Path, *, without: tuple[str, ...] = ()) -> Distance:
    """Return the distance between two places, the road as a quote would count it; between two sea ports also the sea.

    `without` names passages that ships shall not use. Raises WrongInput for a place or a passage that is not known and for a
    rate book that cannot be used, NoAnswer where no way by sea is left.
    """
    from shipcalc.places.road.reach import road_reach
    from shipcalc.places.straight import geodesic_mi, great_circle_mi
    from shipcalc.quote.network.distances import road_lanes
    from shipcalc.ratebook.book import read_rate_book

    (a, a_note), (b, b_note) = _end(start), _end(to)
    notes = [a_note, b_note]
    road, sea = None, _sea(a, b, without)
    try:
        road = road_lanes(read_rate_book(rates), (a,), b)[0].road
        notes += [road_reach(a, b).need, road.note]
    except NoAnswer as no:
        notes.append(named(no.what))
    return Distance(
        start=a,
        to=b,
        great_circle_mi=great_circle_mi(a, b),
        geodesic_mi=geodesic_mi(a, b),
        road_mi=road.miles if road else None,
        road_method=road.method if road else None,
        road_factor=road.factor if road else None,
        road_cell=road.cell if road else None,
        road_expected_error=road.expected_error if road else None,
        sea_nmi=round(sea.nmi) if sea else None,
        passages=sea.passages if sea else (),
        notes=tuple(note for note in (*notes, sea.note if sea else "") if note),
    )


def _end(text: str) -> tuple["Place", str]:
    """Return a place and the note on how it was understood. Five characters of a UN/LOCODE are a sea port, if there is one."""
    from shipcalc.places.gazetteer.find import get_place
    from shipcalc.places.sea.ports import find_port, is_port_code

    if is_port_code(text) and (port := find_port(text)) is not None:
        return port, ""
    try:
        finding = get_place(text)
    except WrongInput:
        if not is_port_code(text):
            raise
        raise WrongInput(
            f'"{text}" is neither a sea port (UN/LOCODE) nor a town that the lists know',
            remedy="give five characters, such as USSAV, or a city with its country",
        ) from None
    assert finding.place is not None, "get_place raises where there is none"
    return finding.place, finding.note


def _sea(a: "Place", b: "Place", without: tuple[str, ...]) -> "SeaRoute | None":
    if not a.kind == b.kind == "port":
        return None
    from shipcalc.places.sea.miles import load_network, sea_distance

    return sea_distance(
        load_network(),
        latitude_a=a.latitude,
        longitude_a=a.longitude,
        latitude_b=b.latitude,
        longitude_b=b.longitude,
        closed=tuple(name.strip().casefold() for name in without),
    )
