"""Transports overseas that single rows of a rate book ask for."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from itertools import islice, product
from typing import Any

from shipcalc.compare.basket import ROADSTER, SALOON, SMALL, Asked, Only, several, zip_place_of
from shipcalc.compare.basket_last_leg import over_a_zone, over_the_last_leg, places_over
from shipcalc.compare.basket_quotations import of_port_charge, of_quotation
from shipcalc.compare.conditions import at_the_edges, ocean_of, vehicle_for, wishes_for
from shipcalc.compare.trial import NEAR, Trial, cities_of, next_time, places_beside
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.gazetteer.pages import countries
from shipcalc.places.place import Place
from shipcalc.places.sea.ports import find_port
from shipcalc.ratebook.rows.containers import ContainerType
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
from shipcalc.ratebook.rows.imports import Country, EntryRule, Hold, ImportCharge
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.on_carriage import OnCarriage, is_for_the_country
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.ratebook.rows.ways import BorderPort, Gateway, PassageState
from shipcalc.records import replace
from shipcalc.trade import CROSSING_BY_MODE, Ocean
from shipcalc.vehicles.vehicle import WORKS, Vehicle

_BOTH: tuple[Ocean, ...] = ("roro", "container")
_TWO = (ROADSTER, replace(SALOON, stock_number="basket 2"))
_COUNTRIES_OF_A_STAGE = 3
# Behind Suez and Bab-el-Mandeb, behind Hormuz, behind Panama, in the Baltic and on the Black Sea.
_BEYOND_PASSAGES = ("SA", "JO", "KW", "JP", "FI", "RO")
_FIRST_YEAR = 1900
# From a vehicle's being ready to its ship, now and then.
_DAYS_BEFORE_A_SHIP = range(3, 45, 3)
# Above the sums from which countries tax a vehicle as a luxury.
_DEAR_MINOR = 30_000_000
# What some truck brings to a port.
_LONGEST_BY_TRUCK_MM, _HIGHEST_BY_TRUCK_MM, _HEAVIEST_BY_TRUCK_KG = 6_500, 2_250, 4_000


def _of_port(row: Port, trial: Trial) -> Iterator[Asked]:
    """Yield transports through the port alone: to a place beside it, or, where it ships, from each start across the sea."""
    served = [port for port in trial.book.ports if not port.exports and _is_served(row, port, trial)][:1]
    for start in trial.starts[:2]:
        for end in (place for port in (served if row.exports else [row]) for place in places_beside(port)):
            for ocean in _BOTH:
                for vehicles in ((ROADSTER,), _TWO):
                    how, only = f"port {row.name}, {ocean}", Only(port=row.port)
                    yield trial.asked(end, vehicles, start=start, how=how, only=only, released=True, ocean=ocean)


def _is_served(begin: Port, end: Port, trial: Trial) -> bool:
    return any(_same(row.from_region, begin.region) and _same(row.to_region, end.region) for row in trial.book.ocean)


def _of_ocean(row: OceanService, trial: Trial) -> Iterator[Asked]:
    """Yield the service by itself from a start to a port of its region: small and large, running and not."""
    kinds = [ROADSTER, SMALL, replace(ROADSTER, runs=False)]
    kinds.append(replace(SMALL, mass_grams=5_000, length_mm=500, height_mm=500))
    for field, limit in (
        ("length_mm", row.longest_mm),
        ("height_mm", row.highest_mm),
        ("mass_grams", row.heaviest_grams),
    ):
        for measure in (limit, limit + 1) if limit else ():
            changes: dict[str, Any] = {field: measure}
            kinds.append(replace(ROADSTER, **changes))
    for start, to in _ends_of(row, trial):
        only, ocean = Only(ocean=row.service), ocean_of(row.mode)
        one = partial(trial.asked, to, start=start, only=only, released=True, ocean=ocean)
        for ready in trial.days_valid(row):
            yield from (one(vehicle, ready=ready, how=f"by {row.service}") for vehicle in kinds)
            yield one(_TWO, ready=ready, how=f"two by {row.service}")


def _ends_of(row: OceanService, trial: Trial) -> Iterator[tuple[Place, Place]]:
    """Yield a place beside the first port of each end of a service; none where no port handles what it carries."""
    handling = [port for port in trial.book.ports if getattr(port, CROSSING_BY_MODE[row.mode].handled)]
    begins = [port for port in handling if port.exports and _same(port.region, row.from_region)]
    ends = [port for port in handling if not port.exports and _same(port.region, row.to_region)]
    for begin, end in zip(begins[:1], ends[:1], strict=False):
        yield from zip(places_beside(begin), places_beside(end), strict=False)


def _same(one: str, other: str) -> bool:
    return one.casefold() == other.casefold()


def _of_ferry_abroad(row: FerryAbroad, trial: Trial) -> Iterator[Asked]:
    """Yield transports to the port that the ferry ends at: by ship and all the way by truck, of one vehicle and of two."""
    island = find_port(row.to_port)
    assert island is not None, "a sound row ends at a port that is known"
    for start in trial.starts[:2]:
        for ocean in (None, *_BOTH):
            yield trial.asked(island, start=start, how=f"by the {row.ferry}", ocean=ocean)
        yield trial.asked(island, several(ROADSTER, 2), start=start, how=f"two by the {row.ferry}")


def _of_container(row: ContainerType, trial: Trial) -> Iterator[Asked]:
    """Yield one vehicle and several by container."""
    for count in (1, 2, 3):
        for to in (*cities_of("DE"), *cities_of("JP")):
            yield trial.asked(to, several(ROADSTER, count), how=f"{count} by container", ocean="container")
    for to in cities_of("DE"):
        for vehicles, how in _filling(row):
            yield trial.asked(to, vehicles, how=how, ocean="container")


def _filling(row: ContainerType) -> Iterator[tuple[Sequence[Vehicle], str]]:
    """Yield what just fits the container, and no smaller one, and what is a little too large; as far as trucks bring it."""
    count = 1 if row.inside_length_mm <= _LONGEST_BY_TRUCK_MM else 2
    room_mm = row.inside_length_mm - (count + 1) * row.end_clearance_mm
    edges = {
        "length_mm": room_mm // count,
        "width_mm": min(row.inside_width_mm, row.door_width_mm) - 2 * row.side_clearance_mm,
        "height_mm": row.door_height_mm - row.top_clearance_mm,
    }
    measures: dict[str, Any] = {**edges, "height_mm": min(edges["height_mm"], _HIGHEST_BY_TRUCK_MM)}
    fitting = replace(ROADSTER, **measures)
    yield several(fitting, count), f"just fits a {row.container}"
    for rest_mm in (room_mm % count, room_mm % count + 1):
        *others, last = several(fitting, count)
        yield (*others, replace(last, length_mm=edges["length_mm"] + rest_mm)), "length together at the edge"
    for field, edge in edges.items():
        for measure in (edge, edge + 1):
            changes: dict[str, Any] = {field: measure}
            yield several(replace(fitting, **changes), count), f"{field.removesuffix('_mm')} at the edge"
            yield several(replace(ROADSTER, **changes), count), f"{field.removesuffix('_mm')} alone at the edge"
    many = max(1, -(-row.payload_kg // _HEAVIEST_BY_TRUCK_KG))
    for grams in (row.payload_kg * 1000 // many, row.payload_kg * 1000 // many + 1):
        heavy = replace(fitting, length_mm=edges["length_mm"] * count // many - row.end_clearance_mm, mass_grams=grams)
        yield several(heavy, many), "weight at the edge"


def _of_loading(row: LoadingWay, trial: Trial) -> Iterator[Asked]:
    """Yield what the row loads, and what works a little less or more, by a service of each line, whoever pays for it."""
    fits = {work: getattr(row, work) is not False for work in WORKS}
    states = (fits, *({**fits, work: not fits[work]} for work in WORKS), dict.fromkeys(WORKS, False))
    vehicles = dict.fromkeys(replace(ROADSTER, **changes) for changes in states)  # type: ignore[arg-type]
    ocean, free = ocean_of(row.mode), "FOB" if ocean_of(row.mode) == "roro" else "FCA"
    services = [service for service in trial.book.ocean if service.mode == row.mode]
    for service in {service.carrier.casefold(): service for service in reversed(services)}.values():
        for start, to in _ends_of(service, trial):
            how, only = f"loaded as {row.code}, by {service.service}", Only(ocean=service.service)
            one = partial(trial.asked, to, start=start, how=how, only=only, released=True, ocean=ocean)
            yield from (one(vehicle, term=term) for vehicle in vehicles for term in (None, free, "DPU"))


def _of_stage(row: StageCharge, trial: Trial) -> Iterator[Asked]:
    """Yield shipments that the row's conditions ask for, to some countries in which it is charged and one in which it is not."""
    vehicle, how = vehicle_for(row, trial.day), f"stage charge {row.code}"
    charged = tuple(islice(_places_of_stage(row, trial), _COUNTRIES_OF_A_STAGE))
    titled = [replace(vehicle, title=title) for title in row.title]  # type: ignore[arg-type]
    for ocean in _BOTH:
        for to in charged:
            yield trial.asked(to, vehicle, how=f"{how}, {ocean}", ocean=ocean)
            # Who pays the stage is asked a price for it; the other only reads a sum.
            for term in ("EXW", "DDP"):
                yield trial.asked(to, vehicle, how=f"{how}, {ocean}, {term}", ocean=ocean, term=term)
        for one in titled:
            yield from (trial.asked(to, one, how=f"{how}, {one.title}, {ocean}", ocean=ocean) for to in charged[:1])
        for code in row.not_to_country[:1]:
            yield from (trial.asked(to, vehicle, how=f"beside {row.code}", ocean=ocean) for to in cities_of(code))
    for ocean, ready in product(_BOTH, _about_its_season(row, trial.day)):
        how = f"stage charge {row.code}, {ocean}, ready {ready}"
        yield from (trial.asked(to, vehicle, ready=ready, how=how, ocean=ocean) for to in charged[:1])


