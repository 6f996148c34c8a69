"""Transports overseas that single rows of a rate book ask for."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from itertools import islice
from typing import Any, cast

from shipcalc.compare.basket import ROADSTER, SALOON, SMALL, Asked, Only, several, transport
from shipcalc.compare.basket_last_leg import over_the_last_leg
from shipcalc.compare.basket_places import NEAR, city_of, days_valid, held_countries, released, zip_place_of
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.gazetteer.pages import countries
from shipcalc.places.place import Place
from shipcalc.places.sea.ports import find_port
from shipcalc.quote.model import Wishes
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.containers import ContainerType
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
from shipcalc.ratebook.rows.imports import Country, EntryRule, Hold, ImportCharge
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.ports import Port
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.ratebook.rows.ways import PassageState
from shipcalc.records import replace
from shipcalc.trade import Conditions, Ocean
from shipcalc.vehicles.vehicle import WORKS, TitleKind, Vehicle

_BOTH: tuple[Ocean, ...] = ("roro", "container")
_COUNTRIES_OF_A_STAGE = 3
# Behind Suez and Bab-el-Mandeb, behind Hormuz, behind Panama, in the Baltic and on the Black Sea.
_BEYOND_PASSAGES = ("SA", "JO", "KW", "JP", "FI", "RO")
_FIRST_YEAR = 1900
# Above the sums from which countries tax a vehicle as a luxury.
_DEAR_MINOR = 30_000_000
# What some truck brings to a port.
_LONGEST_BY_TRUCK_MM, _HIGHEST_BY_TRUCK_MM, _HEAVIEST_BY_TRUCK_KG = 6_500, 2_250, 4_000


def _of_port(row: Port, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield transports through the port alone: to a place beside it, or, where it ships, from each start across the sea."""
    beside, only = find_place(f"{row.latitude:.3f}, {row.longitude:.3f}").place, Only(port=row.port)
    if row.exports:
        served = [port for port in book.ports if not port.exports and _is_served(row, port, book)]
        ends = [find_place(f"{port.latitude:.3f}, {port.longitude:.3f}").place for port in served[:1]]
        lanes = [(start, end) for start in starts[:2] for end in ends]
    else:
        lanes = [(start, beside) for start in starts[:2]]
    for begin, end in lanes:
        for ocean in _BOTH:
            for vehicles in ((ROADSTER,), (ROADSTER, replace(SALOON, stock_number="basket 2"))):
                if end is not None:
                    wishes = released(Wishes(ocean=ocean), end, book)
                    asked = transport(vehicles, begin, end, as_of, wishes, how=f"port {row.name}, {ocean}")
                    yield replace(asked, only=only)


def _is_served(begin: Port, end: Port, book: RateBook) -> bool:
    wanted = (begin.region.casefold(), end.region.casefold())
    return any((row.from_region.casefold(), row.to_region.casefold()) == wanted for row in book.ocean)


