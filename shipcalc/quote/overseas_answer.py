"""The ways to a place beyond the home roads become the options of a quote."""

from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal

import numpy as np

from shipcalc.errors import WrongInput
from shipcalc.measures import METRES_PER_MILE, METRES_PER_NAUTICAL_MILE
from shipcalc.money import PPM, half_up, to_decimal, to_minor
from shipcalc.places.sea.passages import PASSAGES
from shipcalc.places.straight import great_circle_mi
from shipcalc.pricing.cover import STAGE as COVER_STAGE
from shipcalc.quote.answer import Answer
from shipcalc.quote.choose.choices import mode_of
from shipcalc.quote.choose.unbeaten import Shown
from shipcalc.quote.choose.ways import Found, find_ways
from shipcalc.quote.explain.barriers import entry_rules
from shipcalc.quote.explain.before_price import (
    ends_at_the_port,
    entry_unchecked,
    hand_over_missing,
    passages_of_the_day,
)
from shipcalc.quote.explain.handling import loaded, unpriced_handling
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.explain.legs import lane_legs
from shipcalc.quote.explain.loading import in_short, is_driven, on_the_road
from shipcalc.quote.explain.paper_trail import Way, needed_from_buyer, papers
from shipcalc.quote.explain.way_words import (
    LOCAL_HAULIER,
    assumptions,
    cautions,
    country_notes,
    included,
    not_included,
    titles_at_the_border,
    to_be_insured,
    way_warnings,
)
from shipcalc.quote.model import Charge, Leg, Loaded, Ocean, Option
from shipcalc.quote.network.holds import check_holds
from shipcalc.quote.network.territory import is_domestic, is_filed
from shipcalc.quote.network.trucks import trailer_of
from shipcalc.quote.price.lines import import_estimates, way_charges
from shipcalc.quote.price.seasonal import told_of
from shipcalc.quote.price.terms import advice, importer_warnings
from shipcalc.quote.request import Request
from shipcalc.quote.time.days import days, on_carriage_by
from shipcalc.quote.time.deadline import latest_ready
from shipcalc.quote.time.timeline import timeline
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace

_OCEAN: Mapping[str, Ocean] = {"roro": "roro", "container": "container", "shared container": "container"}
_READS = {passage.name: passage.reads for passage in PASSAGES}


def answer_overseas(request: Request, book: RateBook, as_of: date) -> Answer:
    """Return the choices for a shipment over the sea, or over a border.

    Raises NoAnswer for a destination that is held or barred, or that nothing reaches; WrongInput for an unknown delivery term.
    """
    if request.wishes.insure_for is not None:
        message = (
            f"{request.to.name} is reached over the sea or a border, where cover is counted of the vehicle's own value"
        )
        raise WrongInput(message, where="--insure-for", remedy="leave it out, or change the value in the stock list")
    released = check_holds(request, book, as_of)
    restricted, rules = entry_rules(request, book, as_of)
    lead = with_lead(request, book, as_of)
    titles = titles_at_the_border(request.vehicles)
    request, before = lead.request, (*restricted, *entry_unchecked(request, book), *titles, *lead.said)
    found = find_ways(request, book, as_of)
    term_advice = advice(found.sums.term, by_container=False, overseas=not is_domestic(request.to.country))
    country = country_notes(found.sums.imports.country)
    warnings = (*released, *rules, *country, *([term_advice] if term_advice else []))
    return Answer(
        options=tuple(_option(shown, request, book, found, before, warnings, as_of) for shown in found.shown),
        recommended=found.recommended,
        reason=found.reason,
        left_out=found.left_out,
        assumptions=tuple(assumptions(request, found)),
        cautions=cautions(request, by_sea=any(found.ways.crossing[shown.way] >= 0 for shown in found.shown)),
        rows_end=tuple(_rows_end(found)),
    )


def _latest_ready(way: int, request: Request, book: RateBook, found: Found) -> date | None:
    own = found.ways.only(np.array([way]))

    def delivered(ready: date) -> date | None:
        when = days(replace(request, ready=ready), book, found.network, own)
        return date.fromordinal(int(when.delivery.latest[0])) if when.possible[0] else None

    return latest_ready(request, delivered)


