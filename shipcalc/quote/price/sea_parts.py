"""The parts of a way beyond the home roads: ports, ships, loading, the last leg, charges by stage."""

from collections.abc import Iterator, Sequence
from functools import cache, partial

import numpy as np

from shipcalc.pricing.lines import selling_markup
from shipcalc.pricing.loading import loading_lines
from shipcalc.pricing.loads import BY_TRUCK, Freight, freight_of
from shipcalc.pricing.ocean import ocean_lines
from shipcalc.pricing.on_carriage import on_carriage_lines
from shipcalc.pricing.passages import has_surcharge, passage_lines
from shipcalc.pricing.ports import arrival_port_lines, export_port_lines
from shipcalc.pricing.quoted import quoted_lines
from shipcalc.pricing.stage_charges import stage_lines
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.port_ends import Arrivals
from shipcalc.quote.network.territory import stages_without
from shipcalc.quote.price.freight import estimated_lanes, held_by_freight, quoted_lanes
from shipcalc.quote.price.parts import Part, Parts, Priced, SeaPart
from shipcalc.quote.price.seasonal import all_year_rows, each_season
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.ways import PassageState
from shipcalc.records import replace
from shipcalc.trade import Mode


def with_ports_and_ships(parts: Parts, request: Request, book: RateBook, network: Network) -> Parts:
    """Return the parts with all that is not a truck of the first leg."""
    markup, currency, freight = selling_markup(book.pricing), book.pricing.currency, freight_of(request.vehicles)
    loads = tuple(dict.fromkeys([crossing.load for crossing in network.crossings]))
    leaving, arriving = [port.row for port in network.exports], [port.row for port in network.arrivals.ports]
    country = request.to.country

    def part(priced: Priced, markup_ppm: int = markup.port_ppm) -> Part:
        return Part(priced, markup_ppm)

    always, seasonal = all_year_rows(book), each_season(book)

    @cache
    def stages(mode: Mode, containers: int, season: int | None = None) -> Part:
        rows = always if season is None else seasonal[season]
        lines = partial(stage_lines, rows, request.vehicles, mode=mode, containers=containers)
        return part(partial(lines, to_country=country, without=stages_without(country)))

    return replace(
        parts,
        export_ports={
            load: part(partial(export_port_lines, load, freight, leaving, currency=currency)) for load in loads
        },
        sea=tuple(_sea_parts(network, freight, markup.ocean_ppm, currency)),
        passages=tuple(_passage_parts(network, request, book.passages, markup.ocean_ppm)),
        loading=tuple(_loading_parts(network, request, book.loading_ways, markup.port_ppm)),
        arrival_ports={
            load: part(partial(arrival_port_lines, load, freight, arriving, currency=currency)) for load in loads
        },
        held=held_by_freight(network, freight),
        last_leg=last_legs(network.arrivals, freight, book),
        stages={load: stages(load.mode, load.containers) for load in loads},
        by_road=stages(BY_TRUCK.mode, BY_TRUCK.containers),
        seasonal=tuple(
            {load: stages(load.mode, load.containers, season) for load in loads} for season in range(len(seasonal))
        ),
    )


def last_legs(arrivals: Arrivals, freight: Freight, book: RateBook) -> dict[str, Part]:
    """Return the carriage from every arrival port to the buyer, by the kind of trailer."""
    miles = np.array([port.road.miles if port.road else 0 for port in arrivals.ports], dtype=np.int64)
    ferries, currency = [port.ferry for port in arrivals.ports], book.pricing.currency
    markup_ppm = selling_markup(book.pricing).port_ppm
    return {
        row.trailer: Part(partial(on_carriage_lines, row, miles, ferries, freight, currency=currency), markup_ppm)
        for row in arrivals.on_carriage
    }


def _sea_parts(network: Network, freight: Freight, markup_ppm: int, currency: str) -> Iterator[SeaPart]:
    """Yield the freight: as it is quoted, where it is; else estimated from the distance."""
    quoted, estimated = quoted_lanes(network, freight), estimated_lanes(network, freight)
    for own in quoted:
        as_quoted = partial(quoted_lines, own.offers, own.load, freight, currency=currency)
        yield SeaPart(Part(as_quoted, markup_ppm), own.lanes)
    nmi = np.concatenate([*(crossing.nmi for crossing in network.crossings), np.zeros(0, dtype=np.int64)])
    for same in estimated:
        lanes = np.array(same.lanes)
        numbers, of_lane = np.unique(network.sea.crossing[lanes], return_inverse=True)
        services = [network.crossings[number].service for number in numbers.tolist()]
        priced = partial(ocean_lines, services, of_lane.reshape(-1), same.load, freight, nmi[lanes], but=same.but)
        yield SeaPart(Part(partial(priced, currency=currency), markup_ppm), same.lanes)


def _loading_parts(
    network: Network, request: Request, ways: tuple[LoadingWay, ...], markup_ppm: int
) -> Iterator[SeaPart]:
    """Yield how the vehicles are loaded and unloaded, for the crossings of each mode."""
    modes = np.array([crossing.load.mode for crossing in network.crossings])
    services = [crossing.service.row for crossing in network.crossings]
    for mode in dict.fromkeys(modes.tolist()):
        lanes = np.flatnonzero(modes[network.sea.crossing] == mode)
        of_lane = network.sea.crossing[lanes]
        priced = partial(loading_lines, request.vehicles, services, of_lane, ways)
        yield SeaPart(Part(priced, markup_ppm), tuple(lanes.tolist()))


def _passage_parts(
    network: Network, request: Request, states: Sequence[PassageState], markup_ppm: int
) -> Iterator[SeaPart]:
    """Yield what lines ask for a passage, over the sea lanes that take it."""
    taken = [names for crossing in network.crossings for names in crossing.passages]
    for row in states:
        lanes = tuple(number for number, names in enumerate(taken) if row.passage.casefold() in names)
        if lanes and has_surcharge(row):
            yield SeaPart(Part(partial(passage_lines, row, request.vehicles), markup_ppm), lanes)
