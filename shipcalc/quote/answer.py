"""The choices of a quote, and what is said about them: one way to answer, wherever the buyer is."""

from collections.abc import Iterator, Sequence
from datetime import date

from shipcalc.errors import WrongInput, asked
from shipcalc.money import to_minor
from shipcalc.pricing.lane_prices import rows_priced_by
from shipcalc.quote.choose.ways import Found, choose, find_ways
from shipcalc.quote.explain.assumed import assumptions
from shipcalc.quote.explain.cautions import cautions
from shipcalc.quote.explain.lead_times import with_lead
from shipcalc.quote.explain.warned import country_notes, titles_at_the_border
from shipcalc.quote.model import LeftOut, Option
from shipcalc.quote.network.territory import is_domestic, is_home
from shipcalc.quote.options import Said, option_of
from shipcalc.quote.price.marked_up import check_kind_of_buyer
from shipcalc.quote.price.terms import HOME_TERM, advice
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass, replace


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The choices with the recommended one, and sentences. `rows_end` are the last days of the rows that priced them."""

    options: tuple[Option, ...]
    recommended: int
    reason: str
    left_out: tuple[LeftOut, ...]
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...]
    rows_end: tuple[date, ...]


def answer(request: Request, book: RateBook, as_of: date) -> Answer:
    """Return the choices for a request.

    Raises NoAnswer for a destination that is held or barred, that nothing reaches, or where nobody can take the vehicles;
    WrongInput for wishes that the destination does not have.
    """
    at_home = is_home(request.to.country, request.to.subdivision)
    _check_wishes(request, at_home=at_home)
    check_kind_of_buyer(request, book)
    if at_home:
        lead = with_lead(_to_insure(request, book.pricing.currency), book, as_of)
        request, said = lead.request, Said(before_price=lead.said, assumed=lead.assumed)
    else:
        request, said = _allowed_in(request, book, as_of)
    found = find_ways(request, book, as_of)
    if not at_home:
        said = replace(said, warnings=(*said.warnings, *_of_the_country(request, found)))
    picked = choose(found)
    ways = [shown.way for shown in picked.shown]
    said = replace(said, ways=tuple(ways))
    options = tuple(
        option_of(found.one(shown.way), found, said, as_of=as_of, good_for=shown.good_for) for shown in picked.shown
    )
    return Answer(
        options=options,
        recommended=picked.recommended,
        reason=picked.reason,
        left_out=found.left_out,
        assumptions=(*assumptions(found, ways), *said.assumed),
        cautions=cautions(request, by_sea=any(option.ocean for option in options)),
        rows_end=tuple(_rows_end(found, ways)),
    )


def _check_wishes(request: Request, *, at_home: bool) -> None:
    """Raise WrongInput for what the destination does not have: ships and terms at home, a sum to insure for beyond it."""
    wishes = request.wishes
    if not at_home:
        if wishes.insure_for is not None:
            message = (
                f"{request.to.name} is reached over the sea or a border, where marine cover is counted of the vehicle's value "
                "and its carriage"
            )
            remedy = (
                f"leave it out: {asked('cover')} A is the fullest; a higher value that the insurer agrees to goes into the "
                "stock list"
            )
            raise WrongInput(message, where=asked("insure_for"), remedy=remedy)
        return
    for option, wish in (
        (asked("ocean"), wishes.ocean),
        (asked("cover"), wishes.cover),
        (asked("sailing"), wishes.sailing),
    ):
        if wish is not None:
            raise WrongInput(
                f"{request.to.name} is reached by road: no ship and no marine cover",
                where=option,
                remedy="leave it out",
            )
    if wishes.term not in (None, HOME_TERM.code):
        raise WrongInput(
            f"{wishes.term} is not offered for a transport at home",
            where=asked("term"),
            remedy=f"leave it out, or give {HOME_TERM.code}",
        )


def _to_insure(request: Request, currency: str) -> Request:
    """Return the request with vehicles worth what the buyer wants them covered for, where that is more."""
    asked = request.wishes.insure_for
    if asked is None:
        return request
    least = to_minor(asked, currency)
    vehicles = (replace(vehicle, value_minor=max(vehicle.value_minor or 0, least)) for vehicle in request.vehicles)
    return replace(request, vehicles=tuple(vehicles))


def _allowed_in(request: Request, book: RateBook, as_of: date) -> tuple[Request, Said]:
    """Return the request as it may set out, and what is said of letting it out and in.

    Raises NoAnswer where it is held or barred.
    """
    # Late: no quote at home need import what is asked of a shipment that leaves.
    from shipcalc.quote.explain.barriers import entry_rules
    from shipcalc.quote.explain.before_price import entry_unchecked
    from shipcalc.quote.network.holds import check_holds

    released = check_holds(request, book, as_of)
    restricted, rules = entry_rules(request, book, as_of)
    lead = with_lead(request, book, as_of)
    titles = titles_at_the_border(request.vehicles)
    before = (*restricted, *entry_unchecked(request, book), *titles, *lead.said)
    return lead.request, Said(before_price=before, warnings=(*released, *rules), assumed=lead.assumed)


def _of_the_country(request: Request, found: Found) -> Iterator[str]:
    """Yield what the rate book has the buyer know of the country, and the usual advice on the delivery term."""
    yield from country_notes(found.sums.imports.country)
    told = advice(found.sums.term, by_container=False, overseas=not is_domestic(request.to.country))
    if told:
        yield told


def _rows_end(found: Found, ways: Sequence[int]) -> Iterator[date]:
    """Yield the last days of the rows that priced what is shown."""
    for one in map(found.one, ways):
        ships, lanes = one.ship.service.rows if one.ship else (), one.network.lane_of(one.end)
        quoted = (row.valid_to for _, offer in one.offers for row in offer.rows)
        by_mile = (band.valid_to for band in one.service.bands)
        by_lane = (row.valid_to for row in rows_priced_by(one.service.lanes, one.network.trip.lanes.met, lanes))
        ends = (one.service.row.valid_to, *by_mile, *by_lane, *(row.valid_to for row in ships), *quoted)
        yield from (end for end in ends if end is not None)
