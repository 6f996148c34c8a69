"""A delivery by a hired driver, on the vehicle's own wheels: what must be said before its price, and what with it."""

from collections.abc import Iterator, Sequence

from shipcalc.money import with_code
from shipcalc.quote.network.distances import Lane
from shipcalc.vehicles.vehicle import Vehicle

DRIVING = (
    (
        "Before it leaves: an inspection for the road by a workshop, plates or a permit that hold in every state on the way, and "
        "insurance for this driver and this vehicle, seen in writing. Requirements differ by state: ask the licensing offices."
    ),
    (
        "The driver keeps the hours of rest that the law asks for (in the United States 49 CFR 395 where it applies) and plans "
        "the road by the vehicle's height and weight; the posted limits and local rules count."
    ),
    "Read the odometer, and photograph the vehicle, with the driver at both ends.",
)


def included(cover_minor: int, currency: str) -> tuple[str, ...]:
    """Return what the price of a driven delivery contains."""
    return (
        "The driver door to door, with nights on the way; fuel for the vehicle, estimated by the mile.",
        "An inspection for the road and a temporary plate, as far as they stand among the lines.",
        f"The driver's own insurance of the vehicle up to {with_code(cover_minor, currency)}: ask what it excludes.",
        "Condition reports with photographs and odometer at both ends.",
    )


def not_included(on_a_truck: tuple[str, ...]) -> tuple[str, ...]:
    """Return what the price does not contain: what it would not on a truck, without what only a truck has; and the wear."""
    kept = (line for line in on_a_truck if not line.startswith("Lift gate"))
    return (*kept, "Repairs on the way: also towing, and tolls and parking beyond what the lines name.")


def before_driving(vehicles: Sequence[Vehicle], lanes: Sequence[Lane], lane_of: Sequence[int]) -> Iterator[str]:
    """Yield what may change the buyer's mind: the miles on each odometer, and papers without which nobody may drive."""
    for vehicle, lane in zip(vehicles, lane_of, strict=True):
        miles = lanes[lane].road.miles
        yield f"{vehicle.stock_number}: driven on its own wheels, which puts about {miles:,} miles on its odometer."
        if vehicle.title not in ("clean", "lien"):
            yield f"{vehicle.stock_number}: with this title ({vehicle.title}) a plate for the road may be refused; ask first."
