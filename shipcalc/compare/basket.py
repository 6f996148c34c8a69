"""A basket of transports to price by two rate books: a spread of vehicles and places, and what single rows ask for.

The vehicles are invented; each stands for a way of being priced. The places are ordinary ZIPs of the contiguous states and
cities overseas.
"""

from collections.abc import Iterator, Sequence
from datetime import date

from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.place import Place
from shipcalc.quote.model import Wishes
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.request import Request
from shipcalc.records import dataclass, replace
from shipcalc.vehicles.vehicle import Vehicle


@dataclass(frozen=True, slots=True)
class Only:
    """What is looked at by itself, as if there were no other: a truck service, an ocean service, a port (its UN/LOCODE).

    `leaves` is the port that it leaves from, beside `port` where it arrives.
    """

    carrier: str = ""
    trailer: str = ""
    ocean: str = ""
    port: str = ""
    leaves: str = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """One transport of a basket. `only` says what is looked at by itself, if anything.

    `promised` is what an open quote came to; None for what nobody was promised.
    """

    name: str
    request: Request
    only: Only | None = None
    promised: str | None = None


def built_in_basket(starts: Sequence[Place], as_of: date) -> tuple[Asked, ...]:
    """Return the spread: at home, every vehicle from every start to some places; overseas, two vehicles in every way."""
    return (*_at_home(starts, as_of), *_overseas(starts, as_of))


def places_at_home() -> tuple[Place, ...]:
    """Return a place in every contiguous state."""
    return tuple(zip_place_of(code) for code in HOME)


def named(vehicle: Vehicle, to: Place, *, how: str = "") -> str:
    """Return what a transport of the basket is called: `Roadster to Bozeman, MT 59715`."""
    where = ", ".join(part for part in (to.name, to.subdivision if to.country == "US" else to.country) if part)
    code = f" {to.postal_code}" if to.country == "US" and to.postal_code else ""
    return f"{vehicle.model} to {where}{code}{f', {how}' if how else ''}"


def transport(
    vehicles: Sequence[Vehicle], start: Place, to: Place, ready: date, wishes: Wishes, *, how: str = ""
) -> Asked:
    """Return one transport of the basket."""
    request = Request(
        vehicles=tuple(vehicles), starts=(start,) * len(vehicles), to=to, ready=ready, wishes=wishes, notes=()
    )
    return Asked(named(vehicles[0], to, how=how), request)


def several(vehicle: Vehicle, count: int) -> tuple[Vehicle, ...]:
    """Return so many of a vehicle, each with a stock number of its own."""
    return tuple(replace(vehicle, stock_number=f"basket {n}" if n else "basket") for n in range(count))


def _at_home(starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield each place once, with vehicles and starts in turn, so that few quotes meet many prices."""
    for number, to in enumerate(places_at_home()):
        vehicle, start = VEHICLES[number % len(VEHICLES)], starts[(number + number // len(VEHICLES)) % len(starts)]
        if (start.name, start.postal_code) != (to.name, to.postal_code):
            yield transport((vehicle,), start, to, as_of, Wishes())
    start, to = starts[0], zip_place_of(HOME[9])
    for how, wishes in WISHES.items():
        yield transport((ROADSTER,), start, to, as_of, wishes, how=how)
    pair = (ROADSTER, replace(SALOON, stock_number="basket 2"))
    yield transport(pair, start, to, as_of, Wishes(), how="with a saloon")


def _overseas(starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    for number, text in enumerate(OVERSEAS):
        to = find_place(text).place
        if to is None or is_home(to.country, to.subdivision):
            continue
        start = starts[number % len(starts)]
        yield transport((ROADSTER,), start, to, as_of, Wishes(ocean="roro"), how="by RoRo")
        yield transport((ROADSTER,), start, to, as_of, Wishes(ocean="container"), how="by container")
        yield transport((VEHICLES[number % len(VEHICLES)],), start, to, as_of, Wishes())


def zip_place_of(code: str) -> Place:
    """Return the place of a ZIP that is known to be one."""
    place = find_place(code).place
    assert place is not None, f"{code} is a ZIP"
    return place


def _vehicle(model: str, sizes: str, value: int, *, year: int = 1962, runs: bool = True, works: bool = True) -> Vehicle:
    length, width, height, clearance, kg = (int(part) for part in sizes.split())
    return Vehicle(
        stock_number="basket",
        year=year,
        make="",
        model=model,
        length_mm=length,
        width_mm=width,
        height_mm=height,
        clearance_mm=clearance,
        mass_grams=kg * 1000,
        runs=runs,
        rolls=works,
        steers=works,
        brakes=works,
        value_minor=value * 100,
    )


# Length, width, height, ground clearance in mm, mass in kg, and dollars; all invented.
ROADSTER = _vehicle("Roadster", "3900 1530 1250 140 920", 38_000)
SALOON = _vehicle("Saloon", "4700 1800 1450 150 1500", 24_000, year=1974)
LARGE = _vehicle("Bus", "7400 2300 2600 260 4400", 250_000, year=1957)
SMALL = _vehicle("Small one", "2000 700 1000 90 120", 2_000, year=1958)
VEHICLES = (
    ROADSTER,
    _vehicle("Low coupe", "4200 1750 1120 95 1150", 180_000, year=1968),
    SALOON,
    _vehicle("Land yacht", "5750 2030 1430 160 2250", 46_000, year=1959),
    _vehicle("Camper", "4600 1780 1980 190 1600", 52_000, year=1971),
    _vehicle("Motorcycle", "2150 800 1100 150 210", 12_000, year=1955),
    _vehicle("Barn find", "4300 1650 1400 150 1200", 15_000, year=1951, runs=False),
    _vehicle("Barn find without brakes", "4400 1700 1420 150 1300", 9_000, year=1949, runs=False, works=False),
)

WISHES = {
    "open": Wishes(trailer="open"),
    "enclosed": Wishes(trailer="enclosed"),
    "with a lift gate": Wishes(lift_gate=True),
    "limited access": Wishes(limited_access=True),
    "express": Wishes(express=True),
}

# A ZIP in every contiguous state and the District of Columbia.
HOME = tuple(
    "36104 85004 72201 95814 80202 06103 19901 20001 32301 30303 83702 62701 46204 50309 66603 40601 70802 04330 21401 "
    "02108 48933 55101 39201 65101 59601 68508 89701 03301 08608 87501 12207 27601 58501 43215 73102 97301 17101 02903 "
    "29201 57501 37219 78701 84111 05602 23219 98501 25301 53703 82001".split()
)
OVERSEAS = (
    "Bremerhaven, Germany",
    "Southampton, England",
    "Rotterdam, Netherlands",
    "Le Havre, France",
    "Gothenburg, Sweden",
    "Yokohama, Japan",
    "Sydney, Australia",
    "Auckland, New Zealand",
    "Dubai, United Arab Emirates",
    "Zurich, Switzerland",
    "Toronto, Canada",
    "Honolulu, HI",
    "Anchorage, AK",
    "San Juan, Puerto Rico",
)
