"""The sentences a quote carries beyond its figures: what is included, what is not, and the cautions."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from shipcalc.money import with_code
from shipcalc.places.road.miles import RoadDistance
from shipcalc.quote.explain.loading import taken_to_work
from shipcalc.quote.network.distances import Lane
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.vehicles.sizes import SIZE_FIELDS, missing_sizes
from shipcalc.vehicles.vehicle import Vehicle

SECURING = (
    "Loading and securing are the carrier's work under the rules in force where the truck drives (in the United States "
    "49 CFR 393); nobody else should tie down, loosen or ride in a vehicle on a trailer."
)
HANDING_OVER = (
    "Hand the vehicle over with {energy}, no leaks, the battery secured, the alarm off and nothing "
    "loose inside; tell the carrier about anything that may move, drip or catch fire."
)
COVER_ENDS = (
    "Cargo cover ends at the sum named and has exclusions. Ask for the carrier's certificate, and ask your own insurer "
    "whether it is enough for this vehicle."
)
RECEIPT = "Note any damage on the delivery receipt before you sign it; a clean receipt makes a claim hard to prove."
WINDOWS = "Dates are windows, not promises: weather, roads and the carrier's other stops move them."
RULES_OF_THE_STATE = (
    "Title, registration and tax rules are the state's: ask your motor vehicle office or a licensed adviser."
)


def cautions(request: Request) -> tuple[str, ...]:
    """Return what is said with every quote at home: where somebody could be hurt, lose money or break a rule."""
    return (SECURING, handing_over(request), COVER_ENDS, RECEIPT, WINDOWS, RULES_OF_THE_STATE)


def handing_over(request: Request) -> str:
    """Return in which state a vehicle is given to a truck."""
    charge = "no more charge than the carrier asks"
    return HANDING_OVER.format(energy=charge if is_all_electric(request) else "about a quarter tank of fuel")


def is_all_electric(request: Request) -> bool:
    """Return whether nothing of the shipment has a tank."""
    return all(vehicle.fuel == "electric" for vehicle in request.vehicles)


def included(request: Request, cover_minor: int, currency: str, *, has_fuel: bool) -> tuple[str, ...]:
    """Return what the price of a home transport contains; `has_fuel`: a surcharge for fuel is among its lines."""
    door = (
        "to the nearest place the truck can reach"
        if request.wishes.limited_access
        else "door to door, as near as the truck can safely come"
    )
    lines = [
        f"Transport {door}.",
        *(["The fuel surcharge, at the price of diesel named in the lines."] if has_fuel else []),
        f"The carrier's cargo cover up to {with_code(cover_minor, currency)} for each vehicle.",
        "Condition reports with photographs at pickup and at delivery.",
    ]
    if request.wishes.lift_gate:
        lines.append("Loading and unloading with a lift gate.")
    return tuple(lines)


def raised_cover(more: Decimal | None, cover_minor: int, currency: str) -> Iterator[str]:
    """Yield what cover above the carrier's own costs, where it is in the price."""
    if more is not None:
        yield (
            f"Cover for the rest, up to {with_code(cover_minor, currency)}: {more:,} {currency} of the price. The excess and the "
            "exclusions of its certificate hold; ask for it before pickup, and your own insurer whether it does for you."
        )


def not_included(request: Request, cover_minor: int, currency: str, *, covers_value: bool) -> tuple[str, ...]:
    """Return what the price of a home transport does not contain; before the colon in the few words of the first answer.

    `covers_value`: a line adds cover up to what the vehicles are worth.
    """
    values = [vehicle.value_minor for vehicle in request.vehicles]
    lines = [
        "Tax, title and registration: sales or use tax and what your state asks for.",
        "Storage: also a second trip, if nobody can receive the vehicle in the delivery window.",
    ]
    if not covers_value and any(value is None or value > cover_minor for value in values):
        lines.append(f"Cover above {with_code(cover_minor, currency)}: what a vehicle is worth beyond that.")
    if not request.wishes.lift_gate:
        lines.append("Lift gate: tell us if the vehicle cannot be driven or rolled over a ramp.")
    return tuple(lines)


def title_warnings(vehicles: Sequence[Vehicle]) -> Iterator[str]:
    """Yield what a title that is not in hand means for handing the vehicles over."""
    for vehicle in vehicles:
        if vehicle.title == "lien":
            yield f"{vehicle.stock_number} has a lien: it leaves only with the lienholder's release in hand."
        if vehicle.title in ("missing", "bill of sale only"):
            yield f"{vehicle.stock_number}: the title is not at hand; ask the buyer's state what it accepts."


def assumptions(request: Request, book: RateBook, lanes: Sequence[Lane]) -> Iterator[str]:
    """Yield everything that was taken for granted, one sentence each."""
    yield from request.notes
    for vehicle in request.vehicles:
        yield from vehicle_assumptions(vehicle)
    for lane in lanes:
        yield road_sentence(lane.start.name, lane.to.name, lane.road)
        if lane.need:
            yield lane.need


def vehicle_assumptions(vehicle: Vehicle) -> Iterator[str]:
    """Yield what was taken for granted about one vehicle."""
    assumed = [SIZE_FIELDS[field] for field in vehicle.assumed]
    if assumed:
        yield (
            f"{vehicle.stock_number}: {_listed(assumed)} taken from the typical sizes of the body {vehicle.body}; "
            "measure before loading."
        )
    unknown = [SIZE_FIELDS[field] for field in missing_sizes(vehicle)]
    if unknown:
        yield f"{vehicle.stock_number}: {_listed(unknown)} not known; taken as ordinary."
    yield from taken_to_work(vehicle)
    if vehicle.value_minor is None:
        yield f"{vehicle.stock_number}: value not known; cover was not compared with it."


def road_sentence(start: str, to: str, road: RoadDistance) -> str:
    """Return how far a road is, and how that was found."""
    note = f" ({road.note})" if road.note else ""
    miles = f"{road.miles:,} road {'mile' if road.miles == 1 else 'miles'}"
    return f"{start} to {to}: {miles} for {road.great_circle_mi:,.0f} in a straight line{note}."


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
