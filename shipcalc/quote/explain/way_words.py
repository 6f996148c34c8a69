"""The sentences of an overseas quote: what the price contains, what it does not, what was taken for granted, the cautions."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from shipcalc.money import PPM, with_code
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.places.road.miles import RoadDistance
from shipcalc.places.sea.passages import PASSAGES
from shipcalc.pricing.cover import STAGE as COVER_STAGE
from shipcalc.quote.choose.ways import Found
from shipcalc.quote.explain.stages import DUTY_UNKNOWN, PAID_TO_OTHERS, STAGES_IN_WORDS, in_words, stages_paid
from shipcalc.quote.explain.words import (
    COVER_ENDS,
    RECEIPT,
    RULES_OF_THE_STATE,
    SECURING,
    WINDOWS,
    handing_over,
    is_all_electric,
    road_sentence,
    vehicle_assumptions,
)
from shipcalc.quote.model import Charge
from shipcalc.quote.network.crossings import Crossing, by_ferry, way_sentence
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.price.terms import Term
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.imports import Country
from shipcalc.ratebook.rows.overseas import MarineCover
from shipcalc.vehicles.vehicle import Vehicle

ANY_STEERING = "both"
LOCAL_HAULIER = "a haulier of the country"

ESTIMATES_AT_HOME = "Port and delivery figures on the buyer's side are estimates: what is asked there counts."
ESTIMATES_ABROAD = (
    "Duty, tax, port and delivery figures on the buyer's side are estimates. The customs of the country decide; ask a "
    "licensed customs broker there before you agree."
)
HANDING_TO_A_SHIP = (
    "Hand the vehicle over with {energy}; free of leaks, the battery secured or disconnected, the alarm off. Fuel and "
    "batteries are dangerous goods (UN 3166, UN 3171): the line's own rules hold."
)
NO_GOODS_INSIDE = (
    "Nothing but the vehicle and its own tools travels in it: personal goods can have the whole shipment held."
)
GENERAL_AVERAGE = (
    "In general average every owner of cargo pays a share, whatever was agreed; the marine cover answers for it."
)
RULES_OF_THE_COUNTRY = (
    "Registration, tax and the rules of the road are your country's: ask its authorities or a licensed adviser."
)
# So many stages of a row are named one by one; more are named by the first and the last.
NAMED_ONE_BY_ONE = 4


def _handing_to_a_ship(request: Request) -> str:
    charge = "no more charge than the line allows"
    fuel = "at most a quarter tank of fuel, for a container drained by a workshop"
    return HANDING_TO_A_SHIP.format(energy=charge if is_all_electric(request) else fuel)


def cautions(request: Request, *, by_sea: bool) -> tuple[str, ...]:
    """Return what is said with every quote beyond the home roads; `by_sea`: a ship is among the choices."""
    at_home = is_domestic(request.to.country)
    return (
        ESTIMATES_AT_HOME if at_home else ESTIMATES_ABROAD,
        _handing_to_a_ship(request) if by_sea else handing_over(request),
        NO_GOODS_INSIDE,
        *((GENERAL_AVERAGE,) if by_sea else ()),
        SECURING,
        COVER_ENDS,
        RECEIPT,
        WINDOWS,
        RULES_OF_THE_STATE if at_home else RULES_OF_THE_COUNTRY,
    )


def included(charges: Sequence[Charge], request: Request, mode: str, cover: MarineCover | None) -> Iterator[str]:
    """Yield what the price contains, stage by stage; `cover` is the row of the marine cover, if there is any."""
    stages = stages_paid(charges, "seller")
    if not stages:
        yield "Nothing but the vehicle at the yard: everything else is the buyer's."
        return
    told = _listed([in_words(stage, by_sea=mode != "truck") for stage in stages])
    yield f"{told[:1].upper()}{told[1:]}."
    if cover is not None and any(charge.code == "cover.premium" and charge.payer == "seller" for charge in charges):
        yield from _cover_in_words(cover)
    if request.wishes.lift_gate:
        yield "Loading with a lift gate at our end."


def _cover_in_words(cover: MarineCover) -> Iterator[str]:
    percent = f"{Decimal(cover.excess_ppm) * 100 / PPM:f}"
    excess = f"an excess of {percent} % of it" if cover.excess_ppm else "the excess that its certificate names"
    yield f"The marine cover pays the insured sum agreed beforehand, less {excess}."
    if cover.note:
        yield f"Conditions {cover.conditions} of the cover, in short: {cover.note[:1].lower()}{cover.note[1:].rstrip('.')}."


def to_be_insured(charges: Sequence[Charge], term: Term, *, mode: str, currency: str) -> Iterator[str]:
    """Yield what the buyer must insure, where nobody insures the vehicle at sea in this price."""
    if mode == "truck" or term.payer(COVER_STAGE) == "seller":
        return
    premium = next((charge for charge in charges if charge.code == "cover.premium"), None)
    passes = term.risk_passes.partition(";")[0]
    risk = f"Under {term.code} the risk passes to you {passes}, and no marine cover is in the price"
    if premium is None:
        yield f"{risk}: have it insured before then."
        return
    yield (
        f"{risk}: have it insured for {premium.quantity:,.0f} {currency} before then. "
        f"About {premium.amount:,.0f} {currency} for that are counted beside the price."
    )


def not_included(way: int, charges: Sequence[Charge], request: Request, found: Found) -> Iterator[str]:
    """Yield what the price does not contain; before the colon in the few words of the first answer."""
    by_sea = bool(found.ways.arrival[way] >= 0)
    if told := _what_the_buyer_pays(charges, by_sea=by_sea):
        yield f"{PAID_TO_OTHERS}, estimated beside the price: {told}."
    if by_sea and not found.network.arrivals.arrive:
        port = found.network.arrivals.ports[int(found.ways.arrival[way])].place
        abroad = f", {country_name(port.country)}," if port.country != request.to.country else ""
        yield f"The way on from the port of {port.name}{abroad} to {request.to.name}."
    if not is_domestic(request.to.country) and not found.sums.imports.treatments:
        yield f"{DUTY_UNKNOWN}: no figures for them are in the rate book."
    where = "state or territory" if is_domestic(request.to.country) else "country"
    yield f"Registration and inspection: also the changes that your {where} asks for before the vehicle may be driven."
    customs = "" if is_domestic(request.to.country) else ", and for customs examinations,"
    yield f"Storage and waiting: whatever is asked for them{customs} at {'the ports' if by_sea else 'the border'}."


def _what_the_buyer_pays(charges: Sequence[Charge], *, by_sea: bool) -> str:
    """Return the stages on the buyer's account, a long unbroken row of them by its ends; "" where there is none."""
    local, ours = stages_paid(charges, "buyer"), stages_paid(charges, "seller")
    if not local:
        return ""
    words = [in_words(stage, by_sea=by_sea) for stage in local]
    order = list(STAGES_IN_WORDS)
    unbroken = all(not order.index(local[0]) < order.index(stage) < order.index(local[-1]) for stage in ours)
    return f"all from {words[0]} to {words[-1]}" if unbroken and len(local) > NAMED_ONE_BY_ONE else _listed(words)