def _about_its_season(row: StageCharge, day: date) -> Iterator[date]:
    """Yield days of which a ship leaves about the first or the last day of the row's season: a few weeks later, they say."""
    edges = [next_time(edge, day) for edge in (row.season_from, row.season_to) if edge is not None]
    days = [edge - timedelta(days=earlier) for edge in edges for earlier in _DAYS_BEFORE_A_SHIP]
    yield from (ready for ready in days if ready >= day)


def _places_of_stage(row: StageCharge, trial: Trial) -> Iterator[Place]:
    """Yield cities of countries in which the row is charged; where it names none, of those that ships go to."""
    named = row.to_country or ("DE", "JP", "CA", *(port.country for port in trial.book.ports if not port.exports))
    for country in dict.fromkeys(code.upper() for code in named):
        if country not in row.not_to_country and country not in trial.held:
            yield from cities_of(country)


def _of_country(row: Country | ImportCharge | EntryRule | Hold | OnCarriage | Gateway, trial: Trial) -> Iterator[Asked]:
    """Yield an old and a young vehicle, a motorcycle and one built there, to the country."""
    to = _place_named(row)
    if to is None:
        return
    if isinstance(row, OnCarriage) and not is_for_the_country(row):
        yield from over_a_zone(row, trial)
        return
    old = replace(ROADSTER, year=1955, engine_cc=1_600, original_state=True)
    kinds = (
        old,
        replace(old, year=trial.day.year - 3, engine_cc=3_500),
        replace(old, model="Motorcycle", body="motorcycle", engine_cc=500, mass_grams=200_000),
        replace(old, built_in=row.country),
        replace(old, built_in="US"),
        replace(old, year=trial.day.year - 3, value_minor=_DEAR_MINOR),
        replace(vehicle_for(row, trial.day, old), model="Motorcycle", body="motorcycle", mass_grams=200_000),
    )
    for vehicle in (*kinds, *_at_the_ages(row, old, trial)):
        built = f", built in {vehicle.built_in}" if vehicle.built_in else ""
        how = f"{vehicle.year}, {vehicle.body or 'car'}{built}"
        yield trial.asked(to, vehicle, how=how)
        if to.country in trial.held:
            yield trial.asked(to, vehicle, how=f"{how}, released", released=True, let_in=False)
    yield trial.asked(to, old, how="enclosed", released=True, trailer="enclosed")
    if isinstance(row, OnCarriage):
        yield from over_the_last_leg(row, old, trial)