def _option(
    shown: Shown,
    request: Request,
    book: RateBook,
    found: Found,
    before: tuple[str, ...],
    warnings: tuple[str, ...],
    as_of: date,
) -> Option:
    way, currency, sums = shown.way, book.pricing.currency, found.sums
    charges = way_charges(way, request, book, found.network, found.parts, found.ways, sums)
    total, locally = (_paid_by(payer, charges, currency) for payer in ("seller", "buyer"))
    assert to_minor(total, currency) == sums.total[way], "the lines add up to the price that was compared"
    assert to_minor(locally, currency) == sums.locally[way], "the buyer's lines add up to what was compared"
    dates = timeline(way, request, book, found.network, found.ways, found.days, agreed=as_of)
    mode = mode_of(found.network, found.ways, way)
    loading = loaded(way, request, book, found)
    trailer = trailer_of(found.network.services[int(found.ways.truck[way])])
    treatment = sums.imports.treatments[0].treatment if sums.imports.treatments else None
    papers_way = Way(
        trailer=trailer,
        to_country=request.to.country,
        mode=mode,
        overseas=not is_domestic(request.to.country),
        export_filing=is_filed(request.to.country),
        term=sums.term.code,
        seller_pays=_paid_by_seller(way, found),
        treatment=treatment,
        collector_from_years=sums.imports.collector_from_years,
        loading=loading,
    )
    documents, tasks = papers(request, book, way=papers_way, days=dates.stages)
    values = [vehicle.value_minor for vehicle in request.vehicles]
    known = sum(value for value in values if value is not None)
    cover = sums.cover.by_mode.get(mode) if sums.term.payer(COVER_STAGE) == "seller" else None
    return Option(
        title=_title(way, mode, found, _loaded_in_words(loading, request)),
        good_for=shown.good_for,
        trailer=trailer,
        ocean=_OCEAN.get(mode),
        term=sums.term.code,
        term_place=_term_place(way, request, found),
        risk_passes=sums.term.risk_passes,
        total=total,
        buyer_pays_locally=locally,
        landed=None if None in values else total + locally + to_decimal(known, currency),
        balance_due=book.pricing.balance_due,
        deposit=to_decimal(half_up(to_minor(total, currency) * book.pricing.deposit_ppm, PPM), currency),
        cover=_covered(way, charges, found, currency, mode),
        cover_conditions=cover[0].conditions if cover else "",
        total_cost=sum((charge.cost.amount for charge in charges if charge.cost), start=to_decimal(0, currency)),
        legs=tuple(_legs(way, request, found, _loaded_in_words(loading, request))),
        loading=loading,
        charges=charges,
        dates=dates.dates,
        latest_ready=_latest_ready(way, request, book, found),
        imports=import_estimates(way, request, book, sums),
        needed_from_buyer=needed_from_buyer(request, book, way=papers_way, days=dates.stages),
        documents=documents,
        tasks=tasks,
        included=tuple(included(charges, request, mode, cover[0] if cover else None)),
        not_included=tuple(not_included(way, charges, request, found)),
        arrives=bool(found.ways.arrival[way] < 0) or found.network.arrivals.arrive,
        before_price=(
            *to_be_insured(charges, sums.term, mode=mode, currency=currency),
            *before,
            *ends_at_the_port(way, request, found),
            *passages_of_the_day(way, found, book),
            *told_of(way, book, sums.seasonal),
            *importer_warnings(sums.term, request.to.country),
            *unpriced_handling(way, request, book, found),
            *hand_over_missing(way, request, found, book),
        ),
        warnings=(
            *warnings,
            *on_the_road(request.vehicles),
            *way_warnings(way, request, book, found, mode),
            *dates.warnings,
        ),
    )


def _paid_by(payer: str, charges: tuple[Charge, ...], currency: str) -> Decimal:
    return sum((charge.amount for charge in charges if charge.payer == payer), start=to_decimal(0, currency))


def _loaded_in_words(loading: tuple[Loaded, ...], request: Request) -> str:
    """Return how the vehicles go aboard, where not all are simply driven: `in tow`; else ""."""
    return "" if is_driven(loading, request.vehicles) else in_short(loading)


def _title(way: int, mode: str, found: Found, loading: str) -> str:
    export, arrival = int(found.ways.export[way]), int(found.ways.arrival[way])
    if mode == "truck":
        return "By road all the way"
    ports = f"{found.network.exports[export].row.name} to {found.network.arrivals.ports[arrival].row.name}"
    if mode == "roro":
        return f"RoRo {loading}, {ports}" if loading and "," not in loading else f"RoRo, {ports}"
    packing = found.network.crossings[int(found.ways.crossing[way])].load.packing
    return f"{packing.name} container, {ports}" if packing else f"Shared container, {ports}"