def assumptions(request: Request, found: Found) -> Iterator[str]:
    """Yield everything that was taken for granted, one sentence each."""
    yield from request.notes
    yield from found.notes
    for vehicle in request.vehicles:
        yield from vehicle_assumptions(vehicle)
    if len(request.vehicles) > 1 and found.sums.imports.treatments:
        yield "For duty and tax the carriage is divided evenly among the vehicles."
    told: dict[str, None] = {}
    for shown in found.shown:
        way = shown.way
        export, arrival = int(found.ways.export[way]), int(found.ways.arrival[way])
        for number in dict.fromkeys(found.network.lane_of(export)):
            lane = found.network.lanes[number]
            told[_driven(lane.start.name, lane.to.name, lane.road, lane.crossing)] = None
            if lane.need:
                told[lane.need] = None
        if arrival >= 0:
            told[_sea_sentence(way, found)] = None
            port = found.network.arrivals.ports[arrival]
            if port.road is not None:
                told[_driven(port.row.name, request.to.name, port.road, port.crossing)] = None
            if port.crossing is not None:
                told[by_ferry(request.to, port.crossing)] = None
    yield from told


def _driven(start: str, to: str, road: RoadDistance, crossing: Crossing | None) -> str:
    return road_sentence(start, to, road) if crossing is None else way_sentence(start, to, crossing)


def country_notes(country: Country | None) -> Iterator[str]:
    """Yield what the rate book has the buyer know of the country: what is not counted, which steering is registered."""
    if country is not None and country.note:
        yield f"{country.name}: {country.note.rstrip('.')}."
    if country is not None and country.steering and country.steering != ANY_STEERING:
        yield f"{country.name}: steering {country.steering}."


def titles_at_the_border(vehicles: Sequence[Vehicle]) -> Iterator[str]:
    """Yield what a title that is not simply in hand means for leaving the country."""
    for vehicle in vehicles:
        if vehicle.title == "lien":
            yield (
                f"{vehicle.stock_number} has a lien: customs let it out only with the lienholder's written release "
                "(19 CFR 192.2(b)), so get it first."
            )
        if vehicle.title in ("missing", "bill of sale only", "salvage"):
            yield (
                f"{vehicle.stock_number}: customs ask for the original title and copies (19 CFR 192.2); this one's papers need "
                "to be cleared first."
            )


def way_warnings(way: int, request: Request, book: RateBook, found: Found, mode: str) -> Iterator[str]:
    """Yield what must be minded with one way."""
    row = found.network.services[int(found.ways.truck[way])].row
    currency = book.pricing.currency
    cover = found.sums.cover.by_mode.get(mode)
    for vehicle in request.vehicles:
        if vehicle.value_minor is None:
            yield f"{vehicle.stock_number}: its value is not known, so no marine cover is in the price; name it before booking."
        elif vehicle.value_minor > row.cover_minor and cover is None:
            yield (
                f"{vehicle.stock_number} is worth {with_code(vehicle.value_minor, currency)}, more than the truck's cover of "
                f"{with_code(row.cover_minor, currency)}: cover for the rest must be agreed in writing before pickup."
            )
    if cover is not None and cover[0].conditions != "A":
        yield (
            f"Conditions {cover[0].conditions} leave out theft, scratches and dents in handling, which are what a collector's "
            "vehicle suffers most; conditions A cover them."
        )
    if found.sums.term.must_insure == "C" and cover is not None and cover[0].conditions == "A":
        yield "CIF asks for conditions C only; A is quoted, because C leaves out theft and damage in handling."


def _sea_sentence(way: int, found: Found) -> str:
    crossing = found.network.crossings[int(found.ways.crossing[way])]
    lane = int(found.ways.lane[way])
    ports = (
        found.network.exports[int(found.ways.export[way])],
        found.network.arrivals.ports[int(found.ways.arrival[way])],
    )
    names = {passage.name: passage.reads for passage in PASSAGES}
    through = [names[name] for name in crossing.passages[lane]]
    by = f" by {_listed(through)}" if through else ""
    return f"{ports[0].row.name} to {ports[1].row.name}: {int(crossing.nmi[lane]):,} nautical miles along the sea lanes{by}."


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
