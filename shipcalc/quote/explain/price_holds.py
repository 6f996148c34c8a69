"""What the price of a way contains, and what it does not; before the colon in the few words of the first answer."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from shipcalc.money import PPM, with_code
from shipcalc.pricing.line import FUEL
from shipcalc.quote.explain import driven
from shipcalc.quote.explain.stages import DUTY_UNKNOWN, PAID_TO_OTHERS, STAGES_IN_WORDS, in_words, stages_paid
from shipcalc.quote.explain.when_it_happens import told_when
from shipcalc.quote.model import Charge
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.price.paid import Sums
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.trade import Called, called_by

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.marine_cover import MarineCover

# So many stages of a row are named one by one; more are named by the first and the last.
NAMED_ONE_BY_ONE = 4
AT_THE_YARD = ("The vehicle made ready and handed over at the yard, with its papers.",)
FROM_THE_YARD_ON = (
    "Carriage: from the yard on, with loading and cover on the way.",
    "Tax, title and registration: and temporary plates or a permit.",
)


@dataclass(frozen=True, slots=True)
class Holds:
    """What a price contains and what it does not, a sentence each."""

    included: tuple[str, ...]
    not_included: tuple[str, ...]


def what_it_holds(one: OneWay, charges: Sequence[Charge], sums: Sums) -> Holds:
    """Return what the price of a way contains, and what it does not."""
    if one.in_the_yard:
        return Holds(AT_THE_YARD, FROM_THE_YARD_ON)
    guaranteed = tuple(_guaranteed(one))
    if one.at_home:
        home = _of_a_truck(one, charges)
        return Holds((*home.included, *guaranteed), (*home.not_included, *told_when(one)))
    cover = sums.cover.by_mode.get(one.mode)
    return Holds(
        (*_included_beyond(charges, one.request, one.mode, cover[0] if cover else None), *guaranteed),
        (*_not_included_beyond(one, charges, sums), *told_when(one)),
    )


def _guaranteed(one: OneWay) -> Iterator[str]:
    """Yield what a carrier guarantees, and what it owes where it does not keep it."""
    offer = one.service.offer
    if offer is not None:
        days = "1 day" if offer.within_days == 1 else f"{offer.within_days} days"
        missed = f" If it comes later: {offer.if_missed.rstrip('.')}." if offer.if_missed else ""
        yield f"{offer.name}: the carrier guarantees the pick-up within {days} after the vehicle is ready.{missed}"


def _of_a_truck(one: OneWay, charges: Sequence[Charge]) -> Holds:
    request, currency = one.request, one.currency
    cover_minor, more = one.service.row.cover_minor, more_cover(charges, one.book)
    covers_value = more is not None or one.covers_unknown
    without = _not_included_at_home(request, cover_minor, currency, covers_value=covers_value)
    if one.service.spot is not None:
        return _at_a_price_in_hand(one, without)
    if one.trailer is None:
        return Holds(driven.included(cover_minor, currency), driven.not_included(without))
    told = _included_at_home(request, cover_minor, currency, has_fuel=any(charge.code in FUEL for charge in charges))
    values = [vehicle.value_minor or 0 for vehicle in request.vehicles]
    return Holds((*told, *raised_cover(more, max(cover_minor, *values), currency)), without)


def _at_a_price_in_hand(one: OneWay, without: tuple[str, ...]) -> Holds:
    from shipcalc.quote.explain.in_hand import COVER_UNKNOWN, HOLDS  # late: few quotes have one

    told = _included_at_home(one.request, one.service.row.cover_minor, one.currency, has_fuel=False)
    if not one.covers_unknown:
        return Holds((HOLDS, *told), without)
    return Holds((HOLDS, *(line for line in told if "cargo cover" not in line)), (COVER_UNKNOWN, *without))


def more_cover(charges: Sequence[Charge], book: RateBook) -> Decimal | None:
    """Return what the charges ask for cover above the carrier's own; None where none of them is for that."""
    codes = {f"extra.{row.code}" for row in book.extras if row.of == "value above cover"}
    asked = [charge.amount for charge in charges if charge.code in codes]
    return sum(asked, start=Decimal(0)) if asked else None


def _included_at_home(request: Request, cover_minor: int, currency: str, *, has_fuel: bool) -> tuple[str, ...]:
    """Return what the price of a home transport contains; `has_fuel`: a surcharge for fuel is among its lines."""
    door = (
        "to the nearest place the truck can reach"
        if request.wishes.limited_access
        else "door to door, as near as the truck can safely come"
    )
    lines = [
        f"Transport {door}.",
        *(["The fuel surcharge, at the price of diesel named in the lines."] if has_fuel else []),
        f"The carrier's cargo cover up to {with_code(cover_minor, currency)} for each vehicle.",
        "Condition reports with photographs at pickup and at delivery.",
    ]
    if request.wishes.lift_gate:
        lines.append("Loading and unloading with a lift gate.")
    return tuple(lines)