def _at_the_ages(row: Any, vehicle: Vehicle, trial: Trial) -> Iterator[Vehicle]:
    """Yield the vehicle at the ages and engines at which the row begins and ends to hold."""
    met = replace(vehicle_for(row, trial.day, vehicle), year=vehicle.year, engine_cc=vehicle.engine_cc)
    young = replace(met, year=trial.day.year - 3)
    # What is charged under a treatment may be asked of old ones alone, which are collector's pieces, or be asked of them too.
    for one in (young, met) if hasattr(row, "treatment") else (young,):
        yield one
        edges = sorted({edge.engine_cc or 1 for edge in at_the_edges(row, one, trial.day)})
        for engine_cc in (None, 1, *edges):
            yield replace(one, engine_cc=engine_cc)
            for country in getattr(row, "not_built_in", ())[:1]:
                yield replace(one, engine_cc=engine_cc, built_in=country)
    for edge in at_the_edges(row, young, trial.day):
        if edge.year is not None and edge.year > _FIRST_YEAR:
            yield edge
    collector = getattr(row, "collector_from_years", None)
    for years in (collector - 1, collector, collector + 1) if collector else ():
        yield replace(young, year=trial.day.year - years)


def _place_named(row: Any) -> Place | None:
    """Return the place of a hold on a part of a country, or else the country's largest city."""
    part, home = getattr(row, "subdivision", None), countries().get(row.country.upper())
    named = find_place(f"{part}, {home.name}").place if part and home is not None else None
    return named or next(iter(cities_of(row.country)), None)


