"""The stock list, places and distances: as text and as the JSON that other programs rely on."""

import json
from typing import Any

from shipcalc.actions.miles import Distance
from shipcalc.actions.stock import StockAnswer
from shipcalc.cli.look import Column, Look, bullets, heading, pairs, paragraph, table
from shipcalc.cli.words import size, weight
from shipcalc.documents.wording import place as place_name
from shipcalc.errors import sentence
from shipcalc.measures import miles_to_km
from shipcalc.money import text
from shipcalc.places.gazetteer.find import Finding
from shipcalc.places.place import Place
from shipcalc.records import asdict
from shipcalc.vehicles.vehicle import Vehicle

STOCK_COLUMNS = (
    Column("Number"),
    Column("Vehicle", wraps=True),
    Column("Size (in)"),
    Column("lb", "right"),
    Column("Value", "right"),
    Column("Where and how", wraps=True),
)


def stock_lines(answer: StockAnswer, look: Look) -> list[str]:
    """Return the vehicles as a table and how many of the list they are."""
    rows = [_stock_row(vehicle) for vehicle in answer.vehicles]
    count = f"{len(answer.vehicles)} of {answer.in_all} vehicles"
    return [*table(look, STOCK_COLUMNS, rows), *(["", count] if look.width else [])]


def _stock_row(vehicle: Vehicle) -> tuple[str, ...]:
    value = "?" if vehicle.value_minor is None else text(vehicle.value_minor, vehicle.currency)
    how = ("" if vehicle.runs else "does not run", "" if vehicle.title == "clean" else f"title: {vehicle.title}")
    return (
        vehicle.stock_number,
        vehicle.name,
        size(vehicle),
        weight(vehicle),
        value.removesuffix(".00"),
        ", ".join(part for part in (vehicle.yard, *how) if part),
    )


def stock_json(answer: StockAnswer) -> str:
    """Return `{"vehicles": […], "problems": ["…"]}`."""
    vehicles = [asdict(vehicle) for vehicle in answer.vehicles]
    return to_json({"vehicles": vehicles, "problems": [str(problem) for problem in answer.problems]})


def place_lines(finding: Finding, look: Look) -> list[str]:
    """Return what a place was taken as, and its namesakes. The finding has a place."""
    place = finding.place
    assert place is not None, "a place that was found"
    entries = [
        ("Place", place_name(place)),
        ("Kind", place.kind),
        ("Found by", place.found_by),
        ("Country", place.country),
        ("Coordinates", f"{place.latitude:.4f}, {place.longitude:.4f}"),
    ]
    lines = pairs(look, entries)
    if finding.note:
        lines += ["", *paragraph(look, finding.note)]
    if finding.others:
        others = [f"{place_name(other)} ({other.latitude:.2f}, {other.longitude:.2f})" for other in finding.others]
        lines += [*heading(look, "Others of that name"), *bullets(look, others)]
    return lines


def place_json(finding: Finding) -> str:
    """Return `{"found": {Place} | null, "others": [{Place}], "suggestions": ["…"]}`."""
    found = asdict(finding.place) if finding.place is not None else None
    others = [asdict(other) for other in finding.others]
    return to_json({"found": found, "others": others, "suggestions": list(finding.suggestions)})


def unknown_place(finding: Finding) -> str:
    """Return the sentence for a place that is not known."""
    return sentence(finding.note.rstrip("."), remedy=finding.remedy)


def miles_lines(distance: Distance, look: Look) -> list[str]:
    """Return the distances, one a line, with how they were found."""
    road = "no road leads there"
    if distance.road_mi is not None:
        km = round(miles_to_km(distance.road_mi))
        road = f"{distance.road_mi:,} mi ({km:,} km), {distance.road_method}"
    entries = [
        ("From", _where(distance.start)),
        ("To", _where(distance.to)),
        ("Great circle", f"{distance.great_circle_mi:,.1f} mi"),
        ("Geodesic", f"{distance.geodesic_mi:,.1f} mi"),
        ("By road", road),
        ("Road factor", f"{distance.road_factor:.3f}" if distance.road_factor is not None else ""),
        ("Factor from", distance.road_cell or ""),
        ("By sea", f"{distance.sea_nmi:,} nmi" if distance.sea_nmi is not None else ""),
        ("Passages", ", ".join(distance.passages)),
    ]
    notes = ["", *bullets(look, distance.notes)] if distance.notes else []
    return [*pairs(look, entries), *notes]


def miles_json(distance: Distance) -> str:
    """Return the distance as design and other programs have it: see the keys below."""
    return to_json(
        {
            "from": asdict(distance.start),
            "to": asdict(distance.to),
            "great_circle_mi": round(distance.great_circle_mi, 2),
            "geodesic_mi": round(distance.geodesic_mi, 2),
            "road_mi": distance.road_mi,
            "road_method": distance.road_method,
            "road_factor": distance.road_factor,
            "road_cell": distance.road_cell,
            "road_expected_error": distance.road_expected_error,
            "sea_nmi": distance.sea_nmi,
            "passages": list(distance.passages),
            "notes": list(distance.notes),
        }
    )


def to_json(answer: dict[str, Any]) -> str:
    """Return an answer as JSON, letters as they are."""
    return json.dumps(answer, ensure_ascii=False, indent=2)


def _where(place: Place) -> str:
    return f"{place_name(place)} ({place.found_by})" if place.found_by else place_name(place)
