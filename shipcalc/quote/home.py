"""A request within the contiguous United States: one truck, door to door, and a choice of services."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from shipcalc.errors import WrongInput
from shipcalc.money import PPM, half_up, to_decimal, to_minor, with_code
from shipcalc.pricing.lines import FUEL
from shipcalc.quote.answer import Answer
from shipcalc.quote.choose.home_choices import Choice, choices, recommended
from shipcalc.quote.explain import driven
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.explain.legs import lane_legs
from shipcalc.quote.explain.loading import on_own_wheels, on_the_road, on_truck
from shipcalc.quote.explain.paper_trail import Way, needed_from_buyer, papers
from shipcalc.quote.explain.words import assumptions, cautions, included, not_included, raised_cover, title_warnings
from shipcalc.quote.model import Charge, Dates, LeftOut, Leg, Milestone, Option
from shipcalc.quote.network.distances import Lane, road_lanes
from shipcalc.quote.network.trucks import Candidate, candidates, find_trailer, service_dates
from shipcalc.quote.price.charges import line_charges, line_numbers, rounding_charge
from shipcalc.quote.request import Request
from shipcalc.quote.time.deadline import check_in_time, late_reason, latest_ready
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.trucking import DRIVEN
from shipcalc.records import replace
from shipcalc.schedule.due import home_days

ROAD_STAGE = "road carriage"
HOME_TERM = "DAP"


def answer_at_home(request: Request, book: RateBook, as_of: date) -> Answer:
    """Return the choices for a transport at home.

    Raises NoAnswer where no road leads there or no carrier can take it, WrongInput for a delivery term that is not for home.
    """
    wishes = request.wishes
    for option, wish in (("--ocean", wishes.ocean), ("--cover", wishes.cover), ("--sailing", wishes.sailing)):
        if wish is not None:
            raise WrongInput(
                f"{request.to.name} is reached by road: no ship and no marine cover",
                where=option,
                remedy="leave it out",
            )
    if request.wishes.term not in (None, HOME_TERM):
        raise WrongInput(
            f"{request.wishes.term} is not offered for a transport at home",
            where="--term",
            remedy=f"leave it out, or give {HOME_TERM}",
        )
    lead = with_lead(_to_insure(request, book.pricing.currency), book, as_of)
    request = lead.request
    lanes = road_lanes(book, request.starts, request.to)
    starts = [lane.start for lane in lanes]
    lane_of = tuple(starts.index(start) for start in request.starts)
    found, left_out = candidates(request, book, lanes, lane_of, as_of)
    found, late = _in_time(found, request)
    shown = choices(found, request.vehicles, book)
    index, reason = recommended(shown, request.vehicles, book)
    return Answer(
        options=tuple(home_option(choice, request, book, lanes, lane_of, as_of, before=lead.said) for choice in shown),
        recommended=index,
        reason=reason,
        left_out=(*left_out, *late),
        assumptions=tuple(assumptions(request, book, lanes)),
        cautions=cautions(request),
        rows_end=tuple(end for choice in shown if (end := choice.candidate.service.row.valid_to) is not None),
    )


def _to_insure(request: Request, currency: str) -> Request:
    """Return the request with vehicles worth what the buyer wants them covered for, where that is more."""
    asked = request.wishes.insure_for
    if asked is None:
        return request
    least = to_minor(asked, currency)
    vehicles = (replace(vehicle, value_minor=max(vehicle.value_minor or 0, least)) for vehicle in request.vehicles)
    return replace(request, vehicles=tuple(vehicles))


def _more_cover(charges: Sequence[Charge], book: RateBook) -> Decimal | None:
    """Return what the charges ask for cover above the carrier's own; None where none of them is for that."""
    codes = {f"extra.{row.code}" for row in book.extras if row.of == "value above cover"}
    asked = [charge.amount for charge in charges if charge.code in codes]
    return sum(asked, start=Decimal(0)) if asked else None


def _in_time(found: tuple[Candidate, ...], request: Request) -> tuple[tuple[Candidate, ...], tuple[LeftOut, ...]]:
    """Return the services that are there by the day that is asked for, and the others. Raises NoAnswer where none is."""
    if request.by is None:
        return found, ()
    check_in_time(request, min(candidate.dates.delivery[1] for candidate in found))
    late = tuple(
        LeftOut(
            carrier=candidate.service.row.carrier,
            trailer=find_trailer(candidate.service),
            reason=late_reason(request, candidate.dates.delivery[1]),
        )
        for candidate in found
        if candidate.dates.delivery[1] > request.by
    )
    return tuple(candidate for candidate in found if candidate.dates.delivery[1] <= request.by), late


def _latest_ready(candidate: Candidate, request: Request, book: RateBook, lanes: tuple[Lane, ...]) -> date | None:
    farthest, extra = max(lane.road.miles for lane in lanes), candidate.extra_days

    def delivered(ready: date) -> date:
        return service_dates(candidate.service, farthest, extra, replace(request, ready=ready), book).delivery[1]

    return latest_ready(request, delivered)


