"""How the vehicles of a quote are loaded, in words: one way for each, and what must be known of it before the price."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from shipcalc.quote.model import Loaded
from shipcalc.vehicles.vehicle import AS_DESCRIBED, Vehicle, what_fails

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.loading import LoadingWay
    from shipcalc.ratebook.rows.on_carriage import OnCarriage

_WINCH = "Truck with a winch; somebody at the wheel"
# 49 CFR 393.128(a): automobiles, light trucks and vans "which individually weigh 4,536 kg (10,000 lb) or less".
_HEAVIEST_CAR_GRAMS = 4_536_000
_SKATES = "Winch, skates or a forklift, level ground at both ends"


def on_truck(vehicles: Sequence[Vehicle]) -> tuple[Loaded, ...]:
    """Return how each vehicle goes onto a truck: driven, winched, or over skates."""
    return tuple(_on_truck(vehicle) for vehicle in vehicles)


def _on_truck(vehicle: Vehicle) -> Loaded:
    if vehicle.drives:
        return Loaded(vehicle=vehicle.stock_number, way="truck", how="driven onto the truck")
    if vehicle.rolls:
        return Loaded(vehicle=vehicle.stock_number, way="truck", how="winched onto the truck", equipment=_WINCH)
    return Loaded(
        vehicle=vehicle.stock_number, way="truck", how="winched onto the truck over skates", equipment=_SKATES
    )


def on_own_wheels(vehicles: Sequence[Vehicle]) -> tuple[Loaded, ...]:
    """Return that each vehicle is driven to the buyer, and loaded onto nothing."""
    return tuple(Loaded(vehicle=v.stock_number, way="own wheels", how="driven on its own wheels") for v in vehicles)


def on_ship(vehicles: Sequence[Vehicle], ways: "Sequence[LoadingWay]") -> tuple[Loaded, ...]:
    """Return how each vehicle goes onto a ship or into a container, by the row that was chosen for it."""
    return tuple(
        Loaded(vehicle=vehicle.stock_number, way=way.loading, how=way.how, equipment=way.equipment or "")
        for vehicle, way in zip(vehicles, ways, strict=True)
    )


def in_short(loading: Sequence[Loaded]) -> str:
    """Return how all go, if they go alike: `in tow`; else which goes how: `HV-1 driven aboard, HV-2 in tow`."""
    ways = dict.fromkeys(one.how for one in loading)
    if len(ways) == 1:
        return next(iter(ways))
    return ", ".join(f"{one.vehicle} {one.how}" for one in loading)


def is_driven(loading: Sequence[Loaded], vehicles: Sequence[Vehicle]) -> bool:
    """Return whether every vehicle goes by its own means, which needs no words."""
    return all(vehicle.drives for vehicle in vehicles) and not any(one.way == "static" for one in loading)


def on_the_other_side(
    vehicles: Sequence[Vehicle], ways: "Sequence[LoadingWay]", last_leg: "OnCarriage | None", ends_at: str
) -> Iterator[str]:
    """Yield what is not priced of unloading what cannot be driven; `ends_at` names the port where nobody carries it on."""
    for vehicle, way in zip(vehicles, ways, strict=True):
        if vehicle.drives:
            continue
        told = f"{vehicle.stock_number} {what_fails(vehicle)}"
        if way.unloading_minor is None:
            yield f"{told}: taking it off at arrival is not in the price; the terminal there must agree to it first."
        needs = "a winch" if vehicle.rolls else "a forklift or skates, and a winch"
        if ends_at:
            yield f"{told}: whoever collects it in {ends_at} needs {needs}; that is not in the price."
        elif last_leg is not None and (last_leg.winch_minor if vehicle.rolls else last_leg.skates_minor) is None:
            yield f"{told}: the truck there and the place of delivery need {needs}; that is not in the price."


def on_the_road(vehicles: Sequence[Vehicle]) -> Iterator[str]:
    """Yield what is minded on a truck and at its end: what cannot be driven off, what is heavy."""
    yield from at_the_door(vehicles)
    yield from secured_as_heavy(vehicles)


def at_the_door(vehicles: Sequence[Vehicle]) -> Iterator[str]:
    """Yield what the place of delivery needs for what cannot be driven off a truck."""
    for vehicle in vehicles:
        if not vehicle.drives:
            what = (
                "comes off by winch: keep the street in front free, and have somebody there who can move it on"
                if vehicle.rolls
                else "comes off over skates or by forklift: it needs level, firm ground, and stays where it is set down"
            )
            yield f"{vehicle.stock_number} {what_fails(vehicle)}, and {what}."


def secured_as_heavy(vehicles: Sequence[Vehicle]) -> Iterator[str]:
    """Yield which vehicles the rules of the road have secured as heavy equipment, since they weigh more than a car may."""
    for vehicle in vehicles:
        if (vehicle.mass_grams or 0) > _HEAVIEST_CAR_GRAMS:
            yield (
                f"{vehicle.stock_number} weighs more than 10,000 lb: on a truck in the United States it is secured as heavy "
                "equipment, by at least four tiedowns (49 CFR 393.130), not as a car; the carrier must know its weight."
            )


def taken_to_work(vehicle: Vehicle) -> Iterator[str]:
    """Yield that a vehicle of no stock list is taken to work, where nobody said otherwise."""
    if vehicle.stock_number == AS_DESCRIBED and vehicle.drives:
        yield (
            f"{vehicle.stock_number}: assumed to run, roll, steer and brake; if it does not, it is loaded another way, "
            "at another price."
        )
