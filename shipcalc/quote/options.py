"""A way becomes an option of the quote: its lines, dates, papers, and what is said about it."""

from datetime import date
from decimal import Decimal

import numpy as np

from shipcalc.money import PPM, half_up, to_decimal, to_minor
from shipcalc.quote.choose.ways import Found
from shipcalc.quote.explain import driven
from shipcalc.quote.explain.legs import way_legs
from shipcalc.quote.explain.loading import in_short, is_driven, on_own_wheels, on_the_road, on_truck
from shipcalc.quote.explain.paper_trail import Way, needed_from_buyer, papers
from shipcalc.quote.explain.price_holds import more_cover, what_it_holds
from shipcalc.quote.explain.titles import paid_by_seller, term_place, title_of
from shipcalc.quote.explain.warned import title_warnings, to_be_insured, way_warnings
from shipcalc.quote.model import Charge, Loaded, Option
from shipcalc.quote.network.network import mode_of
from shipcalc.quote.network.territory import is_domestic, is_filed
from shipcalc.quote.network.trucks import find_trailer
from shipcalc.quote.price.lines import import_estimates, way_charges
from shipcalc.quote.price.terms import importer_warnings
from shipcalc.quote.request import Request
from shipcalc.quote.time.deadline import latest_ready
from shipcalc.quote.time.when import days, timeline
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass, replace
from shipcalc.trade import AT_HOME, COVER_STAGE, CROSSINGS, DRIVEN