def home_option(
    choice: Choice,
    request: Request,
    book: RateBook,
    lanes: tuple[Lane, ...],
    lane_of: tuple[int, ...],
    as_of: date,
    *,
    before: tuple[str, ...] = (),
) -> Option:
    """Return one service as a choice: its lines, dates, papers and what is said about it; `before`: above its price."""
    candidate, currency = choice.candidate, book.pricing.currency
    row = candidate.service.row
    charges = _charges(candidate, request, book, lane_of)
    total = sum((charge.amount for charge in charges), start=to_decimal(0, currency))
    assert to_minor(total, currency) == candidate.total_minor, "the lines add up to the price that was compared"
    more = _more_cover(charges, book)
    values = [vehicle.value_minor or 0 for vehicle in request.vehicles]
    cover_minor = row.cover_minor if more is None else max(row.cover_minor, *values)
    trailer = choice.trailer
    loading = on_truck(request.vehicles) if trailer else on_own_wheels(request.vehicles)
    mode = "truck" if trailer else DRIVEN
    way = Way(trailer=trailer, to_country=request.to.country, mode=mode, term=HOME_TERM, loading=loading)
    moments = home_days(as_of, candidate.dates)
    documents, tasks = papers(request, book, way=way, days=moments)
    deposit = half_up(candidate.total_minor * book.pricing.deposit_ppm, PPM)
    holds = _what_it_holds(choice, request, charges, currency, more)
    return Option(
        title=f"{trailer.capitalize()} trailer" if trailer else "Driven by a hired driver",
        good_for=choice.good_for,
        trailer=trailer,
        term=HOME_TERM,
        term_place=request.to.name,
        total=total,
        buyer_pays_locally=to_decimal(0, currency),
        deposit=to_decimal(deposit, currency),
        balance_due=book.pricing.balance_due,
        cover=to_decimal(cover_minor, currency),
        total_cost=sum((charge.cost.amount for charge in charges if charge.cost), start=to_decimal(0, currency)),
        legs=_legs(candidate, request, lanes, lane_of),
        loading=loading,
        charges=charges,
        dates=_dates(candidate, request),
        latest_ready=_latest_ready(candidate, request, book, lanes),
        needed_from_buyer=needed_from_buyer(request, book, way=way, days=moments),
        documents=documents,
        tasks=tasks,
        included=holds[0],
        not_included=holds[1],
        before_price=(
            *title_warnings(request.vehicles),
            *before,
            *(() if trailer else driven.before_driving(request.vehicles, lanes, lane_of)),
        ),
        warnings=(
            *(on_the_road(request.vehicles) if trailer else driven.DRIVING),
            *_warnings(candidate, request, book, is_covered=more is not None),
        ),
    )


def _what_it_holds(
    choice: Choice, request: Request, charges: tuple[Charge, ...], currency: str, more: Decimal | None
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what the price contains, and what it does not."""
    cover_minor = choice.candidate.service.row.cover_minor
    without = not_included(request, cover_minor, currency, covers_value=more is not None)
    if choice.trailer is None:
        return driven.included(cover_minor, currency), driven.not_included(without)
    has_fuel = any(charge.code in FUEL for charge in charges)
    told = included(request, cover_minor, currency, has_fuel=has_fuel)
    values = [vehicle.value_minor or 0 for vehicle in request.vehicles]
    return (*told, *raised_cover(more, max(cover_minor, *values), currency)), without


def _charges(candidate: Candidate, request: Request, book: RateBook, lane_of: tuple[int, ...]) -> tuple[Charge, ...]:
    currency, numbers = book.pricing.currency, line_numbers()
    costing = candidate.cost_lines()
    charges = [
        charge
        for number, vehicle in enumerate(request.vehicles)
        for charge in line_charges(
            candidate.lines,
            costing,
            row=number,
            column=lane_of[number],
            vehicle=vehicle.stock_number,
            stage=ROAD_STAGE,
            currency=currency,
            numbers=numbers,
        )
    ]
    so_far = to_minor(sum((charge.amount for charge in charges), start=Decimal(0)), currency)
    rounding = rounding_charge(
        so_far,
        book.pricing.rounding_step_minor,
        cell=book.pricing.cells.get("Rounding step", ""),
        stage=ROAD_STAGE,
        currency=currency,
        line=str(next(numbers)),
    )
    return (*charges, rounding) if rounding else tuple(charges)


def _legs(candidate: Candidate, request: Request, lanes: tuple[Lane, ...], lane_of: tuple[int, ...]) -> tuple[Leg, ...]:
    row = candidate.service.row
    legs = []
    for number, lane in enumerate(lanes):
        vehicles = tuple(
            vehicle.stock_number for vehicle, at in zip(request.vehicles, lane_of, strict=True) if at == number
        )
        legs += [
            replace(
                part,
                mode=DRIVEN if row.trailer == DRIVEN and part.mode == "truck" else part.mode,
                carrier=row.carrier,
                carrier_named=not row.private,
                vehicles=vehicles,
            )
            for part in lane_legs(lane.start, lane.to, lane.road, lane.crossing)
        ]
    return tuple(legs)


def _dates(candidate: Candidate, request: Request) -> Dates:
    when = candidate.dates
    days = "1 day" if when.driving_days == 1 else f"{when.driving_days} days"
    return Dates(
        pickup=when.pickup,
        delivery=when.delivery,
        timeline=(
            Milestone(what="Ready at the yard", earliest=request.ready, latest=request.ready, stage="ready"),
            Milestone(what="Picked up", earliest=when.pickup[0], latest=when.pickup[1], stage="pickup"),
            Milestone(
                what="Delivered",
                earliest=when.delivery[0],
                latest=when.delivery[1],
                note=f"{days} of driving.",
                office_note=when.note,
                stage="delivery",
            ),
        ),
    )


def _warnings(candidate: Candidate, request: Request, book: RateBook, *, is_covered: bool) -> tuple[str, ...]:
    row, currency = candidate.service.row, book.pricing.currency
    return tuple(
        f"{vehicle.stock_number} is worth {with_code(vehicle.value_minor, currency)}, more than the cover of "
        f"{with_code(row.cover_minor, currency)}: cover for the rest must be agreed in writing before pickup."
        for vehicle in request.vehicles
        if vehicle.value_minor is not None and vehicle.value_minor > row.cover_minor and not is_covered
    )