def _of_ocean(row: OceanService, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield the service by itself from a start to a port of its region: small and large, running and not."""
    ends = _ends_of(row, book)
    if ends is None:
        return
    start, to = ends
    wishes = released(Wishes(ocean="roro" if row.mode == "roro" else "container"), to, book)
    limits = ("length_mm", row.longest_mm), ("height_mm", row.highest_mm), ("mass_grams", row.heaviest_grams)
    kinds = [
        ROADSTER,
        SMALL,
        replace(ROADSTER, runs=False),
        replace(SMALL, mass_grams=5_000, length_mm=500, height_mm=500),
    ]
    for field, limit in limits:
        for measure in (limit, limit + 1) if limit else ():
            changes: dict[str, Any] = {field: measure}
            kinds.append(replace(ROADSTER, **changes))
    only = Only(ocean=row.service)
    for ready in days_valid(row.valid_from, row.valid_to, as_of):
        for vehicle in kinds:
            yield replace(transport((vehicle,), start, to, ready, wishes, how=f"by {row.service}"), only=only)
        two = (ROADSTER, replace(SALOON, stock_number="basket 2"))
        yield replace(transport(two, start, to, ready, wishes, how=f"two by {row.service}"), only=only)


def _ends_of(row: OceanService, book: RateBook) -> tuple[Place, Place] | None:
    """Return a place beside the first port of each end of a service; None where no port handles what it carries."""
    handling = [port for port in book.ports if (port.roro if row.mode == "roro" else port.container)]
    begin = next((port for port in handling if port.exports and _same(port.region, row.from_region)), None)
    end = next((port for port in handling if not port.exports and _same(port.region, row.to_region)), None)
    if begin is None or end is None:
        return None
    start, to = (find_place(f"{port.latitude:.3f}, {port.longitude:.3f}").place for port in (begin, end))
    return None if start is None or to is None else (start, to)


def _same(one: str, other: str) -> bool:
    return one.casefold() == other.casefold()


def _of_ferry_abroad(row: FerryAbroad, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield transports to the port that the ferry ends at: by ship and all the way by truck, of one vehicle and of two."""
    island = find_port(row.to_port)
    for start in starts[:2] if island is not None else ():
        assert island is not None, "a sound row ends at a port that is known"
        for ocean in (None, *_BOTH):
            yield transport((ROADSTER,), start, island, as_of, Wishes(ocean=ocean), how=f"by the {row.ferry}")
        yield transport(several(ROADSTER, 2), start, island, as_of, Wishes(), how=f"two by the {row.ferry}")


def _of_container(row: ContainerType, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield one vehicle and several by container."""
    for count in (1, 2, 3):
        for country in ("DE", "JP"):
            to = city_of(country)
            if to is not None:
                yield transport(
                    several(ROADSTER, count),
                    starts[0],
                    to,
                    as_of,
                    Wishes(ocean="container"),
                    how=f"{count} by container",
                )
    to = city_of("DE")
    for vehicles, how in _at_the_edges(row) if to is not None else ():
        assert to is not None, "Germany has cities"
        yield transport(vehicles, starts[0], to, as_of, Wishes(ocean="container"), how=how)


def _at_the_edges(row: ContainerType) -> Iterator[tuple[Sequence[Vehicle], str]]:
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


def _of_loading(row: LoadingWay, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield what the row loads, and what works a little less or more, by a service of each line, whoever pays for it."""
    fits = {work: getattr(row, work) is not False for work in WORKS}
    states = (fits, *({**fits, work: not fits[work]} for work in WORKS), dict.fromkeys(WORKS, False))
    services = [service for service in book.ocean if service.mode == row.mode]
    for service in {service.carrier.casefold(): service for service in reversed(services)}.values():
        ends = _ends_of(service, book)
        if ends is None:
            continue
        ocean: Ocean = "roro" if row.mode == "roro" else "container"
        for state in dict.fromkeys(tuple(state.items()) for state in states):
            vehicle = replace(ROADSTER, **dict(state))  # type: ignore[arg-type]
            for term in (None, "FOB", "DPU"):
                wishes = released(
                    Wishes(ocean=ocean, term=term if ocean == "roro" or term != "FOB" else "FCA"), ends[1], book
                )
                asked = transport((vehicle,), *ends, as_of, wishes, how=f"loaded as {row.code}, by {service.service}")
                yield replace(asked, only=Only(ocean=service.service))


def _of_stage(row: StageCharge, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a shipment that the row's conditions ask for."""
    changes: dict[str, object] = {}
    if row.runs is not None:
        changes["runs"] = row.runs
    if row.year_up_to is not None:
        changes["year"] = row.year_up_to
    vehicle = replace(ROADSTER, **changes)  # type: ignore[arg-type]
    to = next(_places_of_stage(row, book), None)
    for title in row.title if to is not None else ():
        titled = replace(vehicle, title=cast("TitleKind", title))
        assert to is not None, "without a place no title is asked for"
        yield from _both_ways(starts[0], to, as_of, f"stage charge {row.code}, {title}", titled)
    how = f"stage charge {row.code}"
    for to in islice(_places_of_stage(row, book), _COUNTRIES_OF_A_STAGE):
        yield from _both_ways(starts[0], to, as_of, how, vehicle)
        # Who pays the stage is asked a price for it; the other only reads a sum.
        for ocean in _BOTH:
            for term in ("EXW", "DDP"):
                wishes = Wishes(ocean=ocean, term=term)
                yield transport((vehicle,), starts[0], to, as_of, wishes, how=f"{how}, {ocean}, {term}")
    for code in row.not_to_country[:1]:
        beside = city_of(code)
        if beside is not None:
            yield from _both_ways(starts[0], beside, as_of, f"beside {row.code}", vehicle)


def _places_of_stage(row: StageCharge, book: RateBook) -> Iterator[Place]:
    """Yield cities of countries in which the row is charged; where it names none, of those that ships go to."""
    named = row.to_country or ("DE", "JP", "CA", *(port.country for port in book.ports if not port.exports))
    for country in dict.fromkeys(code.upper() for code in named):
        to = city_of(country)
        if to is not None and country not in row.not_to_country and country not in held_countries(book):
            yield to


def _of_country(
    row: Country | ImportCharge | EntryRule | Hold | OnCarriage,
    book: RateBook,
    starts: Sequence[Place],
    as_of: date,
) -> Iterator[Asked]:
    """Yield an old and a young vehicle, a motorcycle and one built there, to the country."""
    to = _place_named(row) or city_of(row.country)
    if to is None:
        return
    old = replace(ROADSTER, year=1955, engine_cc=1_600, original_state=True)
    kinds = (
        old,
        replace(old, year=as_of.year - 3, engine_cc=3_500),
        replace(old, model="Motorcycle", body="motorcycle", engine_cc=500, mass_grams=200_000),
        replace(old, built_in=row.country),
        replace(old, built_in="US"),
        replace(old, year=as_of.year - 3, value_minor=_DEAR_MINOR),
    )
    for vehicle in (*kinds, *_at_the_ages(row, old, as_of)):
        told = f"{vehicle.year}, {vehicle.body or 'car'}{f', built in {vehicle.built_in}' if vehicle.built_in else ''}"
        yield transport((vehicle,), starts[0], to, as_of, Wishes(), how=told)
    if to.country in held_countries(book):
        yield transport((old,), starts[0], to, as_of, released(Wishes(), to, book), how="released")
    yield transport((old,), starts[0], to, as_of, released(Wishes(trailer="enclosed"), to, book), how="enclosed")
    if isinstance(row, OnCarriage):
        yield from over_the_last_leg(row, old, book, starts, as_of)


def _at_the_ages(
    row: Country | ImportCharge | EntryRule | Hold | OnCarriage, vehicle: Vehicle, as_of: date
) -> Iterator[Vehicle]:
    """Yield the vehicle at the ages and engines at which the row begins and ends to hold."""
    changes: dict[str, Any] = {"body": "motorcycle"} if getattr(row, "motorcycle", None) else {}
    if built_in := getattr(row, "built_in", ()):
        changes["built_in"] = built_in[0]
    young = replace(vehicle, year=as_of.year - 3, **changes)
    engines = [getattr(row, field, None) for field in ("engine_over_cc", "engine_up_to_cc")]
    sizes = {cc for edge in engines if edge for cc in (edge, edge + 1)}
    # What is charged under a treatment may be asked of old ones alone, which are collector's pieces, or be asked of them too.
    aged = (young, replace(vehicle, **changes)) if hasattr(row, "treatment") else (young,)
    for one in aged:
        yield one
        for engine_cc in (None, 1, *sorted(sizes)):
            yield replace(one, engine_cc=engine_cc)
            for country in getattr(row, "not_built_in", ())[:1]:
                yield replace(one, engine_cc=engine_cc, built_in=country)
    for field in ("age_from", "age_under", "collector_from_years"):
        age = getattr(row, field, None)
        for years in (age - 1, age, age + 1) if age is not None else ():
            if 0 <= years < as_of.year - _FIRST_YEAR:
                yield replace(young, year=as_of.year - years)


def _place_named(row: Country | ImportCharge | EntryRule | Hold | OnCarriage) -> Place | None:
    """Return the place of a hold on a part of a country."""
    part = getattr(row, "subdivision", None)
    home = countries().get(row.country.upper())
    return find_place(f"{part}, {home.name}").place if part and home is not None else None


def _of_cover(row: MarineCover, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield shipments under the conditions, of a modest value and of a high one."""
    to = city_of("DE")
    for value in (500_000, 30_000_000):
        for ocean in _BOTH:
            if to is not None:
                wishes = Wishes(cover=cast("Conditions", row.conditions), ocean=ocean)
                vehicle = replace(ROADSTER, value_minor=value)
                yield transport((vehicle,), starts[0], to, as_of, wishes, how=f"cover {row.conditions}, {ocean}")


def _of_currency(row: Currency, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield a quote in the currency, and one to a country that has it."""
    yield transport(
        (ROADSTER,), starts[0], zip_place_of(NEAR), as_of, Wishes(currency=row.currency), how=f"in {row.currency}"
    )
    for country in book.countries:
        to = city_of(country.country)
        if country.currency.upper() == row.currency.upper() and to is not None:
            yield transport((ROADSTER,), starts[0], to, as_of, Wishes(currency=row.currency), how=f"in {row.currency}")
            return


def _both_ways(start: Place, to: Place, as_of: date, how: str, vehicle: Vehicle = ROADSTER) -> Iterator[Asked]:
    for ocean in _BOTH:
        yield transport((vehicle,), start, to, as_of, Wishes(ocean=ocean), how=f"{how}, {ocean}")


def _of_passage(row: PassageState, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield transports to countries beyond the passages that the sheet is for."""
    for country in _BEYOND_PASSAGES:
        to = city_of(country)
        if to is not None:
            yield from _both_ways(starts[0], to, as_of, f"{row.passage}, to {country}")


Makers = Mapping[str, Callable[[Any, RateBook, Sequence[Place], date], Iterator[Asked]]]

OVERSEAS_MAKERS: Makers = {
    "ports": _of_port,
    "ocean": _of_ocean,
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
}