def _of_cover(row: MarineCover, trial: Trial) -> Iterator[Asked]:
    """Yield shipments under the conditions, of a modest value and of a high one."""
    for to in cities_of("DE"):
        for value in (500_000, 30_000_000):
            for ocean in _BOTH:
                vehicle, how = replace(ROADSTER, value_minor=value), f"cover {row.conditions}, {ocean}"
                yield trial.asked(to, vehicle, how=how, **wishes_for(row) | {"ocean": ocean})


def _of_currency(row: Currency, trial: Trial) -> Iterator[Asked]:
    """Yield a quote in the currency, and one to a country that has it."""
    own = (country.country for country in trial.book.countries if _same(country.currency, row.currency))
    there = (to for country in own for to in cities_of(country))
    for to in (zip_place_of(NEAR), *islice(there, 1)):
        yield trial.asked(to, how=f"in {row.currency}", currency=row.currency)


def _of_passage(row: PassageState, trial: Trial) -> Iterator[Asked]:
    """Yield transports to countries beyond the passages that the sheet is for."""
    for country in _BEYOND_PASSAGES:
        for to in cities_of(country):
            for ocean in _BOTH:
                yield trial.asked(to, how=f"{row.passage}, to {country}, {ocean}", ocean=ocean)


def _of_border(row: BorderPort, trial: Trial) -> Iterator[Asked]:
    """Yield transports by truck to places just over the border, so that this crossing is on the way, on each day of a week."""
    for to in places_over(row):
        for trailer in ("open", "enclosed"):
            yield trial.asked(to, how=f"by {row.crossing}", trailer=trailer)
    # On most days the next crossing is open as long: where this one lies shows when it alone is shut.
    for to, days in product(islice(places_over(row), 1), range(1, 7)):
        ready = trial.day + timedelta(days=days)
        yield trial.asked(to, ready=ready, how=f"by {row.crossing}, ready {ready}", trailer="open")


Makers = Mapping[str, Callable[[Any, Trial], Iterator[Asked]]]

OVERSEAS_MAKERS: Makers = {
    "ports": _of_port,
    "ocean": _of_ocean,
    "quotations": of_quotation,
    "port_charges": of_port_charge,
    "containers": _of_container,
    "loading_ways": _of_loading,
    "stage_charges": _of_stage,
    "on_carriage": _of_country,
    "ferries_abroad": _of_ferry_abroad,
    "marine_cover": _of_cover,
    "currencies": _of_currency,
    "countries": _of_country,
    "import_charges": _of_country,
    "entry_rules": _of_country,
    "holds": _of_country,
    "gateways": _of_country,
    "passages": _of_passage,
    "border_ports": _of_border,
}
