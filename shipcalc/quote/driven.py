"""A delivery by a hired driver, on the vehicle's own wheels: what must be said before its price, and what with it."""

from collections.abc import Iterator, Sequence

from shipcalc.quote.distances import Lane
from shipcalc.vehicles.vehicle import Vehicle

DRIVING = (
    (
        "Before it leaves: an inspection for the road by a workshop, plates or a permit that hold in every state on the way, and "
        "insurance for this driver and this vehicle, seen in writing. What is asked differs by state: ask the licensing offices."
    ),
    (
        "The driver keeps the hours of rest that the law asks for (in the United States 49 CFR 395 where it applies) and plans "
        "the road by the vehicle's height and weight; the posted limits and local rules count."
    ),
    "Read the odometer, and photograph the vehicle, with the driver at both ends.",
)


def before_driving(vehicles: Sequence[Vehicle], lanes: Sequence[Lane], lane_of: Sequence[int]) -> Iterator[str]:
    """Yield what may change the buyer's mind: the miles on each odometer, and papers without which nobody may drive."""
    for vehicle, lane in zip(vehicles, lane_of, strict=True):
        miles = lanes[lane].road.miles
        yield f"{vehicle.stock_number}: driven on its own wheels, which puts about {miles:,} miles on its odometer."
        if vehicle.title not in ("clean", "lien"):
            yield f"{vehicle.stock_number}: with this title ({vehicle.title}) a plate for the road may be refused; ask first."