def _term_place(way: int, request: Request, found: Found) -> str:
    """Return the place that the delivery term names."""
    export, arrival = int(found.ways.export[way]), int(found.ways.arrival[way])
    place = found.sums.term.place
    if place == "yard" or (place == "port" and export < 0):
        return request.starts[0].name
    if place == "port":
        return found.network.exports[export].row.name
    if place == "arrival port" and arrival >= 0:
        return found.network.arrivals.ports[arrival].row.name
    return request.to.name


def _paid_by_seller(way: int, found: Found) -> frozenset[str]:
    """Return what the seller pays of this way: nothing beyond a port where nobody is priced to carry it on."""
    ends_at_port = found.ways.arrival[way] >= 0 and not _goes_on(way, found)
    return found.sums.term.seller_pays - ({"on-carriage", "unloading"} if ends_at_port else set())


def _goes_on(way: int, found: Found) -> bool:
    """Return whether somebody is priced to carry it on from the arrival port."""
    there = found.network.arrivals.ports[int(found.ways.arrival[way])]
    trailer = trailer_of(found.network.services[int(found.ways.truck[way])])
    return there.road is not None and on_carriage_by(found.network.arrivals.on_carriage, trailer) is not None


def _covered(way: int, charges: tuple[Charge, ...], found: Found, currency: str, mode: str) -> Decimal:
    """Return the insured sum of the marine cover that the price holds, without a ship the truck's own cover, else nothing."""
    insured = next(
        (charge.quantity for charge in charges if charge.code == "cover.premium" and charge.payer == "seller"), None
    )
    if insured is None and (mode != "truck" or "main carriage" not in found.sums.term.seller_pays):
        return to_decimal(0, currency)
    truck = found.network.services[int(found.ways.truck[way])].row
    return insured if insured is not None else to_decimal(truck.cover_minor, currency)


def _legs(way: int, request: Request, found: Found, loading: str) -> Iterator[Leg]:
    ways, network = found.ways, found.network
    truck, export, arrival = int(ways.truck[way]), int(ways.export[way]), int(ways.arrival[way])
    row = network.services[truck].row
    numbers = tuple(vehicle.stock_number for vehicle in request.vehicles)
    for number, start in enumerate(dict.fromkeys(request.starts)):
        on_it = tuple(stock for stock, at in zip(numbers, network.starts, strict=True) if at == number)
        lane = found.network.lanes[network.lane_of(export)[network.starts.index(number)]]
        for part in lane_legs(start, lane.to, lane.road, lane.crossing):
            yield replace(part, carrier=row.carrier, vehicles=on_it, carrier_named=not row.private)
    if export < 0:
        return
    crossing, port, there = (
        network.crossings[int(ways.crossing[way])],
        network.exports[export],
        network.arrivals.ports[arrival],
    )
    lane_number = int(ways.lane[way])
    passages = [_READS[name] for name in crossing.passages[lane_number]]
    service = crossing.service.row
    yield Leg(
        mode=crossing.load.mode,
        carrier=service.carrier,
        carrier_named=not service.private,
        from_=port.place,
        to=there.place,
        great_circle=round(great_circle_mi(port.place, there.place) * METRES_PER_MILE / METRES_PER_NAUTICAL_MILE, 2),
        distance=int(crossing.nmi[lane_number]),
        unit="nmi",
        method="network",
        method_note=f"sea lanes by {', '.join(passages)}" if passages else "sea lanes",
        vehicles=numbers,
        loading=loading or ("driven aboard" if crossing.load.mode == "roro" else ""),
    )
    if there.road is not None and _goes_on(way, found):
        for part in lane_legs(there.place, request.to, there.road, there.crossing):
            yield replace(part, carrier=LOCAL_HAULIER, vehicles=numbers, carrier_named=True)


def _rows_end(found: Found) -> Iterator[date]:
    """Yield the last days of the rows that priced what is shown."""
    for shown in found.shown:
        truck = found.network.services[int(found.ways.truck[shown.way])].row
        crossing = int(found.ways.crossing[shown.way])
        sea = found.network.crossings[crossing].service.rows if crossing >= 0 else ()
        ends = (truck.valid_to, *(row.valid_to for row in sea))
        yield from (end for end in ends if end is not None)