def raised_cover(more: Decimal | None, cover_minor: int, currency: str) -> Iterator[str]:
    """Yield what cover above the carrier's own costs, where it is in the price."""
    if more is not None:
        yield (
            f"Cover for the rest, up to {with_code(cover_minor, currency)}: {more:,} {currency} of the price. The excess and the "
            "exclusions of its certificate hold; ask for it before pickup, and your own insurer whether it does for you."
        )


def _not_included_at_home(request: Request, cover_minor: int, currency: str, *, covers_value: bool) -> tuple[str, ...]:
    """Return what the price of a home transport does not contain; before the colon in the few words of the first answer.

    `covers_value`: a line adds cover up to what the vehicles are worth.
    """
    values = [vehicle.value_minor for vehicle in request.vehicles]
    lines = [
        "Tax, title and registration: sales or use tax and what your state asks for.",
        "Storage: also a second trip, if nobody can receive the vehicle in the delivery window.",
    ]
    if not covers_value and any(value is None or value > cover_minor for value in values):
        lines.append(f"Cover above {with_code(cover_minor, currency)}: what a vehicle is worth beyond that.")
    if not request.wishes.lift_gate:
        lines.append("Lift gate: tell us if the vehicle cannot be driven or rolled over a ramp.")
    return tuple(lines)


def _included_beyond(
    charges: Sequence[Charge], request: Request, mode: str, cover: "MarineCover | None"
) -> Iterator[str]:
    """Yield what the price contains, stage by stage; `cover` is the row of the marine cover, if there is any."""
    stages = stages_paid(charges, "seller")
    if not stages:
        yield "Nothing but the vehicle at the yard: everything else is the buyer's."
        return
    told = _listed([in_words(stage, mode) for stage in stages])
    yield f"{told[:1].upper()}{told[1:]}."
    if holds_spot(charges):
        from shipcalc.quote.explain.in_hand import HOLDS

        yield HOLDS
    if cover is not None and any(charge.code == "cover.premium" and charge.payer == "seller" for charge in charges):
        yield from _cover_in_words(cover, called_by((mode,))[0])
    if request.wishes.lift_gate:
        yield "Loading with a lift gate at our end."


def holds_spot(charges: Sequence[Charge]) -> bool:
    """Return whether a truck of the price goes at a price in hand that the seller pays."""
    return any(charge.code == "truck.spot" and charge.payer == "seller" for charge in charges)


def _cover_in_words(cover: "MarineCover", called: Called) -> Iterator[str]:
    percent = f"{Decimal(cover.excess_ppm) * 100 / PPM:f}"
    excess = f"an excess of {percent} % of it" if cover.excess_ppm else "the excess that its certificate names"
    yield f"The {called.cover} pays the agreed insured value, less {excess}."
    if cover.note:
        yield f"Conditions {cover.conditions} of the cover, in short: {cover.note[:1].lower()}{cover.note[1:].rstrip('.')}."


def _not_included_beyond(one: OneWay, charges: Sequence[Charge], sums: Sums) -> Iterator[str]:
    """Yield what the price does not contain; before the colon in the few words of the first answer."""
    to = one.request.to
    if told := _what_the_buyer_pays(charges, one.mode):
        yield f"{PAID_TO_OTHERS}, estimated in addition to the price: {told}."
    if one.arrival is not None and not one.reaches_the_door:
        port = one.arrival.place
        abroad = f", {_country(port.country)}," if port.country != to.country else ""
        yield f"The onward journey from the {one.called.place} of {port.name}{abroad} to {to.name}."
    if not is_domestic(to.country) and not sums.imports.treatments:
        yield f"{DUTY_UNKNOWN}: no figures for them are in the rate book."
    where = "state or territory" if is_domestic(to.country) else "country"
    yield f"Registration, inspection: also any changes that your {where} requires before the vehicle may be driven."
    customs = "" if is_domestic(to.country) else ", and for customs examinations,"
    yield f"Storage, waiting: any charges for them{customs} at {f'the {one.called.place}s' if one.ship else 'the border'}."


def _what_the_buyer_pays(charges: Sequence[Charge], mode: str) -> str:
    """Return the stages on the buyer's account, a long unbroken row of them by its ends; "" where there is none."""
    local, ours = stages_paid(charges, "buyer"), stages_paid(charges, "seller")
    if not local:
        return ""
    words = [in_words(stage, mode) for stage in local]
    order = list(STAGES_IN_WORDS)
    unbroken = all(not order.index(local[0]) < order.index(stage) < order.index(local[-1]) for stage in ours)
    return f"all from {words[0]} to {words[-1]}" if unbroken and len(local) > NAMED_ONE_BY_ONE else _listed(words)


def _country(code: str) -> str:
    from shipcalc.places.gazetteer.regions import country_name

    return country_name(code)


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