_OCEAN = {crossing.mode: crossing.ocean for crossing in CROSSINGS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What is said of every way of an answer: what may change the decision, and the other warnings; `ways` are those shown."""

    before_price: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    ways: tuple[int, ...] = ()


def option_of(
    way: int, request: Request, book: RateBook, found: Found, said: Said, *, as_of: date, good_for: tuple[str, ...] = ()
) -> Option:
    """Return one way as a choice."""
    network, sums, currency = found.network, found.sums, book.pricing.currency
    service = network.services[int(found.ways.truck[way])]
    trailer, sails_as = find_trailer(service), mode_of(network, found.ways, way)
    mode = sails_as if trailer else DRIVEN
    charges = way_charges(way, request, book, network, found.parts, found.ways, sums)
    total, locally = (_paid_by(payer, charges, currency) for payer in ("seller", "buyer"))
    assert to_minor(total, currency) == sums.total[way], "the lines add up to the price that was compared"
    assert to_minor(locally, currency) == sums.locally[way], "the buyer's lines add up to what was compared"
    dates = timeline(way, request, book, network, found.ways, found.days, agreed=as_of)
    loading = _loading(way, request, book, found)
    aboard = "" if network.at_home or is_driven(loading, request.vehicles) else in_short(loading)
    trail = _paper_way(way, request, found, mode, loading)
    documents, tasks = papers(request, book, way=trail, days=dates.stages)
    holds = what_it_holds(way, charges, request, book, found, mode)
    before, warnings = _said(way, charges, request, book, found, mode, said)
    return Option(
        title=title_of(way, mode, found, aboard),
        good_for=good_for,
        trailer=trailer,
        ocean=_OCEAN.get(sails_as),
        term=sums.term.code,
        term_place=term_place(way, request, found),
        risk_passes=sums.term.risk_passes,
        total=total,
        buyer_pays_locally=locally,
        landed=_landed(request, found, total + locally, currency),
        balance_due=book.pricing.balance_due,
        deposit=to_decimal(half_up(to_minor(total, currency) * book.pricing.deposit_ppm, PPM), currency),
        cover=_covered(way, charges, request, book, found, mode),
        cover_conditions=_conditions(found, mode),
        total_cost=sum((charge.cost.amount for charge in charges if charge.cost), start=to_decimal(0, currency)),
        legs=tuple(way_legs(way, request, found, aboard)),
        loading=loading,
        charges=charges,
        dates=dates.dates,
        latest_ready=_latest_ready(way, request, book, found),
        imports=import_estimates(way, request, book, sums),
        needed_from_buyer=needed_from_buyer(request, book, way=trail, days=dates.stages),
        documents=documents,
        tasks=tasks,
        included=holds.included,
        not_included=holds.not_included,
        arrives=bool(found.ways.arrival[way] < 0) or network.arrivals.arrive,
        before_price=(*before[0], *said.before_price, *before[1]),
        warnings=(*said.warnings, *warnings, *dates.warnings),
    )


def _paid_by(payer: str, charges: tuple[Charge, ...], currency: str) -> Decimal:
    return sum((charge.amount for charge in charges if charge.payer == payer), start=to_decimal(0, currency))


def _loading(way: int, request: Request, book: RateBook, found: Found) -> tuple[Loaded, ...]:
    """Return how each vehicle goes onto what carries it over the longest leg."""
    if find_trailer(found.network.services[int(found.ways.truck[way])]) is None:
        return on_own_wheels(request.vehicles)
    if found.ways.crossing[way] < 0:
        return on_truck(request.vehicles)
    from shipcalc.quote.explain.handling import loaded

    return loaded(way, request, book, found)


def _paper_way(way: int, request: Request, found: Found, mode: str, loading: tuple[Loaded, ...]) -> Way:
    """Return how a way travels, as far as its papers depend on it."""
    country, sums = request.to.country, found.sums
    treatments = sums.imports.treatments
    return Way(
        trailer=find_trailer(found.network.services[int(found.ways.truck[way])]),
        to_country=country,
        mode=mode,
        overseas=not is_domestic(country),
        export_filing=is_filed(country),
        term=sums.term.code,
        seller_pays=paid_by_seller(way, found) - {AT_HOME},
        treatment=treatments[0].treatment if treatments else None,
        collector_from_years=sums.imports.collector_from_years,
        loading=loading,
    )


def _said(
    way: int, charges: tuple[Charge, ...], request: Request, book: RateBook, found: Found, mode: str, said: Said
) -> tuple[tuple[tuple[str, ...], tuple[str, ...]], tuple[str, ...]]:
    """Return what this way has said above its price, first and last there, and what must be minded with it."""
    more = more_cover(charges, book)
    warnings = tuple(way_warnings(way, request, book, found, mode, is_covered=more is not None))
    network = found.network
    if network.at_home:
        titles = tuple(title_warnings(request.vehicles))
        if mode != DRIVEN:
            return (titles, ()), (*on_the_road(request.vehicles), *warnings)
        lanes = network.lane_of(-1)
        return (titles, tuple(driven.before_driving(request.vehicles, network.lanes, lanes))), (
            *driven.DRIVING,
            *warnings,
        )
    # Late: what is said of ships, ports and customs, no quote at home need import.
    from shipcalc.quote.explain.before_price import ends_at_the_port, hand_over_missing, passages_of_the_day
    from shipcalc.quote.explain.handling import unpriced_handling
    from shipcalc.quote.price.seasonal import told_of

    term = found.sums.term
    first = tuple(to_be_insured(charges, term, mode=mode, currency=book.pricing.currency))
    last = (
        *ends_at_the_port(way, request, found),
        *passages_of_the_day(way, found, book, said.ways),
        *told_of(way, book, found.sums.seasonal),
        *importer_warnings(term, request.to.country),
        *hand_over_missing(way, request, found, book),
        *unpriced_handling(way, request, book, found),
    )
    return (first, last), (*on_the_road(request.vehicles), *warnings)


def _landed(request: Request, found: Found, paid: Decimal, currency: str) -> Decimal | None:
    """Return all that the buyer will have paid, the vehicles with it; None at home and where a value is not known."""
    values = [vehicle.value_minor for vehicle in request.vehicles]
    if found.network.at_home or None in values:
        return None
    return paid + to_decimal(sum(value for value in values if value is not None), currency)


def _conditions(found: Found, mode: str) -> str:
    """Return under which conditions the price covers the vehicles at sea; "" where it does not."""
    cover = found.sums.cover.by_mode.get(mode) if found.sums.term.payer(COVER_STAGE) == "seller" else None
    return cover[0].conditions if cover else ""


def _covered(
    way: int, charges: tuple[Charge, ...], request: Request, book: RateBook, found: Found, mode: str
) -> Decimal:
    """Return the insured sum of the marine cover that the price holds, without a ship the truck's own cover, else nothing.

    At home a line may raise the truck's cover to what the vehicles are worth.
    """
    currency = book.pricing.currency
    truck_minor = found.network.services[int(found.ways.truck[way])].row.cover_minor
    if found.network.at_home:
        values = [vehicle.value_minor or 0 for vehicle in request.vehicles]
        raised = more_cover(charges, book) is not None
        return to_decimal(max(truck_minor, *values) if raised else truck_minor, currency)
    insured = next(
        (charge.quantity for charge in charges if charge.code == "cover.premium" and charge.payer == "seller"), None
    )
    if insured is None and (mode != "truck" or "main carriage" not in found.sums.term.seller_pays):
        return to_decimal(0, currency)
    return insured if insured is not None else to_decimal(truck_minor, currency)


def _latest_ready(way: int, request: Request, book: RateBook, found: Found) -> date | None:
    own = found.ways.only(np.array([way]))

    def delivered(ready: date) -> date | None:
        when = days(replace(request, ready=ready), book, found.network, own)
        return date.fromordinal(int(when.delivery.latest[0])) if when.possible[0] else None

    return latest_ready(request, delivered)
